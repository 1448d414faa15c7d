"""A part cut from its own place on a board, and the pieces of board that leaves."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.stock.asked.blank import Blank, accepts_board, accepts_rings
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import Board, Defect, Price
from scantling.stock.boards.looks import SIDES, let_in
from scantling.stock.checking.rings_told import asked_sawn, board_sawn

__all__ = ["Piece", "Place", "part_off"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a blank is to lie on a board.

    Parameters
    ----------
    at_mm
        Its left end, from the left end of the board. [mm]
    up_mm
        Its lower edge, from that of the board; None for the lowest it can lie. [mm]
    """

    at_mm: float
    up_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A piece of board that is left, and where its lower left corner lay. [mm]"""

    board: Board
    x_mm: float
    y_mm: float


def part_off(board: Board, blank: Blank, place: Place, *, cutting: Cutting) -> tuple[Piece, ...] | str:
    """Cut a blank out of a board at its own place.

    Two crosscuts free the stretch, its lower edge is straightened, the blank is ripped off below and above.
    What is left and right of the stretch, under and over the blank, become boards of their own, paid for with
    this one.

    Parameters
    ----------
    board
        The board.
    blank
        What is cut.
    place
        Where.
    cutting
        Kerfs and edges.

    Returns
    -------
    tuple of Piece, or str
        What is left; or why the blank cannot lie there.
    """
    at_mm, end = place.at_mm, place.at_mm + blank.length_mm
    low = cutting.straight_edge_mm if place.up_mm is None else place.up_mm
    high = low + blank.width_mm
    width = min(board.width_at_mm(max(0.0, at_mm)), board.width_at_mm(min(end, board.length_mm)))
    if not accepts_board(replace(blank, sawn=()), board):
        return f"{board.name} is not of the wood and thickness it asks for"
    if not accepts_rings(blank, board):
        return f"it is to be {asked_sawn(blank)}, and {board.name} is {board_sawn(board)}"
    if at_mm < board.left_trim_mm or end > board.length_mm - board.right_trim_mm:
        return (
            f"it would end at {end:.0f} mm; {board.name} gives {board.left_trim_mm:.0f} to "
            f"{board.length_mm - board.right_trim_mm:.0f} mm"
        )
    if low < cutting.straight_edge_mm - 1e-6:
        return (
            f"{cutting.straight_edge_mm:.0f} mm are lost when the lower edge of {board.name} is straightened"
        )
    if high > width - cutting.far_edge_mm:
        return (
            f"it would reach {high:.0f} mm up; {board.name} gives {width - cutting.far_edge_mm:.0f} mm there"
        )
    on = [d for d in board.defects if _meets(d, (at_mm, low, end, high))]
    if not any(looks is blank.looks and all(let_in(d, looks, shows) for d in on) for looks, shows in SIDES):
        return f"it would lie on the {on[0].kind.value} at {on[0].x_mm:.0f} mm of {board.name}"
    kerf, rip = cutting.crosscut_kerf_mm, cutting.rip_kerf_mm
    boxes = (
        ("left", (0.0, 0.0, at_mm - kerf, width)),
        ("right", (end + kerf, 0.0, board.length_mm, width)),
        ("under", (at_mm, cutting.straight_edge_mm, end, low - rip)),
        ("over", (at_mm, high + rip, end, width)),
    )
    return tuple(
        Piece(board=_piece(board, side, box), x_mm=box[0], y_mm=box[1])
        for side, box in boxes
        if _kept(box, board, side, cutting)
    )


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
    tapered = board.far_width_mm is not None and side not in ("under", "over")
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
