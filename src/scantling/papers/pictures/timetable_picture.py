"""The order of work by day: solid where hands are wanted, hatched where wood, glue or finish needs time."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from scantling.papers.drawing import (
    Anchor,
    Fill,
    Hatch,
    Item,
    Line,
    Polygon,
    Sheet,
    Stroke,
    Text,
    Weight,
    text_width_mm,
)

__all__ = ["Bar", "BarKind", "TimetablePicture", "TimetableRow", "draw_timetable"]

_LEFT, _ROW, _HEAD = 62.0, 5.2, 9.0


class BarKind(StrEnum):
    """What a stretch of time is spent on."""

    WORK = "work"
    WAIT = "wait"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A stretch of time from the start of the job. [d]"""

    kind: BarKind
    start_d: float
    end_d: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TimetableRow:
    """One task.

    Parameters
    ----------
    number
        Of its step in the order of work.
    hours
        Hands-on time as shown.
    """

    number: str
    name: str
    bars: tuple[Bar, ...]
    hours: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimetablePicture:
    """All tasks.

    Parameters
    ----------
    days
        Names of the days from the first, as shown; the picture is as many days wide.
    free
        Numbers, from 0, of the days the shop is shut.
    """

    rows: tuple[TimetableRow, ...]
    days: tuple[str, ...]
    free: tuple[int, ...] = ()


@lru_cache(maxsize=4096)
def _clip(text: str, room: float, size: float) -> str:
    while len(text) > 4 and text_width_mm(text, size) > room:
        text = text[:-2].rstrip() + "…"
    return text


def _days(picture: TimetablePicture, room_mm: float, bottom: float) -> list[Item]:
    items: list[Item] = []
    count = len(picture.days)
    wide = (room_mm - _LEFT) / count
    widest = max(text_width_mm(name, 2.8) for name in picture.days) + 1.6
    every = max(1, math.ceil(widest / wide))
    for i, name in enumerate(picture.days):
        x = _LEFT + i * wide
        if i in picture.free:
            box = ((x, _HEAD), (x + wide, _HEAD), (x + wide, bottom), (x, bottom))
            items.append(Polygon(box, Stroke.NONE, Fill.TINT))
        if i % every == 0:
            items.append(Line((x, _HEAD), (x, bottom), Stroke.FINE))
        if i % every == 0:
            middle = every == 1
            if not middle and x + 0.6 + text_width_mm(name, 2.8) > room_mm:
                continue  # the last day's name would stand past the paper's edge
            at = (x + wide / 2.0 if middle else x + 0.6, _HEAD - 1.8)
            items.append(Text(at, name, 2.8, Anchor.MIDDLE if middle else Anchor.START))
    items.append(Line((room_mm, _HEAD), (room_mm, bottom), Stroke.FINE))
    return items


def draw_timetable(picture: TimetablePicture, *, room_mm: float) -> Sheet:
    """Draw the order of work by day.

    Parameters
    ----------
    picture
        Tasks and days.
    room_mm
        Width of the drawing. [mm]

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    bottom = _HEAD + _ROW * len(picture.rows)
    wide = (room_mm - _LEFT) / max(len(picture.days), 1)
    items = _days(picture, room_mm, bottom) if picture.days else []
    for i, row in enumerate(picture.rows):
        top = _HEAD + i * _ROW
        base = top + _ROW / 2.0 + 1.1
        items.append(Line((0.0, top), (room_mm, top), Stroke.FINE))
        items.append(Text((5.0, base), row.number, 3.0, Anchor.END, weight=Weight.BOLD))
        items.append(Text((6.6, base), _clip(row.name, _LEFT - 19.0, 3.0), 3.0))
        items.append(Text((_LEFT - 1.4, base), row.hours, 2.8, Anchor.END))
        for bar in row.bars:
            x0, x1 = _LEFT + bar.start_d * wide, min(_LEFT + bar.end_d * wide, room_mm)
            work = bar.kind is BarKind.WORK
            inset = 1.3 if work else 2.1
            box = ((x0, top + inset), (x1, top + inset), (x1, top + _ROW - inset), (x0, top + _ROW - inset))
            if work:
                wider = max(x1, x0 + 0.7)
                box = (box[0], (wider, box[1][1]), (wider, box[2][1]), box[3])
                items.append(Polygon(box, Stroke.NONE, Fill.INK))
            else:
                items += [Hatch(box, 1.1), Polygon(box, Stroke.FINE)]
    items.append(Line((0.0, bottom), (room_mm, bottom), Stroke.VISIBLE))
    items += _legend(bottom + 3.4)
    return Sheet(width_mm=room_mm, height_mm=bottom + 8.0, items=tuple(items), title="Order of work by day")


def _legend(top: float) -> list[Item]:
    items: list[Item] = []
    for x, name, kind in (
        (_LEFT, "hands at work", BarKind.WORK),
        (_LEFT + 34.0, "drying, resting, curing", BarKind.WAIT),
    ):
        box = ((x, top), (x + 8.0, top), (x + 8.0, top + 2.4), (x, top + 2.4))
        if kind is BarKind.WORK:
            items.append(Polygon(box, Stroke.NONE, Fill.INK))
        else:
            items += [Hatch(box, 1.1), Polygon(box, Stroke.FINE)]
        items.append(Text((x + 9.6, top + 2.2), name, 2.9))
    return items
