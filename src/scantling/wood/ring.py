"""How the growth rings stand in a board's section."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from enum import StrEnum

__all__ = ["Ring", "rings_in_words"]

_LISTED = 4
"""More strips than this are counted instead of listed. [1]"""


class Ring(StrEnum):
    """Ring orientation of a board, named as the yard names it.

    ``FLAT``: rings near parallel to the wide face, so the width runs tangentially.
    ``QUARTER``: rings near square to the wide face, so the width runs radially.
    ``RIFT``: in between, taken at 45 degrees.
    """

    FLAT = "flat"
    RIFT = "rift"
    QUARTER = "quarter"

    @property
    def ring_angle_deg(self) -> float:
        """Angle between the growth rings and the wide face. [deg] 0 flat-sawn, 90 quarter-sawn."""
        return _ANGLE_DEG[self]


_ANGLE_DEG = {Ring.FLAT: 0.0, Ring.RIFT: 45.0, Ring.QUARTER: 90.0}


def rings_in_words(rings: Sequence[Ring]) -> str:
    """Ring orientations of the strips of a panel, from one edge to the other, or how many there are of each.

    Examples
    --------
    >>> rings_in_words([Ring.FLAT, Ring.FLAT])
    'flat'
    >>> rings_in_words([Ring.FLAT, Ring.QUARTER, Ring.FLAT])
    'flat, quarter, flat'
    >>> rings_in_words([Ring.FLAT, Ring.RIFT] * 3)
    '3 flat, 3 rift'
    """
    counted = Counter(ring.value for ring in rings)
    if len(counted) == 1:
        return next(iter(counted))
    if len(rings) <= _LISTED:
        return ", ".join(ring.value for ring in rings)
    return ", ".join(f"{count} {name}" for name, count in counted.items())
