"""Boards over several supports against the beam tables, and against statics where that is enough."""

from __future__ import annotations

import pytest

from scantling.structure.continuous import worst_shares
from tests.published.value import Published

TABLES = "American Wood Council, Design Aid 6, Beam Formulas (recalled)"


def test_two_supports_at_the_ends_bear_half_each() -> None:
    """Statics."""
    assert worst_shares(900.0, (0.0, 900.0)) == pytest.approx((0.5, 0.5))


@pytest.mark.parametrize(
    ("spans", "number", "printed", "where"),
    [
        (2, 1, 1.25, "two equal spans, middle"),
        (2, 0, 0.4375, "two equal spans, one loaded, end"),
        (3, 1, 1.20, "three equal spans, an end one empty, inner"),
        (3, 0, 0.45, "three equal spans, the middle one empty, end"),
    ],
)
def test_supports_of_equal_spans(spans: int, number: int, printed: float, where: str) -> None:
    """Reactions in w l, at the worst filling."""
    shares = worst_shares(spans * 400.0, tuple(400.0 * k for k in range(spans + 1)))
    Published(value=printed, absolute=0.005, source=TABLES, where=where, why="printed to 0.01").check(
        spans * shares[number]
    )


def test_an_overhang_by_hand() -> None:
    """1000 long on 0 and 800: the overhang's 0.2 at 900 gives 0.225 on the near one, the span 0.4 each."""
    assert worst_shares(1000.0, (0.0, 800.0)) == pytest.approx((0.4, 0.625))
