"""Chains of distances whose rounded figures still add up to the rounded whole."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from scantling.papers.pages.figures import Figures

__all__ = ["FIT", "ChainLink", "chain_links"]

FIT = "fit"
"""Stands for the one link that is fitted to the piece: what the others leave of the whole."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChainLink:
    """One distance of a chain.

    Parameters
    ----------
    low_mm, high_mm
        From where to where. [mm]
    text
        The figure shown, or :data:`FIT`.
    """

    low_mm: float
    high_mm: float
    text: str


def chain_links(breaks_mm: Sequence[float], *, figures: Figures) -> tuple[ChainLink, ...]:
    """Distances between places in a row, figures that add up.

    Each distance is rounded on its own. Where the figures then miss the rounded whole, the longest distance
    is marked to be fitted to the piece: over it the steps missing weigh least. Each of both units must
    add up.

    Parameters
    ----------
    breaks_mm
        The places, at least two, rising. [mm]
    figures
        How lengths are written.

    Returns
    -------
    tuple of ChainLink
        In order; at most one is to be fitted.

    Examples
    --------
    >>> from scantling.units import LengthStyle
    >>> mm = Figures(style=LengthStyle(inch=False, step_mm=0.5))
    >>> [link.text for link in chain_links([0.0, 100.2, 200.4, 300.6], figures=mm)]
    ['100', '100', 'fit']
    >>> [link.text for link in chain_links([0.0, 90.0, 740.0], figures=mm)]
    ['90', '650']
    """
    spans = list(pairwise(breaks_mm))
    fitted = None
    if any(_misses(breaks_mm, style.step) for style in figures.style.styles):
        lengths = [round(high - low, 6) for low, high in spans]
        fitted = max(range(len(spans)), key=lambda i: (lengths[i], i))
    return tuple(
        ChainLink(low_mm=low, high_mm=high, text=FIT if i == fitted else figures.bare(high - low))
        for i, (low, high) in enumerate(spans)
    )


def _misses(breaks_mm: Sequence[float], step_mm: float) -> bool:
    """Whether the distances, each rounded on its own, miss the rounded whole."""
    whole = _steps(breaks_mm[-1] - breaks_mm[0], step_mm)
    return sum(_steps(high - low, step_mm) for low, high in pairwise(breaks_mm)) != whole


def _steps(length_mm: float, step_mm: float) -> int:
    """A length in the smallest steps shown, rounded as figures are."""
    return math.floor(length_mm / step_mm + 0.5 + 1e-9)
