"""A rack's tally: what a board counts, costs, and how much of its face is free."""

from dataclasses import replace

import pytest

from scantling.stock import Board, Defect, DefectKind, Price, PriceBasis, tally_boards, tally_stacks
from scantling.stock.boards.tally import free_share_pct

BOARD = Board(name="A", species="cherry", quarters=8, width_mm=6.25 * 25.4, length_mm=8.9 * 304.8)


def knot(x: float, y: float, length: float, width: float) -> Defect:
    """A knot."""
    return Defect(kind=DefectKind.KNOT, x_mm=x, y_mm=y, length_mm=length, width_mm=width)


def test_a_tallied_foot_is_paid_by_the_yards_rule() -> None:
    """8.9 ft are paid as 8: 8 board feet by the tally, 9.27 as measured (worked by hand)."""
    measured = replace(BOARD, price=Price(amount=10, basis=PriceBasis.BOARD_FOOT))
    tallied = replace(BOARD, price=Price(amount=10, basis=PriceBasis.TALLIED_FOOT))
    prices = [t.price for t in tally_boards([measured, tallied])]
    assert prices == [pytest.approx(92.7083, abs=1e-3), 80.0]


def test_free_share_counts_what_overlaps_once() -> None:
    """1000 x 100 less 100 of ends, less knots of 100 x 50 and 50 x 50 that overlap by 25 x 50: 83.75 %."""
    board = replace(
        BOARD,
        width_mm=100,
        length_mm=1000,
        left_trim_mm=60,
        right_trim_mm=40,
        defects=(knot(500, 0, 100, 50), knot(575, 0, 50, 50)),
    )
    assert free_share_pct(board) == pytest.approx(100 * (90_000 - 5_000 - 2_500 + 1_250) / 100_000)
    assert free_share_pct(replace(board, defects=(knot(0, 0, 30, 100),))) == pytest.approx(90.0)


def test_stacks_add_up_and_do_not_invent_a_price() -> None:
    """Boards of one wood and thickness are one stack; one board without a price leaves the stack without."""
    priced = replace(BOARD, price=Price(amount=40))
    stacks = tally_stacks([priced, replace(BOARD, name="B"), replace(priced, name="C", quarters=4)])
    assert [(s.nominal, s.boards, s.tally_board_feet, s.price) for s in stacks] == [
        ("8/4", 2, 16.0, None),
        ("4/4", 1, 4.0, 40.0),
    ]
