"""Where tenons stand across the end of a part, how long their mortises are, and what a leg has room for."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import Meeting, across, moved
from scantling.joinery.mortise_tenon_options import MortiseTenonOptions
from scantling.joinery.travel import Travel, travel
from scantling.piece.geometry import Vec, cross, dot, scale
from scantling.piece.model import JointRequest
from scantling.units import MM_PER_INCH
from scantling.wood.moisture import MoistureRange

__all__ = [
    "CUTTERS_MM",
    "INCH_CUTTERS_MM",
    "SIXTEENTH_MM",
    "Tenon",
    "TenonWays",
    "deepest_tenon_mm",
    "lay_out_tenons",
    "third_mm",
    "travels_at",
]

CUTTERS_MM = (4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 16.0, 20.0, 25.0)
"""Widths of usual mortise cutters and chisels (common practice). [mm]"""
SIXTEENTH_MM = float(MM_PER_INCH) / 16.0
"""A sixteenth of an inch. [mm]"""
INCH_CUTTERS_MM = tuple(count * SIXTEENTH_MM for count in (2, 3, 4, 5, 6, 8, 10, 12, 16))
"""The same where cutters go by inches: 1/8 to 3/8 in by sixteenths, 1/2 to 3/4 by eighths, 1 in. [mm]"""
LEAST_WALL_MM = 3.0
"""Wood between two mortises that do not meet (common practice). [mm]"""
_LEAST_TENON_MM = 5.0


def third_mm(thickness_mm: float, *, inch: bool) -> float:
    """A third of a part's thickness, to the nearest usual cutter (common practice). [mm]

    Examples
    --------
    An apron of 22 mm has its third at 7.33 mm, one of 3/4 in at 1/4 in:

    >>> third_mm(22.0, inch=False), round(third_mm(19.05, inch=True), 2)
    (8.0, 6.35)
    """
    usual = INCH_CUTTERS_MM if inch else CUTTERS_MM
    return min(usual, key=lambda size: (abs(size - thickness_mm / 3.0), size))


def deepest_tenon_mm(
    leg_mm: float, *, setback_mm: float, shoulder_mm: float, tenon_mm: float, mitered: bool = False
) -> float:
    """How deep a tenon may go into a leg that another enters from the next side at the same height.

    Parameters
    ----------
    leg_mm
        Leg, square. [mm]
    setback_mm
        From the leg's outer face to the rail's. [mm]
    shoulder_mm
        From the rail's outer face to the tenon. [mm]
    tenon_mm
        Thickness of both tenons. [mm]
    mitered
        Whether the ends are mitered to meet: the outer cheek then goes on to the other tenon's outer cheek.

    Returns
    -------
    float
        [mm]; not mitered it leaves 3 mm to the other mortise.

    Examples
    --------
    A 55 mm leg, rails set back 5 mm with 7 mm shoulders and 8 mm tenons: the other mortise begins 20 mm
    in, which leaves 35 mm clear and 32 mm with a wall; mitered, 43 mm at the outer cheek.

    >>> deepest_tenon_mm(55.0, setback_mm=5.0, shoulder_mm=7.0, tenon_mm=8.0)
    32.0
    >>> deepest_tenon_mm(55.0, setback_mm=5.0, shoulder_mm=7.0, tenon_mm=8.0, mitered=True)
    43.0
    """
    outer = leg_mm - setback_mm - shoulder_mm
    return outer if mitered else outer - tenon_mm - LEAST_WALL_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class TenonWays:
    """Directions of the joint and the stretch its tenons stand in.

    Parameters
    ----------
    base
        Middle of the joint. World. [mm]
    into, along, side
        Into the second part; across the first part's width; the way of its thickness. World.
    low_mm, high_mm
        The two edges of the joint along ``along``, from the base. [mm]
    """

    base: Vec
    into: Vec
    along: Vec
    side: Vec
    low_mm: float
    high_mm: float

    @classmethod
    def of(cls, meeting: Meeting, *, shift_mm: float) -> TenonWays:
        """The ways of a joint, its middle moved across the thickness."""
        contact = meeting.contact
        along = across(meeting.first.frame.width, contact.normal)
        side = cross(contact.normal, along)
        if dot(side, meeting.first.frame.thickness) < 0.0:
            side = scale(side, -1.0)
        low, high = contact.extent(along)
        middle = dot(contact.center, along)
        return cls(
            base=moved(contact.center, side, shift_mm),
            into=contact.normal,
            along=along,
            side=side,
            low_mm=low - middle,
            high_mm=high - middle,
        )

    def aside(self, side_mm: float) -> TenonWays:
        """The same moved across the thickness."""
        return replace(self, base=moved(self.base, self.side, side_mm))

    def at(self, along_mm: float, side_mm: float = 0.0, in_mm: float = 0.0) -> Vec:
        """A place of the joint. World. [mm]"""
        return moved(moved(moved(self.base, self.along, along_mm), self.side, side_mm), self.into, in_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tenon:
    """One tenon and its mortise.

    Parameters
    ----------
    at_mm, width_mm
        Its middle along the joint, and how wide it is. [mm]
    mortise_mm, long_mm
        Middle of its mortise, and the mortise's length. [mm]
    from_fixed_mm
        From the glued tenon; signed. [mm]
    """

    number: int
    at_mm: float
    width_mm: float
    mortise_mm: float
    long_mm: float
    from_fixed_mm: float
    fixed: bool
    travel: Travel


def travels_at(
    meeting: Meeting, ways: TenonWays, moisture: MoistureRange
) -> Callable[[float, float], Travel]:
    """Travel of a place on the first part's end against the second, by where it and the fixed one stand.

    Nothing, where the second part's own grain runs another way and it moves along.
    """
    slides = abs(dot(meeting.second.frame.grain, ways.along)) > 0.7

    def at(place_mm: float, fixed_mm: float) -> Travel:
        here, held = (meeting.first.frame.local(ways.at(mm))[1] for mm in (place_mm, fixed_mm))
        return travel(meeting.first, here - held if slides else 0.0, moisture, fixed_at_mm=held)

    return at


def lay_out_tenons(
    joint: JointRequest, ways: TenonWays, o: MortiseTenonOptions, *, travels: Callable[[float, float], Travel]
) -> list[Tenon]:
    """Tenons of one width between the shoulders, from the lower edge up.

    Raises
    ------
    InputError
        ``no_tenon_left``, where shoulders and gaps take all of the width.
    """
    low, high = ways.low_mm + o.shoulder, ways.high_mm - o.shoulder
    if o.haunch_width > 0.0:
        if dot(o.haunch_at.vector, ways.along) > 0.0:
            high = ways.high_mm - o.haunch_width
        else:
            low = ways.low_mm + o.haunch_width
    count = int(o.tenons)
    wide = (high - low - (count - 1) * o.apart) / count
    if wide < _LEAST_TENON_MM:
        raise cannot_be_made(
            joint,
            "shoulder",
            code="no_tenon_left",
            value=f"{wide:.1f} mm for each of {count}",
            rule=f"must leave tenons of {_LEAST_TENON_MM:g} mm or more",
            remedy="Make the shoulders or gaps smaller, or the tenons fewer.",
        )
    places = [low + wide / 2.0 + k * (wide + o.apart) for k in range(count)]
    fixed = min(places, key=lambda place: (round(abs(place - (low + high) / 2.0), 6), place))
    tenons = []
    for k, place in enumerate(places):
        free = o.glued.value == "middle" and place != fixed
        moves = travels(place, fixed) if free else Travel(shrink_mm=0.0, swell_mm=0.0)
        outward = 1.0 if place > fixed else -1.0
        auto = moves.shrink_mm + moves.swell_mm + 2.0 * o.clearance
        room = (auto if o.mortise_over is None else o.mortise_over) if free else 0.0
        shift = moves.bias_mm if o.mortise_over is None else 0.0
        tenons.append(
            Tenon(
                number=k + 1,
                at_mm=place,
                width_mm=wide,
                mortise_mm=place + outward * shift,
                long_mm=wide + room,
                from_fixed_mm=place - fixed,
                fixed=not free,
                travel=moves,
            )
        )
    return tenons
