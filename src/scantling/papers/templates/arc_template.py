"""Full-size templates of arched faces: half of the arc, to be turned over about its middle."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from itertools import pairwise

from scantling.papers.drawing import Anchor, Item, Line, Stroke, Text
from scantling.papers.templates.template import Template
from scantling.piece.model import Part
from scantling.piece.shaping import ARCHED, Shaping, arc_radius_mm

__all__ = ["arc_heights", "arc_template", "arc_templates"]

_STEP_MM = 50.0
"""Between the heights that are written, for whoever bends a batten through them instead. [mm]"""
_CHORD_MM = 1.0
"""Length of the straight pieces an arc is drawn of; at a radius of 500 mm they leave it by 0.0003 mm. [mm]"""
_MARGIN_MM = 14.0


def arc_heights(chord_mm: float, rise_mm: float, *, step_mm: float) -> tuple[tuple[float, float], ...]:
    """Heights of an arc over its chord, from its middle out to its end.

    Parameters
    ----------
    chord_mm, rise_mm
        The arc. [mm]
    step_mm
        Along the chord. [mm]

    Returns
    -------
    tuple
        Distance from the middle, and height. [mm]

    Examples
    --------
    >>> [(x, round(height, 3)) for x, height in arc_heights(200.0, 20.0, step_mm=50.0)]
    [(0.0, 20.0), (50.0, 15.147), (100.0, 0.0)]
    """
    radius = arc_radius_mm(chord_mm, rise_mm)
    half = chord_mm / 2.0
    places = [step_mm * k for k in range(math.ceil(half / step_mm - 1e-9))] + [half]
    low = radius - rise_mm
    return tuple((x, max(0.0, math.sqrt(max(radius**2 - x**2, 0.0)) - low)) for x in places)


def arc_template(part: str, shaping: Shaping, *, shown: Callable[[float], str]) -> Template:
    """Half of an arc with its chord, its middle line and its heights.

    Parameters
    ----------
    part
        The part in words.
    shaping
        A hollow, a scoop or a crown.
    shown
        Writes a height or the chord; a shallow arc wants it to a tenth.
    """
    chord, rise = shaping.end_mm - shaping.start_mm, shaping.size_mm
    half, top = chord / 2.0, _MARGIN_MM + rise

    def at(x: float, height: float) -> tuple[float, float]:
        return (x, top - height)

    fine = arc_heights(chord, rise, step_mm=_CHORD_MM)
    items: list[Item] = [Line(at(*one), at(*other), Stroke.VISIBLE) for one, other in pairwise(fine)]
    items.append(Line(at(0.0, 0.0), at(half, 0.0), Stroke.FINE))
    items.append(Line(at(0.0, -4.0), at(0.0, rise + 8.0), Stroke.CENTER))
    for x, height in arc_heights(chord, rise, step_mm=_STEP_MM):
        items.append(Line(at(x, 0.0), at(x, height), Stroke.FINE))
        items.append(Text(at(x + 1.0, height + 1.6), shown(height), 2.6, Anchor.START))
    return Template(
        name=f"{part}: {shaping.kind.value} of the {shaping.where}, one half",
        note=f"the long line is the chord, {shown(chord)} in all; turn it over about its middle at the left",
        width_mm=half + 14.0,
        height_mm=top + 6.0,
        items=tuple(items),
    )


def arc_templates(
    parts: Iterable[Part], *, words: Callable[[str], str], shown: Callable[[float], str]
) -> tuple[Template, ...]:
    """One template for each arched face, alike parts once."""
    told: set[tuple[str, Shaping]] = set()
    found = []
    for part in parts:
        for shaping in part.shaping:
            if shaping.kind in ARCHED and (part.like, shaping) not in told:
                told.add((part.like, shaping))
                found.append(arc_template(words(part.name), shaping, shown=shown))
    return tuple(found)
