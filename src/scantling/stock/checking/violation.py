"""What an independent check of a layout finds."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["TOLERANCE_MM", "Violation"]

TOLERANCE_MM = 2e-3
"""Sizes are whole thousandths of a millimeter; two roundings may meet. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Violation:
    """One rule a layout breaks.

    Parameters
    ----------
    code
        Name of the rule.
    where
        Board, and blank where there is one.
    message
        What is wrong, with the figures.
    """

    code: str
    where: str
    message: str
