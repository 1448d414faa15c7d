"""Changes by hand: what is cut stays, what is forbidden is left, new knots are kept clear of."""

from dataclasses import replace

import pytest

from scantling.errors import InputError
from scantling.stock import (
    Blank,
    Board,
    Defect,
    DefectKind,
    FreeWidthPanel,
    LayoutRequest,
    Price,
    lay_out,
    verify_layout,
)
from scantling.stock.byhand import ByHand, lay_out_rest

BOARD = Board(name="A", species="cherry", quarters=4, width_mm=170, length_mm=2000, price=Price(amount=40))
RACK = (BOARD, replace(BOARD, name="B"), replace(BOARD, name="C", price=Price(amount=45)))
RAIL = Blank(name="rail", part="rail", species="cherry", length_mm=900, width_mm=70, thickness_mm=25)
TOP = FreeWidthPanel(
    name="top",
    part="top",
    species="cherry",
    length_mm=900,
    total_width_mm=300,
    thickness_mm=25,
    least_strip_mm=60,
    greatest_strip_mm=150,
    edge_loss_mm=4,
)
REQUEST = LayoutRequest(
    boards=RACK, blanks=tuple(replace(RAIL, name=f"rail {n}") for n in range(4)), panels=(TOP,)
)
FIRST = lay_out(REQUEST)


def broken(layout: object, boards: tuple[Board, ...] = RACK) -> object:
    """What the checker says."""
    return verify_layout(
        layout, boards=boards, blanks=REQUEST.blanks, panels=REQUEST.panels, cutting=REQUEST.cutting
    )  # type: ignore[arg-type]


def test_a_kept_board_stays_to_the_last_cut() -> None:
    """Board A is cut; the rest is laid out anew and the whole is still sound."""
    again = lay_out_rest(REQUEST, FIRST, ByHand(keep=frozenset({"A"})))
    assert again.boards[0] == FIRST.boards[0]
    assert (again.complete, again.price) == (True, FIRST.price)
    assert broken(again) == ()


def test_a_forbidden_board_is_left() -> None:
    """Without B the dearer C is cut."""
    again = lay_out_rest(REQUEST, FIRST, ByHand(keep=frozenset({"A"}), forbid=frozenset({"B"})))
    assert [b.board.name for b in again.boards] == ["A", "C"]
    assert "B" in {b.name for b in again.unused}
    assert broken(again) == ()


def test_a_knot_found_after_planing() -> None:
    """A knot across B makes the layout avoid it; A, already cut, does not move."""
    knot = Defect(kind=DefectKind.KNOT, x_mm=400, y_mm=0, length_mm=200, width_mm=170)
    change = ByHand(keep=frozenset({"A"}), found={"B": (knot,)})
    again = lay_out_rest(REQUEST, FIRST, change)
    rack = (RACK[0], replace(RACK[1], defects=(knot,)), RACK[2])
    assert again.boards[0] == FIRST.boards[0]
    assert again.complete
    assert broken(again, rack) == ()


def test_a_kept_board_cannot_be_forbidden() -> None:
    """Contradictions are named."""
    with pytest.raises(InputError) as caught:
        lay_out_rest(REQUEST, FIRST, ByHand(keep=frozenset({"A"}), forbid=frozenset({"A"})))
    assert (caught.value.code, caught.value.value) == ("board_not_free", "A")
