"""Rough list, layers, strips and board pictures, from the milling ledgers and the layout."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scantling.papers.boards import (
    BoardCut,
    BoardFlaw,
    BoardOffcut,
    BoardPart,
    BoardPicture,
    BoardStretch,
)
from scantling.papers.packet import Fact
from scantling.papers.packet.sections import LayerRow, RoughRow, StripRow
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.parts import blank_words
from scantling.papers.sheets.show import names_of, word
from scantling.papers.words.chalk_list import boards_to_cut
from scantling.plan.made.bench import BenchState
from scantling.plan.result import Plan
from scantling.shop.milling.ledger import MillingLedger
from scantling.stock.checking.rings_told import untold
from scantling.stock.layouts.layout import BoardLayout, Cut, CutKind, Layout, Offcut, Placed
from scantling.units import Round, show_number
from scantling.wood.ring import RING_NAMES

__all__ = [
    "allowance_words",
    "board_picture",
    "board_pictures",
    "layer_rows",
    "layout_facts",
    "rough_rows",
    "strip_rows",
]


def _alike(ledgers: Iterable[MillingLedger]) -> list[list[MillingLedger]]:
    groups: dict[tuple[object, ...], list[MillingLedger]] = {}
    for ledger in ledgers:
        sizes = (ledger.rough, ledger.milled, ledger.finished)
        key = (
            ledger.like,
            ledger.species,
            ledger.pieces,
            tuple((round(s.length_mm, 1), round(s.width_mm, 1), round(s.thickness_mm, 1)) for s in sizes),
        )
        groups.setdefault(key, []).append(ledger)
    return list(groups.values())


def _names(group: Sequence[MillingLedger]) -> str:
    return names_of(ledger.part for ledger in group)


def rough_rows(ledgers: Iterable[MillingLedger], *, figures: Figures) -> tuple[RoughRow, ...]:
    """Blanks to cut, alike ones in one line.

    Parameters
    ----------
    ledgers
        Milling, part by part.
    figures
        How lengths are written.

    Returns
    -------
    tuple of RoughRow
        Rough sizes rounded up: a blank may be too large, never too small.
    """
    rows = []
    for group in _blanks(tuple(ledgers)):
        one = group[0]
        length_mm = one.gang.length_mm if one.gang else one.rough.length_mm
        rows.append(
            RoughRow(
                name=names_of(one.gang.parts) if one.gang else _names(group),
                count=1 if one.gang else one.pieces * len(group),
                stock=one.nominal,
                rough_length=figures.bare(length_mm, Round.UP),
                rough_width=figures.bare(one.rough.width_mm, Round.UP),
                rough_thickness=figures.bare(one.rough.thickness_mm, Round.UP),
                milled_width=figures.bare(one.milled.width_mm),
                milled_thickness=_mill_to(one, figures),
                note="in one length" if one.gang else blank_words(one),
            )
        )
    return tuple(rows)


def _blanks(ledgers: Sequence[MillingLedger]) -> list[list[MillingLedger]]:
    """Parts alike, and once each the parts that are milled in one length."""
    gangs = {ledger.gang.name: [ledger] for ledger in ledgers if ledger.gang}
    return [*_alike(ledger for ledger in ledgers if ledger.gang is None), *gangs.values()]


def allowance_words(ledgers: Iterable[MillingLedger], *, figures: Figures) -> tuple[str, ...]:
    """What each operation takes, as the shop has it: one sentence for every operation in use."""
    most: dict[str, tuple[float, float, float]] = {}
    for ledger in ledgers:
        for step in ledger.passes:
            takes = (step.removes_length_mm, step.removes_width_mm, step.removes_thickness_mm)
            old = most.get(step.operation.value, (0.0, 0.0, 0.0))
            most[step.operation.value] = tuple(max(a, b) for a, b in zip(old, takes, strict=True))  # type: ignore[assignment]
    words = []
    for operation, takes in most.items():
        named = zip(("of length", "of width", "of thickness"), takes, strict=True)
        parts = [f"{figures.length(value, Round.UP)} {name}" for name, value in named if value > 0.05]
        if parts:
            words.append(f"{operation.capitalize()}: up to {', '.join(parts)}.")
    return tuple(words)


def layer_rows(ledgers: Iterable[MillingLedger], *, figures: Figures) -> tuple[LayerRow, ...]:
    """Laminations.

    Parameters
    ----------
    ledgers
        Milling, part by part.
    figures
        How lengths are written.

    Returns
    -------
    tuple of LayerRow
        Parts alike in one line.
    """
    rows = []
    for group in _alike(x for x in ledgers if x.lamination is not None):
        one = group[0]
        rows.append(
            LayerRow(
                part=_names(group),
                count=len(group),
                layers=str(one.pieces),
                stock=one.nominal,
                layer_thickness=_mill_to(one, figures),
                glued_thickness=figures.bare(one.glued.thickness_mm) if one.glued else "",
                finished=figures.bare(one.finished.thickness_mm),
                note=one.lamination.reason if one.lamination else "",
            )
        )
    return tuple(rows)


def _mill_to(ledger: MillingLedger, figures: Figures) -> str:
    """What a blank is milled to in thickness; layers upwards, so that those shown make up what is glued."""
    way = Round.NEAREST if ledger.lamination is None else Round.UP
    return figures.bare(ledger.milled.thickness_mm, way)


def strip_rows(ledgers: Iterable[MillingLedger], *, figures: Figures) -> tuple[StripRow, ...]:
    """Panels of strips.

    Parameters
    ----------
    ledgers
        Milling, part by part.
    figures
        How lengths are written.

    Returns
    -------
    tuple of StripRow
        Parts alike in one line.
    """
    rows = []
    for group in _alike(x for x in ledgers if x.strips is not None):
        plan = group[0].strips
        if plan is None:
            continue
        stages = " + ".join(str(len(sub)) for sub in plan.sub_panels)
        rows.append(
            StripRow(
                part=_names(group),
                strips=str(plan.count),
                widths=", ".join(figures.bare(w) for w in plan.widths_mm),
                stages=stages
                if len(plan.sub_panels) < 2
                else f"{stages}, then {plan.last_joints} last joints",
                trim=figures.bare(plan.trim_mm),
                note=plan.reason,
            )
        )
    return tuple(rows)


def layout_facts(layout: Layout, *, figures: Figures) -> tuple[Fact, ...]:
    """How good the layout is.

    Parameters
    ----------
    layout
        Parts on boards.
    figures
        How money is written.

    Returns
    -------
    tuple of Fact
        Boards, waste, price and the bound.
    """
    total = len(layout.boards) + len(layout.unused)
    facts = [
        Fact(label="Boards cut", value=f"{len(layout.boards)} of {total}"),
        Fact(label="Waste", value=f"{show_number(layout.waste_pct, digits=0)} %", note="of the boards cut"),
    ]
    if layout.price is not None:
        facts.append(Fact(label="Price of these boards", value=figures.money(layout.price)))
    if layout.bound_price is not None:
        facts.append(
            Fact(label="No layout costs less than", value=figures.money(layout.bound_price), note="proven")
        )
    return tuple(facts)


def board_pictures(plan: Plan, *, figures: Figures) -> tuple[BoardPicture, ...]:
    """Every board that is cut, those with a part pinned to its place first."""
    layout, bench = plan.timber.layout, plan.timber.bench
    if layout is None:
        return ()
    return tuple(board_picture(b, figures=figures, bench=bench) for b in boards_to_cut(layout, bench))


def board_picture(laid: BoardLayout, *, figures: Figures, bench: BenchState | None = None) -> BoardPicture:
    """One board as it is drawn.

    Parameters
    ----------
    laid
        The board, laid out.
    figures
        How lengths are written.
    bench
        What has happened at the bench.

    Returns
    -------
    BoardPicture
        Parts, flaws, cuts and offcuts.
    """
    board = laid.board
    thick = f"{show_number(board.quarters)}/4" if board.quarters else figures.length(board.rough_thickness_mm)
    rings = ""
    if board.rings is not None:
        named = board.rings in RING_NAMES.values()
        rings = f", {board.rings.word}-sawn" if named else f", rings at {board.rings.word}"
    size = figures.sizes(board.length_mm, board.width_mm, unit=True)
    return BoardPicture(
        name=board.name,
        about=f"{board.species}, {thick}, {size}{rings}",
        length_mm=board.length_mm,
        width_mm=board.width_mm,
        far_width_mm=board.width_mm if board.far_width_mm is None else board.far_width_mm,
        parts=tuple(_board_part(p, figures, cut=_cut_from(board.name, bench)) for p in laid.placed),
        flaws=tuple(
            BoardFlaw(kind=d.kind.value, x_mm=d.x_mm, y_mm=d.y_mm, length_mm=d.length_mm, width_mm=d.width_mm)
            for d in board.defects
        ),
        cuts=tuple(_board_cut(c, laid, figures) for c in laid.cuts),
        offcuts=tuple(_board_offcut(o, figures) for o in laid.offcuts),
        stretches=_stretches(laid),
        ring_angle_deg=None if board.rings is None else board.rings.ring_angle_deg,
        trims_mm=(board.left_trim_mm, board.right_trim_mm),
        notes=(*begun_words(board.name, bench), *rings_words(laid)),
    )


def begun_words(board: str, bench: BenchState | None) -> tuple[str, ...]:
    """What has been cut already from the board a piece is left of."""
    if bench is None:
        return ()
    whole = next((name for name in bench.begun if board.startswith(f"{name} ")), None)
    if whole is None:
        return ()
    cut = names_of(c.name for c in bench.cut if c.board == whole)
    return (f"What is left of {whole}" + (f"; cut from it already: {cut}." if cut else "."),)


def rings_words(laid: BoardLayout) -> tuple[str, ...]:
    """Which parts ask for rings on a board nobody has looked at."""
    asked = "; ".join(f"{names_of(parts)} {way}" for way, parts in untold(laid))
    return (f"Look at the end before you saw: {asked}.",) if asked else ()


def _cut_from(board: str, bench: BenchState | None) -> frozenset[str]:
    """What is cut already from a board, or from a piece of it."""
    cut = () if bench is None else bench.cut
    return frozenset(c.name for c in cut if board == c.board or board.startswith(f"{c.board} "))


def _board_part(placed: Placed, figures: Figures, *, cut: frozenset[str]) -> BoardPart:
    size = figures.sizes(placed.length_mm, placed.width_mm, direction=Round.UP)
    shows = "" if placed.shows is None else f", {placed.shows} shows"
    pinned = ", pinned" if placed.blank.boards else ""
    done = ", cut" if placed.blank.name in cut else ""
    return BoardPart(
        name=word(placed.blank.name) + shows,
        size=size + (done or pinned),
        x_mm=placed.x_mm,
        y_mm=placed.y_mm,
        length_mm=placed.length_mm,
        width_mm=placed.width_mm,
    )


def _board_offcut(offcut: Offcut, figures: Figures) -> BoardOffcut:
    size = figures.sizes(offcut.length_mm, offcut.width_mm, direction=Round.DOWN)
    return BoardOffcut(
        name=f"keep {offcut.name}" if offcut.usable else "",
        size=size,
        x_mm=offcut.x_mm,
        y_mm=offcut.y_mm,
        length_mm=offcut.length_mm,
        width_mm=offcut.width_mm,
    )


def _stretches(laid: BoardLayout) -> tuple[BoardStretch, ...]:
    """Pieces the first crosscuts leave, where there are several, by the letter they are called."""
    edges = [c for c in laid.cuts if c.kind is CutKind.STRAIGHTEN and c.piece != laid.board.name]
    if len(edges) < 2:
        return ()
    letters = (c.piece.removeprefix(f"{laid.board.name}-") for c in edges)
    return tuple(
        BoardStretch(name=letter, x_mm=c.x_mm, length_mm=c.length_mm)
        for letter, c in zip(letters, edges, strict=True)
    )


def _board_cut(cut: Cut, laid: BoardLayout, figures: Figures) -> BoardCut:
    running = cut.x_mm if cut.kind is CutKind.CROSSCUT else cut.y_mm - edge_mm(cut, laid)
    return BoardCut(
        order=cut.order,
        crosswise=cut.kind is CutKind.CROSSCUT,
        x_mm=cut.x_mm,
        y_mm=cut.y_mm,
        length_mm=cut.length_mm,
        width_mm=cut.width_mm,
        running="" if cut.kind is CutKind.STRAIGHTEN else figures.bare(running, Round.UP),
    )


def edge_mm(cut: Cut, laid: BoardLayout) -> float:
    """Height of the straightened edge a rip is chalked from: the one under it. [mm]"""
    under = (
        c.y_mm + c.width_mm
        for c in laid.cuts
        if c.kind is CutKind.STRAIGHTEN
        and c.x_mm - 1e-6 <= cut.x_mm <= c.x_mm + c.length_mm
        and c.y_mm <= cut.y_mm
    )
    return max(under, default=0.0)
