"""How much wood to ask for: the chance that an amount is not enough, as a falling curve."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from scantling.papers.drawing import (
    Anchor,
    Circle,
    Fill,
    Item,
    Line,
    Point,
    Polyline,
    Sheet,
    Stroke,
    Text,
    Weight,
    backing,
    text_box,
)
from scantling.papers.words.asking_words import whole_feet

__all__ = ["ShortfallPicture", "draw_shortfall"]

_LEFT, _RIGHT, _TOP, _HEIGHT, _FOOT = 13.0, 6.0, 8.0, 27.0, 10.0
_STEPS = (1, 2, 5, 10, 20, 25, 50, 100, 200, 500, 1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortfallPicture:
    """What is drawn.

    Parameters
    ----------
    title
        Wood and thickness.
    points
        Corners of the curve: board feet and chance [1], rising feet.
    ask
        Amount that falls short no more often than ``chance``. [board ft]
    marks
        Other amounts worth a line, each with its name. [board ft]
    """

    title: str
    points: tuple[tuple[float, float], ...]
    ask: float
    chance: float
    marks: tuple[tuple[float, str], ...] = ()


def draw_shortfall(picture: ShortfallPicture, *, room_mm: float) -> Sheet:
    """Draw the curve.

    Parameters
    ----------
    picture
        What is drawn.
    room_mm
        Width of the drawing. [mm]
    """
    right, bottom = room_mm - _RIGHT, _TOP + _HEIGHT
    last = max(picture.points[-1][0], *(feet for feet, _ in picture.marks)) if picture.marks else picture.ask
    step = next((s for s in _STEPS if last / s <= 12), _STEPS[-1])
    most = step * math.ceil(last * 1.02 / step)

    def at(feet: float, chance: float) -> Point:
        return (_LEFT + (right - _LEFT) * feet / most, bottom - _HEIGHT * chance)

    items: list[Item] = [Text((_LEFT, 4.8), picture.title, 3.2, weight=Weight.BOLD)]
    for chance in (0.0, 0.25, 0.5, 0.75, 1.0):
        stroke = Stroke.VISIBLE if chance == 0 else Stroke.FINE
        items.append(Line(at(0, chance), at(most, chance), stroke))
        items.append(Text((_LEFT - 1.6, at(0, chance)[1] + 1.0), f"{100 * chance:.0f} %", 2.8, Anchor.END))
    for tick in range(0, most + 1, step):
        x, y = at(tick, 0)
        items.append(Line((x, y), (x, y + 1.2), Stroke.FINE))
        items.append(Text((x, y + 4.6), f"{tick}", 2.8, Anchor.MIDDLE))
    items.append(Text((right, bottom + 8.4), "board feet asked for", 2.8, Anchor.END))
    items += _curve(picture, at(0, 1.0), most, at)
    for number, (feet, name) in enumerate(picture.marks):
        x, top = at(feet, 1.0)
        items.append(Line((x, top), (x, bottom), Stroke.HIDDEN))
        items += _label((x + 1.0, top + 4.0 + 4.2 * number), name)
    return Sheet(width_mm=room_mm, height_mm=bottom + _FOOT, items=tuple(items), title=picture.title)


def _curve(
    picture: ShortfallPicture, start: Point, most: float, at: Callable[[float, float], Point]
) -> list[Item]:
    """The steps, and the spot to read off."""
    corners, chance = [start], 1.0
    for feet, after in picture.points:
        corners += [at(feet, chance), at(feet, after)]
        chance = after
    corners.append(at(most, chance))
    spot = at(picture.ask, next(c for f, c in picture.points if f >= picture.ask))
    text = f"ask for {whole_feet(picture.ask)} bf: short at most {100 * picture.chance:.0f} times in 100"
    head = _TOP - 2.2
    label = Text((at(most, 0)[0], head - 1.0), text, 3.0, Anchor.END, weight=Weight.BOLD)
    left, _, right, _ = text_box(label)
    reach = min(max(spot[0], left), right)
    return [
        Polyline(tuple(corners), Stroke.OUTLINE),
        Polyline((spot, (spot[0], head), (reach, head)), Stroke.DIMENSION),
        Line((left, head), (right, head), Stroke.DIMENSION),
        Circle(spot, 1.1, Stroke.NONE, Fill.INK),
        label,
    ]


def _label(at: Point, name: str) -> list[Item]:
    text = Text(at, name, 2.8)
    return [backing(text, margin_mm=0.5), text]
