"""Sheets for the days of work: order, glue-ups, finish."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.packet.blocks import (
    Align,
    Block,
    Bullets,
    Caution,
    Column,
    Fact,
    Facts,
    Figure,
    Heading,
    Paper,
    Row,
    Section,
    Step,
    Steps,
    Table,
    Together,
)
from scantling.papers.pictures.timetable_picture import TimetablePicture, draw_timetable

__all__ = ["CoatRow", "GlueStage", "finish_section", "glue_section", "order_section"]


_ABREAST = 8
"""More parts than so many stand in two columns. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueStage:
    """One glue-up.

    Parameters
    ----------
    numbers
        Of the glue-ups told here; empty where they go together dry.
    facts
        Area, glue, clamps, minutes against the open time.
    before
        What must be done before glue is spread.
    steps
        In the order of assembly.
    rest
        Time in clamps and before milling again.
    """

    title: str
    parts: str
    facts: tuple[Fact, ...]
    before: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    rest: str = ""
    caution: str = ""
    numbers: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatRow:
    """One coat, or one grit before it."""

    what: str
    amount: str
    work: str
    wait: str


def order_section(
    steps: tuple[Step, ...],
    *,
    paper: Paper,
    timetables: tuple[TimetablePicture, ...] = (),
    facts: tuple[Fact, ...] = (),
) -> Section:
    """The order of work, with the days.

    Parameters
    ----------
    steps
        In order.
    paper
        Paper to print on.
    timetables
        Pictures by day.
    facts
        Hours, days, when it is ready.

    Returns
    -------
    Section
        The sheet.
    """
    blocks: list[Block] = []
    if facts:
        blocks.append(Facts(facts=facts, columns=4))
    blocks += [Figure(sheet=draw_timetable(t, room_mm=paper.text_mm[0])) for t in timetables]
    blocks.append(Steps(steps=steps))
    return Section(
        title="Order of work",
        lead="Hands-on time at the right, and beneath it what must dry or rest while you do the next thing.",
        blocks=tuple(blocks),
    )


def glue_section(stages: tuple[GlueStage, ...]) -> Section:
    """Glue-ups in order, each rehearsed dry first.

    Parameters
    ----------
    stages
        In order.

    Returns
    -------
    Section
        The sheet.
    """
    blocks: list[Block] = []
    for stage in stages:
        parts: list[Block] = [
            Heading(
                text=f"{stage.numbers}. {stage.title}" if stage.numbers else f"Dry: {stage.title}",
                note="; ".join(filter(None, (stage.parts, stage.rest.rstrip(".")))),
            ),
        ]
        if stage.facts:
            parts.append(Facts(facts=stage.facts, columns=4))
        if stage.before:
            parts.append(Bullets(points=stage.before))
        if stage.steps:
            parts.append(Steps(steps=tuple(Step(title=s) for s in stage.steps)))
        if stage.caution:
            parts.append(Caution(title="Caution", text=stage.caution))
        blocks.append(Together(blocks=tuple(parts)))
    return Section(
        title="Glue-ups",
        lead="Rehearse each one dry, with every clamp set, before a bottle is opened.",
        blocks=tuple(blocks),
    )


def finish_section(
    areas: tuple[tuple[str, str], ...],
    coats: tuple[CoatRow, ...],
    *,
    facts: tuple[Fact, ...] = (),
    before: tuple[str, ...] = (),
    caution: str = "",
) -> Section:
    """Sanding and finish.

    Parameters
    ----------
    areas
        Part and area as shown.
    coats
        Grits and coats in order.
    facts
        Finish, amount, area, days until use.
    before
        What is sanded or finished before assembly.
    caution
        Text of the caution.

    Returns
    -------
    Section
        The sheet.
    """
    blocks: list[Block] = []
    if facts:
        blocks.append(Facts(facts=facts, columns=4))
    if before:
        blocks += [Heading(text="Before it is put together"), Bullets(points=before)]
    columns = (
        Column(title="Grit or coat", share=1.4, strong=True),
        Column(title="Amount", align=Align.RIGHT, share=0.6),
        Column(title="Hands-on", align=Align.RIGHT, share=0.6),
        Column(title="Then wait", align=Align.RIGHT, share=0.8),
    )
    rows = tuple(Row(cells=(c.what, c.amount, c.work, c.wait)) for c in coats)
    blocks += [Heading(text="In order"), Table(columns=columns, rows=rows, ticks=True)]
    if caution:
        blocks.append(Caution(title="Caution", text=caution))
    blocks += [Heading(text="Areas"), _areas_table(areas)]
    return Section(
        runs_on=True, title="Finish", lead="Both faces alike, or the wood will cup.", blocks=tuple(blocks)
    )


def _areas_table(areas: tuple[tuple[str, str], ...]) -> Table:
    """Parts and their areas, in two columns where they are many."""
    abreast = 2 if len(areas) > _ABREAST else 1
    deep = -(-len(areas) // abreast)
    padded = (*areas, *((("", ""),) * (abreast * deep - len(areas))))
    columns = (
        Column(title="Part", share=1.0, strong=True),
        Column(title="Area", align=Align.RIGHT, share=0.4),
    )
    rows = tuple(
        Row(cells=tuple(cell for side in range(abreast) for cell in padded[at + side * deep]))
        for at in range(deep)
    )
    return Table(columns=columns * abreast, rows=rows, small=True)
