"""Boards kept as they were laid out: checked from nothing each time, the rest laid out without them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from scantling.stock.asked.blank import AND, Blank, FreeWidthPanel
from scantling.stock.asked.folding import folded
from scantling.stock.asked.wish import FOLDED, Wish
from scantling.stock.boards.board import Board, Defect
from scantling.stock.boards.looks import show_side
from scantling.stock.chalked.assemble import strip_blank
from scantling.stock.checking.verify import verify_board
from scantling.stock.checking.violation import Violation
from scantling.stock.layouts.answering import answered
from scantling.stock.layouts.layout import BoardLayout, Cut, Layout, Offcut, Placed, StripWidths
from scantling.stock.solving.request import LayoutRequest

__all__ = [
    "KeptBoards",
    "LaidBlank",
    "LaidBoard",
    "keep_laid",
    "laid_of",
    "panel_left",
    "renamed",
    "still_wished",
    "with_kept",
]

_STRIP = " strip "
_ON_MARK = frozenset({"on_defect", "no_show_face"})


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidBlank:
    """A blank in its place, by name; sizes as of :class:`~scantling.stock.layouts.layout.Placed`. [mm]"""

    name: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    stage: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidBoard:
    """A board as it was laid out.

    Parameters
    ----------
    board
        Its name; that of the piece, for what a pin has parted off.
    """

    board: str
    blanks: tuple[LaidBlank, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptBoards:
    """What stays, and what is left to lay out.

    Parameters
    ----------
    request
        Without the boards that stay and the blanks on them.
    boards
        The boards that stay.
    dropped
        Boards that cannot stay, each with the reason.
    lost
        Blanks of boards begun that lie on a mark found since, with the reason; cut from elsewhere.
    """

    request: LayoutRequest
    boards: tuple[BoardLayout, ...] = ()
    dropped: tuple[tuple[str, str], ...] = ()
    lost: tuple[tuple[str, str], ...] = ()


def laid_of(board: BoardLayout) -> LaidBoard:
    """A board of a layout as it is kept."""
    return LaidBoard(
        board=board.board.name,
        blanks=tuple(
            LaidBlank(
                name=p.blank.name,
                x_mm=p.x_mm,
                y_mm=p.y_mm,
                length_mm=p.length_mm,
                width_mm=p.width_mm,
                stage=p.stage,
            )
            for p in board.placed
        ),
        cuts=board.cuts,
        offcuts=board.offcuts,
    )


def keep_laid(
    request: LayoutRequest, laid: Iterable[LaidBoard], *, begun: Iterable[str] = (), cut: Iterable[str] = ()
) -> KeptBoards:
    """Take boards that stay as they were laid out from what is asked for.

    Each is checked as every layout is: its list of cuts is carried out on the board as it is now, with its
    marks, and must leave the blanks as they are asked for now. A board that fails is dropped whole. Of a
    board begun, only blanks not cut yet that lie on a mark are given up.

    Parameters
    ----------
    request
        Everything that is still asked for, and all boards.
    laid
        Boards as they were laid out.
    begun
        Names of those that are begun.
    cut
        Blanks that are cut already.
    """
    left, stays, dropped, lost = (
        request,
        list[BoardLayout](),
        list[tuple[str, str]](),
        list[tuple[str, str]](),
    )
    started, done = set(begun), set(cut)
    for one in laid:
        built = _built(one, left)
        if isinstance(built, str):
            dropped.append((one.board, built))
            continue
        wrong = verify_board(built, cutting=request.cutting)
        if one.board in started:
            built, gone = _without_marked(built, wrong, done)
            lost += gone
            wrong = [v for v in verify_board(built, cutting=request.cutting) if v.code not in _ON_MARK]
        if wrong:
            dropped.append((one.board, _words(wrong[0])))
            continue
        stays.append(built)
        left = _without(left, built)
    return KeptBoards(request=left, boards=tuple(stays), dropped=tuple(dropped), lost=tuple(lost))


def _words(wrong: Violation) -> str:
    return f"{wrong.where.rpartition('/')[2]} {wrong.message}"


def _built(laid: LaidBoard, request: LayoutRequest) -> BoardLayout | str:
    """The board with the blanks that are asked for now, or why it cannot be."""
    board = next((b for b in request.boards if b.name == laid.board), None)
    if board is None:
        return "there is no such board to cut now"
    placed = []
    for one in laid.blanks:
        blank = _asked(one, request)
        if blank is None:
            return f"{one.name} is not asked for any more, or is cut from elsewhere"
        placed.append(
            Placed(
                blank=blank,
                board=board.name,
                x_mm=one.x_mm,
                y_mm=one.y_mm,
                length_mm=one.length_mm,
                width_mm=one.width_mm,
                stage=one.stage,
                shows=show_side(blank.looks, _under(one, board)),
            )
        )
    return BoardLayout(board=board, placed=tuple(placed), cuts=laid.cuts, offcuts=laid.offcuts)


def _asked(laid: LaidBlank, request: LayoutRequest) -> Blank | None:
    """The blank of that name as it is asked for now: alone, as a strip of a panel, or cut as one."""
    found = next((b for b in request.blanks if b.name == laid.name), None)
    if found is not None:
        return found
    head, _, number = laid.name.rpartition(_STRIP)
    panel = next((p for p in request.panels if p.name == head), None)
    if panel is not None and number.isdecimal():
        jointed = laid.width_mm - panel.edge_loss_mm
        fits = panel.least_strip_mm - 1e-3 <= jointed <= panel.greatest_strip_mm + 1e-3
        if not fits or jointed > panel.total_width_mm + 1e-3:
            return None
        return strip_blank(panel, number=int(number), width_mm=laid.width_mm)
    members = tuple(laid.name.split(AND))
    for wish in request.wishes:
        if wish.kind in FOLDED and set(members) <= set(wish.members):
            whole = folded(request.blanks, (wish,), request.cutting)
            one = next((b for b in whole if b.name == laid.name), None)
            if one is not None:
                return one
    return None


def _under(laid: LaidBlank, board: Board) -> Iterator[Defect]:
    """Marks that reach under a blank."""
    for mark in board.defects:
        along = mark.x_mm < laid.x_mm + laid.length_mm and mark.x_mm + mark.length_mm > laid.x_mm
        across = mark.y_mm < laid.y_mm + laid.width_mm and mark.y_mm + mark.width_mm > laid.y_mm
        if along and across:
            yield mark


def _without_marked(
    built: BoardLayout, wrong: Iterable[Violation], done: set[str]
) -> tuple[BoardLayout, list[tuple[str, str]]]:
    """A board begun without the blanks still to be cut that lie on a mark; their wood is left over."""
    told = {
        v.where.rpartition("/")[2]: f"it {v.message} of {built.board.name}"
        for v in wrong
        if v.code in _ON_MARK
    }
    gone = [p for p in built.placed if p.blank.name in told.keys() - done]
    waste = (
        Offcut(
            name=p.blank.name,
            x_mm=p.x_mm,
            y_mm=p.y_mm,
            length_mm=p.length_mm,
            width_mm=p.width_mm,
            usable=False,
        )
        for p in gone
    )
    kept = tuple(p for p in built.placed if p not in gone)
    fresh = replace(built, placed=kept, offcuts=(*built.offcuts, *waste))
    return fresh, [(p.blank.name, told[p.blank.name]) for p in gone]


def _without(request: LayoutRequest, built: BoardLayout) -> LayoutRequest:
    """What is still asked for beside a board that stays."""
    own = {m.name for p in built.placed for m in (p.blank, *p.blank.members)}
    blanks = tuple(b for b in request.blanks if b.name not in own)
    panels = tuple(p for p in (_panel_left(p, built) for p in request.panels) if p is not None)
    names = {b.name for b in blanks} | {p.name for p in panels}
    return replace(
        request,
        boards=tuple(b for b in request.boards if b.name != built.board.name),
        blanks=blanks,
        panels=panels,
        wishes=tuple(w for w in (still_wished(w, names) for w in request.wishes) if w is not None),
    )


def _panel_left(panel: FreeWidthPanel, built: BoardLayout) -> FreeWidthPanel | None:
    there = [p.width_mm - panel.edge_loss_mm for p in built.placed if _head(p.blank.name) == panel.name]
    return panel_left(panel, there)


def _head(name: str) -> str:
    """The panel of a strip; empty for a blank that is none."""
    head, _, number = name.rpartition(_STRIP)
    return head if number.isdecimal() else ""


def panel_left(panel: FreeWidthPanel, there: Sequence[float]) -> FreeWidthPanel | None:
    """What a panel still needs beside strips that are there, of these jointed widths. [mm]"""
    if not there:
        return panel
    left = panel.total_width_mm - sum(there)
    count = panel.greatest_count - len(there)
    if left <= 1e-6 or count <= 0:
        return None
    least = max(1, panel.least_count - len(there))
    narrow = min(panel.least_strip_mm, left)
    return replace(panel, total_width_mm=left, greatest_count=count, least_count=least, least_strip_mm=narrow)


def still_wished(wish: Wish, names: set[str]) -> Wish | None:
    """A wish of what is still to be cut; None where too little of it is left."""
    members = tuple(m for m in wish.members if m in names)
    if len(members) < 2 or (wish.kind in FOLDED and members != wish.members):
        return None
    return replace(wish, members=members)


def with_kept(layout: Layout, kept: Sequence[BoardLayout], asked: LayoutRequest) -> Layout:
    """A layout of the rest and the boards that stay, as one; of such a layout no bound is known.

    Parameters
    ----------
    layout
        Of what was left to lay out.
    kept
        Boards that stay.
    asked
        Everything that was asked for, these boards among it.
    """
    if not kept:
        return layout
    order = {b.name: n for n, b in enumerate(asked.boards)}
    both = sorted(
        (*kept, *_renumbered(layout.boards, kept)), key=lambda b: order.get(b.board.name, len(order))
    )
    prices = [b.board.price_total for b in both]
    whole = sum(b.board.mean_width_mm * b.board.length_mm for b in both)
    net = sum(p.length_mm * p.width_mm for b in both for p in b.placed)
    missing = {s.panel: s.missing_mm for s in layout.strips}
    joined = replace(
        layout,
        boards=tuple(both),
        strips=tuple(_strips(p, both, missing) for p in asked.panels),
        price=None if any(p is None for p in prices) else sum(p for p in prices if p is not None),
        waste_pct=100.0 * (1.0 - net / whole) if whole > 0 else 0.0,
        bound_price=None,
        gap_pct=None,
    )
    taken = tuple(a.wish for a in layout.wishes if a.wish.name not in {w.name for w in asked.wishes})
    wishes = (*asked.wishes, *taken)
    if not wishes:
        return joined
    return replace(joined, wishes=answered(joined, wishes, blanks=asked.blanks, panels=asked.panels))


def _renumbered(boards: Iterable[BoardLayout], kept: Iterable[BoardLayout]) -> Iterator[BoardLayout]:
    """Boards with their strips under numbers that no strip which stays has chalked on it."""
    taken: dict[str, set[str]] = {}
    for board in kept:
        for placed in board.placed:
            taken.setdefault(_head(placed.blank.name), set()).add(placed.blank.name)
    for board in boards:
        names: dict[str, str] = {}
        for placed in board.placed:
            head = _head(placed.blank.name)
            if head and taken.get(head):
                spare = next(
                    f"{head}{_STRIP}{n}" for n in range(1, 1000) if f"{head}{_STRIP}{n}" not in taken[head]
                )
                taken[head].add(spare)
                names[placed.blank.name] = spare
        yield renamed(board, names)


def _strips(panel: FreeWidthPanel, boards: Iterable[BoardLayout], missing: dict[str, float]) -> StripWidths:
    widths = {
        int(p.blank.name.rpartition(_STRIP)[2]): p.width_mm - panel.edge_loss_mm
        for b in boards
        for p in b.placed
        if _head(p.blank.name) == panel.name
    }
    return StripWidths(
        panel=panel.name,
        widths_mm=tuple(widths[n] for n in sorted(widths)),
        missing_mm=missing.get(panel.name, 0.0),
    )


def renamed(board: BoardLayout, names: dict[str, str]) -> BoardLayout:
    """A board with some of its pieces called otherwise."""
    if not names:
        return board
    placed = tuple(
        replace(p, blank=replace(p.blank, name=names.get(p.blank.name, p.blank.name))) for p in board.placed
    )
    cuts = tuple(
        replace(
            c,
            piece=names.get(c.piece, c.piece),
            yields=(names.get(c.yields[0], c.yields[0]), names.get(c.yields[1], c.yields[1])),
        )
        for c in board.cuts
    )
    return replace(board, placed=placed, cuts=cuts)
