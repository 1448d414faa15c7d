"""Wishes between blanks: what is wished, and the answer to it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from scantling.piece.matching import WishKind
from scantling.stock.boards.board import Board

__all__ = ["FOLDED", "Wish", "WishAnswer", "neighbors", "pairs"]

FOLDED = (WishKind.RUN_THROUGH, WishKind.SIDE_BY_SIDE, WishKind.BOOK, WishKind.RESAWN)
"""Wishes granted by cutting several blanks as one and parting it later."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """Blanks that belong together.

    Parameters
    ----------
    name
        Unique.
    kind
        How they belong together.
    members
        Names of blanks and free-width panels, in order; book-matched ones in pairs.
    worth
        What it is worth; None where it must be. [money]
    """

    name: str
    kind: WishKind
    members: tuple[str, ...]
    worth: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WishAnswer:
    """Whether a layout grants a wish.

    Parameters
    ----------
    wish
        The wish.
    granted
        Whether it does.
    broken
        Whether members that are laid out lie otherwise than wished. Where some are only missing, a wish is
        neither granted nor broken.
    boards
        Boards its members lie on.
    """

    wish: Wish
    granted: bool
    broken: bool
    boards: tuple[str, ...]


def neighbors(boards: Iterable[Board]) -> bool:
    """Whether boards are one, or two that lay next to each other in a flitch."""
    found = list({b.name: b for b in boards}.values())
    if len(found) < 2:
        return True
    if len(found) > 2 or not found[0].flitch or found[0].flitch != found[1].flitch:
        return False
    steps = [b.sequence for b in found if b.sequence is not None]
    return len(steps) == 2 and abs(steps[0] - steps[1]) == 1


def pairs(members: Sequence[str]) -> list[tuple[str, ...]]:
    """Members two by two."""
    return [tuple(members[n : n + 2]) for n in range(0, len(members), 2)]
