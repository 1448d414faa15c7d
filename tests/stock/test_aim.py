"""What a layout is to be good at: each weight changes the layout where it should, and by what it is worth."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.stock import (
    Blank,
    Board,
    Layout,
    LayoutRequest,
    Price,
    StopRule,
    lay_out,
    solve,
    verify_layout,
)
from scantling.stock.layouts.aim import Aim, largest_offcut_m2, wasted_m2

RAIL = Blank(name="rail", part="rail", species="cherry", length_mm=900, width_mm=70, thickness_mm=25)


def board(name: str, length: float, width: float, price: float) -> Board:
    """A board."""
    return Board(
        name=name,
        species="cherry",
        quarters=4,
        width_mm=width,
        length_mm=length,
        price=Price(amount=price),
    )


def laid(rack: tuple[Board, ...], count: int, aim: Aim) -> Layout:
    """Rails on a rack, sound by the checker."""
    blanks = tuple(replace(RAIL, name=f"rail {n}") for n in range(count))
    request = LayoutRequest(boards=rack, blanks=blanks, aim=aim)
    layout = lay_out(request)
    assert verify_layout(layout, boards=rack, blanks=blanks, cutting=request.cutting) == ()
    assert layout.complete
    return layout


def used(layout: Layout) -> list[str]:
    """Boards that are cut."""
    return [b.board.name for b in layout.boards]


def test_waste_counts_what_it_weighs() -> None:
    """One rail: a board of 0.4 m2, or one of 0.08 m2 for 10 more; 0.32 m2 at 40 are 12.8, at 20 are 6.4."""
    rack = (board("large", 2000, 200, 20), board("small", 1000, 80, 30))
    assert used(laid(rack, 1, Aim())) == ["large"]
    assert used(laid(rack, 1, Aim(waste=20))) == ["large"]
    assert used(laid(rack, 1, Aim(waste=40))) == ["small"]
    assert wasted_m2(laid(rack, 1, Aim(waste=40))) == pytest.approx(0.08 - 0.063)


def test_price_may_count_for_nothing() -> None:
    """Wood that is paid for: the dear board wastes less, and is cut."""
    rack = (board("large", 2000, 200, 20), board("small", 1000, 80, 300))
    assert used(laid(rack, 1, Aim(price=0, waste=1))) == ["small"]


def test_fewer_cuts_where_a_cut_is_dear() -> None:
    """Three rails out of three narrow boards for 15, or of one wide one for 20 with fewer cuts."""
    narrow = tuple(board(f"narrow {n}", 960, 80, 5) for n in range(3))
    rack = (*narrow, board("wide", 960, 240, 20))
    cheap, few = laid(rack, 3, Aim()), laid(rack, 3, Aim(cut=3))
    assert (len(used(cheap)), used(few)) == (3, ["wide"])
    cuts = [sum(len(b.cuts) for b in layout.boards) for layout in (cheap, few)]
    assert cuts[1] < cuts[0]


def test_a_large_offcut_is_kept_where_it_is_worth_it() -> None:
    """One rail from a short board for 20, or from a long one for 25 that leaves 0.2 m2 in one piece."""
    rack = (board("short", 960, 80, 20), board("long", 2400, 160, 25))
    assert used(laid(rack, 1, Aim())) == ["short"]
    kept = laid(rack, 1, Aim(offcut=40))
    assert used(kept) == ["long"]
    assert largest_offcut_m2(kept) > 0.2


def test_no_weight_pays_for_leaving_a_blank_out() -> None:
    """Cuts dear beyond reason: everything is cut all the same."""
    assert laid((board("A", 2000, 170, 40),), 4, Aim(cut=1e4, waste=1e4)).complete


def test_the_bound_is_told_for_price_alone() -> None:
    """Where more than price counts there is no bound on the price, and the gap is that of all that counts."""
    blanks = tuple(replace(RAIL, name=f"rail {n}") for n in range(3))
    rack = (board("A", 2000, 170, 40), board("B", 2000, 170, 45))
    for aim, told in ((Aim(), True), (Aim(cut=1.0), False)):
        request = LayoutRequest(boards=rack, blanks=blanks, aim=aim)
        answers = list(solve(request, stop=StopRule(), seed=1))
        assert (answers[-1].layout.bound_price is not None) is told
        assert answers[-1].cost >= answers[-1].bound
