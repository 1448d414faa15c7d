"""How the growth rings stand in a board's section."""

from __future__ import annotations

from enum import StrEnum

__all__ = ["Ring"]


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
