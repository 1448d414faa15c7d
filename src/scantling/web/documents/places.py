"""Wayfinding: the places one can be, and the strip by which one goes between them.

How a document joins
--------------------
1. Its own part, from ``<main>`` on, goes into ``static/NAME.html``; :mod:`scantling.web.documents.pages`
sets it into the frame that all documents share.
2. Its :class:`~scantling.web.documents.leaves.Leaf` goes into ``LEAVES``: title, styles, wiring, place.
3. Its :class:`Place` goes into :data:`PLACES`, where it stands in the order of the job.
4. Its route answers with :func:`scantling.web.documents.pages.leaf`.
5. Its address goes into ``tests/web/test_reach.py``, which looks whether everybody can use it.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from html import escape

__all__ = ["PLACES", "Of", "Place", "Standing", "strip"]


class Of(Enum):
    """What a place belongs to."""

    ALL = "all pieces"
    PIECE = "a piece, kept or not"
    KEPT = "a piece that is kept"
    MARKED = "a piece whose boards can be marked"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place: where it is, and what it is called on the strip."""

    key: str
    label: str
    address: str
    """From the root where it is of all pieces; else from the address of its piece."""
    of: Of
    carries_sizes: bool = False
    """Whether sizes that were tried and not kept go with whoever goes there."""


PLACES = (
    Place(key="pieces", label="Pieces", address="/pieces", of=Of.ALL),
    Place(key="stockroom", label="Stockroom", address="/stockroom", of=Of.ALL),
    Place(key="shop", label="Shop", address="/shop", of=Of.ALL),
    Place(key="rooms", label="Rooms", address="/rooms", of=Of.ALL),
    Place(key="piece", label="Piece", address="", of=Of.PIECE, carries_sizes=True),
    Place(key="text", label="Text", address="write", of=Of.KEPT),
    Place(key="boards", label="Boards", address="boards", of=Of.MARKED, carries_sizes=True),
    Place(key="seasons", label="Seasons", address="seasons", of=Of.PIECE, carries_sizes=True),
    Place(key="yard", label="Yard", address="yard", of=Of.PIECE, carries_sizes=True),
    Place(key="bench", label="Bench", address="bench", of=Of.KEPT),
    Place(key="papers", label="Papers", address="papers", of=Of.PIECE, carries_sizes=True),
)
"""All places in the order of the job. Labels are one word, so that those of a piece fit on a phone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """Where a document stands, which decides what can be reached from it.

    Attributes
    ----------
    base
        Address of its piece, with a slash at its end; None where it is of no piece.
    kept
        Whether that piece is among those that are kept.
    listed
        Whether there are kept pieces at all; a page of one file may be alone.
    boards
        Whether its boards can be marked.
    old
        Whether it shows an older version, or a text being written: then no place of the piece is this one.
    name
        What the piece is called on the list: its title where no file of it can be read.
    """

    base: str | None = None
    kept: bool = False
    listed: bool = True
    boards: bool = False
    old: bool = False
    name: str = ""

    def reaches(self, place: Place) -> bool:
        """Whether a place can be gone to from here.

        Examples
        --------
        >>> bench = next(place for place in PLACES if place.key == "bench")
        >>> Standing(base="/").reaches(bench), Standing(base="/pieces/3/", kept=True).reaches(bench)
        (False, True)
        """
        if place.of is Of.ALL:
            return self.listed
        may = {Of.PIECE: True, Of.KEPT: self.kept, Of.MARKED: self.boards}[place.of]
        return self.base is not None and may


def strip(here: str, standing: Standing) -> str:
    """The strip as markup: the places of all pieces, then those of the piece.

    Parameters
    ----------
    here
        Key of the place the document is; empty for none of them.
    standing
        Where it stands.
    """
    groups = (
        [place for place in PLACES if place.of is Of.ALL],
        [place for place in PLACES if place.of is not Of.ALL],
    )
    lists = (_list([p for p in group if standing.reaches(p)], here, standing) for group in groups)
    inside = "".join(lists)
    return f'<nav class="places" aria-label="Places">{inside}</nav>' if inside else ""


def _list(places: list[Place], here: str, standing: Standing) -> str:
    if not places:
        return ""
    items = "".join(f"<li>{_link(place, here, standing)}</li>" for place in places)
    return f"<ul>{items}</ul>"


def _link(place: Place, here: str, standing: Standing) -> str:
    base = "" if place.of is Of.ALL else standing.base or ""
    current = ' aria-current="page"' if place.key == here and not standing.old else ""
    sizes = " data-sizes" if place.carries_sizes and not standing.old else ""
    return f'<a href="{escape(base + place.address)}"{current}{sizes}>{escape(place.label)}</a>'
