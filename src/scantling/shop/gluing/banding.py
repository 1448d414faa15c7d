"""Rings of mitered corners: glued in one go, drawn together by bands over blocks on the corners."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from scantling.joinery.work import ClampNeed, JointWork
from scantling.piece.model import Part
from scantling.shop.gluing.glueup import Caul
from scantling.shop.gluing.pressing import (
    ClampPlan,
    clamps_by_spacing,
    force_of,
    longest_mm,
    owned_of,
    pressure_for,
)
from scantling.shop.profile.glues import GlueKind
from scantling.shop.profile.profile import Shop

__all__ = ["band_clamps", "corner_cauls", "rings_of"]

_CAUL_MM = 25.0
"""A block adds about this much to the way of the band at a corner (common practice). [mm]"""


def rings_of(works: Sequence[JointWork]) -> tuple[tuple[JointWork, ...], ...]:
    """Mitered joints that close to a ring, each part of it in two of them, in the order round it."""
    at: dict[str, list[JointWork]] = {}
    for work in works:
        if _turn_deg(work) > 0.0:
            at.setdefault(work.first, []).append(work)
            at.setdefault(work.second, []).append(work)
    found: list[tuple[JointWork, ...]] = []
    seen: set[str] = set()
    for start in at:
        if start in seen:
            continue
        ring: list[JointWork] = []
        part = start
        while part not in seen and len(at[part]) == 2:
            seen.add(part)
            following = next((each for each in at[part] if each not in ring), None)
            if following is None:
                break
            ring.append(following)
            part = following.second if part == following.first else following.first
        if len(ring) > 2 and part == start:
            found.append(tuple(ring))
    return tuple(found)


def band_clamps(
    ring: Sequence[JointWork], *, parts: Mapping[str, Part], shop: Shop, glue: GlueKind
) -> ClampPlan:
    r"""Bands round a ring.

    A band pulled with T presses every corner through blocks on both its outer faces.

    Parameters
    ----------
    ring
        The corners, all round.
    parts
        The parts.
    shop
        Its band clamps.
    glue
        Kind of glue.

    Notes
    -----
    With friction left out the faces of a miter are pressed by

    .. math:: N = T / \cos(\varphi / 2)

    where phi is the turn of the corner: 1.41 T at a square one. The weakest corner decides.
    """
    names = dict.fromkeys(name for work in ring for name in (work.first, work.second))
    girth_mm = sum(parts[name].length_mm for name in names) + 2.0 * _CAUL_MM * len(ring)
    force_n = force_of(girth_mm, shop, band=True)
    wanted_mpa = max(pressure_for(parts[work.first].species, glue).least_mpa for work in ring)
    # the area a band would have to press if its whole pull went square to the miter
    area_mm2 = max(_need(work).area_mm2 * _cosine(work) for work in ring)
    by_pressure = max(1, math.ceil(wanted_mpa * area_mm2 / force_n - 1e-6))
    pace = shop.clamping
    by_spacing = max(
        clamps_by_spacing(_long_mm(work), spacing_mm=pace.spacing_most_mm, end_mm=pace.end_distance_mm)
        for work in ring
    )
    count = max(by_pressure, by_spacing)
    owned = owned_of(girth_mm, shop, band=True)
    used = count if owned == 0 else min(count, owned)
    return ClampPlan(
        count=count,
        by_pressure=by_pressure,
        by_spacing=by_spacing,
        reach_mm=girth_mm,
        spacing_mm=0.0,
        pressure_mpa=count * force_n / area_mm2,
        wanted_mpa=wanted_mpa,
        owned=owned,
        longest_mm=longest_mm(shop, band=True),
        used=used,
        reached_mpa=used * force_n / area_mm2,
        too_short=owned == 0,
        band=True,
    )


def corner_cauls(ring: Sequence[JointWork]) -> tuple[Caul, ...]:
    """The blocks for the corners of a ring, alike ones together."""
    groups: dict[tuple[float, float], list[JointWork]] = {}
    for work in ring:
        groups.setdefault((round(_turn_deg(work), 2), round(_long_mm(work), 1)), []).append(work)
    return tuple(
        Caul(
            corner_deg=180.0 - _turn_deg(alike[0]),
            flank_deg=_turn_deg(alike[0]) / 2.0,
            count=len(alike),
            length_mm=_long_mm(alike[0]),
        )
        for alike in groups.values()
    )


def _need(work: JointWork) -> ClampNeed:
    assert work.clamp is not None
    return work.clamp


def _turn_deg(work: JointWork) -> float:
    return work.clamp.turn_deg if work.clamp is not None else 0.0


def _cosine(work: JointWork) -> float:
    """Of half the turn of the corner. [1]"""
    return math.cos(math.radians(_turn_deg(work) / 2.0))


def _long_mm(work: JointWork) -> float:
    """Length of the corner. [mm]"""
    return _need(work).corner_mm
