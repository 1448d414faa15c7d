"""What is left of a board becomes a board, with the marks that fall on it in their places."""

from __future__ import annotations

from scantling.stock.boards.board import Board, Defect, DefectKind, Face, Price
from scantling.stock.layouts.layout import BoardLayout, Offcut
from scantling.stock.layouts.leftover import leftover_boards, offcut_board

BOARD = Board(
    name="C1",
    species="black cherry",
    quarters=5.0,
    width_mm=200.0,
    length_mm=2400.0,
    left_trim_mm=40.0,
    moisture_pct=8.0,
    price=Price(amount=60.0),
    flitch="A",
    defects=(
        Defect(kind=DefectKind.KNOT, x_mm=1450.0, y_mm=30.0, length_mm=100.0, width_mm=60.0, face=Face.BACK),
        Defect(kind=DefectKind.CHECK, x_mm=0.0, y_mm=0.0, length_mm=300.0, width_mm=20.0),
    ),
)


def _offcut(x_mm: float, *, usable: bool = True) -> Offcut:
    return Offcut(
        name=f"C1 at {x_mm:g}", x_mm=x_mm, y_mm=50.0, length_mm=800.0, width_mm=140.0, usable=usable
    )


def _left(*offcuts: Offcut) -> tuple[Board, ...]:
    return leftover_boards(BoardLayout(board=BOARD, placed=(), cuts=(), offcuts=offcuts))


def test_only_what_is_worth_keeping_is_kept() -> None:
    """The plan says which offcuts are."""
    assert [board.name for board in _left(_offcut(0.0, usable=False), _offcut(1500.0))] == ["C1 at 1500"]


def test_marks_are_cut_with_the_board() -> None:
    """By hand: of a knot from 1450 to 1550 and 30 to 90, an offcut from 1500 and 50 on holds 50 by 40.

    It lies at its corner. The check, from 0 to 300 and 0 to 20, lies below an offcut that begins at 50.
    """
    (far,) = _left(_offcut(1500.0))
    (knot,) = far.defects
    assert (knot.x_mm, knot.y_mm, knot.length_mm, knot.width_mm) == (0.0, 0.0, 50.0, 40.0)
    assert (knot.kind, knot.face) == (DefectKind.KNOT, Face.BACK)
    (near,) = _left(_offcut(0.0))
    assert near.defects == ()


def test_it_is_the_same_wood_and_paid_for() -> None:
    """Its ends are fresh, and its price went with the board."""
    left = offcut_board(BOARD, name="C1 rest", length_mm=900.0, width_mm=140.0)
    assert (left.species, left.quarters, left.moisture_pct, left.flitch) == ("black cherry", 5.0, 8.0, "A")
    assert (left.left_trim_mm, left.price, left.note) == (0.0, Price(amount=0.0), "from C1")
    assert (left.length_mm, left.width_mm, left.defects) == (900.0, 140.0, ())
