"""How wide lettering runs, and how a mixed number is set: ``28 3/4`` with a small, raised fraction."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from functools import cache
from importlib import resources
from math import cos, radians, sin

from scantling.papers.drawing.ink import Fill, Stroke
from scantling.papers.drawing.items import Anchor, Polygon, Text, Weight

__all__ = ["CAP_HEIGHT", "Run", "backing", "runs_of", "text_box", "text_width_mm", "wrapped"]

CAP_HEIGHT = 0.7
"""Height of a capital over the size of its lettering; read from the font. [1]"""
_SMALL = 0.72
_LIFT = 0.28
_FRACTION = re.compile(r"(?<![\d/])(\d{1,2})/(2|4|8|16|32|64)(?![\d/])")


@dataclass(frozen=True, slots=True)
class Run:
    """A stretch of text set alike.

    Parameters
    ----------
    text
        The characters.
    scale
        Size over that of the line. [1]
    lift
        How far it is raised, over the size of the line. [1]
    """

    text: str
    scale: float = 1.0
    lift: float = 0.0


@cache
def _advances() -> dict[str, dict[str, int]]:
    text = resources.files("scantling.papers").joinpath("data/lettering.json").read_text(encoding="utf-8")
    table: dict[str, dict[str, int]] = json.loads(text)
    return table


def runs_of(text: str) -> tuple[Run, ...]:
    """Split a line at its fractions.

    Parameters
    ----------
    text
        One line.

    Returns
    -------
    tuple of Run
        In reading order.

    Examples
    --------
    >>> [run.scale for run in runs_of("28 3/4 in")]
    [1.0, 0.72, 1.0, 0.72, 1.0]
    """
    runs: list[Run] = []
    at = 0
    for match in _FRACTION.finditer(text):
        if match.start() > at:
            runs.append(Run(text[at : match.start()]))
        runs += [Run(match[1], _SMALL, _LIFT), Run("/"), Run(match[2], _SMALL)]
        at = match.end()
    if at < len(text) or not runs:
        runs.append(Run(text[at:]))
    return tuple(runs)


def text_width_mm(text: str, size_mm: float, *, weight: Weight = Weight.REGULAR) -> float:
    """How far a line of lettering runs, kerning left out (which only shortens it).

    Parameters
    ----------
    text
        One line.
    size_mm
        Size of the lettering. [mm]
    weight
        Its weight.

    Returns
    -------
    float
        Width. [mm]

    Examples
    --------
    >>> round(text_width_mm("740", 10.0), 2)
    14.06
    """
    table = _advances()[weight.value]
    wide = table["m"]
    thousandths = sum(run.scale * sum(table.get(c, wide) for c in run.text) for run in runs_of(text))
    return thousandths / 1000.0 * size_mm


def wrapped(text: str, size_mm: float, *, room_mm: float, weight: Weight = Weight.REGULAR) -> tuple[str, ...]:
    """Words in as many lines as their room asks for; a word longer than the room stands alone.

    Parameters
    ----------
    text
        Words.
    size_mm
        Size of the lettering. [mm]
    room_mm
        Length of a line. [mm]
    weight
        Its weight.

    Examples
    --------
    >>> wrapped("looks right on the left leg", 3.6, room_mm=30.0)
    ('looks right on the left', 'leg')
    """
    lines: list[str] = []
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width_mm(longer, size_mm, weight=weight) <= room_mm:
            lines[-1] = longer
        else:
            lines.append(word)
    return tuple(lines)


def text_box(item: Text) -> tuple[float, float, float, float]:
    """The upright rectangle a line of lettering covers.

    Parameters
    ----------
    item
        Turned by a multiple of 90 degrees, or taken at its reach either way.

    Returns
    -------
    tuple of float
        Left, top, right, bottom. [mm]
    """
    width = text_width_mm(item.text, item.size_mm, weight=item.weight)
    left = -width * {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[item.anchor]
    up, down = -0.75 * item.size_mm, 0.2 * item.size_mm
    turn = radians(item.turn_deg)
    corners = [(left, up), (left + width, up), (left + width, down), (left, down)]
    xs = [item.at[0] + x * cos(turn) - y * sin(turn) for x, y in corners]
    ys = [item.at[1] + x * sin(turn) + y * cos(turn) for x, y in corners]
    return (min(xs), min(ys), max(xs), max(ys))


def backing(figure: Text, *, margin_mm: float = 0.0) -> Polygon:
    """Bare paper behind lettering, so that a line that crosses it gives way.

    Parameters
    ----------
    figure
        The lettering.
    margin_mm
        How far the bare paper reaches beyond it on the left and right. [mm]

    Returns
    -------
    Polygon
        To be drawn before the lettering.
    """
    left, top, right, bottom = text_box(figure)
    left, right = left - margin_mm, right + margin_mm
    return Polygon(((left, top), (right, top), (right, bottom), (left, bottom)), Stroke.NONE, Fill.PAPER)
