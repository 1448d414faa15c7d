"""Published derivation of compound-angle joinery (docslib.org/doc/11210050): four sides leaning outward.

Its formulas are miter atan(sin t tan(180/N)), bevel asin(cos t sin(180/N)) mitred and asin(sin^2 t) butted.
The figures below are not printed there: they are worked by hand from the formulas. Ours come from the plane
of the corner alone.
"""

from __future__ import annotations

import math

import pytest

from scantling.piece.geometry import Vec
from scantling.shop.sawing.sawplane import placements
from tests.published.value import Published

SOURCE = "Compound-angle joinery, docslib.org/doc/11210050"


def flat_on_the_saw(normal: Vec) -> tuple[float, float]:
    """Miter and bevel with the wide face on the table."""
    place = next(place for place in placements(normal) if abs(place.down[2]) > 0.5)
    return place.miter_deg, place.bevel_deg


@pytest.mark.parametrize(
    ("lean", "miter", "mitred", "butted"),
    [(10, 9.85, 44.14, 1.73), (15, 14.51, 43.08, 3.84), (20, 18.88, 41.64, 6.72), (30, 26.57, 37.76, 14.48)],
)
def test_four_sides(lean: float, miter: float, mitred: float, butted: float) -> None:
    """Miter, mitred bevel and butted bevel of a side that leans outward."""
    t, half = math.radians(lean), math.radians(45.0)
    bisector = (math.cos(half), -math.sin(t) * math.sin(half), -math.cos(t) * math.sin(half))
    neighbour = (math.cos(t), -math.sin(t) * math.cos(t), math.sin(t) ** 2)
    found = (*flat_on_the_saw(bisector), flat_on_the_saw(neighbour)[1])
    for printed, actual in zip((miter, mitred, butted), found, strict=True):
        Published(
            value=printed, absolute=0.006, source=SOURCE, where=f"lean {lean}", why="by hand to 0.01"
        ).check(actual)
    assert flat_on_the_saw(neighbour)[0] == pytest.approx(found[0])
