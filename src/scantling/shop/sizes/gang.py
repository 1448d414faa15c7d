"""A length that several short parts are milled in, and crosscut apart from later."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["HAND_LENGTH_MM", "INNER_END_MM", "SMALL_MM", "Gang"]

INNER_END_MM = 2.0
"""Left on an end that is sawn off a length already milled: what squares it (common practice). [mm]"""
SMALL_MM = 150.0
"""Alike parts shorter than this are made in one length by hand too (common practice). [mm]"""
HAND_LENGTH_MM = 300.0
"""Least length small parts are made in where no machine sets one (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gang:
    """Blanks of one section, end to end in one length.

    Parameters
    ----------
    name
        What is chalked on the length.
    blanks, parts
        Names of the blanks in order from the left end, and of the parts they become.
    length_mm
        Rough length of the whole. [mm]
    least_mm
        What a length must have to be milled safely. [mm]
    tail_mm
        Length beyond the blanks, for the machines alone; 0 where the blanks are long enough. [mm]
    kerf_mm
        Of the saw that parts them. [mm]
    machine
        The machine that asks for it; empty where small parts are only easier to hold so.
    grain
        Whether they are one length because grain is to run through them; each then keeps its own ends.
    """

    name: str
    blanks: tuple[str, ...]
    parts: tuple[str, ...]
    length_mm: float
    least_mm: float
    tail_mm: float
    kerf_mm: float
    machine: str
    grain: bool = False

    @property
    def reason(self) -> str:
        """Why they stay together, in words."""
        if self.grain:
            return "their grain runs through"
        if not self.machine:
            return "one by one they are too small to hold"
        return f"the {self.machine} takes {self.least_mm:.0f} mm and more"
