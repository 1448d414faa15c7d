"""A run: several copies of several pieces, all laid out on one rack at once."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.folding import folded
from scantling.stock.asked.wish import FOLDED
from scantling.stock.boards.board import Board
from scantling.stock.buying.yard import Needs
from scantling.stock.solving.request import LayoutRequest

__all__ = ["RunPiece", "run_request", "wishes_left"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunPiece:
    """A piece of a run.

    Parameters
    ----------
    name
        What copies are called after.
    needs
        What one copy asks for, and how the shop cuts.
    times
        How many are made.
    """

    name: str
    needs: Needs
    times: int


def run_request(pieces: tuple[RunPiece, ...], boards: tuple[Board, ...]) -> LayoutRequest:
    """Everything a run asks of a rack; how the shop cuts is taken from the first piece.

    Blanks are named after their copy, ``table 3: leg``. What must be cut as one is; other wishes hold within
    a single copy and are not kept in a run (see :func:`wishes_left`). One copy of one piece is asked as it
    is.

    Parameters
    ----------
    pieces
        What is made.
    boards
        The rack.
    """
    first = pieces[0].needs
    if len(pieces) == 1 and pieces[0].times == 1:
        return first.on(boards)
    blanks: list[Blank] = []
    panels: list[FreeWidthPanel] = []
    for piece in pieces:
        needs = piece.needs
        musts = (w for w in needs.wishes if w.worth is None)
        whole = folded(needs.blanks, musts, needs.cutting)
        for copy in range(1, piece.times + 1):
            named = f"{piece.name} {copy}: "
            blanks += [_copied(b, named) for b in whole]
            panels += [replace(p, name=named + p.name) for p in needs.panels]
    return LayoutRequest(
        boards=boards, blanks=tuple(blanks), panels=tuple(panels), cutting=first.cutting, aim=first.aim
    )


def _copied(blank: Blank, named: str) -> Blank:
    return replace(
        blank, name=named + blank.name, members=tuple(_copied(member, named) for member in blank.members)
    )


def wishes_left(pieces: tuple[RunPiece, ...]) -> tuple[str, ...]:
    """Names of the wishes a run of several copies does not keep, by piece."""
    if len(pieces) == 1 and pieces[0].times == 1:
        return ()
    return tuple(
        f"{piece.name}: {wish.name}"
        for piece in pieces
        for wish in piece.needs.wishes
        if wish.worth is not None or wish.kind not in FOLDED
    )
