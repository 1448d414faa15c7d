"""One card for each set-up of a machine: set it once, cut everything that wants it."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.packet.blocks import (
    Align,
    Block,
    Caution,
    Column,
    Fact,
    Facts,
    Heading,
    Row,
    Section,
    Table,
)

__all__ = ["CutRow", "SetupCard", "saw_section"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutRow:
    """One kind of cut made with a set-up.

    Parameters
    ----------
    part
        Parts it is made on.
    count
        Cuts to make.
    end
        Which end, and whether it is square, parallel or mirrored to the other, in words.
    down
        Which face lies on the table.
    stop
        Distance from the stop, and to which point.
    check
        A size to verify on the part once cut.
    """

    part: str
    count: int
    end: str
    down: str
    stop: str
    check: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetupCard:
    """One set-up."""

    number: str
    machine: str
    settings: tuple[Fact, ...]
    cuts: tuple[CutRow, ...]
    caution: str = ""


def saw_section(cards: tuple[SetupCard, ...]) -> Section:
    """All set-up cards.

    Parameters
    ----------
    cards
        In the order they are wanted.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="Part", share=1.2, strong=True),
        Column(title="Cuts", align=Align.RIGHT),
        Column(title="End", share=1.3),
        Column(title="Face down", share=0.9),
        Column(title="Stop", share=1.1),
        Column(title="Check on the part", share=1.3),
    )
    blocks: list[Block] = []
    for card in cards:
        rows = tuple(Row(cells=(c.part, str(c.count), c.end, c.down, c.stop, c.check)) for c in card.cuts)
        blocks += [
            Heading(text=f"Set-up {card.number}", note=card.machine),
            Facts(facts=card.settings, columns=4),
            Table(columns=columns, rows=rows, ticks=True, small=True),
        ]
        if card.caution:
            blocks.append(Caution(title="Caution", text=card.caution))
    return Section(
        title="Saw set-ups",
        lead="Angles are read from a square cut. Cut a scrap first, measure it, then cut the parts.",
        blocks=tuple(blocks),
    )
