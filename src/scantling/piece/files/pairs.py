"""The pairs of parts a joint is asked for between, rows of repeated parts written with a star."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable

from scantling.errors import InputError
from scantling.piece.model import Direction, End, PartRef
from scantling.reading import did_you_mean

__all__ = ["pairs_of"]

_NEXT, _LAST = "next", "_last"
_TAILS = f"start, end, {', '.join(Direction)}"


def pairs_of(
    pair: tuple[str, str], known: Iterable[str], *, rings: Collection[str] = ()
) -> list[tuple[PartRef, PartRef]]:
    """The pairs a written pair stands for.

    ``*`` in a name stands for a row of repeated parts, ``last`` for its last; ``next`` alone is the part
    that follows the one it is paired with in its row, and after the last of a ring comes the first.

    Parameters
    ----------
    pair
        As written: ``PART``, ``PART.start``, ``PART.end`` or ``PART.FACE``, twice.
    known
        Names of the parts there are, in the order of the file.
    rings
        Names of the rows that go all the way round.

    Raises
    ------
    InputError
        ``unknown_part``, ``unknown_face``, ``rows_differ``, ``joined_to_itself``, ``not_a_row``.
    """
    names = list(known)
    if _NEXT not in names and pair[1].partition(".")[0] == _NEXT:
        return _following(pair, names, rings)
    firsts, seconds = (_refs(text, names) for text in pair)
    if len(firsts) == len(seconds):
        found = list(zip(firsts, seconds, strict=True))
    elif len(firsts) == 1 or len(seconds) == 1:
        found = [(a, b) for a in firsts for b in seconds]
    else:
        raise InputError(
            code="rows_differ",
            field="between",
            value=f"{' and '.join(pair)}, {len(firsts)} and {len(seconds)} parts",
            rule="must name as many parts on both sides, or one on one side",
            remedy="Give both rows the same count, or join one part to the row.",
        )
    for first, second in found:
        if first.part == second.part:
            raise InputError(
                code="joined_to_itself",
                field="between",
                value=" and ".join(pair),
                rule="must join two different parts",
                remedy="Name the other part.",
            )
    return found


def _following(
    pair: tuple[str, str], names: list[str], rings: Collection[str]
) -> list[tuple[PartRef, PartRef]]:
    """Each part of a row with the one that follows it."""
    name = pair[0].partition(".")[0]
    row = name.removesuffix("_*")
    if row == name:
        raise InputError(
            code="not_a_row",
            field="between",
            value=" and ".join(pair),
            rule="must join the parts of a row to the next ones",
            remedy=f"Write the row with a star, {name}_*.end, or name the other part.",
        )
    firsts = _refs(pair[0], names)
    tail = pair[1].removeprefix(_NEXT)
    seconds = [_refs(f"{first.part}{tail}", names)[0] for first in firsts]
    after = seconds[1:] + (seconds[:1] if row in rings else [])
    return list(zip(firsts, after, strict=False))


def _refs(text: str, names: list[str]) -> list[PartRef]:
    name, dot, tail = text.partition(".")
    if "*" in name:
        pattern = re.compile(re.escape(name).replace(r"\*", r"\d+"))
        meant = [known for known in names if pattern.fullmatch(known)]
    elif name.endswith(_LAST) and name not in names:
        row = re.compile(re.escape(name.removesuffix(_LAST)) + r"_\d+")
        meant = [known for known in names if row.fullmatch(known)][-1:]
    else:
        meant = [name] if name in names else []
    if not meant:
        members = [known for known in names if re.fullmatch(re.escape(name) + r"_\d+", known)]
        whole = f"It is repeated: write {name}_* for the whole row."
        remedy = whole if members else did_you_mean(name, names)
        raise InputError(
            code="unknown_part",
            field="between",
            value=text,
            rule="must name a part, PART.start, PART.end or PART.FACE",
            remedy=remedy,
        )
    if dot and tail not in set(End) and tail not in set(Direction):
        raise InputError(
            code="unknown_face",
            field="between",
            value=text,
            rule=f"must end in {_TAILS}",
            remedy=did_you_mean(tail, [*End, *Direction], otherwise="Name an end or a face."),
        )
    end = End(tail) if tail in set(End) else None
    face = Direction(tail) if tail in set(Direction) else None
    return [PartRef(part=known, end=end, face=face) for known in meant]
