"""Changes by hand: boards already cut stay, boards are forbidden, knots are found; the rest is laid anew."""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass, field, replace

from scantling.errors import InputError
from scantling.stock.blank import FreeWidthPanel
from scantling.stock.board import Board, Defect
from scantling.stock.layout import BoardLayout, Layout, Placed, StripWidths
from scantling.stock.solve import LayoutRequest, lay_out

__all__ = ["ByHand", "lay_out_rest"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ByHand:
    """What the maker has decided or found.

    Parameters
    ----------
    keep
        Boards whose layout stays, because they are cut or because it is liked.
    forbid
        Boards nothing more may be cut from.
    found
        New defects by board, found after planing.
    """

    keep: frozenset[str] = frozenset()
    forbid: frozenset[str] = frozenset()
    found: Mapping[str, tuple[Defect, ...]] = field(default_factory=dict)


def _check(request: LayoutRequest, layout: Layout, change: ByHand) -> None:
    names = {b.name for b in request.boards}
    laid = {b.board.name for b in layout.boards}
    for field_name, given, allowed in (
        ("keep", change.keep, laid),
        ("forbid", change.forbid, names - change.keep),
        ("found", set(change.found), names - change.keep),
    ):
        for name in sorted(given - allowed):
            raise InputError(
                code="board_not_free",
                field=field_name,
                value=name,
                rule=f"must be one of {', '.join(sorted(allowed)) or 'none'}",
                remedy="A board whose layout is kept can be neither forbidden nor marked; release it first.",
            )


def _panel_left(panel: FreeWidthPanel, strips: list[Placed]) -> FreeWidthPanel | None:
    """What a panel still needs beside the strips kept."""
    width = sum(s.width_mm - panel.edge_loss_mm for s in strips)
    left = panel.total_width_mm - width
    count = panel.greatest_count - len(strips)
    if left <= 1e-6 or count <= 0:
        return None
    least = max(1, panel.least_count - len(strips))
    return replace(panel, total_width_mm=left, greatest_count=count, least_count=least)


def _strips_of(panel: str, boards: tuple[BoardLayout, ...]) -> list[Placed]:
    return [p for b in boards for p in b.placed if p.blank.name.startswith(f"{panel} strip ")]


def _marked(board: Board, change: ByHand) -> Board:
    return replace(board, defects=(*board.defects, *change.found.get(board.name, ())))


def lay_out_rest(
    request: LayoutRequest, layout: Layout, change: ByHand, *, rounds: int = 12, seed: int = 1
) -> Layout:
    """Lay out anew what a change by hand leaves open.

    Parameters
    ----------
    request
        The whole question.
    layout
        The layout so far.
    change
        What stays, what is forbidden, what was found.
    rounds, seed
        As for :func:`lay_out`.

    Returns
    -------
    Layout
        Kept boards as they were, the rest anew. The bound is that of a layout with these boards kept.

    Raises
    ------
    InputError
        ``board_not_free``.
    """
    _check(request, layout, change)
    kept = tuple(b for b in layout.boards if b.board.name in change.keep)
    there = {p.blank.name for b in kept for p in b.placed}
    held = {panel.name: _strips_of(panel.name, kept) for panel in request.panels}
    panels = [_panel_left(panel, held[panel.name]) for panel in request.panels]
    away = change.keep | change.forbid
    rest = replace(
        request,
        boards=tuple(_marked(b, change) for b in request.boards if b.name not in away),
        blanks=tuple(b for b in request.blanks if b.name not in there),
        panels=tuple(p for p in panels if p is not None),
    )
    found = lay_out(rest, rounds=rounds, seed=seed)
    return _joined(request, kept, found, held=held, forbid=change.forbid)


def _joined(
    request: LayoutRequest,
    kept: tuple[BoardLayout, ...],
    found: Layout,
    *,
    held: dict[str, list[Placed]],
    forbid: Set[str],
) -> Layout:
    """Kept boards and new ones as one layout, strips numbered on from those kept."""
    renamed = {
        old: new
        for panel in request.panels
        for old, new in _new_names(panel, held[panel.name], found).items()
    }
    boards = (*kept, *(_rename(b, renamed) for b in found.boards))
    order = {b.name: n for n, b in enumerate(request.boards)}
    sunk = [b.board.price_total for b in kept]
    paid = None if any(p is None for p in sunk) else sum(p for p in sunk if p is not None)
    price = None if paid is None or found.price is None else paid + found.price
    bound = None if paid is None or found.bound_price is None else paid + found.bound_price
    whole = sum(b.board.mean_width_mm * b.board.length_mm for b in boards)
    net = sum(p.length_mm * p.width_mm for b in boards for p in b.placed)
    gap = found.gap_pct
    if gap is not None and price and bound is not None:
        gap = max(0.0, 100.0 * (price - bound) / price)
    return replace(
        found,
        boards=tuple(sorted(boards, key=lambda b: order[b.board.name])),
        strips=tuple(_strip_widths(panel, held[panel.name], found) for panel in request.panels),
        unused=(*found.unused, *(b for b in request.boards if b.name in forbid)),
        price=price,
        bound_price=bound,
        gap_pct=gap,
        waste_pct=100.0 * (1.0 - net / whole) if whole > 0 else 0.0,
    )


def _free_numbers(panel: str, held: list[Placed], count: int) -> list[int]:
    taken = {int(p.blank.name.removeprefix(f"{panel} strip ")) for p in held}
    return [n for n in range(1, len(taken) + count + 1) if n not in taken][:count]


def _new_names(panel: FreeWidthPanel, held: list[Placed], found: Layout) -> dict[str, str]:
    made = next((len(s.widths_mm) for s in found.strips if s.panel == panel.name), 0)
    numbers = _free_numbers(panel.name, held, made)
    return {f"{panel.name} strip {n}": f"{panel.name} strip {new}" for n, new in enumerate(numbers, start=1)}


def _rename(board: BoardLayout, names: Mapping[str, str]) -> BoardLayout:
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


def _strip_widths(panel: FreeWidthPanel, held: list[Placed], found: Layout) -> StripWidths:
    new = next((s for s in found.strips if s.panel == panel.name), None)
    widths = {
        int(p.blank.name.removeprefix(f"{panel.name} strip ")): p.width_mm - panel.edge_loss_mm for p in held
    }
    fresh = new.widths_mm if new else ()
    widths.update(zip(_free_numbers(panel.name, held, len(fresh)), fresh, strict=True))
    missing = new.missing_mm if new else max(0.0, panel.total_width_mm - sum(widths.values()))
    return StripWidths(
        panel=panel.name,
        widths_mm=tuple(widths[n] for n in sorted(widths)),
        missing_mm=missing if missing > 1e-6 else 0.0,
    )
