"""A sheet of paper with a border and a title block, and drawings set on it one under the other.

Border and filing margin are those of ISO 5457, the names of the fields those of ISO 7200, the sign of the
projection that of ISO 5456-2; their sizes are from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.papers.drawing.ink import Fill, Stroke
from scantling.papers.drawing.items import Circle, Item, Line, Point, Polygon, Sheet, Text, Weight, Window

__all__ = ["TitleBlock", "framed_sheets", "room_mm"]

_FILING_MM, _BORDER_MM = 20.0, 10.0
_BLOCK_HIGH_MM, _INSET_MM, _GAP_MM, _TITLE_MM = 17.0, 3.0, 7.0, 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """What the title block says.

    Parameters
    ----------
    title
        Of the piece.
    number
        Identification number: the mark of the plan.
    unit
        Unit of the figures.
    size_mm
        Width and height of the paper. [mm]
    """

    title: str
    number: str
    unit: str
    size_mm: tuple[float, float]


def room_mm(size_mm: tuple[float, float]) -> tuple[float, float]:
    """Width and height a drawing may take within the border, over the title block. [mm]

    Examples
    --------
    >>> room_mm((210.0, 297.0))
    (174.0, 247.0)
    """
    width, height = size_mm
    return (
        width - _FILING_MM - _BORDER_MM - 2.0 * _INSET_MM,
        height - 2.0 * _BORDER_MM - _BLOCK_HIGH_MM - _INSET_MM - _TITLE_MM - 4.0,
    )


def _rectangle(left: float, top: float, right: float, bottom: float) -> tuple[Point, ...]:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def _projection_sign(at: Point) -> list[Item]:
    """A truncated cone seen from the end and from the side, the end view to its left: third angle."""
    x, y = at
    return [
        Circle((x, y), 2.2, Stroke.VISIBLE),
        Circle((x, y), 1.2, Stroke.VISIBLE),
        Polygon(((x + 5.0, y - 1.2), (x + 10.0, y - 2.2), (x + 10.0, y + 2.2), (x + 5.0, y + 1.2))),
        Line((x - 3.2, y), (x + 11.2, y), Stroke.CENTER),
        Line((x, y - 3.2), (x, y + 3.2), Stroke.CENTER),
    ]


def _block(block: TitleBlock, number: int, count: int) -> list[Item]:
    """Border, and the fields at the foot."""
    width, height = block.size_mm
    left, top, right, bottom = _FILING_MM, _BORDER_MM, width - _BORDER_MM, height - _BORDER_MM
    high = bottom - _BLOCK_HIGH_MM
    items: list[Item] = [
        Polygon(_rectangle(left, top, right, bottom), Stroke.OUTLINE),
        Line((left, high), (right, high), Stroke.VISIBLE),
    ]
    wide = right - left
    fields = (
        (0.0, "Title", block.title),
        (0.50, "Identification number", block.number),
        (0.66, "Date of issue", ""),
        (0.80, "Sheet", f"{number}/{count}"),
    )
    for share, name, value in fields:
        x = left + share * wide
        if share:
            items.append(Line((x, high), (x, bottom), Stroke.FINE))
        items.append(Text((x + 1.5, high + 3.4), name, 2.5, soft=True))
        items.append(Text((x + 1.5, high + 9.4), value, 4.0, weight=Weight.BOLD))
    items.append(
        Text((left + 1.5, bottom - 1.6), f"Figures in {block.unit}; they hold, a rule does not", 2.5)
    )
    return [*items, *_projection_sign((left + 0.90 * wide, high + _BLOCK_HIGH_MM / 2.0))]


def framed_sheets(drawings: Sequence[tuple[str, Sheet]], block: TitleBlock) -> tuple[Sheet, ...]:
    """Set drawings on sheets, as many under one another as fit.

    Parameters
    ----------
    drawings
        Titles and drawings, none larger than :func:`room_mm`; a larger one is cut off at the border.
    block
        The title block.

    Returns
    -------
    tuple of Sheet
        Of the size of the paper.
    """
    width, height = block.size_mm
    left, foot = _FILING_MM + _INSET_MM, height - _BORDER_MM - _BLOCK_HIGH_MM - _INSET_MM
    pages: list[list[Item]] = []
    y = foot + 1.0
    for title, drawing in drawings:
        tall = drawing.height_mm + _TITLE_MM
        if y + tall > foot:
            pages.append([])
            y = _BORDER_MM + _INSET_MM
        pages[-1].append(Text((left, y + 4.0), title, 4.2, weight=Weight.BOLD))
        y += _TITLE_MM
        opening = (
            _FILING_MM,
            y - 1.0,
            width - _BORDER_MM,
            min(y + drawing.height_mm + 1.0, foot + _INSET_MM),
        )
        pages[-1].append(Window(drawing.items, (left, y), opening))
        y += drawing.height_mm + _GAP_MM
    return tuple(
        Sheet(
            width_mm=width,
            height_mm=height,
            items=(
                Polygon(_rectangle(0.0, 0.0, width, height), Stroke.NONE, Fill.PAPER),
                *items,
                *_block(block, number, len(pages)),
            ),
            title=f"{block.title}, sheet {number}",
        )
        for number, items in enumerate(pages, start=1)
    )
