"""Sheets of the piece itself: the part list, the views with their sizes, the piece taken apart."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.marking.piece_views import PiecePicture, PieceViews, draw_picture, draw_views
from scantling.papers.packet.blocks import (
    Align,
    Block,
    Column,
    Fact,
    Facts,
    Figure,
    Paper,
    Row,
    Section,
    Table,
)

__all__ = ["PartRow", "apart_section", "parts_section", "views_section"]


_UNITS = {"mm": "millimeters", "in": "inches"}


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRow:
    """One line of the part list; lengths as shown, without unit.

    Parameters
    ----------
    number
        Number in the balloons.
    group
        Heading it stands under; equal groups follow each other.
    made
        What was really made, if it was measured already; empty leaves room to write.
    """

    number: str
    name: str
    count: int
    wood: str
    length: str
    width: str
    thickness: str
    weight: str = ""
    group: str = ""
    made: str = ""


def _banded(rows: tuple[PartRow, ...]) -> tuple[Row, ...]:
    lines: list[Row] = []
    group = ""
    for row in rows:
        if row.group and row.group != group:
            group = row.group
            lines.append(Row(cells=(group,), band=True))
        lines.append(
            Row(
                cells=(
                    row.number,
                    row.name,
                    str(row.count),
                    row.wood,
                    row.length,
                    row.width,
                    row.thickness,
                    row.weight,
                    row.made,
                )
            )
        )
    return tuple(lines)


def parts_section(rows: tuple[PartRow, ...], *, unit: str, facts: tuple[Fact, ...] = ()) -> Section:
    """The part list, with a column to write what was really milled.

    Parameters
    ----------
    rows
        Parts, alike ones in one line.
    unit
        Unit of the lengths, for the heading.
    facts
        Sums: weight, parts, timber.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="No.", strong=True),
        Column(title="Part", share=2.0, strong=True),
        Column(title="Qty", align=Align.RIGHT),
        Column(title="Wood", share=1.0),
        Column(title=f"Length, {unit}", align=Align.RIGHT),
        Column(title="Width", align=Align.RIGHT),
        Column(title="Thick", align=Align.RIGHT),
        Column(title="Each weighs", align=Align.RIGHT),
        Column(title="As milled", share=1.6),
    )
    blocks: tuple[Block, ...] = (Table(columns=columns, rows=_banded(rows), ticks=True),)
    if facts:
        blocks = (*blocks, Facts(facts=facts, columns=4))
    lead = (
        "Finished sizes, long point to long point, with tenons and tongues. Write in what you really milled."
    )
    return Section(title="Parts", lead=lead, blocks=blocks)


def views_section(views: PieceViews, *, unit: str, paper: Paper) -> Section:
    """The three views.

    Parameters
    ----------
    views
        Lines and sizes.
    unit
        Unit of the figures.
    paper
        Paper to print on.

    Returns
    -------
    Section
        The sheet.
    """
    width, height = paper.text_mm
    sheet = draw_views(views, room_mm=width, height_mm=height - 40.0)
    return Section(
        runs_on=True,
        title="Views and sizes",
        lead=f"The finished piece, in {_UNITS.get(unit, unit)}. The figures hold, not what a rule reads.",
        blocks=(Figure(sheet=sheet),),
    )


def apart_section(picture: PiecePicture, key: tuple[tuple[str, str], ...], *, paper: Paper) -> Section:
    """The piece taken apart along its own assembly directions.

    Parameters
    ----------
    picture
        Lines and balloons.
    key
        Number and name of every part.
    paper
        Paper to print on.

    Returns
    -------
    Section
        The sheet.
    """
    width, height = paper.text_mm
    thirds = -(-len(key) // 3)
    padded = (*key, *((("", ""),) * (3 * thirds - len(key))))
    rows = tuple(
        Row(cells=tuple(cell for column in range(3) for cell in padded[i + column * thirds]))
        for i in range(thirds)
    )
    columns = tuple(
        column
        for _ in range(3)
        for column in (Column(title="No.", strong=True), Column(title="Part", share=1.0))
    )
    room = height - 52.0 - 6.6 * thirds
    return Section(
        title="Taken apart",
        lead="Every part drawn back the way it goes in; the numbers are those of the part list.",
        blocks=(
            Figure(sheet=draw_picture(picture, room_mm=width, height_mm=room)),
            Table(columns=columns, rows=rows, small=True),
        ),
    )
