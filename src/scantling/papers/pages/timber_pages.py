"""Rough list, layers, strips and board pictures, from the milling ledgers and the layout."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scantling.papers.board_picture import BoardCut, BoardFlaw, BoardOffcut, BoardPart, BoardPicture
from scantling.papers.packet import Fact
from scantling.papers.packet.sections import BoardSheet, ChalkRow, LayerRow, RoughRow, StripRow
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.parts import blank_words
from scantling.papers.sheets.show import names_of, word
from scantling.shop.ledger import MillingLedger
from scantling.stock.layout import BoardLayout, Cut, CutKind, Layout, Placed
from scantling.units import Round, show_number

__all__ = [
    "allowance_words",
    "board_picture",
    "board_sheet",
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
                milled_thickness=figures.bare(one.milled.thickness_mm),
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
                layer_thickness=figures.bare(one.milled.thickness_mm),
                glued_thickness=figures.bare(one.glued.thickness_mm) if one.glued else "",
                finished=figures.bare(one.finished.thickness_mm),
                note=one.lamination.reason if one.lamination else "",
            )
        )
    return tuple(rows)


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


def _where(cut: Cut, figures: Figures) -> str:
    if cut.kind is CutKind.STRAIGHTEN:
        return f"lower edge of {word(cut.piece)}"
    edge = "left end" if cut.kind is CutKind.CROSSCUT else "lower edge"
    return f"{figures.length(cut.at_mm)} from the {edge} of {word(cut.piece)}"


def _leaves(cut: Cut) -> str:
    return names_of(name for name in cut.yields if name) or "waste"


def board_sheet(laid: BoardLayout, *, figures: Figures) -> BoardSheet:
    """One board with its cuts.

    Parameters
    ----------
    laid
        The board, laid out.
    figures
        How lengths are written.

    Returns
    -------
    BoardSheet
        Picture and chalk list.
    """
    rows = tuple(
        ChalkRow(order=str(c.order), cut=c.kind.value, where=_where(c, figures), leaves=_leaves(c))
        for c in laid.cuts
    )
    return BoardSheet(picture=board_picture(laid, figures=figures), cuts=rows)


def board_picture(laid: BoardLayout, *, figures: Figures) -> BoardPicture:
    """One board as it is drawn.

    Parameters
    ----------
    laid
        The board, laid out.
    figures
        How lengths are written.

    Returns
    -------
    BoardPicture
        Parts, flaws, cuts and offcuts.
    """
    board = laid.board
    thick = f"{show_number(board.quarters)}/4" if board.quarters else figures.length(board.rough_thickness_mm)
    return BoardPicture(
        name=board.name,
        about=f"{board.species}, {thick}, {figures.bare(board.length_mm)} × {figures.length(board.width_mm)}",
        length_mm=board.length_mm,
        width_mm=board.width_mm,
        far_width_mm=board.width_mm if board.far_width_mm is None else board.far_width_mm,
        parts=tuple(_board_part(p, figures) for p in laid.placed),
        flaws=tuple(
            BoardFlaw(kind=d.kind.value, x_mm=d.x_mm, y_mm=d.y_mm, length_mm=d.length_mm, width_mm=d.width_mm)
            for d in board.defects
        ),
        cuts=tuple(_board_cut(c, figures) for c in laid.cuts),
        offcuts=tuple(
            BoardOffcut(
                name=f"keep {o.name}" if o.usable else "",
                x_mm=o.x_mm,
                y_mm=o.y_mm,
                length_mm=o.length_mm,
                width_mm=o.width_mm,
            )
            for o in laid.offcuts
        ),
    )


def _board_part(placed: Placed, figures: Figures) -> BoardPart:
    size = f"{figures.bare(placed.length_mm, Round.UP)} × {figures.bare(placed.width_mm, Round.UP)}"
    shows = "" if placed.shows is None else f", {placed.shows} shows"
    return BoardPart(
        name=word(placed.blank.name) + shows,
        size=size,
        x_mm=placed.x_mm,
        y_mm=placed.y_mm,
        length_mm=placed.length_mm,
        width_mm=placed.width_mm,
    )


def _board_cut(cut: Cut, figures: Figures) -> BoardCut:
    first = cut.kind is CutKind.CROSSCUT and cut.stage == 1
    return BoardCut(
        order=cut.order,
        crosswise=cut.kind is CutKind.CROSSCUT,
        x_mm=cut.x_mm,
        y_mm=cut.y_mm,
        length_mm=cut.length_mm,
        width_mm=cut.width_mm,
        from_end=figures.bare(cut.x_mm) if first else "",
    )
