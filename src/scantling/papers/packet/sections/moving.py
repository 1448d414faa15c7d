"""The sheet for the day of delivery: what is carried, by how many, and how it goes through the doors."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.packet.blocks import Align, Block, Bullets, Caution, Column, Row, Section, Table

__all__ = ["LoadRow", "moving_section"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadRow:
    """One thing to carry; figures as shown."""

    load: str
    weight: str
    box: str
    people: str
    alone: str
    way: str


def moving_section(
    rows: tuple[LoadRow, ...], *, unit: str, notes: tuple[str, ...] = (), caution: str = ""
) -> Section:
    """What is carried, whole and in parts.

    Parameters
    ----------
    rows
        The whole piece first.
    unit
        Unit of the boxes.
    notes
        Sentences beneath.
    caution
        For lifting.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="Load", share=0.9, strong=True),
        Column(title="Weight", align=Align.RIGHT),
        Column(title=f"Box, {unit}", align=Align.RIGHT),
        Column(title="People", align=Align.RIGHT),
        Column(title="One person alone", share=1.0),
        Column(title="Way in", share=1.8),
    )
    lines = tuple(Row(cells=(r.load, r.weight, r.box, r.people, r.alone, r.way)) for r in rows)
    blocks: list[Block] = [Table(columns=columns, rows=lines, small=True)]
    if notes:
        blocks.append(Bullets(points=notes))
    if caution:
        blocks.append(Caution(title="Caution", text=caution))
    return Section(
        title="Moving",
        lead="What is carried on the day of delivery, by how many, and how it is held at each opening.",
        blocks=tuple(blocks),
        runs_on=True,
    )
