"""What a version of a piece holds: texts as they were written, comments and all."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass, field

__all__ = ["BESIDE", "Attached", "Content"]

BESIDE = ("shop", "rack", "room", "bench")
"""What goes with a piece; the last are the notes from the bench beside its rack."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Attached:
    """A file that goes with a piece, or something known by its name alone.

    Parameters
    ----------
    name
        Name of the file, which tells its kind (``cherry.csv``); of a typical room; or ``stockroom``.
    text
        The whole file; None where the name says it all.
    """

    name: str
    text: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """Everything a piece is planned from.

    Parameters
    ----------
    piece
        Text of the piece file.
    given
        Parameters set apart from the text, as a maker writes them.
    shop, rack, room
        What goes with it; None takes what the program takes where nothing is named.
    bench
        The notes from the bench beside its rack; None where there are none.
    """

    piece: str
    given: Mapping[str, str] = field(default_factory=dict)
    shop: Attached | None = None
    rack: Attached | None = None
    room: Attached | None = None
    bench: Attached | None = None

    @property
    def digest(self) -> str:
        """SHA-256 of everything it holds. 64 hexadecimal digits."""
        beside = {name: self.beside(name) for name in BESIDE}
        held: dict[str, object] = {
            "piece": self.piece,
            "given": dict(sorted(self.given.items())),
            **{name: None if one is None else [one.name, one.text] for name, one in beside.items()},
        }
        if self.bench is None:  # a version of before there were notes keeps its digest
            del held["bench"]
        return hashlib.sha256(json.dumps(held, ensure_ascii=True, sort_keys=True).encode()).hexdigest()

    def beside(self, name: str) -> Attached | None:
        """What goes with it under one of the names of :data:`BESIDE`."""
        return {"shop": self.shop, "rack": self.rack, "room": self.room, "bench": self.bench}[name]
