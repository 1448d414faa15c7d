"""A rack tallied as the yard does it: board feet, price, and how much of each face is free."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from scantling.stock.boards.board import Board

__all__ = ["BoardTally", "StackTally", "free_share_pct", "tally_boards", "tally_stacks"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardTally:
    """One board, measured and priced.

    Parameters
    ----------
    board
        The board.
    free_pct
        Share of its face between the end trims that no defect marks. [% of the whole face]
    price
        What it costs; None where no price is known. [money]
    """

    board: Board
    free_pct: float
    price: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StackTally:
    """All boards of one wood and nominal thickness.

    Parameters
    ----------
    species, nominal
        The wood, and its thickness as the trade writes it.
    boards
        How many.
    tally_board_feet
        By the yard's rule. [board ft]
    board_feet
        As measured. [board ft]
    volume_m3
        Rough volume. [m3]
    price
        What they cost together; None where one has no price. [money]
    """

    species: str
    nominal: str
    boards: int
    tally_board_feet: float
    board_feet: float
    volume_m3: float
    price: float | None


def free_share_pct(board: Board) -> float:
    """Share of a board's face that lies between its end trims and under no defect. [%]

    Defects that overlap are counted once. A tapered board is taken at its mean width.
    """
    low, high = board.left_trim_mm, board.length_mm - board.right_trim_mm
    width = board.mean_width_mm
    boxes = [
        (max(low, d.x_mm), d.y_mm, min(high, d.x_mm + d.length_mm), min(width, d.y_mm + d.width_mm))
        for d in board.defects
    ]
    edges = sorted({low, high, *(x for b in boxes for x in (b[0], b[2]) if low < x < high)})
    free = 0.0
    for left, right in pairwise(edges):
        here = sorted((b[1], b[3]) for b in boxes if b[0] < right and b[2] > left and b[3] > b[1])
        covered, top = 0.0, 0.0
        for bottom, upper in here:
            covered += max(0.0, upper - max(bottom, top))
            top = max(top, upper)
        free += (right - left) * (width - covered)
    return 100.0 * free / (board.length_mm * width)


def tally_boards(boards: Sequence[Board]) -> tuple[BoardTally, ...]:
    """Every board, in the order given."""
    return tuple(BoardTally(board=b, free_pct=free_share_pct(b), price=b.price_total) for b in boards)


def tally_stacks(boards: Sequence[Board]) -> tuple[StackTally, ...]:
    """Boards by wood and nominal thickness, in the order in which they first come."""
    stacks: dict[tuple[str, str], list[Board]] = {}
    for board in boards:
        stacks.setdefault((board.species, board.nominal), []).append(board)
    found = []
    for (species, nominal), members in stacks.items():
        prices = [b.price_total for b in members]
        known = [p for p in prices if p is not None]
        found.append(
            StackTally(
                species=species,
                nominal=nominal,
                boards=len(members),
                tally_board_feet=sum(b.tally_board_feet for b in members),
                board_feet=sum(b.board_feet for b in members),
                volume_m3=sum(b.volume_m3 for b in members),
                price=sum(known) if len(known) == len(prices) else None,
            )
        )
    return tuple(found)
