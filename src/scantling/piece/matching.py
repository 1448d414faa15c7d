"""What a maker wants of the wood's looks: how clear a part is to be, and which parts belong together."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Looks", "Matching", "WishKind"]


class Looks(StrEnum):
    """What a blank may contain of what is only a matter of looks: knots, sapwood, stain."""

    CLEAR = "clear"
    """Nothing, on neither face."""
    SHOW_CLEAR = "show face clear"
    """One face clear; knots, sapwood and stain may lie on the other, the hidden one."""
    SAP_INSIDE = "sap inside"
    """One face clear; sapwood alone may lie on the other."""
    SOUND = "sound"
    """Knots, sapwood and stain anywhere: a part nobody sees."""


class WishKind(StrEnum):
    """How parts belong together."""

    SAME_BOARD = "same board"
    """All from one board."""
    SAME_FLITCH = "same flitch"
    """All from boards of one flitch."""
    ALIKE = "alike"
    """All from one board, or from two that lay next to each other in a flitch: what legs ask for."""
    RUN_THROUGH = "grain runs through"
    """One behind the other in one board, in the order named."""
    SIDE_BY_SIDE = "side by side"
    """One beside the other across one board, in the order named."""
    BOOK = "book-matched"
    """Two leaves of each pair resawn out of one thickness and opened like a book."""
    RESAWN = "resawn"
    """Two of each pair resawn out of one thickness, however they are used."""

    @property
    def leaves(self) -> bool:
        """Whether its members come in pairs out of one thickness."""
        return self in (WishKind.BOOK, WishKind.RESAWN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Matching:
    """One wish of a piece file.

    Parameters
    ----------
    name
        Of the entry.
    kind
        What is wished.
    parts
        Parts of the piece, in order.
    worth
        What it is worth to the maker; None where it must be. [money]
    """

    name: str
    kind: WishKind
    parts: tuple[str, ...]
    worth: float | None = None
