"""One card for each set-up of a machine: set it once, cut everything that wants it."""

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
    Heading,
    Row,
    Section,
    Table,
    Together,
)

__all__ = ["CutRow", "RipRow", "SetupCard", "SquareRow", "saw_section"]


MOST_ROWS = 16
"""A card with more lines may run over a page."""


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
        Which face lies on the table, and which edge on the fence.
    blade
        On which side of the blade the part lies.
    check
        A size to verify on the part once cut.
    """

    part: str
    count: int
    end: str
    down: str
    blade: str
    check: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SetupCard:
    """One set-up."""

    number: str
    machine: str
    settings: tuple[Fact, ...]
    cuts: tuple[CutRow, ...]
    caution: str = ""
    proof: tuple[str, ...] = ()
    """What the scale leaves open, and the trial cut that proves the setting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SquareRow:
    """Square cuts with one stop: they need no card of their own."""

    number: str
    machine: str
    parts: str
    count: int
    end: str
    stop: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RipRow:
    """Edges of alike parts ripped out of square at one tilt."""

    parts: str
    edges: str
    tilt: str
    sled: str
    down: str
    narrow: str
    wide: str


def _rip_blocks(rows: tuple[RipRow, ...], unit: str) -> list[Block]:
    if not rows:
        return []
    columns = (
        Column(title="Part", share=1.3, strong=True),
        Column(title="Edge", share=0.9),
        Column(title="Tilt", align=Align.RIGHT),
        Column(title="Sled", align=Align.RIGHT),
        Column(title="Face down", share=0.8),
        Column(title=f"Width left on it, {unit}", align=Align.RIGHT),
        Column(title="On the other face", align=Align.RIGHT),
    )
    lines = tuple(Row(cells=(r.parts, r.edges, r.tilt, r.sled, r.down, r.narrow, r.wide)) for r in rows)
    return [
        Heading(text="Edges ripped out of square", note="first, while the wood is long"),
        Table(columns=columns, rows=lines, ticks=True),
    ]


def _square_blocks(rows: tuple[SquareRow, ...], by_hand: str) -> list[Block]:
    if not rows:
        return []
    columns = (
        Column(title="Set-up", strong=True),
        Column(title="Part", share=1.4, strong=True),
        Column(title="Cuts", align=Align.RIGHT),
        Column(title="Saw", share=0.7),
        Column(title="End", share=1.2),
        Column(title="Mark" if by_hand else "Stop", align=Align.RIGHT, share=0.7),
    )
    lines = tuple(Row(cells=(r.number, r.parts, str(r.count), r.machine, r.end, r.stop)) for r in rows)
    return [
        Heading(text="Square cuts", note="" if by_hand else "blade square both ways"),
        Table(columns=columns, rows=lines, ticks=True),
    ]


def saw_section(
    cards: tuple[SetupCard, ...],
    *,
    square: tuple[SquareRow, ...] = (),
    rips: tuple[RipRow, ...] = (),
    by_hand: str = "",
    unit: str = "mm",
) -> Section:
    """Edges out of square, square cuts in one list, then a card for every angle.

    Parameters
    ----------
    cards
        In the order they are wanted.
    square
        Cuts without an angle.
    rips
        Edges ripped out of square.
    by_hand
        How ends are sawn, where it is all done by hand.
    unit
        Of lengths in tables.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="Part", share=1.2, strong=True),
        Column(title="Cuts", align=Align.RIGHT),
        Column(title="End", share=1.3),
        Column(title="Lay it", share=1.3),
        Column(title="Blade", share=0.9),
        Column(title="Check on the part", share=1.3),
    )
    blocks: list[Block] = [*_rip_blocks(rips, unit), *_square_blocks(square, by_hand)]
    for card in cards:
        rows = tuple(Row(cells=(c.part, str(c.count), c.end, c.down, c.blade, c.check)) for c in card.cuts)
        parts: list[Block] = [
            Heading(text=f"Set-up {card.number}", note=card.machine),
            Facts(facts=card.settings, columns=4),
            Table(columns=columns, rows=rows, ticks=True, small=True),
        ]
        if card.proof:
            parts.append(Bullets(points=card.proof))
        if card.caution:
            parts.append(Caution(title="Caution", text=card.caution))
        blocks += [Together(blocks=tuple(parts))] if len(rows) < MOST_ROWS else parts
    return Section(
        title="Saw set-ups",
        lead=by_hand
        or "Angles are read from a square cut. Cut a scrap first, measure it, then cut the parts.",
        blocks=tuple(blocks),
    )
