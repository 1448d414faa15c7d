"""What a drawing is made of, in millimeters on paper: x to the right, y down, origin at the top left."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.papers.drawing.ink import Fill, Stroke

__all__ = [
    "Anchor",
    "Arc",
    "Circle",
    "Hatch",
    "Item",
    "Line",
    "Point",
    "Polygon",
    "Polyline",
    "Segments",
    "Sheet",
    "Text",
    "Weight",
    "Window",
]

Point = tuple[float, float]


class Anchor(StrEnum):
    """Which point of a line of text lies at its position."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Weight(StrEnum):
    """Weight of lettering."""

    REGULAR = "regular"
    BOLD = "semibold"


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line. [mm]"""

    start: Point
    end: Point
    stroke: Stroke = Stroke.VISIBLE


@dataclass(frozen=True, slots=True)
class Segments:
    """Many lines of one kind, as a projection gives them. [mm]"""

    lines: tuple[tuple[Point, Point], ...]
    stroke: Stroke = Stroke.VISIBLE


@dataclass(frozen=True, slots=True)
class Polyline:
    """A broken line. [mm]"""

    points: tuple[Point, ...]
    stroke: Stroke = Stroke.VISIBLE


@dataclass(frozen=True, slots=True)
class Polygon:
    """A closed outline. [mm]"""

    points: tuple[Point, ...]
    stroke: Stroke = Stroke.VISIBLE
    fill: Fill = Fill.NONE


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines within an outline: a section, end grain, or wood thrown away. [mm, deg]"""

    points: tuple[Point, ...]
    pitch_mm: float = 1.6
    angle_deg: float = 45.0
    stroke: Stroke = Stroke.FINE


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle. [mm]"""

    center: Point
    radius_mm: float
    stroke: Stroke = Stroke.VISIBLE
    fill: Fill = Fill.NONE


@dataclass(frozen=True, slots=True)
class Arc:
    """Part of a circle; angles from +x toward +y (clockwise as seen). [mm, deg]"""

    center: Point
    radius_mm: float
    from_deg: float
    to_deg: float
    stroke: Stroke = Stroke.VISIBLE


@dataclass(frozen=True, slots=True)
class Text:
    """One line of lettering; ``at`` is on its base line.

    Parameters
    ----------
    size_mm
        Height of the letter body; capitals are 0.7 of it. [mm]
    turn_deg
        Turn about ``at``, clockwise as seen; -90 reads from below. [deg]
    """

    at: Point
    text: str
    size_mm: float = 3.2
    anchor: Anchor = Anchor.START
    turn_deg: float = 0.0
    weight: Weight = Weight.REGULAR
    soft: bool = False


@dataclass(frozen=True, slots=True)
class Window:
    """Part of another drawing, seen through an upright opening.

    Parameters
    ----------
    items
        In the other drawing's own coordinates. [mm]
    shift
        Where that drawing's origin lies on this paper. [mm]
    opening
        Left, top, right, bottom on this paper. [mm]
    """

    items: tuple[Item, ...]
    shift: Point
    opening: tuple[float, float, float, float]


Item = Line | Segments | Polyline | Polygon | Hatch | Circle | Arc | Text | Window


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A finished drawing.

    Parameters
    ----------
    width_mm, height_mm
        Size on paper. [mm]
    items
        In drawing order.
    title
        What it shows, for readers who do not see it.
    """

    width_mm: float
    height_mm: float
    items: tuple[Item, ...]
    title: str = ""
