"""A saw maker's chart of compound angles, against sides drawn in a piece file and mitered all round.

The chart gives the miter and the bevel of a side by its pitch, measured from level; ours lean from plumb by
the rest of the right angle. Nothing here computes by a formula: the planes come from where the parts stand.
"""

from __future__ import annotations

import pytest

from scantling.joinery import load_piece_text
from scantling.piece.model import Part
from scantling.shop.partends import right_handed
from scantling.shop.sawplane import placements
from tests.joinery.bench import file_text
from tests.published.value import Published

SOURCE = "Operator's manual of a 10 in compound miter saw, model 315.21212"
PRINTED: dict[tuple[int, int], tuple[float, float]] = {
    (4, 20): (43.22, 14.00),
    (5, 20): (34.32, 11.60),
    (6, 20): (28.48, 9.85),
    (8, 20): (21.27, 7.52),
    (10, 20): (16.98, 6.07),
    (4, 30): (40.89, 20.70),
    (5, 30): (32.18, 17.09),
    (6, 30): (26.57, 14.48),
    (7, 30): (22.64, 12.53),
    (8, 30): (19.73, 11.03),
    (9, 30): (17.50, 9.85),
    (4, 40): (37.45, 27.03),
    (6, 40): (23.86, 18.75),
    (8, 40): (17.60, 14.24),
    (4, 45): (35.26, 30.00),
    (5, 45): (27.19, 24.56),
    (6, 45): (22.21, 20.70),
    (8, 45): (16.32, 15.70),
    (10, 45): (12.94, 12.62),
}
"""Miter and bevel by number of sides and pitch. [deg]"""


def ring(sides: int, lean: float, *, apothem: float = 300.0) -> dict[str, Part]:
    """Sides that lean outward, mitered all round."""
    side = {
        "kind": "stick",
        "species": "white oak",
        "from": [-50, -apothem, 200],
        "to": [50, -apothem, 200],
        "section": [60, 12],
        "width_toward": "top",
        "lean": [f"{lean} deg", "front"],
        "trim": {"start": "miter with previous", "end": "miter with next"},
        "repeat": {"count": sides, "turn": f"360 deg / {sides}"},
    }
    return dict(load_piece_text(file_text({"side": side})).parts)


def flat_on_the_saw(part: Part, end: int) -> tuple[float, float]:
    """Miter and bevel of an end with the wide face on the table."""
    nu, nv, nw = part.trims[end].plane.normal
    normal = (nu, nv if right_handed(part) else -nv, nw)
    place = next(place for place in placements(normal) if abs(place.down[2]) > 0.5)
    return place.miter_deg, place.bevel_deg


@pytest.mark.parametrize(("sides", "pitch"), PRINTED)
def test_miter_and_bevel_of_both_ends_of_every_side(sides: int, pitch: int) -> None:
    """As printed, at both ends of all the sides."""
    for part in ring(sides, 90.0 - pitch).values():
        for end in (0, 1):
            found = flat_on_the_saw(part, end)
            for printed, actual in zip(PRINTED[sides, pitch], found, strict=True):
                Published(
                    value=printed,
                    absolute=0.006,
                    source=SOURCE,
                    where=f"compound angle setting chart, {sides} sides, pitch {pitch}",
                    why="printed to two decimals",
                ).check(actual)
