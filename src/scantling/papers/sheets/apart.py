"""Sheet: in which order a piece comes apart, and what meets in it with no joint."""

from __future__ import annotations

from scantling.checks.offers import Meets
from scantling.papers.sheets.model import Align, Column, Sheet, Table
from scantling.papers.words.naming import plain_words
from scantling.piece.convex import face_direction
from scantling.piece.geometry import Vec
from scantling.plan.apart import Apart
from scantling.solids.taking_apart import Removal

__all__ = ["apart_sheet"]

_MM2_PER_CM2, _MM2_PER_IN2 = 100.0, 25.4**2
_SQUARE = 0.985
"""Cosine from which a way is told by one direction alone (10 degrees). [1]"""


def apart_sheet(apart: Apart, *, inch: bool = False) -> Sheet:
    """What comes off first, what holds itself together, and what touches with no joint.

    Parameters
    ----------
    apart
        From :func:`scantling.plan.apart.plan_apart`.
    inch
        Whether areas are told in square inches.
    """
    tables = [_order(apart)] if apart.removals else []
    if apart.rings:
        tables.append(_rings(apart))
    if apart.touching:
        tables.append(_touching(apart, inch=inch))
    moves = len(apart.removals)
    lead = f"It comes apart in {moves} straight moves; put together, it goes from the last to the first."
    if not moves:
        lead = "No straight move takes anything off it."
    if apart.rings:
        lead += " Some parts hold each other: they go together at once, or spring."
    return Sheet(id="apart", title="Taken apart", lead=lead, blocks=tuple(tables))


def _order(apart: Apart) -> Table:
    columns = (Column(title="Move", align=Align.RIGHT), Column(title="Comes off"), Column(title="Way"))
    rows = tuple(
        (str(number), _named(removal), _way(removal.way))
        for number, removal in enumerate(apart.removals, start=1)
    )
    return Table(title="In this order", columns=columns, rows=rows)


def _named(removal: Removal) -> str:
    return ", ".join(map(plain_words, removal.parts)) + (" together" if len(removal.parts) > 1 else "")


def _way(way: Vec) -> str:
    """A direction in words: the one it looks most, and of a slanting one the next."""
    first = face_direction(way)
    share = abs(sum(a * b for a, b in zip(first.vector, way, strict=True)))
    words = {"bottom": "down", "top": "up"}
    told = words.get(first.value, first.value)
    if share >= _SQUARE:
        return told
    rest = [w - share * f for w, f in zip(way, first.vector, strict=True)]
    second = face_direction((rest[0], rest[1], rest[2])).value
    return f"{told}, slanting {words.get(second, second)}"


def _rings(apart: Apart) -> Table:
    rows = tuple((_chain(ring),) for ring in apart.rings)
    return Table(title="Hold each other", columns=(Column(title="One by the next"),), rows=rows)


def _chain(ring: tuple[str, ...]) -> str:
    first, *others = map(plain_words, ring)
    return f"{first} is stopped by " + ", which is stopped by ".join(others)


def _first_choice(meets: Meets) -> str:
    if not meets.offers:
        return "none"
    first = meets.offers[0]
    return f"{first.family}: [{first.first}, {first.second}]"


def _area(meets: Meets, *, inch: bool) -> str:
    """Of the contact; what crosses has a volume, and is told as wood in one place twice."""
    if not meets.faces:
        return "—"
    each = _MM2_PER_IN2 if inch else _MM2_PER_CM2
    figure = meets.area_mm2 / each
    return f"{figure:.1f}" if figure < 10.0 else f"{figure:,.0f}"


def _touching(apart: Apart, *, inch: bool) -> Table:
    columns = (
        Column(title="Parts"),
        Column(title="Where"),
        Column(title="Area in²" if inch else "Area cm²", align=Align.RIGHT),
        Column(title="First choice"),
        Column(title="Why"),
    )
    rows = tuple(
        (
            f"{plain_words(meets.one)}, {plain_words(meets.other)}",
            " on ".join(meets.faces) if meets.faces else "one in the other",
            _area(meets, inch=inch),
            _first_choice(meets),
            meets.held or meets.offers[0].reason,
        )
        for meets in apart.touching
    )
    return Table(title="Meet with no joint", columns=columns, rows=rows)
