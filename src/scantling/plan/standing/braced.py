"""What may hold legs upright one way, beside rails that the racking sum reckons with."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.checks.subject import Subject
from scantling.piece.model import Part

__all__ = ["braces"]

_FLAT = 0.9
"""From here on a broad face looks straight up. [1]"""


def braces(subject: Subject, legs: Sequence[Part], axis: int) -> tuple[str, ...]:
    """Parts that may keep the legs from folding along an axis of the piece, by name.

    Parameters
    ----------
    subject
        The piece and its joints.
    legs
        Its legs.
    axis
        0 along the piece, 1 across it.

    Notes
    -----
    A part joined to legs that stand apart that way holds them, whatever it is. So may one that stands on
    edge between two parts joined to legs, as a stretcher between two end frames does. A level board that is
    only laid on the rails does not: its fastenings let it slide and turn.
    """
    names = {leg.name for leg in legs}
    joined: dict[str, set[str]] = {}
    for work in subject.works:
        if not work.passes:
            joined.setdefault(work.first, set()).add(work.second)
            joined.setdefault(work.second, set()).add(work.first)
    apart = max(max(leg.width_mm, leg.thickness_mm) for leg in legs)
    framed = {other for name in names for other in joined.get(name, set())} - names
    found = []
    for name, others in joined.items():
        if name in names:
            continue
        part = subject.part(name)
        ends = others & names
        if abs(part.frame.thickness[2]) < _FLAT:
            ends |= others & framed
        places = [subject.part(end).middle[axis] for end in ends]
        if places and max(places) - min(places) > apart:
            found.append(name)
    return tuple(found)
