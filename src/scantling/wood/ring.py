"""How the growth rings stand in a board's section."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from scantling.errors import InputError
from scantling.units import show_number

__all__ = ["RING_NAMES", "RING_RULE", "RING_SPANS", "Ring", "Sawn", "ring_at", "rings_in_words"]

_LISTED = 4
"""More strips than this are counted instead of listed. [1]"""
_SAME_DEG = 1e-9
RING_RULE = "must be flat, rift, quarter, or an angle from 0 to 90 deg"
"""What rings may be, for faults to say."""


class Sawn(StrEnum):
    """What the yard calls a board by the rings in its end."""

    FLAT = "flat-sawn"
    RIFT = "rift-sawn"
    QUARTER = "quarter-sawn"


_RIFT_FROM_DEG = 30.0
_QUARTER_FROM_DEG = 60.0
RING_SPANS: Mapping[Sawn, tuple[float, float]] = {
    Sawn.FLAT: (0.0, _RIFT_FROM_DEG),
    Sawn.RIFT: (_RIFT_FROM_DEG, _QUARTER_FROM_DEG),
    Sawn.QUARTER: (_QUARTER_FROM_DEG, 90.0),
}
"""Angles between the rings and the wide face that each name stands for. [deg] Common practice."""


@dataclass(frozen=True, slots=True)
class Ring:
    """How the rings stand in the middle of a board's end: by the yard's name, or by their angle.

    ``Ring.FLAT``: rings near parallel to the wide face, so the width runs tangentially.
    ``Ring.QUARTER``: rings near square to the wide face, so the width runs radially.
    ``Ring.RIFT``: in between, taken at 45 degrees.

    Parameters
    ----------
    ring_angle_deg
        Angle between the growth rings and the wide face. [deg] 0 flat-sawn, 90 quarter-sawn.
    """

    ring_angle_deg: float

    FLAT: ClassVar[Ring]
    RIFT: ClassVar[Ring]
    QUARTER: ClassVar[Ring]

    @property
    def word(self) -> str:
        """The yard's name, or the angle where there is none.

        Examples
        --------
        >>> Ring.RIFT.word, Ring(30.0).word
        ('rift', '30°')
        """
        for name, ring in RING_NAMES.items():
            if abs(ring.ring_angle_deg - self.ring_angle_deg) < _SAME_DEG:
                return name
        return f"{show_number(self.ring_angle_deg)}°"

    @property
    def sawn(self) -> Sawn:
        """What the yard calls it: flat below 30 degrees, rift from there, quarter from 60 (common practice).

        Examples
        --------
        >>> Ring(29.0).sawn.value, Ring(30.0).sawn.value, Ring(60.0).sawn.value
        ('flat-sawn', 'rift-sawn', 'quarter-sawn')
        """
        if self.ring_angle_deg < _RIFT_FROM_DEG:
            return Sawn.FLAT
        return Sawn.RIFT if self.ring_angle_deg < _QUARTER_FROM_DEG else Sawn.QUARTER


Ring.FLAT, Ring.RIFT, Ring.QUARTER = Ring(0.0), Ring(45.0), Ring(90.0)
RING_NAMES: Mapping[str, Ring] = {"flat": Ring.FLAT, "rift": Ring.RIFT, "quarter": Ring.QUARTER}
"""The yard's names."""


def ring_at(angle_deg: float, *, written: str) -> Ring:
    """Rings at an angle read off the end of a board.

    Parameters
    ----------
    angle_deg
        Between the rings and the wide face. [deg] 0..90.
    written
        The angle as it was written, for the fault to say.

    Raises
    ------
    InputError
        ``ring_angle_out_of_range``.

    Examples
    --------
    >>> ring_at(30.0, written="30 deg")
    Ring(ring_angle_deg=30.0)
    """
    if 0.0 <= angle_deg <= 90.0:
        return Ring(angle_deg)
    turned = angle_deg % 180.0
    near = show_number(min(turned, 180.0 - turned))
    raise InputError(
        code="ring_angle_out_of_range",
        field="rings",
        value=written,
        rule=RING_RULE,
        remedy="It is the smaller angle between the wide face and the rings: 0 flat-sawn, 90 quarter-sawn; "
        f"rings at {show_number(angle_deg)} deg are written {near} deg.",
    )


def rings_in_words(rings: Sequence[Ring]) -> str:
    """Ring orientations of the strips of a panel, from one edge to the other, or how many there are of each.

    Examples
    --------
    >>> rings_in_words([Ring.FLAT, Ring.FLAT])
    'flat'
    >>> rings_in_words([Ring(30.0)])
    '30° rings'
    >>> rings_in_words([Ring.FLAT, Ring(30.0), Ring.FLAT])
    'flat, 30°, flat'
    >>> rings_in_words([Ring.FLAT, Ring.RIFT, Ring(30.0)] * 2)
    '2 flat, 2 rift, 2 at 30°'
    """
    counted = Counter(ring.word for ring in rings)
    if len(counted) == 1:
        only = next(iter(counted))
        return only if only in RING_NAMES else f"{only} rings"
    if len(rings) <= _LISTED:
        return ", ".join(ring.word for ring in rings)
    return ", ".join(
        f"{count} {'' if name in RING_NAMES else 'at '}{name}" for name, count in counted.items()
    )
