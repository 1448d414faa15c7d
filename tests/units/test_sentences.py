"""Sentences told in inches."""

from __future__ import annotations

import pytest

from scantling.units.sentences import sentence_in_inches


@pytest.mark.parametrize(
    ("metric", "inches"),
    [
        ("24 in (610 mm) of room each", "24 in of room each"),
        ("must be at least 1/8 in (3 mm)", "must be at least 1/8 in"),
        ("a board 38 mm (1 1/2 in) thick", "a board 1 1/2 in thick"),
        ("1.7 mm of it stay in; at least 3.0 mm", "0.07 in of it stay in; at least 1/8 in"),
    ],
)
def test_what_is_told_in_both_units_is_told_once(metric: str, inches: str) -> None:
    """A length in inches with its millimeters in brackets keeps the inches as they are printed."""
    assert sentence_in_inches(metric) == inches
