"""What to buy without a rack, against the definition of board measure and worked values."""

import pytest

from scantling.stock import Blank, Board, FreeWidthPanel, Yield, boards_to_buy, buy_board_feet


def test_board_foot_is_144_cubic_inches() -> None:
    """8/4 x 7 1/2 in x 9 ft is 11.25 board feet: 2 x 7.5 x 108 / 144 (board measure by definition)."""
    board = Board(name="A", species="oak", quarters=8, width_mm=7.5 * 25.4, length_mm=9 * 304.8)
    assert round(board.board_feet, 9) == 11.25


def test_under_an_inch_counts_as_an_inch() -> None:
    """3/4 stock is tallied as 4/4 (NHLA rules)."""
    thin = Board(name="A", species="oak", quarters=3, width_mm=152.4, length_mm=2438.4)
    assert round(thin.board_feet, 9) == 4.0


def test_yield_divides() -> None:
    """62 board feet net at 65 % yield are 95.4 to buy, 11.7 more than net plus 35 %."""
    buy = buy_board_feet(62.0, yield_pct=65.0)
    assert round(buy, 1) == 95.4
    assert round(buy - 62.0 * 1.35, 1) == 11.7


def test_purchase_by_species_and_thickness() -> None:
    """Blanks and panels add up by thickness; the reason and the least board come along."""
    leg = Blank(
        name="leg", part="leg", species="oak", length_mm=1219.2, width_mm=76.2, thickness_mm=50, quarters=(8,)
    )
    top = FreeWidthPanel(
        name="top",
        part="top",
        species="oak",
        length_mm=1219.2,
        total_width_mm=304.8 - 2 * 6,
        thickness_mm=25,
        least_strip_mm=100,
        greatest_strip_mm=200,
        edge_loss_mm=6,
        quarters=(4, 5),
    )
    found = boards_to_buy((leg,), (top,), expected=Yield(yield_pct=50.0, reason="knotty"))
    assert [(p.species, p.quarters, round(p.net_board_feet, 6)) for p in found] == [
        ("oak", 4, 4.0),
        ("oak", 8, 2.0),
    ]
    assert round(found[0].buy_board_feet, 6) == 8.0
    assert found[0].buy_m3 == pytest.approx(8 * 0.002359737, rel=1e-6)
    assert (found[0].reason, found[1].widest_mm, found[1].longest_mm) == ("knotty", 76.2, 1219.2)


@pytest.mark.parametrize(
    ("thickness_mm", "quarters"),
    [(27.0, 4), (34.0, 5), (41.0, 6), (52.0, 8), (54.0, 8), (65.0, 10), (80.0, 12)],
)
def test_metric_boards_count_as_the_quarters_they_cover(thickness_mm: float, quarters: float) -> None:
    """The usual metric thicknesses stand for 4/4 to 12/4 (common practice)."""
    board = Board(name="A", species="oak", thickness_mm=thickness_mm, width_mm=150, length_mm=2000)
    assert board.nominal_quarters == quarters
