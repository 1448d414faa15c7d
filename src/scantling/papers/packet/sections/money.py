"""Sheets for the money: what to buy, and what the piece costs."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.papers.packet.blocks import Align, Block, Bullets, Column, Fact, Facts, Row, Section, Table

__all__ = ["BuyRow", "CostLine", "buying_section", "cost_section"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyRow:
    """One thing to buy."""

    group: str
    what: str
    amount: str
    note: str = ""
    price: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """One line of the cost; ``total`` is a sum of those above."""

    what: str
    reckoned: str
    amount: str
    total: bool = False


def buying_section(rows: tuple[BuyRow, ...], *, notes: tuple[str, ...] = ()) -> Section:
    """The buying list.

    Parameters
    ----------
    rows
        In groups.
    notes
        Allowances and their reasons.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="What", share=1.6, strong=True),
        Column(title="Amount", align=Align.RIGHT),
        Column(title="Note", share=1.6),
        Column(title="Price", align=Align.RIGHT),
    )
    lines: list[Row] = []
    group = ""
    for r in rows:
        if r.group != group:
            group = r.group
            lines.append(Row(cells=(group,), band=True))
        lines.append(Row(cells=(r.what, r.amount, r.note, r.price)))
    blocks: list[Block] = [Table(columns=columns, rows=tuple(lines), ticks=True)]
    if notes:
        blocks.append(Bullets(points=notes))
    return Section(
        title="Buying list",
        lead="Everything this piece needs that the shop uses up.",
        blocks=tuple(blocks),
        runs_on=True,
    )


def cost_section(
    lines: tuple[CostLine, ...], *, currency: str, facts: tuple[Fact, ...] = (), notes: tuple[str, ...] = ()
) -> Section:
    """The cost, line by line.

    Parameters
    ----------
    lines
        In order, sums among them.
    currency
        For the heading.
    facts
        Cost, price, margin.
    notes
        How margin and mark-up are meant.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="What", share=1.2, strong=False),
        Column(title="Reckoned", share=1.6),
        Column(title=f"Amount, {currency}", align=Align.RIGHT),
    )
    rows = tuple(Row(cells=(c.what, c.reckoned, c.amount), total=c.total) for c in lines)
    blocks: list[Block] = [Facts(facts=facts, columns=4)] if facts else []
    blocks.append(Table(columns=columns, rows=rows))
    if notes:
        blocks.append(Bullets(points=notes))
    return Section(title="Cost and price", lead="For the shop, not for the client.", blocks=tuple(blocks))
