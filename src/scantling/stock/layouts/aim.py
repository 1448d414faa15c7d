"""What a layout is to be good at: price, waste, cuts, a large offcut, looks, at the maker's own weights."""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scantling.stock.layouts.layout import Layout

__all__ = ["Aim", "largest_offcut_m2", "wasted_m2"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """Weights. All come to money, so that they can be held against each other.

    Parameters
    ----------
    price
        What a unit of money paid for boards counts; 0 for wood that is paid for. [1]
    waste
        What a square meter of face counts that is cut and becomes no blank. [money/m2]
    cut
        What each cut counts: the minutes it takes. [money]
    offcut
        What a square meter of the largest offcut worth keeping is worth. [money/m2]
    looks
        What a unit of a wish's worth counts. [1]
    """

    price: float = 1.0
    waste: float = 0.0
    cut: float = 0.0
    offcut: float = 0.0
    looks: float = 1.0

    @property
    def price_alone(self) -> bool:
        """Whether boards are weighed by their price and nothing else."""
        return self.price == 1.0 and not (self.waste or self.cut or self.offcut)

    @classmethod
    def names(cls) -> tuple[str, ...]:
        """Names of the weights."""
        return tuple(f.name for f in fields(cls))


def wasted_m2(layout: Layout) -> float:
    """Face of the boards cut that becomes no blank. [m2]"""
    whole = sum(b.board.mean_width_mm * b.board.length_mm for b in layout.boards)
    return (whole - sum(p.length_mm * p.width_mm for b in layout.boards for p in b.placed)) * 1e-6


def largest_offcut_m2(layout: Layout) -> float:
    """Face of the largest offcut worth keeping; 0 where there is none. [m2]"""
    kept = (o.length_mm * o.width_mm for b in layout.boards for o in b.offcuts if o.usable)
    return max(kept, default=0.0) * 1e-6
