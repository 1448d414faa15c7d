"""The sheet of a run: which boards are cut, what comes out of each, and what has no wood."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from scantling.papers.sheets.model import Align, Block, Column, Facts, Sheet, Table, Words
from scantling.papers.sheets.show import Show, word
from scantling.stock.layouts.layout import Layout

__all__ = ["run_sheet"]

_R = Align.RIGHT


def run_sheet(
    layout: Layout, *, pieces: tuple[tuple[str, int], ...], left: tuple[str, ...], show: Show, currency: str
) -> Sheet:
    """A run, laid out.

    Parameters
    ----------
    layout
        The layout.
    pieces
        Name of each piece, and how many are made.
    left
        Wishes that are not kept in a run.
    show
        How lengths are written.
    currency
        Of the prices.
    """
    made = ", ".join(f"{times} × {word(name)}" for name, times in pieces)
    blocks: list[Block] = [
        Facts(title="The layout", items=(("To make", made), *_facts(layout, currency))),
        _boards(layout, show, len(pieces)),
    ]
    missing = _missing(layout, show, len(pieces))
    if missing:
        blocks.append(Words(title="Without wood", lines=missing))
    if left:
        told = "Wishes hold within one copy and are not kept in a run of several: "
        blocks.append(Words(title="Not kept", lines=(told + "; ".join(word(n) for n in left) + ".",)))
    lead = "Every blank has its place." if layout.complete else "These boards do not hold everything."
    return Sheet(id="boards", title="Boards for the run", lead=lead, blocks=tuple(blocks))


def _facts(layout: Layout, currency: str) -> tuple[tuple[str, str], ...]:
    blanks = sum(len(b.placed) for b in layout.boards)
    facts = [("Blanks laid out", str(blanks)), ("Boards cut", str(len(layout.boards)))]
    facts.append(("Boards left alone", str(len(layout.unused))))
    facts.append(("Waste", f"{layout.waste_pct:.0f} %"))
    if layout.price is not None:
        facts.append(("Price of these boards", f"{layout.price:,.0f} {currency}"))
    if layout.bound_price is not None:
        facts.append(("Cannot cost less than", f"{layout.bound_price:,.0f} {currency}"))
    return tuple(facts)


def _counted(names: Iterable[str], layout: Layout, pieces: int) -> str:
    """Blanks as a list, those that any copy may take once with their count.

    A strip of a panel keeps its copy: the strips of one panel add up to its width.
    """
    panels = {s.panel for s in layout.strips}
    counted: Counter[str] = Counter()
    for name in names:
        copy, _, blank = name.partition(": ")
        if not blank or name.rpartition(" strip ")[0] in panels:
            counted[word(name)] += 1
        elif pieces == 1:
            counted[word(blank)] += 1
        else:
            counted[f"{word(copy.rpartition(' ')[0])}: {word(blank)}"] += 1
    return ", ".join(name if n == 1 else f"{n} × {name}" for name, n in counted.items())


def _boards(layout: Layout, show: Show, pieces: int) -> Table:
    return Table(
        title="What comes out of each board",
        columns=(
            Column(title="Board"),
            Column(title="Stock"),
            Column(title=f"Rough {show.unit}", align=_R),
            Column(title="Blanks"),
            Column(title="Used", align=_R),
        ),
        rows=tuple(
            (
                b.board.name,
                b.board.nominal,
                show.by(b.board.length_mm, b.board.mean_width_mm),
                _counted((p.blank.name for p in b.placed), layout, pieces),
                f"{b.used_pct:.0f} %",
            )
            for b in layout.boards
        ),
    )


def _missing(layout: Layout, show: Show, pieces: int) -> tuple[str, ...]:
    lines = [_counted((b.name for b in layout.unplaced), layout, pieces)] if layout.unplaced else []
    lines += [
        f"{word(s.panel)}: strips of {show.long(s.missing_mm)} width in all"
        for s in layout.strips
        if s.missing_mm > 1e-6
    ]
    return tuple(lines)
