"""What is marked out on one face of a part: joints, sizes, angles, the pencil marks of the reference face."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from scantling.papers.drawing import Point

__all__ = [
    "Distance",
    "EndAngle",
    "FaceMark",
    "FaceView",
    "MarkedOut",
    "MarkedShape",
    "ShapeNote",
    "Sight",
    "mark_outline",
]


class FaceMark(StrEnum):
    """Which pencil mark the face carries."""

    FACE = "face"
    EDGE = "edge"
    NONE = "none"


class MarkedShape(StrEnum):
    """Outline of a thing marked out."""

    ROUND_ENDED = "round-ended"
    SQUARE = "square"
    HOLE = "hole"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """The sight line of a leaning hole.

    Parameters
    ----------
    turn_deg
        The way the top of the bit leans, anticlockwise from the grain as seen. [deg]
    off
        Angle between the line and the length of the view, as shown; empty where it lies along or square.
    lean
        Angle between the bit and square to the face, in the plane of the line, as shown.
    """

    turn_deg: float
    off: str
    lean: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedOut:
    """A mortise, groove, hole or notch on a face.

    Parameters
    ----------
    tag
        Letter that names it in the list beside the drawing.
    x_mm, y_mm
        Center, along from the reference end and up from the lower edge of the view. [mm]
    length_mm, width_mm
        Long direction and across it. [mm]
    turn_deg
        Of the long direction, anticlockwise from the grain. [deg]
    hidden
        Whether it is on the far side.
    from_far
        Whether ``from_end`` is measured from the far end instead.
    from_top
        Whether ``from_edge`` is measured from the upper edge.
    from_end, from_edge, length
        Distances of the center and the long size as shown; empty leaves one out.
    stepped
        Whether it stands in a row that is told by its first hole and the steps, so that no row of sizes
        gives ``from_end``.
    sight
        Of a hole that leans; None for all else.
    """

    tag: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    shape: MarkedShape = MarkedShape.ROUND_ENDED
    turn_deg: float = 0.0
    hidden: bool = False
    from_far: bool = False
    from_top: bool = False
    from_end: str = ""
    from_edge: str = ""
    length: str = ""
    stepped: bool = False
    sight: Sight | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """A distance along the part (or across it), with the figure shown. [mm]"""

    low_mm: float
    high_mm: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EndAngle:
    """An angle at a corner of the view.

    Parameters
    ----------
    x_mm, y_mm
        The corner. [mm]
    from_deg, to_deg
        Directions of the two legs, anticlockwise from the grain as seen. [deg]
    """

    x_mm: float
    y_mm: float
    from_deg: float
    to_deg: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeNote:
    """A size of a shape, told on a leader that ends at the thing. [mm]"""

    x_mm: float
    y_mm: float
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceView:
    """One face, y up from the lower edge; distances along are measured from its left end unless said.

    Parameters
    ----------
    title
        Which face, in words.
    outline
        Closed outline. [mm]
    visible, hidden
        Further edges. [mm]
    fine, center
        Lines where a rounding runs out into a flat (ISO 128: thin), and axes of what is turned. [mm]
    notes
        Sizes of shapes, told at the thing itself.
    cut
        Whether it is a section, hatched.
    lengths
        Distances drawn below, reference end first.
    widths
        Distances across, drawn at the right.
    start_widths
        Distances across at the reference end, drawn at the left.
    mark_at_top
        Whether the pencil mark touches the upper edge.
    left_name, right_name
        Names of the two ends; empty where they need none.
    """

    title: str
    outline: tuple[Point, ...]
    visible: tuple[tuple[Point, Point], ...] = ()
    hidden: tuple[tuple[Point, Point], ...] = ()
    fine: tuple[tuple[Point, Point], ...] = ()
    center: tuple[tuple[Point, Point], ...] = ()
    notes: tuple[ShapeNote, ...] = ()
    cut: bool = False
    marks: tuple[MarkedOut, ...] = ()
    lengths: tuple[Distance, ...] = ()
    widths: tuple[Distance, ...] = ()
    angles: tuple[EndAngle, ...] = ()
    mark: FaceMark = FaceMark.NONE
    start_widths: tuple[Distance, ...] = ()
    mark_at_top: bool = False
    left_name: str = ""
    right_name: str = ""


def mark_outline(mark: MarkedOut) -> tuple[Point, ...]:
    """Outline of a thing marked out, in the coordinates of its view.

    Parameters
    ----------
    mark
        The mark.

    Returns
    -------
    tuple of Point
        Closed outline; round ends are chords of 7.5 degrees. [mm]
    """
    half, across = mark.length_mm / 2.0, mark.width_mm / 2.0
    if mark.shape is MarkedShape.SQUARE:
        local: list[Point] = [(-half, -across), (half, -across), (half, across), (-half, across)]
    else:
        straight = 0.0 if mark.shape is MarkedShape.HOLE else max(half - across, 0.0)
        turns = [math.radians(-90.0 + 7.5 * i) for i in range(25)]
        right = [(straight + across * math.cos(t), across * math.sin(t)) for t in turns]
        local = right + [(-x, -y) for x, y in right]
    cos, sin = math.cos(math.radians(mark.turn_deg)), math.sin(math.radians(mark.turn_deg))
    return tuple((mark.x_mm + x * cos - y * sin, mark.y_mm + x * sin + y * cos) for x, y in local)
