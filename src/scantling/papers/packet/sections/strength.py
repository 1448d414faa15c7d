"""The sheet of strength: what was checked, and what each joint may be counted on for."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.packet.blocks import (
    Align,
    Block,
    Bullets,
    Caution,
    Column,
    Heading,
    Row,
    Section,
    Table,
)

__all__ = ["BearingLine", "CheckLine", "strength_section"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckLine:
    """One check; figures as shown."""

    check: str
    how: str
    result: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingLine:
    """Joints that bear alike; figures as shown."""

    joints: str
    pull: str
    shear: str
    moment: str
    turns: str
    known: str


def strength_section(
    checks: tuple[CheckLine, ...],
    bearing: tuple[BearingLine, ...],
    *,
    unjudged: tuple[str, ...] = (),
    sources: tuple[str, ...] = (),
    caution: str = "",
) -> Section:
    """Checks, then joints.

    Parameters
    ----------
    checks
        What was checked, how, and what came of it.
    bearing
        What each joint may be counted on for.
    unjudged
        What was not looked into.
    sources
        Where the figures of the joints are from.
    caution
        What stands behind all of it.

    Returns
    -------
    Section
        The sheet.
    """
    blocks: list[Block] = []
    if checks:
        columns = (
            Column(title="Check", share=1.2, strong=True),
            Column(title="How", share=2.2),
            Column(title="Result", share=1.1),
        )
        rows = tuple(Row(cells=(line.check, line.how, line.result)) for line in checks)
        blocks.append(Table(columns=columns, rows=rows, small=True))
    if unjudged:
        blocks += [Heading(text="Not judged here"), Bullets(points=unjudged)]
    if bearing:
        joint_columns = (
            Column(title="Joint", share=1.6, strong=True),
            Column(title="Drawn apart", align=Align.RIGHT),
            Column(title="Pressed across", align=Align.RIGHT),
            Column(title="Turned", align=Align.RIGHT),
            Column(title="Turns 1° at", align=Align.RIGHT),
            Column(title="Known by", share=0.8),
        )
        lines = tuple(
            Row(cells=(line.joints, line.pull, line.shear, line.moment, line.turns, line.known))
            for line in bearing
        )
        blocks += [
            Heading(text="What the joints may be counted on for"),
            Table(columns=joint_columns, rows=lines, small=True),
        ]
    if sources:
        blocks += [Heading(text="Where these are from"), Bullets(points=sources)]
    if caution:
        blocks.append(Caution(title="Estimates", text=caution))
    return Section(
        title="Strength",
        lead="What would tip, rack, sag or pull out first, and what each joint bears.",
        blocks=tuple(blocks),
        runs_on=True,
    )
