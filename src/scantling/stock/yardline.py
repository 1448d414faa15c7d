"""A board as it is called out in the yard, on one line."""

from __future__ import annotations

from scantling.errors import FileFaults, InputError
from scantling.stock.board import Board
from scantling.stock.rackrow import RackRow, board_of_row

__all__ = ["FORM", "board_of_line"]

FORM = "NAME, [WOOD] THICKNESS, LENGTH, WIDTH[, PRICE][; DEFECT; ...]"
"""How a line is written."""
_FIELDS = ("name", "thickness", "length", "width", "price")


def board_of_line(text: str, *, wood: str, per: str) -> Board:
    """Read a board from a line such as ``A1, cherry 5/4, 8 ft, 7 1/2 in, 11.50; knot at 620 x 40, 90 x 50``.

    Parameters
    ----------
    text
        The line.
    wood
        Its wood, where the line names none.
    per
        What a price is for, as in a rack's ``price_per``.

    Raises
    ------
    FileFaults
        Everything wrong with it.
    InputError
        ``not_a_board``: too few or too many fields.
    """
    head, *defects = (part.strip() for part in text.split(";"))
    fields = [field.strip() for field in head.split(",")]
    if not 4 <= len(fields) <= len(_FIELDS):
        raise InputError(
            code="not_a_board",
            field="board",
            value=text,
            rule=f"must read {FORM}",
            remedy="Part the fields by commas, and defects by semicolons.",
        )
    values = dict(zip(_FIELDS, fields, strict=False))
    named, _, thickness = values["thickness"].rpartition(" ")
    if named and not named[0].isdigit():
        values["thickness"] = thickness
    else:
        named = wood
    values |= {"species": named, "defects": "; ".join(defects)}
    if values.get("price"):
        values["price_per"] = per
    row = RackRow(values=values, units={}, file="", number=1, places={}, place=(0, 0))
    board = board_of_row(row)
    if row.faults:
        raise FileFaults(row.faults)
    return board
