"""The corner of a box or drawer: the end of one board on the end of another, cut into each other."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.meeting import Meeting, across, moved, spot_on
from scantling.joinery.work import Cut, Extension, Fit, Mark, MarkKind, Profile
from scantling.piece.contact import Contact
from scantling.piece.convex import body_of
from scantling.piece.geometry import Frame, Vec, dot, scale
from scantling.piece.model import End, JointRequest, Part

__all__ = ["Corner", "Key", "corner_of", "is_corner", "marks_of", "socket_words", "sockets", "waste"]

OVER_MM = 2.0
PROUD_MM = 2.0
"""Ends may stand out this far past the corner, to be planed off after glue-up (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """Directions and sizes of a corner.

    Parameters
    ----------
    base
        Middle of the first part's end where it meets the second. World. [mm]
    into, along, outer
        Out of the first part's end into the second; across the first part's width; out of the corner, square
        to the first part's faces. World. [1]
    low_mm, high_mm
        The stretch both parts have in common along ``along``, from the base. [mm]
    thick_mm
        Thickness of the first part. [mm]
    through_mm
        Thickness of the second part, in the direction the first goes in. [mm]
    proud_mm
        How far the second part stands out past the first. [mm]
    """

    meeting: Meeting
    end: End
    base: Vec
    into: Vec
    along: Vec
    outer: Vec
    low_mm: float
    high_mm: float
    thick_mm: float
    through_mm: float
    proud_mm: float

    @property
    def width_mm(self) -> float:
        """The stretch both parts have in common. [mm]"""
        return self.high_mm - self.low_mm

    def at(self, along_mm: float, outer_mm: float = 0.0, in_mm: float = 0.0) -> Vec:
        """A place of the joint. World. [mm]"""
        return moved(moved(moved(self.base, self.along, along_mm), self.outer, outer_mm), self.into, in_mm)

    def extension(self, depth_mm: float) -> Extension:
        """The wood that the first part must have beyond its shoulder. [mm]"""
        return Extension(part=self.meeting.first.name, end=self.end, length_mm=depth_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Key:
    """What is left of the first part between two wastes: a tail or a finger.

    Parameters
    ----------
    at_mm
        Its middle along the corner, from the base. [mm]
    base_mm, wide_mm
        Its width at the baseline and at the end. [mm]
    """

    at_mm: float
    base_mm: float
    wide_mm: float

    def half_mm(self, depth_mm: float, whole_mm: float) -> float:
        """Half its width at a depth from the baseline, its flanks carried on straight. [mm]"""
        return (self.base_mm + (self.wide_mm - self.base_mm) * depth_mm / whole_mm) / 2.0


def corner_of(joint: JointRequest, meeting: Meeting) -> Corner:
    """The corner two boards make.

    Raises
    ------
    InputError
        ``not_a_corner`` when the end of the first does not stand square on the end of the second.
    """
    first, second, contact = meeting.first, meeting.second, meeting.contact
    if contact.first_face not in set(End):
        raise _refuse(
            joint, f"{joint.first} on {joint.second}", "must set an end of the first part on the second"
        )
    outer = first.frame.thickness
    if not _is_square(first, second, contact):
        raise _refuse(
            joint, f"{first.name} and {second.name}, not square", "must be a square corner of two boards"
        )
    along = across(first.frame.width, contact.normal)
    sign, proud = _proud(first, second)
    if not _is_flush(proud):
        raise _refuse(
            joint,
            f"{second.name}, whose end is {proud:.1f} mm past the outer face of {first.name}",
            f"must end flush with that face, or up to {PROUD_MM:g} mm past it to be planed off",
        )
    low, high = contact.extent(along)
    middle = dot(contact.center, along)
    return Corner(
        meeting=meeting,
        end=End(contact.first_face),
        base=contact.center,
        into=contact.normal,
        along=along,
        outer=scale(outer, sign),
        low_mm=low - middle,
        high_mm=high - middle,
        thick_mm=first.thickness_mm,
        through_mm=wood_behind_mm(second, contact.center, contact.normal),
        proud_mm=max(proud, 0.0),
    )


def is_corner(first: Part, second: Part, contact: Contact) -> bool:
    """Whether the end of the first board at the second makes the corner of a box, square and flush.

    Parameters
    ----------
    first, second
        Two boards.
    contact
        Where an end of the first touches the second.
    """
    return _is_square(first, second, contact) and _is_flush(_proud(first, second)[1])


def _is_square(first: Part, second: Part, contact: Contact) -> bool:
    square = 1.0 - 1e-6
    at_end = abs(dot(contact.normal, first.frame.grain)) >= square
    return at_end and abs(dot(first.frame.thickness, second.frame.grain)) >= square


def _proud(first: Part, second: Part) -> tuple[float, float]:
    """The side of the first part on which the second ends, and how far past its face. [1], [mm]"""
    reaches = {sign: _past(first, second, scale(first.frame.thickness, sign)) for sign in (1.0, -1.0)}
    sign = min(reaches, key=lambda s: abs(reaches[s]))
    return sign, reaches[sign]


def _is_flush(proud_mm: float) -> bool:
    return -0.01 <= proud_mm <= PROUD_MM + 0.01


def _past(first: Part, second: Part, way: Vec) -> float:
    """How far the second part reaches past the first one's face on one side. [mm]"""
    return body_of(second).extent(way)[1] - body_of(first).extent(way)[1]


def _refuse(joint: JointRequest, value: str, rule: str) -> Exception:
    return cannot_be_made(
        joint,
        "",
        code="not_a_corner",
        value=value,
        rule=rule,
        remedy="Trim the first part by the inner face of the second, and end the second at its outer face.",
    )


def waste(corner: Corner, keys: tuple[Key, ...], *, depth_mm: float, what: str) -> tuple[Cut, ...]:
    """What is sawn out of the first part: between the keys, and at the edges where they do not reach them."""
    half = corner.meeting.first.width_mm + OVER_MM
    deep = depth_mm + OVER_MM
    edges = [Key(at_mm=-half - corner.width_mm, base_mm=0.0, wide_mm=0.0), *keys]
    edges.append(Key(at_mm=half + corner.width_mm, base_mm=0.0, wide_mm=0.0))
    cuts = []
    for left, right in pairwise(edges):
        low = left.at_mm + left.base_mm / 2.0
        high = right.at_mm - right.base_mm / 2.0
        if high <= corner.low_mm + 1e-6 or low >= corner.high_mm - 1e-6:
            continue
        outline = (
            (low, 0.0),
            (high, 0.0),
            (right.at_mm - right.half_mm(deep, depth_mm), deep),
            (left.at_mm + left.half_mm(deep, depth_mm), deep),
        )
        over = corner.thick_mm / 2.0 + OVER_MM
        cuts.append(_cut(corner, corner.meeting.first.name, outline, begin=-over, end=over, what=what))
    return tuple(cuts)


def sockets(corner: Corner, keys: tuple[Key, ...], *, depth_mm: float, what: str) -> tuple[Cut, ...]:
    """What is chopped out of the second part: each key, from its end to the first part's inner face."""
    through = depth_mm > corner.through_mm - 1e-6
    deep = depth_mm + (OVER_MM if through else 0.0)
    cuts = []
    for key in keys:
        (shallow, far) = (-OVER_MM, deep)
        near_half, far_half = key.half_mm(shallow, depth_mm), key.half_mm(far, depth_mm)
        low_edge = key.at_mm - key.wide_mm / 2.0 <= corner.low_mm + 1e-6
        high_edge = key.at_mm + key.wide_mm / 2.0 >= corner.high_mm - 1e-6
        low, high = (OVER_MM if low_edge else 0.0), (OVER_MM if high_edge else 0.0)
        outline = (
            (key.at_mm - near_half - low, shallow),
            (key.at_mm + near_half + high, shallow),
            (key.at_mm + far_half + high, far),
            (key.at_mm - far_half - low, far),
        )
        begin = -corner.thick_mm / 2.0
        end = corner.thick_mm / 2.0 + corner.proud_mm + OVER_MM
        cuts.append(_cut(corner, corner.meeting.second.name, outline, begin=begin, end=end, what=what))
    return tuple(cuts)


def _cut(
    corner: Corner,
    name: str,
    outline: tuple[tuple[float, float], ...],
    *,
    begin: float,
    end: float,
    what: str,
) -> Cut:
    part = corner.meeting.first if name == corner.meeting.first.name else corner.meeting.second
    frame = Frame(origin=corner.at(0.0, begin), grain=corner.outer, width=corner.along, thickness=corner.into)
    tool = Profile(frame=part.frame.frame_in(frame), outline=outline, length_mm=end - begin)
    return Cut(part=name, tool=tool, what=what)


def socket_words(corner: Corner, depth_mm: float) -> str:
    """The set-up of sockets as their marks have it: across the end they are in, and into it. [mm]"""
    return f"sockets {depth_mm:g} mm wide, {corner.thick_mm:g} mm deep"


def marks_of(
    corner: Corner,
    keys: tuple[Key, ...],
    *,
    depth_mm: float,
    kinds: tuple[MarkKind, MarkKind],
    words: tuple[str, str],
    note: str,
) -> tuple[Mark, ...]:
    """Each key on the first part's end and its socket on the second's.

    Parameters
    ----------
    kinds
        Of the keys, and of their sockets.
    words
        Names of the two set-ups.
    note
        What is said beside each key.
    """
    first, second = corner.meeting.first, corner.meeting.second
    away = End.END if dot(corner.outer, second.frame.grain) > 0.0 else End.START
    marks = []
    for key in keys:
        for part, end, kind, setup in (
            (first, corner.end, kinds[0], words[0]),
            (second, away, kinds[1], words[1]),
        ):
            on_first = part is first
            place = corner.at(
                key.at_mm, 0.0 if on_first else corner.thick_mm / 2.0, 0.0 if on_first else depth_mm / 2.0
            )
            spot = spot_on(part, place, end.value)
            marks.append(
                Mark(
                    part=part.name,
                    kind=kind,
                    on_end=True,
                    end=end,
                    face=spot.face,
                    reference_face=spot.reference_face,
                    from_end_mm=spot.from_end_mm,
                    from_face_mm=spot.from_face_mm,
                    length_mm=key.wide_mm,
                    width_mm=corner.thick_mm if on_first else depth_mm,
                    depth_mm=depth_mm if on_first else corner.thick_mm,
                    fit=Fit.TIGHT,
                    setup=setup,
                    note=note if on_first else "scribed from the other",
                )
            )
    return tuple(marks)
