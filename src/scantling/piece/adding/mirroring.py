"""A part of the piece made once more: mirrored about the middle of the piece or of a part, moved, or both."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from scantling.errors import InputError
from scantling.piece.adding.slots import MIRRORS
from scantling.piece.adding.terms import listed, negated, plus, times
from scantling.piece.adding.written_places import WrittenPlaces
from scantling.piece.convex import body_of
from scantling.piece.model import Part
from scantling.reading import Document
from scantling.reading.nodes import source_of

__all__ = ["copy_of", "same_place"]

"""The ways to mirror, as the piece file names them, by the axis that turns round."""
_NEAR_MM = 0.05


def copy_of(
    document: Document,
    part: Part,
    *,
    mirror: Sequence[str] = (),
    about: Part | None = None,
    move: Sequence[str] = (),
    places: WrittenPlaces,
) -> str:
    """What the piece file writes for a part made once more as it stands, as a copy of its entry.

    Of a copy that is mirrored, turned or moved already, what is written leads from the entry to the new one:
    mirrored twice is not mirrored, and mirrored, a turn goes the other way round.

    Parameters
    ----------
    document
        The file.
    part
        What is made once more.
    mirror
        ``left-right``, ``front-back``, or both.
    about
        The part in whose middle the mirror stands; None for the middle of the piece, at 0.
    move
        How far it is moved after that, x, y, z, as written; empty for nothing.
    places
        Where the parts of the piece lie.

    Raises
    ------
    InputError
        ``no_such_choice``; ``copies_and_repeat``: a part of a row has no copies; ``copy_in_place``.
    """
    _check(document, part, mirror, move)
    found: Any = document.get(("parts", part.like, "copies", part.name)) if part.name != part.like else None
    copy: Mapping[str, Any] = found if isinstance(found, dict) else {}
    flipped = [each for each in MIRRORS if (each in (copy.get("mirror") or ())) != (each in mirror)]
    moved = [str(each) for each in copy.get("move") or ("0", "0", "0")]
    for axis in (MIRRORS.index(each) for each in mirror):
        moved[axis] = negated(moved[axis])
        if about is not None:
            moved[axis] = plus(times(2, places.middle(about, axis)), moved[axis])
    if move:  # more or fewer than three are written as they are: the file tells what is wrong
        moved = [*move] if len(move) != 3 else [plus(*each) for each in zip(moved, move, strict=True)]
    turn = str(copy.get("turn") or "")
    if turn and len(mirror) == 1:
        turn = negated(turn)
    fields = [
        *([f"mirror: [{', '.join(flipped)}]"] if flipped else []),
        *([f"turn: {source_of(turn)}"] if turn else []),
        *([f"move: {listed(moved)}"] if any(each != "0" for each in moved) else []),
    ]
    return f"{{{', '.join(fields)}}}"


def same_place(part: Part, others: Sequence[Part]) -> Part | None:
    """The part that stands where another stands, corner on corner; None where none does."""
    own = _corners(part)
    return next((each for each in others if each.name != part.name and _corners(each) == own), None)


def _corners(part: Part) -> frozenset[tuple[int, int, int]]:
    steps = ((round(c / _NEAR_MM) for c in corner) for corner in body_of(part).corners)
    return frozenset((x, y, z) for x, y, z in steps)


def _check(document: Document, part: Part, mirror: Sequence[str], move: Sequence[str]) -> None:
    wrong = next((each for each in mirror if each not in MIRRORS), None)
    if wrong is not None:
        raise InputError(
            code="no_such_choice",
            field="mirror",
            value=wrong[:40],
            rule=f"must be {' or '.join(MIRRORS)}",
        )
    if not mirror and not move:
        raise InputError(
            code="copy_in_place",
            field="copy",
            value=part.name,
            rule="must be mirrored or moved",
            remedy="Say how far it is moved, or about which plane it is mirrored.",
        )
    if document.get(("parts", part.like, "repeat")) is not None:
        raise InputError(
            code="copies_and_repeat",
            field="part",
            value=part.name,
            rule="must not be one of a row: what is repeated has no copies",
            remedy="Add the other as a part of its own, or change the count of the row.",
        )
