"""A board as it is called out in the yard, on one line."""

from __future__ import annotations

from scantling.errors import FileFaults, InputError
from scantling.stock.boards.board import Board
from scantling.stock.boards.rackrow import RackRow, board_of_row

__all__ = ["FORM", "board_of_line"]

FORM = "NAME, [WOOD] THICKNESS, LENGTH, WIDTH[, PRICE][; DEFECT; ...][; flitch NAME [PLACE]][; rings RINGS]"
"""How a line is written."""
_FLITCH = "flitch "
_RINGS = "rings "
_FIELDS = ("name", "thickness", "length", "width", "price")


def _flitch_of(text: str) -> tuple[str, str]:
    """Name of a flitch and the place in it, where one is given: ``flitch K 3``."""
    words = text[len(_FLITCH) :].split()
    if len(words) > 1 and words[-1].isdigit():
        return " ".join(words[:-1]), words[-1]
    return " ".join(words), ""


def board_of_line(text: str, *, wood: str, per: str) -> Board:
    """Read a board from a line such as ``A1, cherry 5/4, 8 ft, 7 1/2 in, 11.50; knot at 620 x 40, 90 x 50``.

    ``flitch K 3`` among the defects names its flitch and the place in it, ``rings quarter`` says how its
    rings stand.

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
    head, *more = (part.strip() for part in text.split(";"))
    rings = [part for part in more if part.lower().startswith(_RINGS)]
    flitches = [part for part in more if part.lower().startswith(_FLITCH)]
    defects = [part for part in more if part not in (*rings, *flitches)]
    flitch, place = _flitch_of(next(iter(flitches), ""))
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
    values |= {"species": named, "defects": "; ".join(defects), "flitch": flitch, "sequence": place}
    values["rings"] = next(iter(rings), "")[len(_RINGS) :].strip()
    if values.get("price"):
        values["price_per"] = per
    row = RackRow(values=values, units={}, file="", number=1, places={}, place=(0, 0))
    board = board_of_row(row)
    if row.faults:
        raise FileFaults(row.faults)
    return board
