"""What a rack cannot give is named before the search, with the smallest board that would do."""

from dataclasses import replace

import pytest

from scantling.piece.matching import WishKind
from scantling.stock import (
    Blank,
    Board,
    Cutting,
    FreeWidthPanel,
    LayoutRequest,
    Price,
    findings_after,
    findings_before,
    lay_out,
)
from scantling.stock.asked.wish import Wish

BOARD = Board(
    name="A",
    species="cherry",
    quarters=4,
    width_mm=150,
    length_mm=2000,
    left_trim_mm=20,
    right_trim_mm=20,
    price=Price(amount=50),
)
BLANK = Blank(name="rail", part="rail", species="cherry", length_mm=1000, width_mm=100, thickness_mm=25)
CUTTING = Cutting()


def before(blank: Blank, *boards: Board) -> list[tuple[str, str]]:
    """Code and place of each finding."""
    report = findings_before(boards or (BOARD,), (blank,), cutting=CUTTING)
    return [(f.code, f.where) for f in report.findings]


def test_a_blank_that_fits_gives_no_finding() -> None:
    """As long and as wide as the board allows is still all right."""
    assert before(replace(BLANK, length_mm=1960, width_mm=142)) == []


def test_too_long_too_wide_wrong_wood_too_thick() -> None:
    """One millimeter more than the board gives trips each rule."""
    assert before(replace(BLANK, length_mm=1961)) == [("T01", "rail")]
    assert before(replace(BLANK, width_mm=143)) == [("T02", "rail")]
    assert before(replace(BLANK, species="oak")) == [("T03", "rail")]
    assert before(replace(BLANK, thickness_mm=25.5)) == [("T04", "rail")]
    assert before(replace(BLANK, quarters=(8,))) == [("T04", "rail")]


def test_the_smallest_board_that_would_do_is_named() -> None:
    """Length with end trims and width with edges stand in the advice."""
    report = findings_before((BOARD,), (replace(BLANK, length_mm=2500),), cutting=CUTTING)
    assert "at least 2540 mm long, 108 mm wide and 25 mm thick" in report.findings[0].advice
    assert report.findings[0].numbers == {"needed_mm": 2500, "longest_mm": 1960}


def test_long_boards_too_narrow_and_wide_ones_too_short() -> None:
    """A blank that no single board fits is named though each size alone would do."""
    narrow = replace(BOARD, name="B", length_mm=3000, width_mm=80)
    assert before(replace(BLANK, length_mm=2500), BOARD, narrow) == [("T02", "rail")]


@pytest.mark.parametrize("kind", [WishKind.SAME_BOARD, WishKind.SAME_FLITCH, WishKind.ALIKE])
def test_what_must_belong_together_and_is_larger_than_any_board(kind: WishKind) -> None:
    """Three of 1000 x 140 mm are 0.42 m2; 1960 x 142 mm of a board are 0.278: told before the search.

    A board as long as that must give 420000 / 1960 = 214.3 mm, and 8 more for its edges. Two such boards are
    enough where they are of one flitch, and neighbors; a wish of some worth is no finding.
    """
    blanks = tuple(replace(BLANK, name=f"rail {n}", width_mm=140) for n in range(3))
    wish = Wish(name="rails", kind=kind, members=tuple(b.name for b in blanks))

    def told(*boards: Board, worth: float | None = None) -> list[tuple[str, str]]:
        asked = (replace(wish, worth=worth),)
        found = findings_before(boards, blanks, cutting=CUTTING, wishes=asked).findings
        assert all("one board of 2000 mm that is no narrower than 223 mm" in f.advice for f in found)
        return [(f.code, f.where) for f in found]

    other = replace(BOARD, name="B")
    assert told(BOARD, other) == [("T06", "rails")]
    assert told(BOARD, worth=50) == []
    flitch = (replace(BOARD, flitch="K", sequence=1), replace(other, flitch="K", sequence=2))
    assert told(*flitch) == ([("T06", "rails")] if kind is WishKind.SAME_BOARD else [])


def test_a_board_without_price_among_priced_ones() -> None:
    """It is counted at the mean rate, and that is said."""
    assert before(BLANK, BOARD, replace(BOARD, name="B", price=None)) == [("T07", "rack")]


def test_what_is_missing_afterwards_is_proven() -> None:
    """Three 900 mm rails of full width from one board: one has no place, and no search could find one."""
    blanks = tuple(replace(BLANK, name=f"rail {n}", length_mm=900, width_mm=142) for n in range(3))
    layout = lay_out(LayoutRequest(boards=(BOARD,), blanks=blanks))
    report = findings_after(layout, boards=(BOARD,), cutting=CUTTING)
    assert [(f.code, f.where) for f in report.findings] == [("T05", "rail 2")]
    assert "the wood is not there" in report.findings[0].message


def test_a_panel_short_of_width() -> None:
    """The width a panel lacks stands in the finding."""
    panel = FreeWidthPanel(
        name="top",
        part="top",
        species="cherry",
        length_mm=1900,
        total_width_mm=200,
        thickness_mm=25,
        least_strip_mm=50,
        greatest_strip_mm=150,
        edge_loss_mm=2,
    )
    layout = lay_out(LayoutRequest(boards=(BOARD,), blanks=(), panels=(panel,)))
    report = findings_after(layout, panels=(panel,), boards=(BOARD,), cutting=CUTTING)
    assert [(f.code, f.numbers["missing_mm"]) for f in report.findings] == [("T05", 60.0)]


def test_thicker_boards_that_lie_unused_are_a_way_out() -> None:
    """Of two 8/4 boards the one long and wide enough to be planed down is named, with what to write."""
    blanks = tuple(
        replace(BLANK, name=f"rail {n}", length_mm=900, width_mm=142, quarters=(4,)) for n in range(3)
    )
    thick = replace(BOARD, name="B", quarters=8)
    boards = (BOARD, thick, replace(thick, name="C", width_mm=120), replace(thick, name="D", species="oak"))
    layout = lay_out(LayoutRequest(boards=boards, blanks=blanks))
    (short,) = findings_after(layout, boards=boards, cutting=CUTTING).findings
    assert short.advice.endswith("lies there: B (8/4), long and wide enough; write quarters: 8 at rail.")
    alone = findings_after(
        lay_out(LayoutRequest(boards=(BOARD,), blanks=blanks)), boards=(BOARD,), cutting=CUTTING
    )
    assert "plane down" not in alone.findings[0].advice


def test_where_the_rack_has_thicker_stock_only_it_is_named() -> None:
    """A 4/4 rail and an 8/4 board: bring 4/4, or plane the 8/4 down."""
    thick = replace(BOARD, quarters=8)
    (found,) = findings_before((thick,), (replace(BLANK, quarters=(4,)),), cutting=CUTTING).findings
    assert found.code == "T04"
    assert found.advice.endswith("A (8/4), long and wide enough; write quarters: 8 at rail.")
