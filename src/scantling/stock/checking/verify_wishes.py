"""Checking the wishes of a layout from nothing: reads boards and places, and knows no search."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.piece.matching import WishKind
from scantling.stock.asked.blank import Blank, accepts_board
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.board import Board
from scantling.stock.checking.violation import TOLERANCE_MM, Violation
from scantling.stock.layouts.layout import Layout, Placed

__all__ = ["check_wishes"]


def check_wishes(
    layout: Layout, *, blanks: tuple[Blank, ...], wishes: tuple[Wish, ...], cutting: Cutting
) -> Iterator[Violation]:
    """Check blanks cut as one, what must be, and what is told of each wish."""
    asked = {b.name: b for b in blanks}
    laid = [(b.board, p) for b in layout.boards for p in b.placed]
    for board, placed in laid:
        if placed.blank.members and placed.blank == asked.get(placed.blank.name):
            yield from _length(board, placed, cutting)
        elif placed.blank.members:
            yield from _fold(board, placed, asked, wishes, cutting)
    told = {a.wish.name: a.granted for a in layout.wishes}
    for wish in wishes:
        there, sound = _state(wish, laid, layout)
        if told.get(wish.name) is not (there and sound):
            said = "granted" if told.get(wish.name) else "not granted"
            yield Violation(code="wish_told", where=wish.name, message=f"said to be {said}, and is not so")
        if wish.worth is None and not sound:
            yield Violation(code="wish_broken", where=wish.name, message=f"must be: {wish.kind.value}")


def _length(board: Board, placed: Placed, cutting: Cutting) -> Iterator[Violation]:
    """A length asked for holds the parts crosscut out of it later, and the kerfs between."""
    parts = placed.blank.members
    where = f"{board.name}/{placed.blank.name}"
    need = sum(m.length_mm for m in parts) + (len(parts) - 1) * cutting.crosscut_kerf_mm
    if placed.length_mm < need - TOLERANCE_MM or any(
        m.width_mm > placed.width_mm + TOLERANCE_MM for m in parts
    ):
        yield Violation(
            code="length_size", where=where, message=f"is {placed.length_mm} mm, its parts take {need} mm"
        )
    if not all(accepts_board(m, board) and m.looks is placed.blank.looks for m in parts):
        yield Violation(code="wrong_board", where=where, message="not all its parts may come from this board")


def _fold(
    board: Board, placed: Placed, asked: dict[str, Blank], wishes: tuple[Wish, ...], cutting: Cutting
) -> Iterator[Violation]:
    """A blank that stands for several holds them all, with the kerfs that part them."""
    where = f"{board.name}/{placed.blank.name}"
    names = tuple(m.name for m in placed.blank.members)
    kind = next((w.kind for w in wishes if _asks(w, names)), None)
    if kind is None or any(m != asked.get(m.name) for m in placed.blank.members):
        yield Violation(code="fold_unasked", where=where, message="no wish asks to cut these as one")
        return
    parts, gaps = placed.blank.members, len(names) - 1
    need = [
        max(m.length_mm for m in parts),
        max(m.width_mm for m in parts),
        max(m.thickness_mm for m in parts),
    ]
    if kind is WishKind.RUN_THROUGH:
        need[0] = sum(m.length_mm for m in parts) + gaps * cutting.crosscut_kerf_mm
    elif kind is WishKind.SIDE_BY_SIDE:
        need[1] = sum(m.width_mm for m in parts) + gaps * cutting.rip_kerf_mm
    else:
        need[2] = sum(m.needed_mm or m.thickness_mm for m in parts) + gaps * cutting.resaw_kerf_mm
        if placed.width_mm > cutting.resaw_most_mm + TOLERANCE_MM:
            yield Violation(code="fold_size", where=where, message="is too wide to be resawn")
    has = (placed.length_mm, placed.width_mm, board.rough_thickness_mm)
    if any(h < n - TOLERANCE_MM for h, n in zip(has, need, strict=True)):
        yield Violation(
            code="fold_size", where=where, message=f"is {has} mm, its parts take {tuple(need)} mm"
        )
    if not kind.leaves and not all(accepts_board(m, board) for m in parts):
        yield Violation(code="wrong_board", where=where, message="not all its parts may come from this board")


def _asks(wish: Wish, names: tuple[str, ...]) -> bool:
    if wish.kind.leaves:
        return len(names) == 2 and any(
            wish.members[n : n + 2] == names for n in range(0, len(wish.members), 2)
        )
    return wish.kind in (WishKind.RUN_THROUGH, WishKind.SIDE_BY_SIDE) and wish.members == names


def _holds(placed: Placed, member: str) -> bool:
    """Whether a blank is a member, holds it, or is a strip of it."""
    names = [m.name for m in placed.blank.members] or [placed.blank.name]
    return any(n == member or n.startswith(f"{member} strip ") for n in names)


def _state(wish: Wish, laid: list[tuple[Board, Placed]], layout: Layout) -> tuple[bool, bool]:
    """Whether all members are there, and whether those that are there lie as wished."""
    lying = [
        (board, member, tuple(m.name for m in placed.blank.members))
        for board, placed in laid
        for member in wish.members
        if _holds(placed, member)
    ]
    short = {s.panel for s in layout.strips if s.missing_mm > TOLERANCE_MM}
    there = {m for _, m, _ in lying} == set(wish.members) and not short & set(wish.members)
    if wish.kind.leaves:
        return there, all(_asks(wish, names) for _, _, names in lying)
    if wish.kind in (WishKind.RUN_THROUGH, WishKind.SIDE_BY_SIDE):
        return there, len(wish.members) == 1 or all(_asks(wish, names) for _, _, names in lying)
    boards = list({board.name: board for board, _, _ in lying}.values())
    if len(boards) < 2 or wish.kind is WishKind.SAME_BOARD:
        return there, len(boards) < 2
    one_flitch = bool(boards[0].flitch) and len({b.flitch for b in boards}) == 1
    if wish.kind is WishKind.SAME_FLITCH:
        return there, one_flitch
    places = sorted(b.sequence for b in boards if b.sequence is not None)
    return there, one_flitch and len(boards) == 2 and len(places) == 2 and places[1] - places[0] == 1
