"""Miters: both parts of a corner end at one plane, whatever their angle and sizes."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery import load_piece_text
from scantling.piece.contact import contacts, overlap
from scantling.piece.convex import body_of
from scantling.piece.geometry import cross, dot, norm
from scantling.piece.model import Part
from tests.joinery.bench import file_text
from tests.piece.files import faults_of

THICK, WIDE = 12.0, 60.0


def stick(**more: Any) -> dict[str, Any]:
    """A stick along the front."""
    return {
        "kind": "stick",
        "species": "white oak",
        "from": [-200, 0, 100],
        "to": [0, 0, 100],
        "section": [WIDE, THICK],
        "width_toward": "top",
    } | more


def corner(turn_deg: float, *, thick: float = THICK, lie: str = "top") -> tuple[Part, Part]:
    """A stick along x up to the origin and one that goes on from there, turned by an angle."""
    a = math.radians(turn_deg)
    end = [300 * math.cos(a), 300 * math.sin(a), 100]
    flat = lie != "top"
    parts = {
        "a": stick(trim={"end": "miter with b"}, width_toward=lie),
        "b": stick(
            **{"from": [0, 0, 100], "to": end},
            section=[thick, THICK] if flat else [WIDE, thick],
            width_toward="right" if flat else "top",
            trim={"start": "miter with a"},
        ),
    }
    placed = load_piece_text(file_text(parts)).parts
    return placed["a"], placed["b"]


@pytest.mark.parametrize("turn", [20, 45, 60, 90, 120, -36, -90])
def test_equal_boards_are_halved(turn: int) -> None:
    """Both ends lie half the turn from square: the area is thickness by width over its cosine."""
    a, b = corner(turn)
    half = math.radians(abs(turn) / 2.0)
    for part, end in ((a, 1), (b, 0)):
        assert abs(part.trims[end].plane.normal[0]) == pytest.approx(math.cos(half))
    (contact,) = contacts(a, b)
    assert (contact.first_face, contact.second_face) == ("end", "start")
    assert contact.area_mm2 == pytest.approx(THICK * WIDE / math.cos(half))


@pytest.mark.parametrize("thick", [8.0, 12.0, 20.0, 30.0])
def test_unequal_boards_are_cut_through_both_corners(thick: float) -> None:
    """At a square corner the slope of the cut is one thickness over the other, and the ends still close."""
    a, b = corner(90, thick=thick)
    slope = thick / THICK  # the miter runs over `thick` along a while it runs over THICK along b
    normal = a.trims[1].plane.normal
    assert abs(normal[2] / normal[0]) == pytest.approx(slope)
    (contact,) = contacts(a, b)
    assert contact.area_mm2 == pytest.approx(WIDE * math.hypot(THICK, thick))
    assert overlap(a, b) is None


def test_a_flat_frame_is_mitered_across_its_width() -> None:
    """Rails lying flat, 60 and 40 wide: the cut runs from corner to corner of the rectangle they share."""
    a, b = corner(90, thick=40.0, lie="back")
    (contact,) = contacts(a, b)
    assert contact.area_mm2 == pytest.approx(THICK * math.hypot(60.0, 40.0))
    assert a.length_mm == pytest.approx(200.0 + 20.0)


def hopper(lean: float, **more: Any) -> dict[str, Any]:
    """A side of a square hopper, its line 150 mm from the middle."""
    return stick(
        **{"from": [-150, -150, 100], "to": [150, -150, 100]},
        lean=[f"{lean} deg", "front"],
        trim={"start": "miter with previous", "end": "miter with next"},
        repeat={"count": 4, "turn": "90 deg"},
        **more,
    )


@pytest.mark.parametrize("lean", [-30, 0, 10, 20, 45])
def test_leaning_sides_close_all_round(lean: int) -> None:
    """Each side meets the next all over its end; the middle line is as long as the square's side."""
    parts = list(load_piece_text(file_text({"side": hopper(lean)})).parts.values())
    for one, other in zip(parts, parts[1:] + parts[:1], strict=True):
        (contact,) = contacts(one, other)
        ends = [face for face in body_of(one).faces if face.label == "end"]
        assert contact.area_mm2 == pytest.approx(sum(face.area_mm2 for face in ends))
        middle = [dot(trim.plane.point, trim.plane.normal) / trim.plane.normal[0] for trim in one.trims]
        assert middle[1] - middle[0] == pytest.approx(300.0)


def test_level_edges_are_level() -> None:
    """A side leaning 20 degrees with level edges is w cos t - d sin t high, planed over its whole edge."""
    text = file_text({"side": hopper(20, edges={"top": "level", "bottom": "level"})})
    part = load_piece_text(text).parts["side_1"]
    t = math.radians(20.0)
    low, high = body_of(part).extent((0.0, 0.0, 1.0))
    assert high - low == pytest.approx(WIDE * math.cos(t) - THICK * math.sin(t))
    level = [face for face in body_of(part).faces if abs(face.normal[2]) > 1.0 - 1e-9]
    assert sorted(face.label for face in level) == ["width+", "width-"]
    assert {edge.face.value for edge in part.edges} == {"top", "bottom"}


@pytest.mark.parametrize("sides", [5, 6, 8, 12])
def test_staves_are_beveled_to_their_neighbors(sides: int) -> None:
    """Upright staves mitered along their edges: each 180 / n degrees out of square, no gap, no overlap."""
    stave = stick(
        **{"from": [0, -100, 0], "to": [0, -100, 300]},
        section=[170, 20],
        width_toward="right",
        edges={"left": "miter with previous", "right": "miter with next"},
        repeat={"count": sides, "turn": f"360 deg / {sides}"},
    )
    parts = list(load_piece_text(file_text({"stave": stave})).parts.values())
    for edge in parts[0].edges:
        assert abs(edge.plane.normal[1]) == pytest.approx(math.cos(math.pi / sides))
    for one, other in zip(parts, parts[1:] + parts[:1], strict=True):
        assert sum(c.area_mm2 for c in contacts(one, other)) == pytest.approx(
            300.0 * 20.0 / math.cos(math.pi / sides)
        )
        assert overlap(one, other) is None
    # the ring's outer flat: 2 (100 + 10) tan(180 / n)
    faces = [face for face in body_of(parts[0]).faces if face.label.startswith("thickness")]
    assert max(face.area_mm2 for face in faces) == pytest.approx(
        300.0 * 2.0 * 110.0 * math.tan(math.pi / sides)
    )


def test_tapered_staves_close_too() -> None:
    """Eight staves that lean inward: every long edge still meets the next one, and tapers toward the top."""
    stave = stick(
        **{"from": [0, -120, 0], "to": [0, -80, 400]},
        section=[110, 18],
        width_toward="right",
        edges={"left": "miter with previous", "right": "miter with next"},
        repeat={"count": 8, "turn": "45 deg"},
    )
    parts = list(load_piece_text(file_text({"stave": stave})).parts.values())
    for one, other in zip(parts, parts[1:] + parts[:1], strict=True):
        (contact,) = contacts(one, other)
        assert contact.area_mm2 > 7000.0
        assert overlap(one, other) is None
    low, high = (
        [p for p in body_of(parts[0]).corners if abs(parts[0].frame.local(p)[0] - u) < 1e-6]
        for u in (parts[0].start_mm, parts[0].end_mm)
    )
    wide = [max(p[0] for p in ends) - min(p[0] for p in ends) for ends in (low, high)]
    length = math.hypot(40.0, 400.0)
    assert (wide[0] - wide[1]) / length == pytest.approx(2.0 * 40.0 / length * math.tan(math.pi / 8.0))


def test_a_ring_turns_about_its_own_upright() -> None:
    """Six sides about (500, 80): their middles lie on one circle round it, each turned by 60 degrees."""
    side = stick(
        **{"from": [450, 0, 50], "to": [550, 0, 50]},
        repeat={"count": 6, "turn": "60 deg", "about": [500, 80]},
    )
    parts = list(load_piece_text(file_text({"side": side})).parts.values())
    for part in parts:
        x, y, _ = part.middle
        assert math.hypot(x - 500.0, y - 80.0) == pytest.approx(80.0)
    for one, other in zip(parts, parts[1:] + parts[:1], strict=True):
        assert dot(one.frame.grain, other.frame.grain) == pytest.approx(0.5)
        assert norm(cross(one.frame.grain, other.frame.grain)) == pytest.approx(math.sqrt(0.75))


def test_next_and_last_name_parts_of_a_row() -> None:
    """In a ring the first follows the last; a row that ends has one pair less; last is the last."""
    joint = {"kind": "loose_tenon", "thickness": 4, "width": 20, "depth_first": 4, "depth_second": 4}
    ring = load_piece_text(
        file_text({"side": hopper(0)}, {"j": {**joint, "between": [["side_*.end", "next.start"]]}})
    )
    assert [(j.first.part, j.second.part) for j in ring.joints] == [
        ("side_1", "side_2"),
        ("side_2", "side_3"),
        ("side_3", "side_4"),
        ("side_4", "side_1"),
    ]
    half = {**hopper(0), "repeat": {"count": 2, "turn": "90 deg"}}
    between = [["side_*.end", "next.start"], ["post", "side_last.end"]]
    row = load_piece_text(file_text({"side": half, "post": stick()}, {"j": {**joint, "between": between}}))
    assert [(str(j.first), str(j.second)) for j in row.joints] == [
        ("side_1.end", "side_2.start"),
        ("post", "side_2.end"),
    ]


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"trim": {"end": "miter with nobody"}}, "unknown_face"),
        ({"trim": {"end": "miter with next"}}, "not_a_row"),
        ({"trim": {"end": "miter with straight"}}, "miter_too_flat"),
        ({"edges": {"top": "square"}}, "edge_not_along"),
        ({"edges": {"front": "level"}}, "edge_not_along"),
        ({"lean": ["20 deg", "top"]}, "leans_nowhere"),
        ({"lean": ["50 deg", "front"], "edges": {"top": "level"}}, "edge_takes_all"),
        ({"repeat": {"count": 3}}, "row_stands_still"),
    ],
)
def test_what_cannot_be_mitered_is_told_where_it_stands(more: dict[str, Any], code: str) -> None:
    """Each with its own code, at a line of the file."""
    straight = stick(**{"from": [0, 0, 100], "to": [200, 0, 100]})
    text = file_text({"a": stick(**more), "straight": straight})
    with pytest.raises(FileFaults):
        load_piece_text(text)
    faults = faults_of(text)
    assert code in {fault.code for fault in faults}
    assert all(fault.line > 1 and fault.rule for fault in faults)
