"""How lengths are shown: the unit that leads, how finely, and whether the other unit follows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from scantling.units.lengths import MM_PER_INCH

__all__ = ["LengthStyle", "Round", "bracketed", "leading", "other_unit", "unit_name"]


class Round(StrEnum):
    """Which way to round: a mortise up, a tenon down, the rest to the nearest."""

    NEAREST = "nearest"
    UP = "up"
    DOWN = "down"


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthStyle:
    """How lengths are shown.

    Parameters
    ----------
    inch
        Whether to show inches and fractions instead of millimeters; of both, which leads.
    denominator
        Smallest fraction of an inch shown, a power of two.
    step_mm
        Smallest step of a millimeter shown. [mm]
    both
        Whether the other unit follows in square brackets: ``730.5 mm [28 3/4 in]``. Round brackets are left
        for what they mean on a drawing, a size that is told for information (ISO 129-1).
    """

    inch: bool = False
    denominator: int = 32
    step_mm: float = 0.5
    both: bool = False

    @classmethod
    def of(cls, units: str, *, fractions: int = 32, step_mm: float = 0.5, both: bool = False) -> LengthStyle:
        """By the name of the unit that leads, ``mm`` or ``in``.

        Parameters
        ----------
        units
            ``mm``, ``in``, or ``both`` of what has no file of its own: millimeters lead.
        fractions
            Smallest fraction of an inch.
        step_mm
            Smallest step of a millimeter. [mm]
        both
            Whether the other unit follows.
        """
        return _style(units == "in", fractions, step_mm, both or units == "both")

    @property
    def step(self) -> float:
        """Smallest step shown. [mm]"""
        return float(MM_PER_INCH) / self.denominator if self.inch else self.step_mm

    @property
    def styles(self) -> tuple[LengthStyle, ...]:
        """The unit that leads alone, then the other one where both are shown."""
        first = replace(self, both=False)
        return (first, replace(first, inch=not self.inch)) if self.both else (first,)

    @property
    def fine(self) -> LengthStyle:
        """The same to 1/64 in or 0.1 mm: for cutters, gaps and depths, whatever the tape is read to."""
        return _style(self.inch, 64, 0.1, self.both)

    @property
    def heading(self) -> str:
        """Names of the units for headings: ``mm``, ``in``, ``mm [in]`` or ``in [mm]``."""
        return bracketed(map(unit_name, self.styles))


@lru_cache(maxsize=64)
def _style(inch: bool, denominator: int, step_mm: float, both: bool) -> LengthStyle:
    """One object for each style: what is shown in it is found again by it."""
    return LengthStyle(inch=inch, denominator=denominator, step_mm=step_mm, both=both)


_OPEN, _CLOSE = " [", "]"


def unit_name(style: LengthStyle) -> str:
    """The unit that leads, ``mm`` or ``in``."""
    return "in" if style.inch else "mm"


def bracketed(told: Iterable[str]) -> str:
    """What is told in the unit that leads, with the same in the other one in square brackets."""
    first, *rest = told
    return first + "".join(f"{_OPEN}{other}{_CLOSE}" for other in rest)


def leading(text: str) -> str:
    """A figure in the unit that leads alone."""
    return text.partition(_OPEN)[0]


def other_unit(text: str) -> str:
    """What stands in square brackets behind a figure, with them; empty for a figure in one unit.

    Examples
    --------
    >>> leading("734 [28 29/32]"), other_unit("734 [28 29/32]"), other_unit("734")
    ('734', '[28 29/32]', '')
    """
    return text[len(leading(text)) :].removeprefix(" ")
