"""Edges ripped out of square: tilt, which face lies down, what is left of the width."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import pytest

from scantling.joinery import load_piece_text
from scantling.piece.convex import body_of, local_body
from scantling.piece.geometry import Plane
from scantling.piece.model import Direction, Edge, Part
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.machines import Machines
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.sawing.edgerip import EdgeRip, edge_rips
from scantling.shop.sawing.saw import saw_part
from tests.joinery.bench import file_text

SHOP = default_shop()


def side(lean: float, edges: dict[str, str], **more: Any) -> Part:
    """A board 80 x 12 along the front, leaning out."""
    block = {
        "kind": "stick",
        "species": "white oak",
        "from": [-200, 0, 100],
        "to": [200, 0, 100],
        "section": [80, 12],
        "width_toward": "top",
        "lean": [f"{lean} deg", "front"],
        "edges": edges,
        **more,
    }
    return load_piece_text(file_text({"side": block})).parts["side"]


def rips(part: Part) -> dict[str, EdgeRip]:
    """By the edge."""
    return {rip.edge.value: rip for rip in edge_rips(part, SHOP.machines)}


@pytest.mark.parametrize("lean", [5.0, 20.0, 40.0])
def test_level_edges_are_ripped_at_the_lean(lean: float) -> None:
    """The tilt is the lean; each edge takes thickness times its tangent off one face, so both end alike."""
    found = rips(side(lean, {"top": "level", "bottom": "level"}))
    lost = 12.0 * math.tan(math.radians(lean))
    for rip in found.values():
        assert rip.tilt_deg == pytest.approx(lean)
        assert rip.sled_deg == 0.0
        assert (rip.narrow_mm, rip.loss_mm) == pytest.approx((80.0 - lost, lost))
        assert rip.machine is Machine.TABLE_SAW
    assert found["top"].wide_mm == pytest.approx(80.0)
    assert found["bottom"].wide_mm == pytest.approx(80.0 - lost)


def test_a_stave_loses_on_one_face_twice() -> None:
    """Both edges lean in: each takes 20 tan 15 off the same face, the second from what the first left."""
    part = side(0.0, {}, section=[100, 20])
    planes = [("width+", 1.0), ("width-", -1.0)]
    slope = math.radians(15.0)
    edges = tuple(
        Edge(
            side=name,
            face=Direction.TOP if sign > 0 else Direction.BOTTOM,
            by="miter",
            plane=Plane(
                normal=(0.0, sign * math.cos(slope), math.sin(slope)), point=(0.0, sign * 50.0, -10.0)
            ),
        )
        for name, sign in planes
    )
    first, second = edge_rips(replace(part, edges=edges), SHOP.machines)
    lost = 20.0 * math.tan(slope)
    assert (first.narrow_mm, first.wide_mm) == pytest.approx((100.0 - lost, 100.0))
    assert (second.narrow_mm, second.wide_mm) == pytest.approx((100.0 - 2.0 * lost, 100.0))


def test_the_face_that_gets_narrower_lies_down() -> None:
    """Leaning to the front, the inner (back) face loses at the rim, the outer (front) one at the foot."""
    found = rips(side(20.0, {"top": "level", "bottom": "level"}))
    assert (found["top"].face_down.value, found["bottom"].face_down.value) == ("back", "front")


def test_past_the_saws_tilt_it_is_planed() -> None:
    """A saw that tilts to 30 takes 30 and not 31; without a table saw none does."""
    small = parse_shop("machines:\n  table_saw: {max_tilt: 30 deg}\n").machines
    for lean, machine in ((30.0, Machine.TABLE_SAW), (31.0, Machine.HAND_PLANE)):
        (rip,) = edge_rips(side(lean, {"top": "level"}), small)
        assert rip.machine is machine
    (rip,) = edge_rips(side(20.0, {"top": "level"}), Machines())
    assert rip.machine is Machine.HAND_PLANE


def test_a_plumb_face_of_a_leaning_board() -> None:
    """A face ripped plumb leans from square by the board's lean as well."""
    block = side(15.0, {"front": "plumb"}, section=[80, 40])
    assert rips(block)["front"].tilt_deg == pytest.approx(15.0)


def test_tapered_staves_go_on_a_sled() -> None:
    """Eight staves leaning in: their edges taper by the sled's angle, and are out of square by about 22.5."""
    stave = {
        "kind": "stick",
        "species": "white oak",
        "from": [0, -120, 0],
        "to": [0, -80, 400],
        "section": [110, 18],
        "width_toward": "right",
        "edges": {"left": "miter with previous", "right": "miter with next"},
        "repeat": {"count": 8, "turn": "45 deg"},
    }
    part = load_piece_text(file_text({"stave": stave})).parts["stave_1"]
    found = edge_rips(part, SHOP.machines)
    length = math.hypot(40.0, 400.0)
    for rip in found:
        assert math.tan(math.radians(rip.sled_deg)) == pytest.approx(
            40.0 * math.tan(math.pi / 8.0) / length, rel=0.01
        )
        assert rip.tilt_deg == pytest.approx(22.5, abs=0.3)
    low, high = (abs(rip.tilt_deg) for rip in found)
    assert low == pytest.approx(high)


@pytest.mark.parametrize("lean", [20.0, -20.0])
@pytest.mark.parametrize("mirrored", [False, True])
def test_points_are_those_of_the_ripped_part(lean: float, mirrored: bool) -> None:
    """Ends at 10 and 25 degrees across a leaning board: points as on its body, edges ripped, either hand."""
    parts = {
        "low": plank([-150, 0, 0], 10.0),
        "high": plank([150, 0, 0], 25.0),
        "side": {
            "kind": "stick",
            "species": "white oak",
            "from": [-120, 0, 100],
            "to": [120, 0, 100],
            "section": [80, 12],
            "width_toward": "top",
            "lean": [f"{lean} deg", "front"],
            "edges": {"top": "level", "bottom": "level"},
            "trim": {"start": "low.right", "end": "high.left"},
            "copies": {"other": {"mirror": ["front-back"]}},
        },
    }
    part = load_piece_text(file_text(parts)).parts["other" if mirrored else "side"]
    sawing = saw_part(part, {}, SHOP)
    low, high = body_of(part).extent(part.frame.grain)
    assert sawing.long_mm == pytest.approx(high - low)
    assert sawing.notes == ("rip the edges first, while the wood is long",)
    spans = sorted(arris.length_mm for arris in sawing.arrises)
    edges = [max(p) - min(p) for v, w in ((1, 1), (1, -1), (-1, 1), (-1, -1)) if (p := along(part, v, w))]
    assert spans == pytest.approx(sorted(edges))


def plank(at: list[float], lean: float) -> dict[str, Any]:
    """A broad upright board across the side, leaning away from it."""
    toward = "left" if at[0] < 0 else "right"
    return {
        "kind": "stick",
        "species": "white oak",
        "from": [at[0], -300, 100],
        "to": [at[0], 300, 100],
        "section": [300, 20],
        "width_toward": "top",
        "lean": [f"{lean} deg", toward],
    }


def along(part: Part, v: int, w: int) -> list[float]:
    """Where the arris between two long faces begins and ends along the grain. [mm]"""
    labels = {f"width{'+' if v > 0 else '-'}", f"thickness{'+' if w > 0 else '-'}"}
    faces = [face for face in local_body(part).faces if face.label in labels]
    shared = [a[0] for a in faces[0].corners for b in faces[1].corners if math.dist(a, b) < 1e-6]
    assert len(shared) == 2
    return shared
