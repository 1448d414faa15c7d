"""Which defects a blank may hold, by its looks and by the side that is to show."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.piece.matching import Looks
from scantling.stock.boards.board import Defect, DefectKind, Face

__all__ = ["SIDES", "harmless", "let_in", "show_side", "spoils"]

SIDES: tuple[tuple[Looks, Face | None], ...] = (
    (Looks.CLEAR, None),
    (Looks.SOUND, None),
    (Looks.SHOW_CLEAR, Face.FACE),
    (Looks.SHOW_CLEAR, Face.BACK),
    (Looks.SAP_INSIDE, Face.FACE),
    (Looks.SAP_INSIDE, Face.BACK),
)
"""Every way a blank may lie in a board: its looks, and which face of the board is to show."""


def let_in(defect: Defect, looks: Looks, shows: Face | None) -> bool:
    """Whether a blank of these looks may hold a defect.

    Parameters
    ----------
    defect
        The defect.
    looks
        What the part asks for.
    shows
        The face of the board that is to show; None where the two are alike to the part.
    """
    if not defect.kind.only_looks or looks is Looks.CLEAR:
        return False
    if looks is Looks.SOUND:
        return True
    hidden = defect.face is not Face.THROUGH and defect.face is not shows
    return hidden and (looks is Looks.SHOW_CLEAR or defect.kind is DefectKind.SAPWOOD)


def harmless(defect: Defect) -> int:
    """Numbers of the :data:`SIDES` a defect does no harm to, as bits."""
    return sum(1 << n for n, (looks, shows) in enumerate(SIDES) if let_in(defect, looks, shows))


def spoils(bits: int, side: int) -> bool:
    """Whether a defect of these bits spoils a blank that lies on a side of :data:`SIDES`."""
    return not bits >> side & 1


def show_side(looks: Looks, under: Iterable[Defect]) -> Face | None:
    """The face of the board that is to show, given the defects under a blank; None where either will do."""
    defects = tuple(under)
    good = [s for k, s in SIDES if k is looks and all(let_in(d, looks, s) for d in defects)]
    return good[0] if len(good) == 1 else None
