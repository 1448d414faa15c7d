"""A saw maker's chart of compound angles, against sides drawn in a piece file and mitered all round.

The chart gives the miter and the bevel of a side by its pitch, measured from level; ours lean from plumb by
the rest of the right angle. Nothing here computes by a formula: the planes come from where the parts stand.
"""

from __future__ import annotations

import math

import pytest

from scantling.joinery import load_piece_text
from scantling.piece.model import Part
from scantling.shop.profile.machines import Machines
from scantling.shop.sawing.edgerip import edge_rips
from scantling.shop.sawing.partends import right_handed
from scantling.shop.sawing.sawplane import placements
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


def test_a_butted_corner_is_beveled_as_derived() -> None:
    """Four sides leaning 20 degrees, two between the others: miter 18.88, bevel asin(sin^2 t) = 6.72."""
    side = ring(4, 20.0)["side_1"]
    block = {
        "kind": "stick",
        "species": "white oak",
        "from": [300, -50, 200],
        "to": [300, 50, 200],
        "section": [60, 12],
        "width_toward": "top",
        "lean": ["20 deg", "right"],
    }
    front = {
        **block,
        "from": [-50, -300, 200],
        "to": [50, -300, 200],
        "lean": ["20 deg", "front"],
        "trim": {"start": "left.right", "end": "right.left"},
    }
    parts = {"front": front, "right": {**block, "copies": {"left": {"mirror": ["left-right"]}}}}
    butted = load_piece_text(file_text(parts)).parts["front"]
    for end in (0, 1):
        found = (*flat_on_the_saw(butted, end), flat_on_the_saw(side, end)[0])
        for printed, actual in zip((18.88, 6.72, 18.88), found, strict=True):
            Published(
                value=printed,
                absolute=0.006,
                source="Compound-angle joinery, docslib.org/doc/11210050",
                where="lean 20, four sides, butted",
                why="worked by hand to 0.01 from its formulas",
            ).check(actual)


@pytest.mark.parametrize(("sides", "pitch"), [(6, 20), (8, 30), (4, 45), (5, 45), (8, 45), (10, 45)])
def test_tapered_staves_are_ripped_at_the_charts_angles(sides: int, pitch: int) -> None:
    """The same corner with the grain running up it: the sled has the chart's miter, the blade its bevel."""
    lean = math.radians(90.0 - pitch)
    foot, rise = 100.0, 120.0
    stave = {
        "kind": "stick",
        "species": "white oak",
        "from": [0, -foot, 0],
        "to": [0, -foot - rise * math.tan(lean), rise],
        "section": [1600, 12],
        "width_toward": "right",
        "edges": {"left": "miter with previous", "right": "miter with next"},
        "repeat": {"count": sides, "turn": f"360 deg / {sides}"},
    }
    part = load_piece_text(file_text({"stave": stave})).parts["stave_1"]
    for rip in edge_rips(part, Machines()):
        for printed, actual in zip(PRINTED[sides, pitch], (rip.sled_deg, rip.tilt_deg), strict=True):
            Published(
                value=printed,
                absolute=0.006,
                source=SOURCE,
                where=f"compound angle setting chart, {sides} sides, pitch {pitch}",
                why="printed to two decimals",
            ).check(actual)
