"""A fault as the command line tells it: with the command or flag that mends it, which no other face has."""

from __future__ import annotations

from typing import Final

from scantling.errors import Fault

__all__ = ["told_here"]

_WAYS: Final = {
    "nothing_cut": "To see the boards sheet: scantling plan PIECE --rack stockroom --sheet boards.",
    "stockroom_empty": "For a file of them: scantling stockroom add RACK.csv.",
    "unknown_room": "All towns: scantling rooms --towns.",
    "unknown_species": "A wood of your own goes into a file, given with --woods.",
}
"""What the command line adds to the remedy of a fault, by its code."""


def told_here(fault: Fault) -> str:
    """One fault in a line, with the way out that a command or a flag is.

    Parameters
    ----------
    fault
        As any package tells it, for every face.

    Examples
    --------
    >>> told_here(Fault(code="unknown_room", field="room", value="Wien", rule="must be a room", remedy=""))
    'room: must be a room, got Wien. All towns: scantling rooms --towns.'
    """
    return f"{fault} {_WAYS.get(fault.code, '')}".rstrip()
