"""Hardwood thicknesses, rough and surfaced two sides, in inches, as hardwood trade bodies print them."""

from __future__ import annotations

from fractions import Fraction

import pytest

from scantling.shop.profile.yard import nominals
from tests.published.value import Published

PRINTED = {
    "4/4": ("1", "13/16"),
    "5/4": ("5/4", "17/16"),
    "6/4": ("3/2", "21/16"),
    "7/4": ("7/4", "3/2"),
    "8/4": ("2", "7/4"),
    "12/4": ("3", "11/4"),
    "14/4": ("7/2", "13/4"),
    "16/4": ("4", "15/4"),
}


@pytest.mark.parametrize("name", PRINTED)
def test_rough_and_surfaced(name: str) -> None:
    """Each printed thickness, to a hundredth of a millimeter."""
    nominal = next(found for found in nominals() if found.name == name)
    for text, actual_mm in zip(PRINTED[name], (nominal.rough_mm, nominal.surfaced_mm), strict=True):
        Published(
            value=float(Fraction(text)),
            absolute=0.0005,
            source="hardwood trade bodies (Wood Handbook, FPL-GTR-190, table 6-2 agrees)",
            where=f"rough and S2S thickness, {name}",
            why="printed as exact fractions of an inch",
        ).check(actual_mm / 25.4)
