"""Chamfers, round-overs, arches, cut-outs, turned lengths: what they take off in closed form, twice."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.solids.exact import build_exact, exact_volume_mm3
from tests.joinery.bench import Made, made, made_of

LONG, WIDE, THICK = 600.0, 80.0, 30.0
TRI, ROUND = 0.5 * 6.0**2, 6.0**2 * (1.0 - math.pi / 4.0)
"""Area a chamfer of 6 mm takes off an arris, and a round-over of 6 mm radius. [mm2]"""


def rail(*shape: dict[str, Any], **more: Any) -> Made:
    """A rail of white oak, lying along the piece, shaped."""
    base = {"kind": "stick", "species": "white oak", "section": [WIDE, THICK], "width_toward": "top"}
    block = {**base, "from": [0, 0, 0], "to": [LONG, 0, 0], "shape": list(shape), **more}
    return made_of({"a": block}, {})


def taken(piece: Made, name: str = "a") -> tuple[float, float]:
    """What both kernels take off the blank. [mm3]"""
    blank = LONG * WIDE * THICK
    shape = piece.shapes[name]
    return blank - piece.mesh(name).volume_mm3, blank - exact_volume_mm3(build_exact(shape))


def segment(chord: float, rise: float) -> float:
    """Area between an arc and its chord. [mm2]"""
    radius = (chord**2 / 4.0 + rise**2) / (2.0 * rise)
    angle = 2.0 * math.asin(chord / 2.0 / radius)
    return radius**2 / 2.0 * (angle - math.sin(angle))


CASES: list[tuple[str, dict[str, Any], float]] = [
    ("all arrises chamfered", {"kind": "chamfer", "size": 6}, 4.0 * TRI * LONG),
    ("all arrises rounded", {"kind": "round_over", "size": 6}, 4.0 * ROUND * LONG),
    ("one arris", {"kind": "chamfer", "size": 6, "edges": [["top", "front"]]}, TRI * LONG),
    ("stopped", {"kind": "chamfer", "size": 6, "stop": 50}, 4.0 * TRI * (LONG - 100.0)),
    ("stopped round", {"kind": "round_over", "size": 6, "stop": 50}, 4.0 * ROUND * (LONG - 100.0)),
    ("hollow", {"kind": "hollow", "rise": 20, "face": "bottom"}, segment(LONG, 20.0) * THICK),
    (
        "hollow between",
        {"kind": "hollow", "rise": 20, "face": "top", "from": 100, "to": 500},
        segment(400.0, 20.0) * THICK,
    ),
    ("hollow face", {"kind": "hollow", "rise": 8, "face": "front"}, segment(LONG, 8.0) * WIDE),
    (
        "crown",
        {"kind": "crown", "rise": 20, "face": "top"},
        (LONG * 20.0 - segment(LONG, 20.0)) * THICK,
    ),
    (
        "scoop",
        {"kind": "scoop", "depth": 8, "margin": [90, 110], "face": "front"},
        segment(400.0, 8.0) * WIDE,
    ),
    (
        "scoop end to end",
        {"kind": "scoop", "depth": 8, "margin": 0, "face": "back"},
        segment(LONG, 8.0) * WIDE,
    ),
    (
        "turned",
        {"kind": "turned", "diameter": 28, "from": 90, "to": 510},
        420.0 * (WIDE * THICK - math.pi / 4.0 * 28.0**2),
    ),
    (
        "cut-out",
        {"kind": "cut_out", "high": 25, "face": "bottom", "from": 100, "to": 480, "corner": 20},
        (380.0 * 25.0 - 2.0 * 20.0**2 * (1.0 - math.pi / 4.0)) * THICK,
    ),
    (
        "cut-out with sharp corners",
        {"kind": "cut_out", "high": 25, "face": "top", "from": 100, "to": 480},
        380.0 * 25.0 * THICK,
    ),
    (
        "cut-out that is a half circle",
        {"kind": "cut_out", "high": 30, "face": "bottom", "from": 200, "to": 260, "corner": 30},
        math.pi / 2.0 * 30.0**2 * THICK,
    ),
    (
        "cut-out through the width",
        {"kind": "cut_out", "high": 10, "face": "front", "from": 100, "to": 480, "corner": 4},
        (380.0 * 10.0 - 2.0 * 4.0**2 * (1.0 - math.pi / 4.0)) * WIDE,
    ),
]


@pytest.mark.parametrize(("shape", "wanted"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_a_shape_takes_off_what_its_closed_form_says(shape: dict[str, Any], wanted: float) -> None:
    """In both kernels, the round ones too: their facets keep the area."""
    mesh, exact = taken(rail(shape))
    assert exact == pytest.approx(wanted, rel=1e-6)
    assert mesh == pytest.approx(wanted, rel=1e-4)


def test_a_curved_rail_is_hollow_below_and_crowned_above() -> None:
    """The same rise on both: all along as deep as before, less the rise."""
    both = [
        {"kind": kind, "rise": 20, "face": face} for kind, face in (("hollow", "bottom"), ("crown", "top"))
    ]
    mesh, exact = taken(rail(*both))
    assert exact == pytest.approx(LONG * 20.0 * THICK, rel=1e-6)
    assert mesh == pytest.approx(LONG * 20.0 * THICK, rel=1e-4)


def test_a_mirrored_copy_is_shaped_in_the_mirror() -> None:
    """The arris that looks front becomes the one that looks back; both lose as much."""
    piece = rail(
        {"kind": "chamfer", "size": 6, "edges": [["top", "front"]]}, copies={"b": {"mirror": ["front-back"]}}
    )
    assert taken(piece, "b") == pytest.approx((TRI * LONG, TRI * LONG), rel=1e-5)
    middle = [piece.piece.parts[name].frame.point(tuple(piece.mesh(name).centroid_mm))[1] for name in "ab"]
    assert middle[0] > 1e-3
    assert middle[1] == pytest.approx(-middle[0], rel=1e-6)


def test_a_chamfer_stops_at_the_shoulder_of_a_tenon() -> None:
    """What a tenon adds beyond the shoulder keeps its own section."""
    post = {"kind": "stick", "species": "white oak", "section": [60, 60], "width_toward": "right"}
    parts = {
        "a": {
            "kind": "stick",
            "species": "white oak",
            "section": [WIDE, THICK],
            "width_toward": "top",
            "from": [0, 0, 300],
            "to": [570, 0, 300],
            "trim": {"end": "b.left"},
            "shape": [{"kind": "chamfer", "size": 6}],
        },
        "b": {**post, "from": [600, 0, 0], "to": [600, 0, 600]},
    }
    joint = {"kind": "mortise_tenon", "length": 40, "thickness": 10, "between": [["a.end", "b"]]}
    piece = made_of(parts, {"j": joint})
    tenon = 40.0 * 10.0 * (WIDE - 12.0)
    wanted = 570.0 * (WIDE * THICK - 4.0 * TRI) + tenon
    assert piece.mesh("a").volume_mm3 == pytest.approx(wanted, rel=1e-6)
    assert exact_volume_mm3(build_exact(piece.shapes["a"])) == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize(
    ("shape", "value"),
    [
        ({"kind": "chamfer", "size": 14}, "2.0 mm left of the section"),
        ({"kind": "chamfer", "size": 6, "stop": 298}, "4.0 mm long"),
        ({"kind": "round_over", "size": 6, "edges": [["top", "bottom"]]}, "top bottom"),
        ({"kind": "hollow", "rise": 78, "face": "top"}, "2.0 mm left of the section"),
        ({"kind": "hollow", "rise": 20, "face": "left"}, "left"),
        ({"kind": "hollow", "rise": 20, "face": "top", "from": 100, "to": 700}, "20.0 mm over 600.0 mm"),
        ({"kind": "crown", "rise": 20, "face": "top", "from": 100}, "a crown over part of a face"),
        ({"kind": "scoop", "depth": 18.1, "margin": 50, "face": "front"}, "18.1 mm deep in 30.0 mm"),
        ({"kind": "scoop", "depth": 8, "margin": 50, "face": "top"}, "top"),
        ({"kind": "scoop", "depth": 8, "margin": 50, "face": "right"}, "right"),
        (
            {"kind": "scoop", "depth": 8, "margin": [400, 200], "face": "front"},
            "margins of 400.0 and 200.0 mm on 600.0 mm",
        ),
        ({"kind": "scoop", "depth": 8, "margin": 269, "face": "front"}, "8.0 mm deep over 62.0 mm"),
        ({"kind": "turned", "diameter": 31, "from": 90, "to": 510}, "31.0 mm in 30.0 mm"),
        ({"kind": "turned", "diameter": 28, "from": 510, "to": 90}, "from 510.0 to 90.0 mm"),
        ({"kind": "cut_out", "high": 20, "face": "left", "from": 90, "to": 510}, "left"),
        (
            {"kind": "cut_out", "high": 20, "face": "bottom", "from": 90, "to": 598},
            "from 90.0 to 598.0 mm on 600.0 mm",
        ),
        (
            {"kind": "cut_out", "high": 20, "face": "bottom", "from": 90, "to": 510, "corner": 21},
            "corners of 21.0 mm in 420.0 mm by 20.0 mm",
        ),
        (
            {"kind": "cut_out", "high": 78, "face": "bottom", "from": 90, "to": 510},
            "2.0 mm left of the section",
        ),
    ],
)
def test_a_shape_that_cannot_be_made_is_refused(shape: dict[str, Any], value: str) -> None:
    """At its own place in the file, with the figure."""
    with pytest.raises(FileFaults) as caught:
        rail(shape)
    [fault] = caught.value.faults
    assert (fault.code, fault.value) == ("shape_not_possible", value)
    assert fault.line > 0


def test_a_scoop_at_its_limits_is_made() -> None:
    """12 mm left under it; eight times as long as deep."""
    rail({"kind": "scoop", "depth": 18, "margin": 50, "face": "front"})
    rail({"kind": "scoop", "depth": 8, "margin": 268, "face": "front"})


def test_shapes_are_written_in_a_piece_file() -> None:
    """As the page on piece files shows them, in the file's unit."""
    text = """
scantling: 1
title: t
units: in
parts:
  a:
    kind: stick
    species: white oak
    section: [3, 1]
    from: [0, 0, 0]
    to: [24, 0, 0]
    width_toward: top
    shape:
      - {kind: chamfer, size: 1/4 in, edges: [[top, front], [top, back]], stop: 2 in}
"""
    piece = made(text)
    assert len(piece.piece.parts["a"].shaping) == 2
    blank = 24.0 * 3.0 * 25.4**3
    assert blank - piece.mesh("a").volume_mm3 == pytest.approx(2.0 * 0.5 * 0.25**2 * 20.0 * 25.4**3, rel=1e-6)
