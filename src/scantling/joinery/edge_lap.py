"""Two boards edge to edge, one drawn a little way into the other: the seam, and how the year opens it."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import crossing, moved, slot_frame, spot_on
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import Box, Cut, Fit, Freedom, JointContext, Mark, MarkKind
from scantling.piece.convex import face_direction
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import Direction, JointRequest, Part
from scantling.wood.moisture import MoistureRange

__all__ = ["EdgeLap", "edge_lap", "seam_freedom", "seam_travel"]

OVER_MM = 2.0
"""How far a cutter runs past the wood. [mm]"""
_ALONG = 0.9999
"""Cosine up to which two boards lie along each other: less than a degree. [1]"""
_FLUSH_MM = 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeLap:
    """Where one board's edge stands in another's, drawn without a gap. World.

    Parameters
    ----------
    first, second
        The board that reaches over, and the one it reaches into.
    into
        Across the first board's width, into the second.
    along, up
        The grain of the first board; through its thickness.
    mouth
        Middle of the second board's edge, in the middle of the thickness. [mm]
    lap_mm
        How far the first board reaches past that edge. [mm]
    length_mm, thickness_mm
        Of the seam. [mm]
    """

    first: Part
    second: Part
    into: Vec
    along: Vec
    up: Vec
    mouth: Vec
    lap_mm: float
    length_mm: float
    thickness_mm: float

    def box(self, part: Part, *, what: str, across: tuple[float, float], through: tuple[float, float]) -> Cut:
        """A cut the whole length of the seam and past its ends.

        Parameters
        ----------
        part
            The board it is cut in.
        what
            Trade word.
        across
            From and to, along ``into`` from the second board's edge. [mm]
        through
            From and to, along ``up`` from the middle of the thickness. [mm]
        """
        middle = (through[0] + through[1]) / 2.0
        origin = moved(moved(self.mouth, self.into, across[0]), self.up, middle)
        tool = Box(
            frame=part.frame.frame_in(slot_frame(origin, into=self.into, along=self.along)),
            length_mm=across[1] - across[0],
            width_mm=part.length_mm * 2.0 + 2.0 * self.length_mm,
            thickness_mm=through[1] - through[0],
        )
        return Cut(part=part.name, tool=tool, what=what)

    def sign_of(self, direction: Direction) -> float:
        """+1 where ``up`` looks that way, -1 where it looks the other way, 0 where neither."""
        toward = dot(direction.vector, self.up)
        return 0.0 if abs(toward) < 0.7 else (1.0 if toward > 0.0 else -1.0)

    def mark(
        self,
        part: Part,
        *,
        kind: MarkKind,
        size_mm: tuple[float, float],
        off_mm: float,
        setup: str,
    ) -> Mark:
        """How a tongue, groove or lap is gauged on a board's edge.

        Parameters
        ----------
        part
            One of the two.
        kind, setup
            As a :class:`~scantling.joinery.work.Mark` has them.
        size_mm
            Thickness and depth. [mm]
        off_mm
            From the middle of the thickness, along ``up``. [mm]
        """
        outward = self.into if part is self.first else scale(self.into, -1.0)
        edge = "width+" if dot(outward, part.frame.width) > 0.0 else "width-"
        level = moved(self.mouth, self.up, off_mm)
        spot = spot_on(part, level, edge)
        wide, deep = size_mm
        return Mark(
            part=part.name,
            kind=kind,
            on_end=False,
            end=spot.end,
            face=face_direction(outward),
            reference_face=spot.reference_face,
            from_end_mm=spot.from_end_mm,
            from_face_mm=spot.from_face_mm,
            length_mm=self.length_mm,
            width_mm=wide,
            depth_mm=deep,
            fit=Fit.SLIDING,
            setup=setup,
        )


def edge_lap(joint: JointRequest, context: JointContext) -> EdgeLap:
    """The seam of two boards that lie side by side, the first drawn into the second by its lap.

    Raises
    ------
    InputError
        ``parts_do_not_cross``; ``boards_not_side_by_side``, where grain or faces run different ways or the
        boards are not equally thick and flush.
    """
    first, second, common = crossing(joint, context)
    one, other = first.frame, second.frame
    lies = abs(dot(one.grain, other.grain)) > _ALONG and abs(dot(one.thickness, other.thickness)) > _ALONG
    low, high = common.extent(one.thickness)
    thin = min(first.thickness_mm, second.thickness_mm)
    level = abs(first.thickness_mm - second.thickness_mm) < _FLUSH_MM and high - low > thin - _FLUSH_MM
    if not (lies and level):
        what = "which do not lie along each other" if not lies else "whose faces are not flush"
        raise cannot_be_made(
            joint,
            "",
            code="boards_not_side_by_side",
            value=f"{joint.first} and {joint.second}, {what}",
            rule="must lie side by side, equally thick and flush, the first drawn into the second by its lap",
            remedy="Draw both boards alike, and the first wider by what it reaches into the second.",
        )
    into = one.width
    if dot(second.middle, into) < dot(first.middle, into):
        into = scale(into, -1.0)
    start, end = common.extent(into)
    u_low, u_high = common.extent(one.grain)
    middle = moved(first.middle, one.grain, (u_low + u_high) / 2.0 - dot(first.middle, one.grain))
    middle = moved(middle, one.thickness, (low + high) / 2.0 - dot(middle, one.thickness))
    return EdgeLap(
        first=first,
        second=second,
        into=into,
        along=one.grain,
        up=one.thickness,
        mouth=moved(middle, into, start - dot(middle, into)),
        lap_mm=end - start,
        length_mm=u_high - u_low,
        thickness_mm=high - low,
    )


def seam_travel(seam: EdgeLap, moisture: MoistureRange) -> Travel:
    """How far the two boards draw apart at their seam, or close it, each held at its own middle.

    Half of each board's movement across the grain meets at the seam.

    References
    ----------
    .. [1] USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, ch. 13, eq. 13-2.
    """
    total = [0.0, 0.0]
    for part, way in ((seam.first, seam.into), (seam.second, scale(seam.into, -1.0))):
        toward = 1.0 if dot(part.frame.width, way) > 0.0 else -1.0
        moves = travel(part, toward * part.width_mm / 2.0, moisture)
        total[0] += moves.shrink_mm
        total[1] += moves.swell_mm
    return Travel(shrink_mm=total[0], swell_mm=total[1])


def seam_freedom(seam: EdgeLap, moves: Travel, *, what: str, gap_mm: float, behind_mm: float) -> Freedom:
    """What the seam asks for and has: it opens until the lap is out, and closes until shoulder or bottom.

    Parameters
    ----------
    seam, moves
        The seam and its travel.
    what
        Words for it.
    gap_mm
        Gap on the face, as built. [mm]
    behind_mm
        Room behind the tongue or lap, as built. [mm]
    """
    return Freedom(
        part=seam.first.name,
        what=what,
        at=seam.mouth,
        from_fixed_mm=(seam.first.width_mm + seam.second.width_mm) / 2.0,
        shrink_travel_mm=moves.shrink_mm,
        swell_travel_mm=moves.swell_mm,
        shrink_room_mm=seam.lap_mm,
        swell_room_mm=min(gap_mm, behind_mm),
        cut_to_mm=gap_mm,
    )
