"""How high tables and points come out as they are set, so that a page can be planned before it is set.

The sizes are those of ``layout/blocks.typ``; a test sets sheets and compares.
"""

from __future__ import annotations

from math import ceil

from scantling.papers.drawing import Weight, text_width_mm, wrapped
from scantling.papers.drawing.lettering import CAP_HEIGHT
from scantling.papers.packet.blocks import Bullets, Column, Heading, Table
from scantling.papers.words.unbroken import unbroken

__all__ = ["column_widths_mm", "heading_height_mm", "points_height_mm", "table_height_mm"]

_PT_MM = 25.4 / 72.0
_TEXT_MM, _SMALL_MM, _HEAD_MM = 10.5 * _PT_MM, 9.5 * _PT_MM, 8.5 * _PT_MM
"""Sizes of the lettering: of text, of small tables, of the heads of tables. [mm]"""
_TITLE_MM, _NOTE_MM, _BEFORE_NOTE_MM = 13.0 * _PT_MM, 10.0 * _PT_MM, 3.0
"""Sizes of a heading and of the note behind it, and the gap between. [mm]"""
_TABLE_LEADING, _TEXT_LEADING, _BETWEEN_POINTS = 0.45, 0.62, 0.75
"""From line to line, and between points, over the size of the lettering. [1]"""
_BESIDE_MM, _PAD_MM, _SMALL_PAD_MM, _HEAD_PAD_MM = 5.0 * _PT_MM, 4.4 * _PT_MM, 3.2 * _PT_MM, 3.0 * _PT_MM
"""Room in a cell beside its text, and over and under it: of a row, of a small one, of the heads. [mm]"""
_TICK_MM, _TICK_COLUMN_MM = 3.4, 6.0
"""The box to tick, and its column. [mm]"""
_BROAD = 1.125
"""The lettering of running text over that of drawings and tables; 1.10 to 1.12 in sentences measured. [1]"""
_MARKER_MM = 4.4
"""What a point stands in by: its dash and the gap behind it. [mm]"""


def _weight(column: Column) -> Weight:
    return Weight.BOLD if column.strong else Weight.REGULAR


def _text_mm(table: Table) -> float:
    return _SMALL_MM if table.small else _TEXT_MM


def column_widths_mm(table: Table, *, room_mm: float) -> list[float]:
    """Widths of a table's columns, without that of its boxes: as wide as their text, or a share of the rest.

    Parameters
    ----------
    table
        The table.
    room_mm
        Its width. [mm]

    Returns
    -------
    list of float
        [mm]
    """
    size = _text_mm(table)
    widths = []
    for at, column in enumerate(table.columns):
        cells = (unbroken(row.cells[at]) for row in table.rows if not row.band)
        texts = [text_width_mm(cell, size, weight=_weight(column)) for cell in cells]
        head = text_width_mm(column.title, _HEAD_MM, weight=Weight.BOLD)
        widths.append(0.0 if column.share else max([head, *texts]) + 2.0 * _BESIDE_MM)
    rest = room_mm - sum(widths) - (_TICK_COLUMN_MM if table.ticks else 0.0)
    shares = sum(column.share for column in table.columns)
    return [
        max(rest, 0.0) * column.share / shares if column.share else wide
        for column, wide in zip(table.columns, widths, strict=True)
    ]


def table_height_mm(table: Table, *, room_mm: float) -> float:
    """Height of a table without groups, with its heads in one line, all on one page.

    Parameters
    ----------
    table
        The table.
    room_mm
        Its width. [mm]

    Returns
    -------
    float
        [mm]
    """
    size = _text_mm(table)
    widths = column_widths_mm(table, room_mm=room_mm)
    headed = any(column.title for column in table.columns)
    high = CAP_HEIGHT * _HEAD_MM + 2.0 * _HEAD_PAD_MM if headed else 0.0
    for row in table.rows:
        lines = max(
            len(wrapped(unbroken(cell), size, room_mm=wide - 2.0 * _BESIDE_MM, weight=_weight(column)))
            for cell, wide, column in zip(row.cells, widths, table.columns, strict=True)
        )
        text = size * (CAP_HEIGHT + (lines - 1) * (CAP_HEIGHT + _TABLE_LEADING))
        high += max(text, _TICK_MM if table.ticks else 0.0)
        high += 2.0 * (_SMALL_PAD_MM if table.small else _PAD_MM)
    return high


def points_height_mm(bullets: Bullets, *, room_mm: float) -> float:
    """Height of points under each other.

    Parameters
    ----------
    bullets
        The points, at least one.
    room_mm
        Their width. [mm]

    Returns
    -------
    float
        [mm]
    """
    lines = [
        len(wrapped(unbroken(point), _BROAD * _TEXT_MM, room_mm=room_mm - _MARKER_MM))
        for point in bullets.points
    ]
    more = sum(lines) - len(lines)
    points = len(lines) * CAP_HEIGHT + more * (CAP_HEIGHT + _TEXT_LEADING)
    return _TEXT_MM * (points + (len(lines) - 1) * _BETWEEN_POINTS)


def heading_height_mm(heading: Heading, *, room_mm: float) -> float:
    """Height of a heading and the note behind it, without the air around it.

    Parameters
    ----------
    heading
        The heading.
    room_mm
        Its width. [mm]

    Returns
    -------
    float
        [mm]
    """
    wide = text_width_mm(heading.text, _BROAD * _TITLE_MM, weight=Weight.BOLD)
    if heading.note:
        wide += _BEFORE_NOTE_MM + text_width_mm(heading.note, _BROAD * _NOTE_MM)
    more = ceil(wide / room_mm) - 1
    return CAP_HEIGHT * _TITLE_MM + more * (CAP_HEIGHT * _NOTE_MM + _TEXT_LEADING * _TEXT_MM)
