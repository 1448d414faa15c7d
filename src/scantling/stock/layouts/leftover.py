"""What is left of a board once its parts are cut out: boards of their own, with the marks on them."""

from __future__ import annotations

from dataclasses import replace

from scantling.errors import InputError
from scantling.stock.boards.board import Board, Defect, FirstCut, Price
from scantling.stock.layouts.layout import BoardLayout, Offcut

__all__ = ["leftover_boards", "offcut_board"]

_LEAST_MM = 1.0
"""A mark that reaches less than this onto a piece is not on it. [mm]"""


def leftover_boards(cut: BoardLayout) -> tuple[Board, ...]:
    """The offcuts of a board that are large enough to keep, as boards.

    Parameters
    ----------
    cut
        The board with what was cut from it.
    """
    return tuple(_marked(cut.board, offcut) for offcut in cut.offcuts if offcut.usable)


def offcut_board(board: Board, *, name: str, length_mm: float, width_mm: float) -> Board:
    """A piece of a board that was kept, measured at the bench; where it lay on the board is not known.

    Parameters
    ----------
    board
        What it came from.
    name
        What is chalked on it.
    length_mm, width_mm
        Its size. [mm]

    Returns
    -------
    Board
        Paid for with the board it came from; its marks have to be looked for again.

    Raises
    ------
    InputError
        ``not_positive``, ``larger_than_board``.
    """
    most_mm = max(board.width_mm, board.far_width_mm or 0.0)
    if min(length_mm, width_mm) <= 0.0:
        raise InputError(
            code="not_positive",
            field="offcut",
            value=f"{length_mm:g} × {width_mm:g} mm",
            rule="must have a length and a width above 0",
            remedy="Measure it again.",
        )
    if length_mm > board.length_mm + _LEAST_MM or width_mm > most_mm + _LEAST_MM:
        raise InputError(
            code="larger_than_board",
            field="offcut",
            value=f"{length_mm:g} × {width_mm:g} mm",
            rule=f"must fit on {board.name}, which was {board.length_mm:g} × {most_mm:g} mm",
            remedy="Length comes first, along the grain; then the width.",
        )
    return replace(
        board,
        name=name,
        length_mm=length_mm,
        width_mm=width_mm,
        far_width_mm=None,
        defects=(),
        left_trim_mm=0.0,
        right_trim_mm=0.0,
        price=Price(amount=0.0),
        first_cut=FirstCut.CROSSCUT,
        note=f"from {board.name}",
        photo="",
    )


def _marked(board: Board, offcut: Offcut) -> Board:
    size = offcut_board(board, name=offcut.name, length_mm=offcut.length_mm, width_mm=offcut.width_mm)
    found = (_on(defect, offcut) for defect in board.defects)
    return replace(size, defects=tuple(defect for defect in found if defect is not None))


def _on(defect: Defect, offcut: Offcut) -> Defect | None:
    """The part of a mark that lies on an offcut, measured from its own corner; None where none does."""
    left, low = max(defect.x_mm, offcut.x_mm), max(defect.y_mm, offcut.y_mm)
    right = min(defect.x_mm + defect.length_mm, offcut.x_mm + offcut.length_mm)
    high = min(defect.y_mm + defect.width_mm, offcut.y_mm + offcut.width_mm)
    if right - left < _LEAST_MM or high - low < _LEAST_MM:
        return None
    return replace(
        defect,
        x_mm=left - offcut.x_mm,
        y_mm=low - offcut.y_mm,
        length_mm=right - left,
        width_mm=high - low,
    )
