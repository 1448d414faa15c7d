"""What the year does to the piece: widths in three airs, and every joint that must let them move."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.packet.blocks import (
    Align,
    Block,
    Bullets,
    Column,
    Fact,
    Facts,
    Figure,
    Heading,
    Paper,
    Row,
    Section,
    Table,
    Together,
)
from scantling.papers.pictures.year_picture import YearPicture, draw_year

__all__ = ["FreedomRow", "MovementRow", "seasons_section", "year_figure"]


MOST_ROWS = 16
"""A table of more places may run over a page."""
_READ = "travel, of the room as cut; in the middle of it, a place can go as far either way"


@dataclass(frozen=True, slots=True, kw_only=True)
class MovementRow:
    """One wide part; widths and changes as shown, without unit."""

    part: str
    wood: str
    cut: str
    driest: str
    build: str
    wettest: str
    year: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FreedomRow:
    """One place that must let a part move.

    Parameters
    ----------
    shrink, swell
        Travel asked for and room there is, as shown (``2.7 of 3.2``).
    cut_to
        The size that gives the room.
    middle
        Moisture of the wood at which it stands in the middle of its room; empty where nothing moves.
    means
        What it means at the bench, in words.
    """

    joint: str
    place: str
    shrink: str
    swell: str
    cut_to: str
    middle: str = ""
    means: str


def year_figure(year: YearPicture, *, paper: Paper, caption: str = "") -> Figure:
    """The picture of the year at the width of the paper.

    Parameters
    ----------
    year
        What it shows.
    paper
        Paper to print on.
    caption
        Under it.

    Returns
    -------
    Figure
        For :func:`seasons_section`.
    """
    return Figure(sheet=draw_year(year, room_mm=paper.text_mm[0]), caption=caption)


def seasons_section(
    movement: tuple[MovementRow, ...],
    freedoms: tuple[FreedomRow, ...],
    *,
    unit: str,
    year: Figure | None = None,
    room: tuple[Fact, ...] = (),
    notes: tuple[str, ...] = (),
) -> Section:
    """The season table, the year picture, and the joints.

    Parameters
    ----------
    movement
        Wide parts.
    freedoms
        Places that let them move.
    unit
        Unit of the lengths.
    year
        The picture of the year, from :func:`year_figure`; None leaves it out.
    room
        The room: air at its driest, at build, at its wettest.
    notes
        Sentences beneath.

    Returns
    -------
    Section
        The sheet.
    """
    blocks: list[Block] = []
    if room:
        blocks.append(Facts(facts=room, columns=4))
    if year is not None:
        blocks.append(year)
    columns = (
        Column(title="Part", share=1.0, strong=True),
        Column(title="Wood", share=1.0),
        Column(title="Rings", share=0.7),
        Column(title=f"Driest, {unit}", align=Align.RIGHT),
        Column(title="As built", align=Align.RIGHT),
        Column(title="Wettest", align=Align.RIGHT),
        Column(title="Over the year", align=Align.RIGHT, strong=True),
    )
    rows = tuple(Row(cells=(m.part, m.wood, m.cut, m.driest, m.build, m.wettest, m.year)) for m in movement)
    blocks += [Heading(text="Widths through the year"), Table(columns=columns, rows=rows, small=True)]
    if freedoms:
        joint_columns = (
            Column(title="Joint", share=1.5, strong=True),
            Column(title="Place", share=1.0),
            Column(title=f"Shrinks, {unit}", align=Align.RIGHT),
            Column(title="Swells", align=Align.RIGHT),
            Column(title="Cut to", align=Align.RIGHT),
            Column(title="In its middle at", align=Align.RIGHT),
            Column(title="At the bench", share=2.1),
        )
        rows = tuple(
            Row(cells=(f.joint, f.place, f.shrink, f.swell, f.cut_to, f.middle, f.means)) for f in freedoms
        )
        asked: list[Block] = [
            Heading(text="What it asks of the joints", note=_READ),
            Table(columns=joint_columns, rows=rows, small=True),
        ]
        if notes:
            asked.append(Bullets(points=notes))
        # read as one: on the page of the year where all of it has room, else together on the next
        blocks += [Together(blocks=tuple(asked))] if len(rows) < MOST_ROWS else asked
    elif notes:
        blocks.append(Bullets(points=notes))
    return Section(
        title="Seasons",
        lead="How far the wide parts move in the room they will stand in, and where they must be free to.",
        blocks=tuple(blocks),
    )
