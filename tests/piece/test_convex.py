"""Convex bodies: volumes, areas, angles and lengths of clipped boxes against closed forms."""

from __future__ import annotations

import math

import manifold3d
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.joinery import load_piece_text
from scantling.piece.contact import contacts, nearest_gap_mm, overlap
from scantling.piece.convex import Body, body_of, box_body, clip, local_body, polygon_area, rod_body
from scantling.piece.geometry import Plane, Vec, dot, sub, unit
from scantling.piece.model import End, Part
from tests.joinery.bench import file_text

BOX = box_body(start_mm=0.0, end_mm=200.0, width_mm=60.0, thickness_mm=30.0)
SIDES = st.floats(-1.0, 1.0)
AXIS_MM = 412.0 * math.sqrt(1.0 + math.tan(math.radians(8.0)) ** 2 + math.tan(math.radians(5.0)) ** 2)


def leaning(**more: object) -> dict[str, object]:
    """A leg of section 48, 8 degrees out in the front view and 5 in the side view, 412 from floor to top."""
    x, y = 412.0 * math.tan(math.radians(8.0)), 412.0 * math.tan(math.radians(5.0))
    return {
        "kind": "stick",
        "species": "black cherry",
        "from": [-x, -y, 0],
        "to": [0, 0, 412],
        "section": [48, 48],
        "width_toward": "right",
        **more,
    }


TOP = {
    "kind": "panel",
    "species": "black cherry",
    "center": [0, 0, 424],
    "along": "right",
    "length": 600,
    "section": [400, 24],
    "width_toward": "back",
}


def part_of(block: dict[str, object], name: str = "leg") -> Part:
    """A part beside a top whose underside is 412 mm up."""
    return load_piece_text(file_text({"top": TOP, name: block})).parts[name]


def test_a_box_has_its_volume_and_its_surface() -> None:
    """200 x 60 x 30."""
    assert BOX.volume_mm3 == pytest.approx(360_000.0)
    assert sum(face.area_mm2 for face in BOX.faces) == pytest.approx(2 * (12_000 + 6_000 + 1_800))


def test_a_box_cut_through_its_middle_at_a_slant_keeps_half() -> None:
    """Whatever the slant, a plane through the center halves a box."""
    for normal in ((1.0, 0.0, 0.0), unit((1.0, 0.4, -0.3)), unit((0.2, 1.0, 1.0))):
        half = clip(BOX, Plane(point=(100.0, 0.0, 0.0), normal=normal), "cut")
        assert half.volume_mm3 == pytest.approx(180_000.0)


def test_a_corner_cut_off_is_a_sixth_of_its_edges_product() -> None:
    """A plane through three points 20, 15 and 10 from a corner takes off 20 x 15 x 10 / 6 = 500."""
    normal = unit((1.0 / 20.0, 1.0 / 15.0, 1.0 / 10.0))
    body = clip(BOX, Plane(point=(180.0, 30.0, 15.0), normal=normal), "corner")
    assert 360_000.0 - body.volume_mm3 == pytest.approx(500.0)
    [lid] = [face for face in body.faces if face.label == "corner"]
    assert lid.area_mm2 == pytest.approx(0.5 * math.sqrt((20 * 15) ** 2 + (15 * 10) ** 2 + (20 * 10) ** 2))


def test_a_plane_that_only_touches_changes_nothing() -> None:
    """Laid on a face, along an edge or past the body it cuts nothing off and adds no face."""
    for point, normal in (
        ((200.0, 0.0, 0.0), (1.0, 0.0, 0.0)),
        ((200.0, 30.0, 0.0), unit((1.0, 1.0, 0.0))),
        ((999.0, 0.0, 0.0), (1.0, 0.0, 0.0)),
    ):
        body = clip(BOX, Plane(point=point, normal=normal), "none")
        assert body.volume_mm3 == pytest.approx(360_000.0)
        assert len(body.faces) == 6


def test_a_plane_before_the_body_leaves_nothing() -> None:
    """All of it is on the side that goes."""
    assert clip(BOX, Plane(point=(-1.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0)), "all").volume_mm3 == 0.0


@settings(max_examples=60)
@given(n=st.tuples(SIDES, SIDES, SIDES), at=st.tuples(SIDES, SIDES, SIDES))
def test_the_two_halves_of_a_cut_make_the_whole(n: Vec, at: Vec) -> None:
    """Volume behind a plane and volume before it add up, and every face looks away from the inside."""
    if dot(n, n) < 1e-3:
        n = (1.0, 0.0, 0.0)
    plane = Plane(point=(100.0 + 90.0 * at[0], 25.0 * at[1], 12.0 * at[2]), normal=unit(n))
    kept, gone = clip(BOX, plane, "cut"), clip(BOX, plane.flipped(), "cut")
    assert kept.volume_mm3 + gone.volume_mm3 == pytest.approx(360_000.0, rel=1e-9)
    for body in (kept, gone):
        middle = tuple(sum(c[k] for c in body.corners) / len(body.corners) for k in range(3))
        assert all(dot(sub(middle, f.corners[0]), f.normal) < 1e-9 for f in body.faces)  # type: ignore[arg-type]


def test_a_splayed_leg_is_longer_by_the_two_leans() -> None:
    """8 and 5 degrees: factor 1.01361, so a rise of 412 takes 417.6 along the axis; 9.40 from plumb."""
    leg = part_of(leaning())
    axis = leg.end_mm - leg.start_mm
    assert axis == pytest.approx(AXIS_MM)
    assert axis == pytest.approx(417.6, abs=0.05)
    assert axis / 412.0 == pytest.approx(1.01361, abs=5e-6)
    assert math.degrees(math.acos(leg.frame.grain[2])) == pytest.approx(9.40, abs=0.005)
    assert math.degrees(math.atan2(leg.frame.grain[1], leg.frame.grain[0])) == pytest.approx(31.90, abs=0.005)


def test_trimming_level_adds_a_slope_at_each_end() -> None:
    """The blank runs from long point to long point, past each end by 24 mm times the slope in both faces."""
    leg = part_of(leaning(trim={"start": "floor", "end": "top.bottom"}))
    up = leg.frame.local_direction((0.0, 0.0, 1.0))
    past = 24.0 * (abs(up[1]) + abs(up[2])) / up[0]
    assert leg.end_mm == pytest.approx(AXIS_MM + past)
    assert leg.start_mm == pytest.approx(-past, abs=1e-3)
    assert local_body(leg).volume_mm3 == pytest.approx(48.0 * 48.0 * AXIS_MM)  # a sheared prism


def test_parallel_and_mirrored_ends() -> None:
    """90 wide at 12 degrees, 700 on the middle: tip to tip 719.1; mirrored, the short edge is 680.9."""
    offset = 90.0 * math.tan(math.radians(12.0))
    assert offset == pytest.approx(19.13, abs=0.005)
    n = (math.cos(math.radians(12.0)), math.sin(math.radians(12.0)), 0.0)
    blank = box_body(start_mm=-50.0, end_mm=750.0, width_mm=90.0, thickness_mm=20.0)
    first = clip(blank, Plane(point=(700.0, 0.0, 0.0), normal=n), "end")
    parallel = clip(first, Plane(point=(0.0, 0.0, 0.0), normal=(-n[0], -n[1], 0.0)), "start")
    mirrored = clip(first, Plane(point=(0.0, 0.0, 0.0), normal=(-n[0], n[1], 0.0)), "start")
    for body in (parallel, mirrored):
        low, high = body.extent((1.0, 0.0, 0.0))
        assert high - low == pytest.approx(700.0 + offset)
        assert body.volume_mm3 == pytest.approx(700.0 * 90.0 * 20.0)
    assert _edges(parallel) == pytest.approx((700.0, 700.0))
    assert _edges(mirrored) == pytest.approx((680.87, 719.13), abs=0.005)


def _edges(body: Body) -> tuple[float, float]:
    """Lengths of the two edge faces along the grain, the shorter first."""
    spans = []
    for face in body.faces:
        if face.label.startswith("width"):
            along = [corner[0] for corner in face.corners]
            spans.append(max(along) - min(along))
    return min(spans), max(spans)


def test_a_raked_leg_from_floor_to_underside() -> None:
    """412 up at 12 degrees, 45 deep: edge 421.2, blank 430.8, footprint 46.0, foot 87.6 out."""
    x = 412.0 * math.tan(math.radians(12.0))
    block = leaning(trim={"start": "floor", "end": "top.bottom"})
    leg = part_of({**block, "from": [-x, 0, 0], "section": [45, 45]})
    assert x == pytest.approx(87.6, abs=0.05)
    assert _edges(local_body(leg)) == pytest.approx((421.2, 421.2), abs=0.05)
    assert leg.length_mm == pytest.approx(430.8, abs=0.05)
    [foot] = [face for face in body_of(leg).faces if face.label == End.START.value]
    along = [corner[0] for corner in foot.corners]
    assert max(along) - min(along) == pytest.approx(46.0, abs=0.05)
    assert foot.area_mm2 == pytest.approx(45.0 * 45.0 / math.cos(math.radians(12.0)))


def test_a_round_leg_ends_at_the_long_point_of_its_round() -> None:
    """A 30 mm rod at 12 degrees: 15 tan 12 = 3.19 past the axis, not as far as the edge of its blank."""
    x = 412.0 * math.tan(math.radians(12.0))
    block = leaning(trim={"start": "floor", "end": "top.bottom"}, round=[30, 30])
    leg = part_of({**block, "from": [-x, 0, 0]})
    axis = 412.0 / math.cos(math.radians(12.0))
    assert leg.length_mm == pytest.approx(axis + 2.0 * 15.0 * math.tan(math.radians(12.0)), abs=0.01)


def test_a_rod_of_many_sides_is_nearly_round() -> None:
    """48 sides with corners on the circle hold n sin(2 pi/n) / 2 pi = 99.715 % of a straight rod."""
    rod = rod_body(start_mm=0.0, end_mm=100.0, diameters_mm=(20.0, 20.0))
    assert rod.volume_mm3 / (math.pi * 100.0 * 100.0) == pytest.approx(0.99715, abs=5e-6)


def test_a_taper_takes_off_a_wedge() -> None:
    """48 to 30 over 500 of 600 on one face: 18 x 500 / 2 x 48 mm3 off; on opposite faces the same in all."""
    square = {"from": [0, 0, 0], "to": [0, 0, 600], "section": [48, 48], "width_toward": "right"}
    for faces in (["right"], ["right", "left"], ["front"]):
        taper = {"toward": "start", "begin": 100, "to": 30, "faces": faces}
        leg = part_of({**leaning(), **square, "taper": taper})
        assert local_body(leg).volume_mm3 == pytest.approx(600 * 48 * 48 - 18 * 500 / 2 * 48)
        assert sum(t.loss_mm for t in leg.tapers) == pytest.approx(18.0)


def test_two_trims_at_one_end_both_cut() -> None:
    """A rail's end run against a post and under a top that it would otherwise stand up into."""
    rail = {**leaning(), "from": [0, 0, 400], "to": [100, 0, 400], "section": [48, 20], "width_toward": "top"}
    post = {**leaning(), "from": [150, 0, 0], "to": [150, 0, 412], "width_toward": "right"}
    sloped = {**post, "from": [180, 0, 0], "to": [100, 0, 412]}
    parts = {
        "top": TOP,
        "post": post,
        "sloped": sloped,
        "rail": {**rail, "trim": {"end": ["post.left", "sloped.left"]}},
    }
    made = load_piece_text(file_text(parts)).parts["rail"]
    assert [trim.by for trim in made.trims if trim.end is End.END] == ["post.left", "sloped.left"]
    assert all(
        max(face.plane.distance(c) for c in body_of(made).corners) < 1e-6 for face in body_of(made).faces
    )


def solid(body: Body) -> manifold3d.Manifold:
    """A convex body in the mesh kernel."""
    points = np.unique(np.round(np.array(body.corners), 9), axis=0)
    return manifold3d.Manifold.hull_points(points)


@settings(max_examples=25)
@given(turn=st.integers(0, 180), lean=st.integers(-60, 60), x=st.integers(-90, 90), z=st.integers(-30, 30))
def test_the_common_body_is_the_mesh_kernels(turn: int, lean: int, x: int, z: int) -> None:
    """Overlap by clipping against the intersection of the mesh kernel, volume by volume."""
    a, b = math.radians(turn), math.radians(lean)
    way = (math.cos(a) * math.cos(b), math.sin(a) * math.cos(b), math.sin(b))
    one = part_of({**leaning(), "from": [-150, 0, 0], "to": [150, 0, 0], "width_toward": "back"}, "one")
    block = {**leaning(), "section": [60, 30], "width_toward": "top"}
    block["from"], block["to"] = ([x + s * 120 * c for c in way] for s in (-1, 1))
    for end in ("from", "to"):
        block[end][2] += z  # type: ignore[index]
    other = part_of(block, "other")
    exact = (solid(body_of(one)) ^ solid(body_of(other))).volume()
    common = overlap(one, other)
    assert (common.volume_mm3 if common else 0.0) == pytest.approx(exact, rel=1e-6, abs=1.5)


def against(z_mm: float, turn_deg: float) -> tuple[Part, Part]:
    """A block on the ground and another on top of it, turned about the upright."""
    a = math.radians(turn_deg)
    low = {**leaning(), "from": [-100, 0, 0], "to": [100, 0, 0], "section": [80, 40], "width_toward": "back"}
    high = {
        **low,
        "width_toward": "right" if turn_deg > 60.0 else "back",
        "section": [40, 40],
        "from": [-60 * math.cos(a), -60 * math.sin(a), z_mm],
        "to": [60 * math.cos(a), 60 * math.sin(a), z_mm],
    }
    parts = load_piece_text(file_text({"low": low, "high": high})).parts
    return parts["low"], parts["high"]


def test_contact_of_crossed_blocks_is_their_common_rectangle() -> None:
    """40 wide across 80: 3200 mm2 about the middle, in the plane between them."""
    [contact] = contacts(*against(40.0, 90.0))
    assert contact.area_mm2 == pytest.approx(3200.0)
    assert contact.center == pytest.approx((0.0, 0.0, 20.0))
    assert contact.normal == pytest.approx((0.0, 0.0, 1.0))


@pytest.mark.parametrize("turn", [30.0, 45.0, 70.0])
def test_contact_of_blocks_crossed_at_a_slant_is_a_parallelogram(turn: float) -> None:
    """Strips 80 and 40 wide cross in 80 x 40 / sin of the angle, where neither ends inside."""
    area = 80.0 * 40.0 / math.sin(math.radians(turn))
    [contact] = contacts(*against(40.0, turn))
    inside = 60.0 * math.sin(math.radians(turn)) > 40.0 + 20.0 * math.cos(math.radians(turn))
    assert contact.area_mm2 == pytest.approx(area) if inside else contact.area_mm2 < area
    assert polygon_area(contact.corners) == pytest.approx(contact.area_mm2)
    assert contact.center == pytest.approx((0.0, 0.0, 20.0), abs=1e-9)


def test_parts_a_hair_apart_touch_and_parts_apart_do_not() -> None:
    """0.04 mm touches, 0.06 does not, and the gap is told."""
    assert len(contacts(*against(40.04, 90.0))) == 1
    assert contacts(*against(40.06, 90.0)) == ()
    assert nearest_gap_mm(*against(52.5, 90.0)) == pytest.approx(12.5)
    assert nearest_gap_mm(*against(40.0, 90.0)) == 0.0
