"""Shapes on the marking-out sheets: drawn as the exact kernel cuts them, dimensioned where they show."""

from __future__ import annotations

from itertools import pairwise
from math import pi
from typing import Any

import pytest

from scantling.papers.drawing import Point
from scantling.papers.marking.face_view import FaceView
from scantling.papers.marking.part_sheet import draw_part
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import joint_sheets, marked_parts
from scantling.solids.exact import build_exact, exact_volume_mm3
from scantling.units import LengthStyle
from tests.joinery.bench import Made, made_of
from tests.papers.crowding import crowded, off_the_sheet, struck

__all__: list[str] = []

LONG, WIDE, THICK = 800.0, 90.0, 24.0
MM = Figures(style=LengthStyle())


def rail(*shape: dict[str, Any]) -> Made:
    """A rail that lies along the piece, its width up, shaped."""
    base = {"kind": "stick", "species": "white oak", "section": [WIDE, THICK], "width_toward": "top"}
    return made_of({"a": {**base, "from": [0, 0, 0], "to": [LONG, 0, 0], "shape": list(shape)}}, {})


def views(piece: Made, figures: Figures = MM) -> tuple[FaceView, ...]:
    """Everything drawn of the rail."""
    (group,) = marked_parts(piece.piece, (), figures=figures)
    return group.views


def area(outline: tuple[Point, ...]) -> float:
    """Within a closed outline, by the trapezes under it. [mm2]"""
    ring = (*outline, outline[0])
    return abs(sum((x1 - x0) * (y0 + y1) / 2.0 for (x0, y0), (x1, y1) in pairwise(ring)))


def volume(piece: Made) -> float:
    """Of the rail by the exact kernel. [mm3]"""
    return exact_volume_mm3(build_exact(piece.shapes["a"]))


HOLLOW = {"kind": "hollow", "rise": "20 mm", "face": "bottom", "from": "60 mm", "to": "740 mm"}
SCOOP = {"kind": "scoop", "depth": "6 mm", "face": "front", "margin": ["60 mm", "80 mm"]}
CURVED = ({"kind": "hollow", "rise": 30, "face": "bottom"}, {"kind": "crown", "rise": 30, "face": "top"})


@pytest.mark.parametrize("shape", [(HOLLOW,), CURVED], ids=["hollow", "curved"])
def test_an_arched_face_is_drawn_in_profile(shape: tuple[dict[str, Any], ...]) -> None:
    """The area drawn times the thickness is the volume of the solid, which another program cut."""
    piece = rail(*shape)
    assert area(views(piece)[0].outline) * THICK == pytest.approx(volume(piece), rel=2e-5)


def test_an_arc_is_told_by_rise_and_radius_over_its_chord() -> None:
    """Chord 680, rise 20: (680² / 4 + 20²) / (2 × 20) = 2900, by hand; 60 is left at each end."""
    (view,) = views(rail(HOLLOW))
    (note,) = view.notes
    assert note.text == "rise 20, R2900"
    assert (note.x_mm, note.y_mm) == pytest.approx((400.0, 20.0))
    told = [(d.low_mm, d.high_mm, d.text) for d in view.lengths]
    assert told == [(0, 800, "800"), (0, 60, "60"), (60, 740, "680"), (740, 800, "60")]


CUT_OUT = {"kind": "cut_out", "high": 30, "face": "bottom", "from": 150, "to": 650, "corner": 25}


def test_a_cut_out_is_drawn_with_its_feet_its_height_and_its_corners() -> None:
    """500 x 30 less two corners of 25 x 25 (1 - pi / 4); 150 of foot at each end; the solid says the same."""
    piece = rail(CUT_OUT)
    (view,) = views(piece)
    gone = 500.0 * 30.0 - 2.0 * 25.0**2 * (1.0 - pi / 4.0)
    assert area(view.outline) == pytest.approx(
        LONG * WIDE - gone, abs=0.71
    )  # 24 chords a corner leave 2 x 625 x 24 (pi / 48)^3 / 12
    assert area(view.outline) * THICK == pytest.approx(volume(piece), rel=2e-5)
    (note,) = view.notes
    assert note.text == "30 high, R25"
    assert (note.x_mm, note.y_mm) == pytest.approx((400.0, 30.0))
    assert [d.text for d in view.lengths] == ["800", "150", "500", "150"]


def test_a_cut_out_with_sharp_corners_is_told_by_its_height_alone() -> None:
    """Up, along and down, with nothing between."""
    (view,) = views(rail({**CUT_OUT, "corner": 0}))
    assert [note.text for note in view.notes] == ["30 high"]
    inside = [(x, y) for x, y in view.outline if 0.0 < x < LONG and y < WIDE]
    assert inside == [(150.0, 0.0), (150.0, 30.0), (650.0, 30.0), (650.0, 0.0)]
    assert area(view.outline) == pytest.approx(LONG * WIDE - 500.0 * 30.0)


def test_a_section_through_a_cut_out_is_as_high_as_the_wood_there() -> None:
    """In the middle 30 of 90 are gone."""
    _, section = views(rail(CUT_OUT, {"kind": "chamfer", "size": 4, "edges": [["top", "front"]]}))
    assert [d.text for d in section.lengths] == ["60"]


def test_a_scoop_is_drawn_in_the_edge_and_told_by_depth_and_radius() -> None:
    """Chord 660, depth 6: (660² / 4 + 6²) / (2 × 6) = 9078, by hand; the area drawn is the solid's."""
    piece = rail(SCOOP)
    edge = next(view for view in views(piece) if view.notes)
    assert [note.text for note in edge.notes] == ["depth 6, R9078"]
    assert [d.text for d in edge.lengths] == ["800", "60", "660", "80"]
    assert area(edge.outline) * WIDE == pytest.approx(volume(piece), rel=2e-5)


ROUNDED = {"kind": "round_over", "size": "8 mm", "edges": [["top", "front"], ["top", "back"]]}
CHAMFER = {"kind": "chamfer", "size": "5 mm", "edges": [["bottom", "front"], ["bottom", "back"]]}


def test_arrises_taken_off_are_told_in_a_section() -> None:
    """Its area times the length is the volume; alike arrises are told once with their number."""
    piece = rail(ROUNDED, CHAMFER)
    face, section = views(piece)
    assert section.cut
    assert section.title == "Section, 400 mm from the left end"
    assert area(section.outline) * LONG == pytest.approx(volume(piece), rel=5e-5)  # 24 chords a corner
    assert {note.text for note in section.notes} == {"R8 on 2 arrises", "5 × 45° on 2 arrises"}
    assert not face.notes
    assert len(face.visible) + len(face.fine) == 2  # of one chamfer and one rounding, which look at us


def test_a_stopped_chamfer_shows_where_it_stops() -> None:
    """50 from both ends: its line 4 under the edge, a stroke at each stop, and the lengths below."""
    face, _ = views(rail({"kind": "chamfer", "size": 4, "edges": [["top", "front"]], "stop": 50}))
    assert face.title == "Front face"
    assert ((50.0, WIDE - 4.0), (750.0, WIDE - 4.0)) in face.visible
    assert ((50.0, WIDE - 4.0), (50.0, WIDE)) in face.visible
    assert [d.text for d in face.lengths] == ["800", "50", "700", "50"]


def test_a_section_through_a_hollow_is_as_high_as_the_wood_there() -> None:
    """In the middle 20 of 90 are gone."""
    _, section = views(rail(HOLLOW, {"kind": "chamfer", "size": 4, "edges": [["top", "front"]]}))
    assert [d.text for d in section.lengths] == ["70"]


TURNED = {"kind": "turned", "diameter": 20, "from": 90, "to": 300}


def test_a_turned_length_shows_its_diameter_its_shoulder_and_its_axis() -> None:
    """20 of 24 square, over 180 from the left end: an outline with a step, and no spike at the end."""
    (view,) = views(rail({"kind": "turned", "diameter": 20, "from": 0, "to": 180}))
    assert [note.text for note in view.notes] == ["Ø20"]
    low, high = (WIDE - 20.0) / 2.0, (WIDE + 20.0) / 2.0
    assert area(view.outline) == pytest.approx(180.0 * 20.0 + 620.0 * WIDE)
    assert ((180.0, low), (180.0, high)) in view.visible
    assert view.center
    assert {y for x, y in view.outline if x < 179.0} == {low, high}


@pytest.mark.parametrize("both", [False, True])
@pytest.mark.parametrize(
    "shape",
    [
        (HOLLOW, ROUNDED),
        (SCOOP, ROUNDED),
        CURVED,
        (CUT_OUT, ROUNDED),
        (ROUNDED, CHAMFER),
        ({"kind": "turned", "diameter": 20, "from": 90, "to": 300},),
    ],
)
def test_what_is_told_keeps_clear(shape: tuple[dict[str, Any], ...], *, both: bool) -> None:
    """Of all else on the sheet, in one unit and in two."""
    figures = Figures(style=LengthStyle(both=both))
    (sheet,) = joint_sheets(marked_parts(rail(*shape).piece, (), figures=figures), figures=figures)
    drawn = draw_part(sheet.drawing, room_mm=173.0)
    assert (crowded(drawn), struck(drawn), off_the_sheet(drawn)) == ([], [], [])
    assert all(line.startswith("Shape, once the joints fit: ") for line in sheet.steps)
    assert sheet.steps
