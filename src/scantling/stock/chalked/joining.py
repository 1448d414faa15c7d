"""Stretches of a board that are ripped alike stay one piece until they are ripped."""

from __future__ import annotations

from scantling.stock.question.pattern import Pattern, Segment, Strip

__all__ = ["joined_segments"]


def joined_segments(pattern: Pattern, *, kerf: int, longest: int) -> list[Segment]:
    """Stretches of a pattern in order along the board, neighbours that are ripped alike as one.

    Two short pieces ripped at the same widths are straightened and ripped once, and cut to length after: the
    saw runs half as often, the pieces are longer at the fence, and what is left beside them stays whole.
    Nothing is joined that comes longer than the longest blank there is to rip: the crook a straightened edge
    takes off grows with the length, which is why boards are crosscut first (common practice).

    Parameters
    ----------
    pattern
        One board.
    kerf
        Of the crosscut. [units]
    longest
        Greatest length of a joined stretch. [units]

    Returns
    -------
    list of Segment
        New stretches where some are joined; the pattern itself stays as it was.
    """
    ordered = sorted(pattern.segments, key=lambda s: s.x)
    joined: list[Segment] = []
    for segment in ordered:
        before = joined[-1] if joined else None
        if before is not None and _alike(before, segment, kerf) and _end(segment) - before.x <= longest:
            joined[-1] = _one(before, segment)
        else:
            joined.append(segment)
    return joined


def _end(segment: Segment) -> int:
    return segment.x + segment.length


def _rips(segment: Segment) -> list[tuple[int, int]]:
    return sorted((strip.y, strip.width) for strip in segment.strips)


def _alike(one: Segment, other: Segment, kerf: int) -> bool:
    """Whether only the kerf lies between them and they are ripped at the same places."""
    return _end(one) <= other.x <= _end(one) + kerf and _rips(one) == _rips(other)


def _one(one: Segment, other: Segment) -> Segment:
    by_place = {(strip.y, strip.width): strip for strip in other.strips}
    strips = [
        Strip(y=s.y, width=s.width, spots=[*s.spots, *by_place[s.y, s.width].spots]) for s in one.strips
    ]
    return Segment(x=one.x, length=_end(other) - one.x, strips=strips)
