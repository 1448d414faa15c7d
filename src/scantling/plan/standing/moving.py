"""Moving: weight, balance, who lifts what, and the way in, whole or in parts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.errors import Finding
from scantling.piece.convex import Body, body_of
from scantling.piece.geometry import Vec
from scantling.piece.model import Piece
from scantling.plan.cache import Cache
from scantling.shop.profile.profile import Shop
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import placed_centroid
from scantling.structure import doorway, lift
from scantling.structure.doorway import PADDING_MM, Thing, Way, find_way
from scantling.structure.lift import LiftPlan, plan_lift
from scantling.structure.mass import Mass, weigh
from scantling.structure.passage import Corner, Doorway, Limit, Passage

__all__ = ["Load", "Moving", "plan_moving", "weigh_piece"]

WHOLE = "the whole piece"
STAIR = "stair or lift"
FREE_MM = 1e5
"""Stands for what is not told of an opening, and so does not matter. [mm]"""

_AXES: tuple[Vec, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """One thing to carry.

    Parameters
    ----------
    parts
        Its parts.
    size_mm
        Length, depth and height of its box as it stands. [mm]
    way
        The way in; None where no door is given.
    """

    name: str
    parts: tuple[str, ...]
    mass_kg: float
    size_mm: tuple[float, float, float]
    lift: LiftPlan
    way: Way | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Moving:
    """The piece on its way.

    Parameters
    ----------
    mass_kg
        Whole. [kg]
    center_mm
        Center of gravity; x from the middle, y from the middle, z above the floor. [mm]
    whole, apart
        The whole piece, and the things it comes apart into.
    route
        The openings on the way, in words.
    """

    mass_kg: float
    center_mm: Vec
    whole: Load
    apart: tuple[Load, ...]
    route: tuple[str, ...]
    findings: tuple[Finding, ...]


def weigh_piece(piece: Piece, meshes: Mapping[str, PartMesh], *, mc_pct: float) -> Mass:
    """Weight of every part with its joints cut."""
    volumes = {name: mesh.volume_mm3 for name, mesh in meshes.items()}
    centers = {name: placed_centroid(piece.parts[name], mesh) for name, mesh in meshes.items()}
    return weigh(piece, volumes, mc_pct=mc_pct, centers_mm=centers)


def plan_moving(piece: Piece, mass: Mass, *, shop: Shop, cache: Cache) -> Moving:
    """Weight, lifting, and the way in.

    Parameters
    ----------
    piece
        Its brief names the doors.
    mass
        Of every part.
    shop
        Who is there to lift, and what each carries at most.
    """
    route, most_kg = _route(piece), shop.people.max_lift_kg

    def loads() -> tuple[Load, tuple[Load, ...]]:
        whole = _load(WHOLE, tuple(piece.parts), piece, mass=mass, most_kg=most_kg, route=route)
        apart = tuple(
            _load(name.replace("_", " "), parts, piece, mass=mass, most_kg=most_kg, route=route)
            for name, parts in piece.brief.carried.items()
        )
        return whole, apart

    whole, apart = cache.answer("moving", (tuple(piece.parts.values()), piece.brief, mass, most_kg), loads)
    carried = apart or (whole,)
    findings: list[Finding] = []
    for load in carried:
        findings += lift.check(load.name, load.lift, people_there=shop.people.count)
    if whole.way is not None:
        findings += doorway.check(
            whole.way,
            tuple(load.way for load in apart if load.way is not None),
            sizes_mm={load.name: load.size_mm for load in (whole, *apart)},
            largest_mm={} if piece.brief.largest_mm is None else {STAIR: piece.brief.largest_mm},
        )
    return Moving(
        mass_kg=mass.total_kg,
        center_mm=mass.center_mm,
        whole=whole,
        apart=apart,
        route=tuple(passage.name for passage in route),
        findings=tuple(findings),
    )


def _route(piece: Piece) -> tuple[Passage, ...]:
    brief = piece.brief
    route: list[Passage] = []
    # what is not told of an opening is in nobody's way, and what is told of it counts alone too
    if brief.corridor_mm is not None or brief.ceiling_mm is not None:
        name = "lowest ceiling" if brief.corridor_mm is None else "corner of the corridors"
        first, second = brief.corridor_mm or (FREE_MM, FREE_MM)
        ceiling = FREE_MM if brief.ceiling_mm is None else brief.ceiling_mm
        route.append(Corner(name=name, first_mm=first, second_mm=second, ceiling_mm=ceiling))
    if brief.door_width_mm is not None or brief.door_height_mm is not None:
        wide, high = (FREE_MM if mm is None else mm for mm in (brief.door_width_mm, brief.door_height_mm))
        route.append(Doorway(name="door", width_mm=wide, height_mm=high))
    if brief.largest_mm is not None:
        # What a stair takes was tried with the bare thing; ways are reckoned with its wrapping on.
        least, middle, most = (side + 2.0 * PADDING_MM for side in sorted(brief.largest_mm))
        route.append(Limit(name=STAIR, longest_mm=most, middle_mm=middle, shortest_mm=least))
    return tuple(route)


def _load(
    name: str, parts: tuple[str, ...], piece: Piece, *, mass: Mass, most_kg: float, route: tuple[Passage, ...]
) -> Load:
    bodies = [body_of(piece.parts[part]) for part in parts]
    x, y, z = (_size_mm([body.extent(axis) for body in bodies]) for axis in _AXES)
    size = (x, y, z)
    kg = mass.of(parts).total_kg
    return Load(
        name=name,
        parts=parts,
        mass_kg=kg,
        size_mm=size,
        lift=plan_lift(kg, size, most_kg=most_kg),
        way=find_way(Thing(name=name, size_mm=size, corners_mm=_corners(bodies)), route) if route else None,
    )


def _size_mm(extents: list[tuple[float, float]]) -> float:
    return max(high for _, high in extents) - min(low for low, _ in extents)


def _corners(bodies: list[Body]) -> tuple[Vec, ...]:
    return tuple(corner for body in bodies for corner in body.corners)
