"""Shelf pins: a shelf that lies loose on pins, in rows of holes that let it be put higher and lower."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from pydantic import Field

from scantling.joinery.facing import REACH_MM
from scantling.joinery.fitting import (
    Hollow,
    Mouth,
    cannot_be_made,
    check_apart,
    check_depth,
    check_mouth,
    end_of,
    wood_behind_mm,
)
from scantling.joinery.meeting import laid, moved, slot_frame, spot_on
from scantling.joinery.options import JointOptions, PositiveLength
from scantling.joinery.proportions import whole_mm
from scantling.joinery.strength import pins
from scantling.joinery.work import (
    Connector,
    ConnectorKind,
    Cut,
    Fit,
    Hole,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.contact import Contact, contacts
from scantling.piece.convex import body_of, named_face
from scantling.piece.files import Count, Length
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import Direction, End, JointRequest, Part

__all__ = ["SHELF_PIN_HOLE", "ShelfPin", "ShelfPinOptions", "bearing_mm", "front_of", "pin_depth_mm"]

SHELF_PIN_HOLE = "shelf pin hole"
_UP: Vec = (0.0, 0.0, 1.0)
_LEVEL = 0.999
"""Cosine of the angle up to which a shelf counts as level, and a side as upright (2.5 deg). [1]"""
_ON_HOLE_MM = 0.1
"""A shelf drawn nearer than this to a hole's height lies on it. [mm]"""
_INSET_SHARE = 6.0
"""A shelf's depth over the distance of its rows from its edges, left out (common practice). [1]"""


class ShelfPinOptions(JointOptions):
    """An end of a loose shelf (first, as PART.start or PART.end) on pins in a side (second)."""

    kind: Literal["shelf_pin"]
    pin: tuple[PositiveLength, PositiveLength] = (5.0, 16.0)
    """Diameter and length of the pins."""
    depth: Length | None = Field(default=None, gt=0)
    """Depth of the holes, on whose bottom the pins stand; left out, half the length of a pin."""
    pitch: Length = Field(default=32, gt=0)
    """From one hole of a row to the next."""
    holes: Count = Field(default=5, ge=1, le=80)
    """Holes in each of the two rows."""
    lowest: Length | None = Field(default=None, gt=0)
    """From the side's lower end to the lowest hole; left out, as many below the shelf as drawn as above."""
    rows: tuple[PositiveLength, PositiveLength] | None = None
    """From the side's front and back edge to its rows; left out, a sixth of the shelf in from its edges."""
    least: Length = Field(default=0.5, ge=0)
    """Gap that must be left at this end when the shelf is longest."""
    enters: Direction = Direction.FRONT
    """The open side, from which the shelf is put in."""


def pin_depth_mm(o: ShelfPinOptions) -> float:
    """How deep a pin stands in the side. [mm]"""
    return o.pin[1] / 2.0 if o.depth is None else o.depth


def bearing_mm(o: ShelfPinOptions, gap_mm: float) -> float:
    """How much of a pin a shelf lies on whose end is so far from the side. [mm]

    Examples
    --------
    16 mm long, 8 in the side, the shelf 1.5 mm away:

    >>> options = ShelfPinOptions(kind="shelf_pin", between=(("shelf.end", "side"),))
    >>> bearing_mm(options, 1.5)
    6.5
    """
    return o.pin[1] - pin_depth_mm(o) - gap_mm


def front_of(shelf: Part, o: ShelfPinOptions) -> Vec:
    """The way across the shelf's width that looks most to its open side. World. [1]"""
    width = shelf.frame.width
    return width if dot(width, o.enters.vector) >= 0.0 else scale(width, -1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rows:
    """Where a shelf's end meets a side, and the rows of holes there. World.

    Parameters
    ----------
    label
        Of the side's face.
    into
        From the shelf into the side.
    gap_mm
        Between the two, as drawn. [mm]
    columns
        A point on the side's face for each row, front first, as high as the pins under the shelf. [mm]
    heights_mm
        Of every hole over the floor, the lowest first. [mm]
    """

    shelf: Part
    side: Part
    label: str
    into: Vec
    gap_mm: float
    columns: tuple[Vec, Vec]
    heights_mm: tuple[float, ...]

    def holes(self) -> list[Vec]:
        """Every hole's mouth: the front row from the lowest up, then the back row. [mm]"""
        return [_at_height(column, height) for column in self.columns for height in self.heights_mm]


class ShelfPin:
    """The shelf-pin family."""

    name = "shelf_pin"
    options_model = ShelfPinOptions
    strength = staticmethod(pins.shelf_pin)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Two rows of holes in the side, and the two pins the shelf's end lies on."""
        o = joint.options
        assert isinstance(o, ShelfPinOptions)
        rows = _rows(joint, context, o)
        _check(joint, rows, o)
        cuts, marks = [], []
        depth = pin_depth_mm(o)
        for mouth in rows.holes():
            frame = rows.side.frame.frame_in(slot_frame(mouth, into=rows.into, along=_along(rows)))
            tool = Hole(frame=frame, diameter_mm=o.pin[0], depth_mm=depth)
            cuts.append(Cut(part=rows.side.name, tool=tool, what=SHELF_PIN_HOLE))
            marks.append(_mark(rows, mouth, o))
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=rows.shelf.name,
            second=rows.side.name,
            at=moved(rows.columns[0], rows.into, -rows.gap_mm),
            leaves=o.enters.vector,
            cuts=tuple(cuts),
            marks=tuple(marks),
            connectors=(_pins(rows, o),),
            dry=True,
            steps=_steps(rows, o),
        )


def _rows(joint: JointRequest, context: JointContext, o: ShelfPinOptions) -> _Rows:
    shelf, side = context.parts[joint.first.part], context.parts[joint.second.part]
    contact, gap = _facing(joint, shelf, side)
    low, high = contact.extent(front_of(shelf, o))
    under = body_of(shelf).extent(_UP)[0] - o.pin[0] / 2.0
    base = moved(contact.center, contact.normal, gap)
    base = _at_height(base, under)
    way = front_of(shelf, o)
    if o.rows is None:
        inset = whole_mm((high - low) / _INSET_SHARE, inch=joint.inch)
        places = (high - inset, low + inset)
    else:
        back, front = body_of(side).extent(way)
        places = (front - o.rows[0], back + o.rows[1])
    columns = [moved(base, way, place - dot(base, way)) for place in places]
    return _Rows(
        shelf=shelf,
        side=side,
        label=contact.second_face,
        into=contact.normal,
        gap_mm=gap,
        columns=(columns[0], columns[1]),
        heights_mm=_heights(joint, side, under, o),
    )


def _facing(joint: JointRequest, shelf: Part, side: Part) -> tuple[Contact, float]:
    """Where the shelf's end looks at the side, and how far they are apart as drawn.

    Raises
    ------
    InputError
        ``no_gap_between``, ``shelf_not_on_end``, ``shelf_not_level``.
    """
    seen = [each for each in contacts(shelf, side, within_mm=REACH_MM) if _meant(joint, shelf, side, each)]
    for contact in seen:
        face = next(face for face in body_of(side).faces if face.label == contact.second_face)
        gap = dot(face.corners[0], contact.normal) - dot(contact.center, contact.normal)
        if gap < -1e-3:
            continue
        rule = "must stand with an end of the shelf before the side"
        end_of(joint, contact.first_face, code="shelf_not_on_end", rule=rule)
        if abs(shelf.frame.thickness[2]) < _LEVEL or abs(contact.normal[2]) > 1.0 - _LEVEL:
            raise cannot_be_made(
                joint,
                "",
                code="shelf_not_level",
                value=f"{joint.first} at {joint.second}",
                rule="must be a level shelf between upright sides",
                remedy="Lay the shelf flat, its thickness upright, or choose another joint.",
            )
        return contact, max(0.0, gap)
    raise cannot_be_made(
        joint,
        "",
        code="no_gap_between",
        value=f"{joint.first} and {joint.second}",
        rule=f"must look at each other, touching or not more than {REACH_MM:g} mm apart",
        remedy="Write PART.start or PART.end of the shelf first, and end it a little short of the side.",
    )


def _meant(joint: JointRequest, shelf: Part, side: Part, contact: Contact) -> bool:
    """Whether a contact is between the places the joint names."""
    for ref, part, label in (
        (joint.first, shelf, contact.first_face),
        (joint.second, side, contact.second_face),
    ):
        if ref.end is not None and label != ref.end.value:
            return False
        if ref.face is not None:
            face = named_face(part, ref.face)
            if face is None or face.label != label:
                return False
    return True


def _heights(joint: JointRequest, side: Part, under_mm: float, o: ShelfPinOptions) -> tuple[float, ...]:
    """Heights of the holes; the shelf as drawn lies on one of them.

    Raises
    ------
    InputError
        ``shelf_outside_rows``, ``shelf_between_holes``, with the nearest holes.
    """
    count = int(o.holes)
    if o.lowest is None:
        start = under_mm - (count - 1) // 2 * o.pitch
    else:
        start = body_of(side).extent(_UP)[0] + o.lowest
        steps = (under_mm - start) / o.pitch
        nearest = min(max(round(steps), 0), count - 1)
        off = (steps - nearest) * o.pitch
        if abs(off) > _ON_HOLE_MM:
            outside = not -0.5 <= steps <= count - 0.5
            top = o.lowest + (count - 1) * o.pitch
            drawn = under_mm - start + o.lowest
            raise cannot_be_made(
                joint,
                "lowest",
                code="shelf_outside_rows" if outside else "shelf_between_holes",
                value=f"pins {drawn:.1f} mm over the lower end of {side.name}, holes from "
                f"{o.lowest:.1f} to {top:.1f} mm, {o.pitch:.1f} mm apart",
                rule="must lie on a hole of its rows",
                remedy=f"Draw the shelf {abs(off):.1f} mm {'lower' if off > 0.0 else 'higher'}, or "
                + ("bore more holes." if outside else "set the lowest hole by as much."),
            )
    return tuple(start + k * o.pitch for k in range(count))


def _at_height(point: Vec, height_mm: float) -> Vec:
    return point[0], point[1], height_mm


def _along(rows: _Rows) -> Vec:
    """Any way in the side's face; the grain where it lies in it."""
    return laid(rows.into, rows.side.frame.grain, rows.side.frame.width)


def _check(joint: JointRequest, rows: _Rows, o: ShelfPinOptions) -> None:
    """Refuse holes that come through or off the side, that run into each other, and pins off the shelf."""
    depth, size = pin_depth_mm(o), o.pin[0]
    check_apart(joint, "pitch", rows.heights_mm, size_mm=size, what="shelf pin holes")
    if bearing_mm(o, rows.gap_mm) <= 0.0:
        raise cannot_be_made(
            joint,
            "depth" if o.depth is not None else "pin",
            code="pin_too_short",
            value=f"{max(0.0, o.pin[1] - depth):.1f} mm of pin across a gap of {rows.gap_mm:.1f} mm",
            rule="must reach under the shelf",
            remedy="Take longer pins, bore less deep, or make the shelf longer.",
        )
    for mouth in rows.holes():
        opening = Mouth(center=mouth, along=_along(rows), length_mm=size, width_mm=size)
        check_mouth(joint, "holes", rows.side, label=rows.label, mouth=opening, what="shelf pin hole")
        hollow = Hollow(at=mouth, into=rows.into, depth_mm=depth, what="shelf pin hole")
        check_depth(joint, "depth" if o.depth is not None else "pin", rows.side, hollow=hollow)
    way = front_of(rows.shelf, o)
    back, front = body_of(rows.shelf).extent(way)
    places = [dot(column, way) for column in rows.columns]
    if places[0] - places[1] < size or places[0] > front - size / 2.0 or places[1] < back + size / 2.0:
        raise cannot_be_made(
            joint,
            "rows" if o.rows is not None else "",
            code="pin_off_shelf",
            value=f"rows {front - places[0]:.1f} and {places[1] - back:.1f} mm in from the shelf's front and "
            "back edge",
            rule="must lie under the shelf, one before the other",
            remedy="Move the rows, or make the shelf deeper.",
        )


def _pins(rows: _Rows, o: ShelfPinOptions) -> Connector:
    """The two pins this end lies on; the other holes stay empty."""
    middle = o.pin[1] / 2.0 - (o.pin[1] - pin_depth_mm(o))
    along = _along(rows)
    return Connector(
        kind=ConnectorKind.SHELF_PIN,
        count=2,
        size_mm=o.pin,
        drill_mm=(o.pin[0], pin_depth_mm(o)),
        note="steel, round; to be pushed in by hand",
        frames=tuple(
            slot_frame(moved(column, rows.into, middle), into=rows.into, along=along)
            for column in rows.columns
        ),
    )


def _upright(side: Part) -> End | None:
    """The side's lower end, where its grain stands upright."""
    rise = side.frame.grain[2]
    if abs(rise) < _LEVEL:
        return None
    return End.START if rise > 0.0 else End.END


def _mark(rows: _Rows, mouth: Vec, o: ShelfPinOptions) -> Mark:
    """One hole; along an upright side all are measured from its lower end, as the story stick stands."""
    side = rows.side
    spot = spot_on(side, mouth, rows.label)
    end, from_end = spot.end, spot.from_end_mm
    lower = _upright(side)
    if lower is not None and not spot.on_end:
        u = side.frame.local(mouth)[0]
        end, from_end = lower, u - side.start_mm if lower is End.START else side.end_mm - u
    lies = abs(mouth[2] - rows.columns[0][2]) < _ON_HOLE_MM
    return Mark(
        part=side.name,
        kind=MarkKind.HOLE,
        on_end=spot.on_end,
        end=end,
        face=spot.face,
        reference_face=spot.reference_face,
        from_end_mm=from_end,
        from_face_mm=spot.from_face_mm,
        length_mm=o.pin[0],
        width_mm=o.pin[0],
        depth_mm=pin_depth_mm(o),
        fit=Fit.TIGHT,
        setup=f"{o.pin[0]:g} mm bit, shelf pin holes {pin_depth_mm(o):g} mm deep, {o.pitch:g} mm apart",
        note=f"carries {rows.shelf.name.replace('_', ' ')} as drawn" if lies else "",
    )


def _steps(rows: _Rows, o: ShelfPinOptions) -> tuple[str, ...]:
    left = wood_behind_mm(rows.side, rows.columns[0], rows.into) - pin_depth_mm(o)
    way = front_of(rows.shelf, o)
    back, front = body_of(rows.side).extent(way)
    edges = (front - dot(rows.columns[0], way), dot(rows.columns[1], way) - back)
    return (
        "Make one story stick for all rows: a straight strip with a stop across its foot, bored through at "
        f"the heights of one row, {o.pitch:g} mm from hole to hole, up from the stop. Mark its foot and "
        "its front.",
        f"Hook its stop under the same end of every side, its holes {edges[0]:.1f} mm from the front edge "
        f"for the front rows and {edges[1]:.1f} mm from the back edge for the back ones: left and right then "
        "agree, whatever the stick's own errors are.",
        f"Set the stop of the drill for holes {pin_depth_mm(o):.1f} mm deep with a center-point bit, the "
        f"stick's thickness added; try it in an offcut of the side: {left:.1f} mm of wood stay behind them.",
        "Bore before anything is glued, and before the finish; try a pin in every hole. It goes in by hand.",
        "Lay the shelf on its four pins and press each corner: where it rocks, one hole is high or low; plug "
        "it and bore it anew.",
    )
