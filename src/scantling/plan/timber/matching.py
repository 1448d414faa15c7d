"""From the wishes of a piece to those of its blanks, and what is to be said of them."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.errors import Finding, Severity
from scantling.piece.geometry import dot
from scantling.piece.matching import Looks, WishKind
from scantling.piece.model import Part, Piece
from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.folding import unfoldable
from scantling.stock.asked.wish import FOLDED, Wish
from scantling.stock.layouts.layout import Layout

__all__ = ["both_sides_show", "looks_of", "matching_findings", "wishes_of"]

_FACING = 0.7
"""A face is a wide one where its direction lies nearer to the thickness than to the width. [1]"""


def both_sides_show(part: Part) -> bool:
    """Whether both wide faces of a part are seen, so that nothing can be hidden on one."""
    sides = [dot(direction.vector, part.frame.thickness) for direction in part.show]
    return max(sides, default=0.0) > _FACING and min(sides, default=0.0) < -_FACING


def looks_of(part: Part) -> Looks:
    """What the part's blanks may hold; clear where both faces show."""
    hiding = part.looks in (Looks.SHOW_CLEAR, Looks.SAP_INSIDE)
    return Looks.CLEAR if hiding and both_sides_show(part) else part.looks


def wishes_of(piece: Piece, blanks: Sequence[Blank], panels: Sequence[FreeWidthPanel]) -> tuple[Wish, ...]:
    """The wishes between parts as wishes between blanks.

    A part glued up from several blanks brings all of them.
    """
    found = []
    for matching in piece.matching:
        members = [
            name
            for part in matching.parts
            for name in (
                *(b.name for b in blanks if b.part == part),
                *(p.name for p in panels if p.part == part),
            )
        ]
        found.append(
            Wish(name=matching.name, kind=matching.kind, members=tuple(members), worth=matching.worth)
        )
    return tuple(found)


def matching_findings(
    piece: Piece,
    wishes: Sequence[Wish],
    *,
    blanks: Sequence[Blank],
    cutting: Cutting,
    layout: Layout | None,
) -> tuple[Finding, ...]:
    """Wishes no board could grant (T08), those this rack does not (T09), sides that hide nothing (T10)."""
    by_name = {b.name: b for b in blanks}
    found = [_hidden(part) for part in piece.parts.values() if looks_of(part) is not part.looks]
    for wish in wishes:
        reason = unfoldable(wish, by_name, cutting) if wish.kind in FOLDED else ""
        if reason:
            found.append(_never(wish, reason))
    told = {f.where for f in found}
    open_ = [a for a in layout.wishes if not a.granted and a.wish.name not in told] if layout else []
    return (*found, *(_not_here(a.wish, a.boards) for a in open_))


def _hidden(part: Part) -> Finding:
    return Finding(
        code="T10",
        severity=Severity.NOTE,
        where=part.name,
        message=f"Both its wide faces show, so neither can hide what '{part.looks}' would let in.",
        advice="It is laid out clear on both; list only the face that is seen, or write looks: clear.",
    )


def _never(wish: Wish, reason: str) -> Finding:
    advice = {
        WishKind.RESAWN: "Have it resawn elsewhere, or let them come from two boards.",
        WishKind.BOOK: "Have it resawn elsewhere, make the leaves narrower, or wish for the same board.",
    }.get(wish.kind, "Wish for the same board or flitch instead.")
    return Finding(
        code="T08",
        severity=Severity.HIGH if wish.worth is None else Severity.MEDIUM,
        where=wish.name,
        message=f"'{wish.kind}' cannot be: {reason}.",
        advice=advice,
    )


def _not_here(wish: Wish, boards: tuple[str, ...]) -> Finding:
    lying = f"They lie on {', '.join(boards)}" if boards else "None of them has a place"
    must = wish.worth is None
    way = {
        WishKind.SAME_FLITCH: "Bring boards of one flitch, and write the flitch beside them in the rack.",
        WishKind.ALIKE: "Bring a larger board, or two neighbors of one flitch, with flitch and sequence.",
        WishKind.BOOK: "Bring a board thick enough to be resawn.",
        WishKind.RESAWN: "Bring a board thick enough to be resawn.",
        WishKind.RUN_THROUGH: "Bring a longer board.",
        WishKind.SIDE_BY_SIDE: "Bring a wider board.",
    }.get(wish.kind, "Bring a larger board, or split the wish.")
    price = "" if must else f" for the {wish.worth:g} it is worth"
    return Finding(
        code="T09",
        severity=Severity.HIGH if must else Severity.NOTE,
        where=wish.name,
        message=f"'{wish.kind}' is not granted{price}. {lying}.",
        advice=way if must else f"{way} Or give it more worth.",
        numbers={} if must else {"worth": float(wish.worth or 0.0)},
    )
