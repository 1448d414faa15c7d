"""A value printed in a publication, and how near a computed one must come to it."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Published"]

WIDEST_REL = 0.05
"""A tolerance wider than this proves nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One printed value.

    Parameters
    ----------
    value
        As printed, in the unit the test compares in.
    source, where
        The publication, and its table, example, figure or page.
    why
        Why the tolerance is what it is: ``printed to two digits``, ``read off a curve``.
    rel
        Tolerance as a share of the value. [1] at most 0.05
    absolute
        Tolerance in the value's unit; the wider of the two counts, and it keeps to the same share.
    """

    value: float
    source: str
    where: str
    why: str
    rel: float = 0.0
    absolute: float = 0.0

    def __post_init__(self) -> None:
        assert self.source, "name the publication"
        assert self.where, "name table, example, figure or page"
        assert self.why, "say why the tolerance is what it is"
        assert self.tolerance > 0, "a printed value is rounded: give rel or absolute"
        widest = WIDEST_REL * abs(self.value) if self.value else self.absolute
        assert self.tolerance <= widest, f"{self.tolerance:g} is more than 5 % of {self.value:g}"

    @property
    def tolerance(self) -> float:
        """The wider of the two tolerances, in the value's unit."""
        return max(self.rel * abs(self.value), self.absolute)

    def matches(self, actual: float) -> bool:
        """Whether a computed value comes near enough."""
        return abs(actual - self.value) <= self.tolerance * (1 + 1e-9)

    def check(self, actual: float) -> None:
        """Fail, naming the source, unless a computed value comes near enough."""
        assert self.matches(actual), (
            f"{self.source}, {self.where}: printed {self.value:g} ± {self.tolerance:g} ({self.why}), "
            f"computed {actual:.6g}"
        )
