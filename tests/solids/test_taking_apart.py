"""A piece comes apart in the order its solids allow, and what holds itself in a ring is named."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from scantling.joinery import JointWork, join, load_piece
from scantling.piece.geometry import Vec, add, dot, scale, sub
from scantling.piece.model import Piece
from scantling.solids.explode import explode
from scantling.solids.interference import overlaps
from scantling.solids.mesh import PartMesh, meshes_of
from scantling.solids.placed import placed_box
from scantling.solids.pulling import units_of
from scantling.solids.shape import shapes_of
from scantling.solids.taking_apart import TakingApart, take_apart
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
_MOISTURE = MoistureRange(build_pct=8.49, dry_pct=4.51, wet_pct=8.49)
COMES_APART = [
    "reading_table",
    "trestle_desk",
    "bookcase",
    "sideboard",
    "blanket_chest",
    "tray",
    "five_drawer_chest",
    "coat_rack",
]
"""Every example but the bench, whose legs hold each other."""
_ASIDE_MM = {"five_drawer_chest": 10.0, "sideboard": 5.0, "bookcase": 10.0}
"""What a part may go back along a joint that opens another way, where openings are over 100; else 1. [mm]"""


@cache
def _apart(name: str) -> tuple[Piece, tuple[JointWork, ...], dict[str, PartMesh], TakingApart]:
    piece = load_piece(EXAMPLES / f"{name}.yaml")
    works = join(piece, moisture=_MOISTURE)
    meshes = meshes_of(shapes_of(piece, works))
    return piece, works, meshes, take_apart(piece.parts, meshes, works)


def apart(made: Made) -> TakingApart:
    """How a small piece comes apart."""
    meshes = meshes_of(made.shapes)
    return take_apart(made.piece.parts, meshes, made.works)


def board(begin: list[float], end: list[float], section: list[float], toward: str, **more: object) -> dict:
    """A stick of white oak."""
    base = {"kind": "stick", "species": "white oak", "section": section, "width_toward": toward}
    return {**base, "from": begin, "to": end, **more}


@pytest.mark.parametrize("name", COMES_APART)
def test_every_part_of_an_example_comes_off(name: str) -> None:
    """One removal fewer than there are parts, each of parts that are still together, and no ring."""
    piece, _, _, found = _apart(name)
    assert found.rings == ()
    assert len(found.removals) == len(piece.parts) - 1
    together = [frozenset(piece.parts)]
    for removal in found.removals:
        whole = frozenset(removal.parts) | frozenset(removal.left)
        assert whole in together
        together.remove(whole)
        together += [frozenset(removal.parts), frozenset(removal.left)]


@pytest.mark.parametrize("name", COMES_APART)
def test_what_comes_off_runs_into_nothing_of_what_is_left(name: str) -> None:
    """Moved 4 and 60 mm its way, it shares no wood with what stays: told by another function."""
    piece, _, meshes, found = _apart(name)
    for removal in found.removals:
        for far in (4.0, 60.0):
            parts = {n: _moved(piece, n, scale(removal.way, far)) for n in removal.parts}
            reach = _around([placed_box(part, meshes[n]) for n, part in parts.items()])
            parts |= {
                n: piece.parts[n] for n in removal.left if _meet(reach, placed_box(piece.parts[n], meshes[n]))
            }
            shared = overlaps(parts, {n: meshes[n] for n in parts}, least_mm3=6.0, least_mm=0.2)
            crossing = [o for o in shared if (o.first in removal.parts) is not (o.second in removal.parts)]
            assert crossing == [], removal.parts


def _around(boxes: list[np.ndarray]) -> np.ndarray:
    corners = np.array(boxes)
    return np.array([corners[:, 0].min(axis=0), corners[:, 1].max(axis=0)])


def _meet(one: np.ndarray, other: np.ndarray) -> bool:
    return bool((np.minimum(one[1], other[1]) > np.maximum(one[0], other[0])).all())


def _moved(piece: Piece, name: str, by: Vec):
    part = piece.parts[name]
    return replace(part, frame=replace(part.frame, origin=add(part.frame.origin, by)))


@pytest.mark.parametrize(("name", "units"), [("sideboard", 5), ("five_drawer_chest", 5)])
def test_doors_and_drawers_are_taken_out_whole_before_all_else(name: str, units: int) -> None:
    """As the picture has it; each of them is taken apart for itself later."""
    piece, works, meshes, found = _apart(name)
    _, *others = units_of(piece.parts, meshes, works)
    assert len(others) == units
    assert {removal.parts for removal in found.removals[:units]} == set(others)
    assert all(removal.way == pytest.approx((0.0, -1.0, 0.0)) for removal in found.removals[:units])


def test_the_ends_come_off_a_breadboard_top_before_it_is_lifted() -> None:
    """Slid off one end sideways it would be free too, but its clips open upward."""
    _, _, _, found = _apart("reading_table")
    ends, [top] = found.removals[:2], [r for r in found.removals if r.parts == ("top",)]
    assert {r.parts for r in ends} == {("end_left",), ("end_right",)}
    assert top.way == pytest.approx((0.0, 0.0, 1.0))


def test_legs_that_spread_with_stretchers_between_hold_each_other() -> None:
    """A leg is drawn out of the seat; its stretcher stops it, the leg behind stops that, and the seat it."""
    _, _, _, found = _apart("hall_bench")
    [ring] = found.rings
    assert ring == ("leg_fl", "stretcher_left", "leg_bl", "seat")


def test_a_halving_lifts_out_upward() -> None:
    """The part that keeps its upper half comes up, and no other way."""
    parts = {
        "over": board([-200, 0, 10], [200, 0, 10], [60, 20], "back"),
        "under": board([0, -200, 10], [0, 200, 10], [40, 20], "right"),
    }
    found = apart(made_of(parts, {"j": {"kind": "halving", "between": [["over", "under"]]}}))
    [removal] = found.removals
    lifted = removal.way if removal.parts == ("over",) else scale(removal.way, -1.0)
    assert lifted == pytest.approx((0.0, 0.0, 1.0))


@pytest.mark.parametrize(("pegged", "up"), [(False, 1.0), (True, 0.0)])
def test_dowels_bar_the_way_across(pegged: bool, up: float) -> None:
    """A rail butted on a post slides off upward if asked to; with dowels in both only along itself."""
    parts = {
        "rail": board([0, 0, 145], [400, 0, 145], [90, 24], "top", trim={"end": "post.left"}),
        "post": board([424, 0, 0], [424, 0, 300], [48, 48], "right"),
    }
    sizes = {"diameter": 8, "depth_first": 30, "depth_second": 25}
    made = made_of(parts, {"j": {"kind": "dowel_pin", "between": [["rail.end", "post"]], **sizes}})
    [work] = made.works
    asked = replace(work, leaves=(0.0, 0.0, 1.0), connectors=work.connectors if pegged else ())
    [removal] = apart(Made(made.piece, (asked,))).removals
    assert abs(removal.way[2]) == pytest.approx(up)


def test_a_post_comes_off_a_frame_before_its_rails() -> None:
    """Two rails tenoned into two posts: the rails are caught between them."""
    ends = {"start": "post_1.right", "end": "post_2.left"}
    parts = {
        "low": board([0, 0, 100], [400, 0, 100], [60, 24], "top", trim=ends),
        "high": board([0, 0, 220], [400, 0, 220], [60, 24], "top", trim=ends),
        "post_1": board([0, 0, 0], [0, 0, 300], [48, 48], "right"),
        "post_2": board([400, 0, 0], [400, 0, 300], [48, 48], "right"),
    }
    pairs = [
        [f"{rail}.{end}", f"post_{k}"] for rail in ("low", "high") for end, k in (("start", 1), ("end", 2))
    ]
    found = apart(made_of(parts, {"j": {"kind": "mortise_tenon", "length": 20, "between": pairs}}))
    assert found.rings == ()
    assert found.removals[0].parts[0].startswith("post")


@pytest.mark.parametrize("name", COMES_APART)
def test_the_picture_pulled_apart_agrees_with_the_order(name: str) -> None:
    """What comes off has, in the picture, moved its way against all it was joined to, not back through it."""
    piece, works, meshes, found = _apart(name)
    moved = explode(piece.parts, meshes, works).offsets_mm
    pairs = [(w.first, w.second) for w in works] + [(w.second, w.first) for w in works]
    for removal in found.removals:
        for one, other in pairs:
            if one in removal.parts and other in removal.left:
                opened_mm = dot(sub(moved[one], moved[other]), removal.way)
                assert opened_mm > -_ASIDE_MM.get(name, 1.0), (one, other)
