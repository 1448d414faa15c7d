"""A part cut from its own place on a board, and the pieces of board that leaves."""

from __future__ import annotations

from dataclasses import replace

from scantling.stock.blank import Blank, accepts_board
from scantling.stock.board import Board, Defect, Price
from scantling.stock.cutting import Cutting
from scantling.stock.looks import SIDES, let_in

__all__ = ["part_off"]


def part_off(board: Board, blank: Blank, at_mm: float, *, cutting: Cutting) -> tuple[Board, ...] | str:
    """Cut a blank out of a board along its lower edge.

    Two crosscuts free the stretch, its lower edge is straightened, the blank is ripped off. What is left and
    right of the stretch, and above the blank, become boards of their own, paid for with this one.

    Parameters
    ----------
    board
        The board.
    blank
        What is cut.
    at_mm
        Where its left end lies, from the left end of the board. [mm]
    cutting
        Kerfs and edges.

    Returns
    -------
    tuple of Board, or str
        What is left; or why the blank cannot lie there.
    """
    end, low = at_mm + blank.length_mm, cutting.straight_edge_mm
    high = low + blank.width_mm
    width = min(board.width_at_mm(max(0.0, at_mm)), board.width_at_mm(min(end, board.length_mm)))
    if not accepts_board(blank, board):
        return f"{board.name} is not of the wood and thickness it asks for"
    if at_mm < board.left_trim_mm or end > board.length_mm - board.right_trim_mm:
        return (
            f"it would end at {end:.0f} mm; {board.name} gives {board.left_trim_mm:.0f} to "
            f"{board.length_mm - board.right_trim_mm:.0f} mm"
        )
    if high > width - cutting.far_edge_mm:
        return (
            f"it would reach {high:.0f} mm up; {board.name} gives {width - cutting.far_edge_mm:.0f} mm there"
        )
    under = [d for d in board.defects if _meets(d, (at_mm, low, end, high))]
    if not any(
        looks is blank.looks and all(let_in(d, looks, shows) for d in under) for looks, shows in SIDES
    ):
        return f"it would lie on the {under[0].kind.value} at {under[0].x_mm:.0f} mm of {board.name}"
    kerf = cutting.crosscut_kerf_mm
    boxes = (
        ("left", (0.0, 0.0, at_mm - kerf, width)),
        ("right", (end + kerf, 0.0, board.length_mm, width)),
        ("over", (at_mm, high + cutting.rip_kerf_mm, end, width)),
    )
    return tuple(_piece(board, side, box) for side, box in boxes if _kept(box, board, side, cutting))


def _meets(defect: Defect, box: tuple[float, float, float, float]) -> bool:
    return (
        defect.x_mm < box[2]
        and defect.x_mm + defect.length_mm > box[0]
        and defect.y_mm < box[3]
        and defect.y_mm + defect.width_mm > box[1]
    )


def _kept(box: tuple[float, float, float, float], board: Board, side: str, cutting: Cutting) -> bool:
    trim = {"left": board.left_trim_mm, "right": board.right_trim_mm}.get(side, 0.0)
    return box[2] - box[0] - trim >= cutting.keep_length_mm and box[3] - box[1] >= cutting.keep_width_mm


def _piece(board: Board, side: str, box: tuple[float, float, float, float]) -> Board:
    """A piece of a board, with the defects that lie on it."""
    defects = tuple(
        replace(
            d,
            x_mm=max(d.x_mm, box[0]) - box[0],
            y_mm=max(d.y_mm, box[1]) - box[1],
            length_mm=min(d.x_mm + d.length_mm, box[2]) - max(d.x_mm, box[0]),
            width_mm=min(d.y_mm + d.width_mm, box[3]) - max(d.y_mm, box[1]),
        )
        for d in board.defects
        if _meets(d, box)
    )
    tapered = board.far_width_mm is not None and side != "over"
    width = board.width_at_mm(box[0]) if tapered else box[3] - box[1]
    return replace(
        board,
        name=f"{board.name} {side}",
        length_mm=box[2] - box[0],
        width_mm=width,
        far_width_mm=board.width_at_mm(box[2]) if tapered else None,
        defects=defects,
        left_trim_mm=board.left_trim_mm if side == "left" else 0.0,
        right_trim_mm=board.right_trim_mm if side == "right" else 0.0,
        price=Price(amount=0.0),
    )
