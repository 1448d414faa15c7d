"""The label of a board."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from scantling.papers.labels.label import Label
from scantling.stock.boards.board import Board
from scantling.units import LengthStyle, Round, bracketed, show_length, show_number

__all__ = ["Origin", "board_label"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Origin:
    """Where a board is from.

    Parameters
    ----------
    number
        Its number in the stockroom.
    since
        The day it came in.
    words
        Whom it was bought from, or the board it was cut from; empty where that is not known.
    read_on
        The day its moisture was read; None where that is not known.
    """

    number: int
    since: date
    words: str = ""
    read_on: date | None = None


def board_label(board: Board, origin: Origin, *, units: str) -> Label:
    """What stands on the label of a board.

    Parameters
    ----------
    board
        The board as it is.
    origin
        Where it is from.
    units
        ``mm``, ``in`` or ``both``. Sizes are shown to the millimeter or the eighth of an inch, rounded
        down: a label promises no more wood than there is.
    """
    style = LengthStyle.of(units, fractions=8, step_mm=1.0)
    wood = f"{board.nominal} {board.species}"
    far = () if board.far_width_mm is None else (board.far_width_mm,)
    size = bracketed(_size(board.length_mm, (board.width_mm, *far), one) for one in style.styles)
    lines = []
    if board.moisture_pct is not None:
        day = "" if origin.read_on is None else f" on {origin.read_on.isoformat()}"
        lines.append(f"{show_number(board.moisture_pct, digits=1)} % moisture{day}")
    came = f"{origin.words}, " if origin.words else "in "
    lines.append(f"{came}{origin.since.isoformat()}")
    grade = ", ".join(
        word for word in (board.grade, f"flitch {board.flitch}" if board.flitch else "") if word
    )
    lines.append(f"no. {origin.number}" + (f", {grade}" if grade else ""))
    code = "\n".join([f"scantling:board/{origin.number}", f"{board.name}: {wood}", size, *lines[:-1]])
    return Label(name=board.name, wood=wood, size=size, lines=tuple(lines), code=code.replace("×", "x"))


def _size(length_mm: float, widths_mm: tuple[float, ...], style: LengthStyle) -> str:
    """``2440 × 190 to 165 mm``, in one unit."""
    shown = [show_length(mm, style, direction=Round.DOWN, unit=False) for mm in (length_mm, *widths_mm)]
    return f"{shown[0]} × {' to '.join(shown[1:])} {style.heading}"
