"""What an expression comes to, and the kinds of quantity met on the way."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.units import Dimension

__all__ = ["ANGLE", "LENGTH", "NUMBER", "TRUTH", "Kind", "Quantity", "kind_of"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value in the internal unit of its dimension.

    Parameters
    ----------
    value
        In mm for a length, degrees for an angle, as it is for a number.
    dimension
        Length, angle or number.
    """

    value: float
    dimension: Dimension


@dataclass(frozen=True, slots=True)
class Kind:
    """Kind of an intermediate value: a power of length, an angle, or a yes-or-no.

    Parameters
    ----------
    length
        Power of length: 1 for a length, 2 for an area, 0 for a number. [1]
    angle
        1 for an angle. [1]
    truth
        Whether it is the yes or no of a comparison.
    """

    length: int = 0
    angle: int = 0
    truth: bool = False

    def __str__(self) -> str:
        if self.truth:
            return "a yes or no"
        if self.angle:
            return "an angle"
        named = {0: "a number", 1: "a length", 2: "an area", 3: "a volume", -1: "one over a length"}
        return named.get(self.length, f"a length to the power {self.length}")

    @property
    def dimension(self) -> Dimension | None:
        """The dimension a result of this kind has; None for areas and the like, which are no result."""
        return _DIMENSIONS.get(self)


NUMBER = Kind()
LENGTH = Kind(length=1)
ANGLE = Kind(angle=1)
TRUTH = Kind(truth=True)
_DIMENSIONS = {NUMBER: Dimension.NUMBER, LENGTH: Dimension.LENGTH, ANGLE: Dimension.ANGLE}


def kind_of(dimension: Dimension) -> Kind | None:
    """Kind of a quantity of a dimension; None for those no expression reckons with (a temperature)."""
    return next((kind for kind, known in _DIMENSIONS.items() if known is dimension), None)
