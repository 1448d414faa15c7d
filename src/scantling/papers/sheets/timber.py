"""The boards sheet: which part comes from which board, or what to buy."""

from __future__ import annotations

from pathlib import PurePath

from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.matching import matching_table
from scantling.papers.sheets.model import Align, Block, Column, Facts, Sheet, Table, Tone, Words
from scantling.papers.sheets.pictures import board_drawings, sheet_drawings, shortfall_drawings
from scantling.papers.sheets.sheet_buying import sheets_to_buy_table
from scantling.papers.sheets.shortfall import shortfall_lines
from scantling.papers.sheets.show import Show, names_of, word
from scantling.papers.words.asking_words import (
    ask_amount,
    average_amount,
    one_board_words,
    why_so_much,
    wood_words,
)
from scantling.papers.words.chalk_list import CHALK_NOTE, boards_to_cut, chalk_stands
from scantling.plan.made.bench import BenchState
from scantling.plan.result import Plan
from scantling.plan.timber.timber import Timber
from scantling.stock.layouts.aim import largest_offcut_m2
from scantling.stock.layouts.layout import BoardLayout, Layout, Placed
from scantling.units import Round, show_number

__all__ = ["bench_lines", "layout_facts", "timber_sheet"]

_R = Align.RIGHT


def timber_sheet(plan: Plan) -> Sheet:
    """Boards and what comes out of them."""
    show = Show.of(plan)
    timber, layout = plan.timber, plan.timber.layout
    blocks: list[Block] = []
    lead = "No rack was given: this is what to ask the yard for."
    if layout is not None:
        lead = (
            "Every blank has its place."
            if layout.complete
            else "These boards do not hold everything: what is missing stands under 'to buy'."
        )
        blocks.append(
            Facts(title="The layout", items=layout_facts(layout, show=show, money=plan.pricing.currency))
        )
        blocks.append(_boards_table(plan, show))
        blocks += board_drawings(plan)
        if layout.boards:
            boards = boards_to_cut(layout, timber.bench)
            blocks.append(_chalk_table(plan, boards, show=show))
    matching = matching_table(timber.wishes, layout, show=show)
    if matching is not None:
        blocks.insert(2 if layout is not None else 0, matching)
    if timber.bench is not None:
        blocks.insert(0, Words(title="From the bench", lines=bench_lines(timber.bench)))
    if timber.to_buy:
        blocks.append(_buy_table(plan, show))
        blocks += shortfall_drawings(plan)
        if timber.shortfalls:
            blocks.append(Words(title="How the curves are drawn", lines=shortfall_lines(timber.shortfalls)))
    if timber.sheets_to_buy is not None and timber.sheets_to_buy.boards:
        blocks.append(sheets_to_buy_table(timber.sheets_to_buy, show=show))
    if timber.sheets_cut:
        blocks += sheet_drawings(plan)
        blocks.append(_chalk_table(plan, timber.sheets_cut, show=show, sheets=True))
    if timber.sheets:
        blocks.append(
            Table(
                title="From sheet material",
                columns=(
                    Column(title="Part"),
                    Column(title="Material"),
                    Column(title=f"Rough {show.unit}", align=_R),
                    Column(title="From sheet"),
                ),
                rows=tuple(
                    (
                        names_of([s.part]),
                        s.material,
                        show.by(s.length_mm, s.width_mm, s.thickness_mm),
                        _sheet_of(timber, s.part),
                    )
                    for s in timber.sheets
                ),
                parts=tuple((s.part,) for s in timber.sheets),
            )
        )
    return Sheet(id="boards", title="Boards", lead=lead, blocks=tuple(blocks))


def _sheet_of(timber: Timber, part: str) -> str:
    """The sheet a part comes from, of the rack or to be bought."""
    places = {p.blank.part: b.board.name for b in timber.sheets_cut for p in b.placed}
    return places.get(part, "to buy: larger than the sheets sold")


def bench_lines(bench: BenchState) -> tuple[str, ...]:
    """What the bench notes say, so that nobody wonders where a part has gone."""
    lines = [
        f"Cut already, from {board}: " + names_of(c.name for c in bench.cut if c.board == board) + "."
        for board in dict.fromkeys(c.board for c in bench.cut)
    ]
    lines += [f"Cut first: {word(line)}" for line in bench.pinned]
    if bench.leave:
        lines.append(f"Left alone: {', '.join(bench.leave)}.")
    if bench.stays:
        lines.append(f"Stays as it was laid out: {', '.join(bench.stays)}.")
    if bench.marks:
        lines.append(f"Marks found since and kept clear of: {bench.marks}.")
    return (*lines, f"Written in {PurePath(bench.file).name}.")


def layout_facts(layout: Layout, *, show: Show, money: str) -> tuple[tuple[str, str], ...]:
    """How good a layout is: boards, waste, price, cuts, largest offcut, and what it cannot cost less than.

    Parameters
    ----------
    layout
        Parts on boards.
    show
        How areas are written.
    money
        Currency.
    """
    facts = [("Boards cut", str(len(layout.boards))), ("Waste", f"{layout.waste_pct:.0f} %")]
    if layout.price is not None:
        facts.append(("Price of these boards", f"{layout.price:,.0f} {money}"))
    facts.append(("Cuts", str(sum(len(b.cuts) for b in layout.boards))))
    largest = largest_offcut_m2(layout)
    if largest > 0:
        facts.append(("Largest offcut", show.area(largest)))
    if layout.bound_price is not None:
        facts.append(("Cannot cost less than", f"{layout.bound_price:,.0f} {money}"))
    return tuple(facts)


def _chalked(placed: Placed) -> str:
    """A blank's name, and the face of the board that is to show where it has one."""
    shows = "" if placed.shows is None else f" ({placed.shows} shows)"
    return word(placed.blank.name) + shows


def _boards_table(plan: Plan, show: Show) -> Table:
    layout = plan.timber.layout
    assert layout is not None
    rows, parts = [], []
    for board in layout.boards:
        names = [_chalked(placed) for placed in board.placed]
        rows.append(
            (
                board.board.name,
                board.board.nominal,
                show.by(board.board.length_mm, board.board.mean_width_mm),
                ", ".join(names),
                f"{board.used_pct:.0f} %",
            )
        )
        blanks = [b for placed in board.placed for b in (placed.blank.members or (placed.blank,))]
        parts.append(tuple(dict.fromkeys(blank.part for blank in blanks)))
    rows.extend(
        (b.name, b.nominal, show.by(b.length_mm, b.mean_width_mm), "left alone", "") for b in layout.unused
    )
    parts.extend(() for _ in layout.unused)
    return Table(
        title="What comes out of each board",
        columns=(
            Column(title="Board"),
            Column(title="Stock"),
            Column(title=f"Rough {show.unit}", align=_R),
            Column(title="Blanks"),
            Column(title="Used", align=_R),
        ),
        rows=tuple(rows),
        parts=tuple(parts),
    )


def _chalk_table(plan: Plan, boards: tuple[BoardLayout, ...], *, show: Show, sheets: bool = False) -> Table:
    figures = Figures(style=show.style, currency=plan.pricing.currency)
    milled = () if sheets else plan.milling
    told = [
        (stand.title, row) for stand in chalk_stands(boards, milled, figures=figures) for row in stand.rows
    ]
    return Table(
        title="Chalk list of the sheets" if sheets else "Chalk list",
        columns=(
            Column(title="Cut"),
            Column(title="Piece"),
            Column(title=f"Stop or fence {show.unit}", align=_R),
            Column(title="Leaves"),
        ),
        rows=tuple((f"{r.board} · {r.order}", r.piece, r.setting, r.leaves) for _, r in told),
        groups=tuple(title for title, _ in told),
        parts=tuple(r.parts for _, r in told),
        note=CHALK_NOTE,
    )


def _buy_table(plan: Plan, show: Show) -> Table:
    wanted, inch = plan.timber.ask_for, show.style.inch
    sure = any(p.chance_short is not None for p in wanted)
    rows = tuple(
        (
            wood_words(p),
            f"{p.quarters:g}/4",
            f"{show_number(p.net_board_feet, digits=1)} bf",
            ask_amount(p, inch=inch),
            *((average_amount(p, inch=inch),) if sure else ()),
            show.by(p.longest_mm, p.widest_mm, direction=Round.UP),
        )
        for p in wanted
    )
    reasons = tuple(why_so_much(p) for p in wanted)
    smaller = tuple(f"{words[0].upper()}{words[1:]}." for p in wanted if (words := one_board_words(p)))
    alike = len(set(reasons)) == 1  # told once below the table, not in each of its rows
    return Table(
        title="To buy",
        columns=(
            Column(title="Wood"),
            Column(title="Stock"),
            Column(title="Net", align=_R),
            Column(title="Ask for", align=_R),
            *((Column(title="On average", align=_R),) if sure else ()),
            Column(title=f"With boards of at least {show.unit}", align=_R),
            *(() if alike else (Column(title="Why so much"),)),
        ),
        rows=rows if alike else tuple((*row, why) for row, why in zip(rows, reasons, strict=True)),
        note=" ".join((*((f"Why so much: {reasons[0]}.",) if alike else ()), *smaller)),
        tones=tuple(Tone.WARN for _ in rows) if plan.timber.layout is not None else (),
    )
