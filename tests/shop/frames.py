"""Frames and what their joints say, for the tests of gluing."""

from __future__ import annotations

from scantling.joinery.work import ClampNeed, GlueFace, JointWork
from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from tests.shop.sticks import between

__all__ = ["glued", "loose", "table_base", "top_over"]


def glued(
    first: str,
    second: str,
    at: Vec,
    leaves: Vec,
    *,
    area_mm2: float = 1800.0,
    slope_deg: float = 0.0,
    name: str = "",
) -> JointWork:
    """A glued joint pressed the way it closes."""
    return JointWork(
        joint=name or f"{first}/{second}",
        family="loose_tenon",
        first=first,
        second=second,
        at=at,
        leaves=leaves,
        glue=(
            GlueFace(
                parts=(first, second),
                area_mm2=area_mm2,
                grain_angle_deg=90.0,
                end_grain_share=0.0,
                length_mm=50.0,
            ),
        ),
        clamp=ClampNeed(direction=leaves, area_mm2=area_mm2, slope_deg=slope_deg),
    )


def loose(first: str, second: str, at: Vec, leaves: Vec) -> JointWork:
    """A joint put together without glue."""
    return JointWork(
        joint=f"{first}/{second}",
        family="top_clip",
        first=first,
        second=second,
        at=at,
        leaves=leaves,
        dry=True,
    )


def table_base(
    *, length_mm: float = 1000.0, depth_mm: float = 500.0, slope_deg: float = 0.0
) -> tuple[dict[str, Part], list[JointWork]]:
    """Four plumb legs 48 square and four aprons 90 x 20 between them, 700 high; X is the long way."""
    x, y, z = length_mm / 2.0, depth_mm / 2.0, 650.0
    parts: dict[str, Part] = {}
    works: list[JointWork] = []
    places = {"leg_fl": (-x, -y), "leg_fr": (x, -y), "leg_bl": (-x, y), "leg_br": (x, y)}
    for name, (px, py) in places.items():
        parts[name] = between(
            name, (px, py, 0.0), (px, py, 700.0), section_mm=(48.0, 48.0), thickness_axis=(0.0, 1.0, 0.0)
        )
    rails = {
        "apron_left": ("leg_fl", "leg_bl"),
        "apron_right": ("leg_fr", "leg_br"),
        "apron_front": ("leg_fl", "leg_fr"),
        "apron_back": ("leg_bl", "leg_br"),
    }
    for name, (one, other) in rails.items():
        a, b = (*places[one], z), (*places[other], z)
        along = (0.0, 1.0, 0.0) if name in ("apron_left", "apron_right") else (1.0, 0.0, 0.0)
        start = tuple(p + 24.0 * d for p, d in zip(a, along, strict=True))
        end = tuple(p - 24.0 * d for p, d in zip(b, along, strict=True))
        side = (1.0, 0.0, 0.0) if along[1] else (0.0, 1.0, 0.0)
        parts[name] = between(
            name,
            (start[0], start[1], start[2]),
            (end[0], end[1], end[2]),
            section_mm=(90.0, 20.0),
            thickness_axis=side,
        )
        back = (-along[0], -along[1], -along[2])
        works.append(glued(name, one, (start[0], start[1], z), along, slope_deg=slope_deg))
        works.append(glued(name, other, (end[0], end[1], z), back, slope_deg=slope_deg))
    return parts, works


def top_over(parts: dict[str, Part]) -> tuple[Part, list[JointWork]]:
    """A top clipped to every apron: it leaves upward from each."""
    top = between(
        "top",
        (-600.0, 0.0, 712.0),
        (600.0, 0.0, 712.0),
        section_mm=(660.0, 24.0),
        thickness_axis=(0.0, 0.0, 1.0),
    )
    aprons = [name for name in parts if name.startswith("apron")]
    return top, [loose("top", name, parts[name].middle, (0.0, 0.0, 1.0)) for name in aprons]
