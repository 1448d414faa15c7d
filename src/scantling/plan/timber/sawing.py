"""How boards must be sawn for the parts that come from them: flat, rift or quarter, by their rings."""

from __future__ import annotations

from scantling.piece.model import Part
from scantling.wood.ring import Sawn

__all__ = ["sawn_for"]

_SQUARE = 0.05
"""A section whose sides differ by less, as a share of the larger, is as good turned on its side. [1]"""


def sawn_for(part: Part, strip: int | None = None) -> tuple[Sawn, ...]:
    """Ways of sawing that serve a part, or one strip of it; empty where any does.

    Flat-sawn asks for nothing: it moves the most, and slots and gaps laid out for it are wide enough for any
    other. A square stick that is to be quarter-sawn comes out of a flat-sawn board too, turned on its side;
    rift stays rift when it is turned. A round one has no face: it is turned as it is glued in, and any board
    serves (common practice).

    Parameters
    ----------
    part
        The part, with its rings as planned.
    strip
        Number of the strip from the edge at -v, from 0; None for a part whose strips are alike.
    """
    own = part.strips.rings if part.strips is not None else ()
    wanted = (own[strip] if strip is not None and strip < len(own) else part.ring).sawn
    if wanted is Sawn.FLAT or part.round is not None:
        return ()
    return (Sawn.FLAT, Sawn.QUARTER) if wanted is Sawn.QUARTER and _is_square(part) else (wanted,)


def _is_square(part: Part) -> bool:
    """Whether a section has no wide face."""
    sides = (part.width_mm, part.thickness_mm)
    return max(sides) - min(sides) <= _SQUARE * max(sides)
