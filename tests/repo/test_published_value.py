"""The yardstick of all published checks is itself true."""

from __future__ import annotations

import re

import pytest

from tests.published.value import Published

SOURCE = {"source": "A Book of Beams", "where": "example 3", "why": "printed to two digits"}


@pytest.mark.parametrize("sign", [-1, 1])
@pytest.mark.parametrize("value", [-40.0, 0.002, 12.5])
def test_a_value_within_the_tolerance_matches_and_one_off_by_three_does_not(value: float, sign: int) -> None:
    """Both sides of the printed value, whatever its size."""
    printed = Published(value=value, rel=0.01, **SOURCE)
    assert printed.matches(value + sign * printed.tolerance)
    assert not printed.matches(value + 3 * sign * printed.tolerance)


def test_a_miss_names_the_source_and_both_values() -> None:
    """Whoever reads the failure can open the book at the page."""
    with pytest.raises(AssertionError, match=re.escape("A Book of Beams, example 3: printed 12.5 ± 0.05")):
        Published(value=12.5, absolute=0.05, **SOURCE).check(12.7)


@pytest.mark.parametrize(
    ("tolerance", "said"),
    [({"rel": 0.06}, "more than 5 %"), ({"absolute": 0.7}, "more than 5 %"), ({}, "give rel or absolute")],
)
def test_a_tolerance_that_proves_nothing_is_refused(tolerance: dict[str, float], said: str) -> None:
    """Too wide, by share or in the unit, or none at all."""
    with pytest.raises(AssertionError, match=said):
        Published(value=12.5, **tolerance, **SOURCE)
