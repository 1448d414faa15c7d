"""Sections through joints that hide: each part hatched its own way, larger than the views."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from scantling.papers.drawing import (
    Fill,
    Hatch,
    Item,
    Point,
    Polygon,
    Segments,
    Sheet,
    Stroke,
    Text,
    Weight,
    Window,
    fit_scale,
    text_width_mm,
)

__all__ = ["ACROSS", "JointSection", "LooseThing", "SectionPiece", "draw_sections"]

ACROSS = 3
"""Sections beside each other. [1]"""
_GAP_MM, _TITLE_MM = 6.0, 9.5
_CLOSE_MM = 1.2
"""Between the lines of what is cut across. [mm on paper]"""
_HATCHES = ((45.0, 1.8), (-45.0, 1.8), (45.0, 3.2), (-45.0, 3.2))
"""Angle and pitch for each part in turn: two parts that meet never look alike (ISO 128 sections)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionPiece:
    """What the plane cuts of one part: loops about the middle, y up. [mm]"""

    loops: tuple[tuple[Point, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseThing:
    """A loose tenon, dowel, pin or screw in a joint, as the plane cuts it. [mm]

    Parameters
    ----------
    loops
        Its outline about the middle, y up.
    lengthwise
        Whether the plane lies along it: then it is not hatched (ISO 128, pins, keys and screws).
    axis
        Its middle line where the plane lies along it and it is round; empty else.
    """

    loops: tuple[tuple[Point, ...], ...]
    lengthwise: bool
    axis: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class JointSection:
    """One section.

    Parameters
    ----------
    title, note
        What is cut, and how the plane lies.
    half_mm
        Half the side of the square shown. [mm]
    pieces
        The part that enters first.
    loose
        What holds them together besides.
    """

    title: str
    note: str
    half_mm: float
    pieces: tuple[SectionPiece, ...]
    loose: tuple[LooseThing, ...] = ()


def _one_line(loops: Sequence[Sequence[Point]]) -> tuple[Point, ...]:
    """Loops as one closed line for hatching; the ways between them are gone twice and count for nothing."""
    start = loops[0][0]
    points: list[Point] = []
    for loop in loops:
        points += [*loop, loop[0], start]
    return tuple(points)


def _draw(section: JointSection, *, left: float, top: float, side: float) -> list[Item]:
    per = 2.0 * section.half_mm / side
    middle = (left + side / 2.0, top + side / 2.0)

    def at(point: Point) -> Point:
        return (middle[0] + point[0] / per, middle[1] - point[1] / per)

    inner: list[Item] = []
    for piece, (angle, pitch) in zip(section.pieces, _HATCHES * len(section.pieces), strict=False):
        loops = [tuple(at(point) for point in loop) for loop in piece.loops]
        inner.append(Hatch(_one_line(loops), pitch, angle))
        for loop in loops:
            edges = tuple(zip(loop, (*loop[1:], loop[0]), strict=True))
            inner.append(Segments(edges, Stroke.OUTLINE))
    for thing in section.loose:
        inner += _loose(thing, at)
    frame = ((left, top), (left + side, top), (left + side, top + side), (left, top + side))
    edge = 0.4  # the square is torn out of the piece: its own edges are no edges of wood
    opening = (left + edge, top + edge, left + side - edge, top + side - edge)
    return [
        Polygon(frame, Stroke.NONE, Fill.PAPER),
        Window(tuple(inner), (0.0, 0.0), opening),
        Polygon(frame, Stroke.FINE),
    ]


def _loose(thing: LooseThing, at: Callable[[Point], Point]) -> list[Item]:
    """On bare paper over the hatching of the parts it lies in."""
    items: list[Item] = []
    for loop in thing.loops:
        outline = tuple(at(point) for point in loop)
        items.append(Polygon(outline, Stroke.NONE, Fill.PAPER))
        if not thing.lengthwise:
            items.append(Hatch(outline, _CLOSE_MM, 90.0))
        items.append(Polygon(outline, Stroke.OUTLINE))
    if thing.axis:
        items.append(Segments(((at(thing.axis[0]), at(thing.axis[1])),), Stroke.CENTER))
    return items


def _fitted(text: str, room_mm: float, size_mm: float) -> float:
    """Lettering small enough for its room. [mm]"""
    return min(size_mm, size_mm * room_mm / max(text_width_mm(text, size_mm, weight=Weight.BOLD), 1e-6))


def draw_sections(sections: Sequence[JointSection], *, room_mm: float) -> Sheet:
    """Draw sections side by side, each at the largest standard scale that fits.

    Parameters
    ----------
    sections
        At least one.
    room_mm
        Width of the drawing. [mm]

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    room = (room_mm - _GAP_MM * (ACROSS - 1)) / ACROSS
    items: list[Item] = []
    bottom = 0.0
    for number, section in enumerate(sections):
        row, column = divmod(number, ACROSS)
        left, top = 0.2 + column * (room + _GAP_MM), row * (room + _TITLE_MM + _GAP_MM)
        per = fit_scale([(2.0 * section.half_mm, room)])
        side = 2.0 * section.half_mm / per
        size = _fitted(section.title, room, 3.2)
        items.append(Text((left, top + 3.4), section.title, size, weight=Weight.BOLD))
        note = f"{section.note}, 1:{per:g}"
        items.append(Text((left, top + 7.6), note, _fitted(note, room, 2.8), soft=True))
        items += _draw(section, left=left, top=top + _TITLE_MM, side=side)
        bottom = max(bottom, top + _TITLE_MM + side)
    return Sheet(
        width_mm=room_mm, height_mm=bottom + 1.0, items=tuple(items), title="Sections through joints"
    )
