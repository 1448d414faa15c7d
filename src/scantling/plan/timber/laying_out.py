"""What is asked of the boards once what is cut, pinned and kept is taken off, and the answer to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from scantling.errors import Finding, Severity
from scantling.piece.model import Piece
from scantling.plan.cache import Cache, content_of
from scantling.plan.made.bench import with_begun
from scantling.plan.timber.ganging import gang_up
from scantling.plan.timber.stockways import Chosen, Limits, choose_stock, fixed_stock, other_ways
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.gang import Gang
from scantling.stock.layouts.layout import Layout
from scantling.stock.racks.benchnotes import Begun, BenchNotes, CutPart, begun_by, with_strips
from scantling.stock.racks.laid import KeptBoards, keep_laid, with_kept
from scantling.stock.solving.solve import LayoutAnswer, LayoutRequest

__all__ = ["Question", "answer_of", "as_shown", "ask_boards", "kept_findings", "lay_rest", "settle"]

Told = Callable[[LayoutAnswer], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """What is left to lay out, and what stays.

    Parameters
    ----------
    asked
        Everything the piece asks for on all boards, before the notes.
    notes
        The notes that were followed.
    begun
        What is cut and pinned.
    whole
        What is asked for after that, short parts in lengths.
    kept
        Boards of it that stay as they were laid out, and what is left without them.
    other
        The rest with every thickness it may come from, and leaves that may be resawn.
    gangs
        Lengths that short parts are milled in.
    """

    asked: LayoutRequest
    notes: BenchNotes
    begun: Begun
    whole: LayoutRequest
    kept: KeptBoards
    other: LayoutRequest
    gangs: tuple[Gang, ...] = ()

    @property
    def key(self) -> str:
        """Key of what is asked for with no board kept; what is proven of it holds while it stays the same."""
        return content_of(self.whole)


def settle(
    asked: LayoutRequest, notes: BenchNotes, prepared: Callable[[LayoutRequest], LayoutRequest] = lambda r: r
) -> tuple[Begun, LayoutRequest, KeptBoards]:
    """Take off what is cut and pinned, then what stays as it was laid out.

    A board begun whose layout does not hold any more is gone with what was cut from it, as if it had never
    been kept.

    Parameters
    ----------
    asked
        Everything that is asked for.
    notes
        What the bench says.
    prepared
        What is done to the request in between: short parts joined to lengths.
    """
    while True:
        begun = begun_by(asked, notes)
        whole = prepared(begun.request)
        ticked = notes.ticked
        roots = {board for board, _ in ticked}
        kept = keep_laid(
            whole,
            notes.laid,
            begun=[x.board for x in notes.laid if notes.root(x.board) in roots],
            cut=[name for _, name in ticked],
        )
        fallen = {notes.root(name) for name, _ in kept.dropped} & roots
        if not fallen:
            return begun, whole, kept
        notes = _fallen(notes, fallen, asked)


def _fallen(notes: BenchNotes, roots: set[str], asked: LayoutRequest) -> BenchNotes:
    """The notes without boards begun whose layout no longer holds; strips cut from them keep their widths."""
    panels = {p.name for p in asked.panels}
    widths = {(notes.root(x.board), b.name): b.width_mm for x in notes.laid for b in x.blanks}

    def alone(cut: CutPart) -> CutPart:
        head, _, number = cut.name.rpartition(" strip ")
        if cut.board not in roots or head not in panels or not number.isdecimal():
            return cut
        return replace(cut, name=head, width_mm=widths[cut.board, cut.name])

    return replace(
        notes,
        cut=tuple(alone(c) for c in notes.cut),
        laid=tuple(x for x in notes.laid if notes.root(x.board) not in roots),
    )


def ask_boards(
    asked: LayoutRequest, notes: BenchNotes, *, piece: Piece, ledgers: tuple[MillingLedger, ...], shop: Shop
) -> Question:
    """What is asked of the boards, as the notes leave it."""
    gangs: dict[str, tuple[Gang, ...]] = {}

    def in_lengths(request: LayoutRequest) -> LayoutRequest:
        found, gangs["made"] = gang_up(request, piece=piece, ledgers=ledgers, shop=shop)
        return found

    begun, whole, kept = settle(asked, notes, in_lengths)
    return Question(
        asked=asked,
        notes=notes,
        begun=begun,
        whole=whole,
        kept=kept,
        other=other_ways(kept.request, shop, fixed=fixed_stock(piece)),
        gangs=gangs["made"],
    )


def lay_rest(question: Question, limits: Limits, *, cache: Cache, told: Told | None = None) -> Chosen:
    """Lay out what is left; the same question within the same limits is answered once."""
    request, other = question.kept.request, question.other
    return cache.answer(
        "layout", (request, other, limits), lambda: choose_stock(request, other, limits=limits, told=told)
    )


def answer_of(question: Question, chosen: Chosen) -> tuple[LayoutRequest, Layout]:
    """The layout of the rest with the boards that stay, and what it was asked."""
    kept, whole = question.kept, question.whole
    if not kept.boards:
        return chosen.request, chosen.layout
    layout = with_kept(chosen.layout, kept.boards, whole)
    bound = question.notes.bound
    if bound is not None and bound[1] == question.key and not kept.dropped and not kept.lost:
        layout = _proven(layout, bound[0])
    own = {b.name: b for b in chosen.request.blanks}
    panels = {p.name: p for p in chosen.request.panels}
    request = replace(
        chosen.request,
        boards=whole.boards,
        blanks=tuple(own.get(b.name, b) for b in whole.blanks),
        panels=tuple(
            replace(p, quarters=panels[p.name].quarters) if p.name in panels else p for p in whole.panels
        ),
        wishes=tuple(a.wish for a in layout.wishes) if layout.wishes else whole.wishes,
    )
    return request, layout


def as_shown(question: Question, layout: Layout) -> Layout:
    """A layout with the strips that are cut already, and the price of the boards begun."""
    begun = question.begun
    return with_begun(with_strips(layout, question.asked.panels, begun.strips), begun)


def _proven(layout: Layout, bound: float) -> Layout:
    """A layout with the bound that was proven when it was kept, where it still stands under its price."""
    if layout.price is None or not layout.complete or bound > layout.price + 1e-6:
        return layout
    gap = 100.0 * (layout.price - bound) / layout.price if layout.price > 0 else None
    return replace(layout, bound_price=bound, gap_pct=gap)


def kept_findings(kept: KeptBoards, notes: BenchNotes) -> Iterable[Finding]:
    """Boards that could not stay as they were laid out, and blanks given up (T16)."""
    cut = {c.board for c in notes.cut}
    for board, reason in kept.dropped:
        begun = notes.root(board) in cut
        yield Finding(
            code="T16",
            severity=Severity.HIGH if begun else Severity.MEDIUM,
            where=board,
            message=f"{board} was to stay as it was laid out, and cannot: {reason}.",
            advice=(
                f"It is begun: write what is left of {notes.root(board)}, or take back what changed."
                if begun
                else "It is laid out anew; take back what changed, or keep the layout as it is now."
            ),
        )
    for name, reason in kept.lost:
        yield Finding(
            code="T16",
            severity=Severity.MEDIUM,
            where=name,
            message=f"{name} is not cut from where it was laid out: {reason}.",
            advice="It is laid out elsewhere; the rest of that board stays as it was.",
        )
