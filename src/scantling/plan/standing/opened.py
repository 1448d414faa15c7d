"""A piece in use: its drawers all out, its doors hanging by their hinges."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.checks.catalogue import limit
from scantling.checks.subject import Subject
from scantling.checks.units import Hung, hung, moving_units
from scantling.errors import InputError
from scantling.joinery.drawer_groove import DrawerGrooveOptions
from scantling.joinery.drawer_slide import DrawerSlideOptions
from scantling.joinery.opening_fit import OpeningFitOptions
from scantling.joinery.work import Connector, ConnectorKind, JointWork
from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Part, Piece, Stands
from scantling.plan.making.hardware import HardwareLine
from scantling.structure.drawer_tipping import SCOPE_HEIGHT_MM, Drawer, DrawerTip
from scantling.structure.hanging import Hanging
from scantling.structure.mass import Mass
from scantling.wood.species import find_species

__all__ = ["HungDoor", "OpenDrawer", "anchors", "drawers_of", "hung_doors", "load_kg", "open_drawers"]

_LEVEL = 0.9
_UP: Vec = (0.0, 0.0, 1.0)
_FLOOR_MM = 0.5
_TALL = 3.0
"""Higher than so many times its depth a piece counts as tall storage (from memory). [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenDrawer:
    """One drawer: its parts, the way it comes out and how far, and what it holds.

    Parameters
    ----------
    way
        World. [1]
    out_mm
        How far it comes out. [mm]
    storage_mm3
        Room over its bottom. [mm3]
    """

    parts: tuple[str, ...]
    way: Vec
    out_mm: float
    storage_mm3: float
    bottom: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HungDoor:
    """One door and what pulls at its hinges."""

    name: str
    door: Hung
    hanging: Hanging


def drawers_of(piece: Piece, works: tuple[JointWork, ...]) -> tuple[OpenDrawer, ...]:
    """Every drawer of a piece: what is guided in and out, and has a bottom.

    Parameters
    ----------
    piece, works
        The piece and what its joints do.
    """
    units = moving_units(piece.parts, works)
    found: dict[tuple[str, ...], OpenDrawer] = {}
    for work in works:
        names = units[work.first]
        if not work.passes or names in found or work.second in names:
            continue
        parts = [piece.parts[name] for name in names]
        guided, bottom = _guided_mm(piece, work), _bottom(parts)
        if guided is None or bottom is None:
            continue
        deep = _extent(parts, work.leaves)
        out = deep - guided if guided > 0.0 else limit("F41", "out_share") * deep
        found[names] = OpenDrawer(
            parts=names,
            way=work.leaves,
            out_mm=out,
            storage_mm3=_storage_mm3(parts, bottom),
            bottom=bottom.name,
        )
    return tuple(found.values())


def _guided_mm(piece: Piece, work: JointWork) -> float | None:
    """Length over which a drawer is still guided when out; 0 where it is not said, None for no drawer."""
    options = next(joint.options for joint in piece.joints if joint.name == work.joint)
    if isinstance(options, OpeningFitOptions):
        return options.guided
    deep = _extent([piece.parts[work.first]], work.leaves)
    if isinstance(options, DrawerSlideOptions):
        slide = next(one for one in work.connectors if one.kind is ConnectorKind.DRAWER_SLIDE)
        return max(deep - (slide.size_mm[2] if options.travel is None else options.travel), 1e-3)
    if isinstance(options, DrawerGrooveOptions):
        return options.guided or 0.0
    return None


def _bottom(parts: Iterable[Part]) -> Part | None:
    """The widest level part of a drawer."""
    level = [part for part in parts if abs(part.frame.thickness[2]) > _LEVEL]
    return max(level, key=lambda part: part.length_mm * part.width_mm, default=None)


def _extent(parts: Iterable[Part], way: Vec) -> float:
    ends = [body_of(part).extent(way) for part in parts]
    return max(high for _, high in ends) - min(low for low, _ in ends)


def _storage_mm3(parts: Iterable[Part], bottom: Part) -> float:
    """Room over the bottom up to the lowest of the sides that stand on it. [mm3]"""
    floor = body_of(bottom).extent(_UP)[1]
    rims = [body_of(part).extent(_UP)[1] for part in parts if part is not bottom]
    height = min((rim for rim in rims if rim > floor), default=floor) - floor
    return bottom.length_mm * bottom.width_mm * height


def open_drawers(subject: Subject, mass: Mass) -> DrawerTip | None:
    """The piece with every drawer out and filled; None for one without drawers, or hung on a wall."""
    piece = subject.piece
    drawers = drawers_of(piece, subject.works)
    if not drawers or piece.brief.stands is Stands.WALL:
        return None
    way = drawers[0].way
    out = [drawer for drawer in drawers if dot(drawer.way, way) > _LEVEL]
    feet = _feet_mm(piece, way)
    if feet is None:
        return None
    doors = [door for door in hung(subject) if not door.is_lid]
    swung = {name for door in doors for name in door.parts}
    moved = {name for drawer in out for name in drawer.parts} | swung
    case = mass.of(tuple(name for name in piece.parts if name not in moved))
    backs = [body_of(part).extent(way)[0] for name, part in piece.parts.items() if name not in moved]
    return DrawerTip(
        mass_kg=case.total_kg,
        behind_mm=feet - dot(case.center_mm, way),
        drawers=tuple(_filled(subject, mass, drawer, feet_mm=feet) for drawer in out),
        doors=tuple(_ajar(mass, door, way, feet_mm=feet) for door in doors),
        child_kg=limit("F41", "child_kg"),
        child_arm_mm=max(_front_mm(piece, drawer) + drawer.out_mm for drawer in out) - feet,
        back_mm=feet - min(backs),
        height_mm=_extent(piece.parts.values(), _UP),
        storage_dm3=sum(drawer.storage_mm3 for drawer in drawers) * 1e-6,
        whole_kg=mass.total_kg,
    )


def load_kg(subject: Subject, drawer: OpenDrawer) -> float:
    """What lies in a drawer: as the brief says, or clothing that fills it. [kg]"""
    given = subject.piece.brief.drawer_load_kg
    return drawer.storage_mm3 * 1e-9 * limit("F41", "clothing_kg_m3") if given is None else given


def anchors(piece: Piece, works: tuple[JointWork, ...]) -> tuple[HardwareLine, ...]:
    """What ties a piece to the wall that has drawers or is tall: one anchor near each end.

    None for what hangs on the wall.
    """
    if piece.brief.stands is Stands.WALL or not (_is_tall(piece) or drawers_of(piece, works)):
        return ()
    return (
        HardwareLine(
            kind=ConnectorKind.WALL_ANCHOR,
            needed=2,
            get=2,
            size_mm=(),
            drill_mm=(),
            joints=(),
            made_here=False,
            note="one near each end of the back, into framing or masonry, by someone who knows the wall",
        ),
    )


def _is_tall(piece: Piece) -> bool:
    """Whether it is more than three times as high as it is deep, and higher than a chair's back."""
    parts = piece.parts.values()
    high, deep = _extent(parts, _UP), min(_extent(parts, (1.0, 0.0, 0.0)), _extent(parts, (0.0, 1.0, 0.0)))
    return high >= SCOPE_HEIGHT_MM and high > _TALL * deep


def _feet_mm(piece: Piece, way: Vec) -> float | None:
    """How far toward the drawers' way the piece stands on the floor. [mm]"""
    corners = [corner for part in piece.parts.values() for corner in body_of(part).corners]
    floor = [dot(corner, way) for corner in corners if abs(corner[2]) < _FLOOR_MM]
    return max(floor, default=None)


def _front_mm(piece: Piece, drawer: OpenDrawer) -> float:
    return max(body_of(piece.parts[name]).extent(drawer.way)[1] for name in drawer.parts)


def _filled(subject: Subject, mass: Mass, drawer: OpenDrawer, *, feet_mm: float) -> Drawer:
    """Its wood and what lies in it, out of the case."""
    wood, load = mass.of(drawer.parts), load_kg(subject, drawer)
    whole = wood.total_kg + load
    middle = dot(subject.part(drawer.bottom).middle, drawer.way)
    center = (wood.total_kg * dot(wood.center_mm, drawer.way) + load * middle) / whole
    shut = center - feet_mm
    return Drawer(
        mass_kg=whole, arm_mm=shut + drawer.out_mm, shut_arm_mm=shut, name=subject.part(drawer.parts[0]).name
    )


def _ajar(mass: Mass, door: Hung, way: Vec, *, feet_mm: float) -> Drawer:
    """A door turned square to its case: what lay beside its pin then stands in front of it."""
    weight = mass.of(door.parts)
    beside = dot(weight.center_mm, door.away) - dot(door.pin, door.away)
    arm = dot(door.pin, way) + beside * dot(door.front, way) - feet_mm
    shut = dot(weight.center_mm, way) - feet_mm
    return Drawer(mass_kg=weight.total_kg, arm_mm=arm, shut_arm_mm=shut, name=door.work.first)


def hung_doors(subject: Subject, mass: Mass) -> tuple[HungDoor, ...]:
    """Every door on hinges, with the pull at its upper one; lids lie on their case and are left out."""
    found = []
    for door in hung(subject):
        hinge, screw = _hardware(door.work)
        gravity = _gravity(subject, door.work)
        if door.is_lid or hinge is None or screw is None or gravity is None or door.apart_mm <= 0.0:
            continue
        weight = mass.of(door.parts)
        beside = dot(weight.center_mm, door.away) - dot(door.pin, door.away)
        hanging = Hanging(
            mass_kg=weight.total_kg,
            arm_mm=beside,
            width_mm=door.width_mm,
            apart_mm=door.apart_mm,
            screws=screw.count // (2 * hinge.count),
            screw_mm=screw.size_mm[0],
            bite_mm=screw.drill_mm[1],
            specific_gravity=gravity,
        )
        found.append(HungDoor(name=door.work.first, door=door, hanging=hanging))
    return tuple(found)


def _hardware(work: JointWork) -> tuple[Connector | None, Connector | None]:
    """The hinges and their screws."""
    kinds = {one.kind: one for one in work.connectors}
    return kinds.get(ConnectorKind.BUTT_HINGE), kinds.get(ConnectorKind.SCREW)


def _gravity(subject: Subject, work: JointWork) -> float | None:
    """Specific gravity of the lighter wood; None where it is not known."""
    known = []
    for name in (work.first, work.second):
        try:
            known.append(find_species(subject.part(name).species).specific_gravity_12)
        except InputError:
            return None
    values = [value for value in known if value is not None]
    return min(values) if len(values) == len(known) else None
