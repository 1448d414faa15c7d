"""Sight lines are drawn the way the bit leans, whichever way a face is turned."""

from __future__ import annotations

import math

import pytest

from scantling.papers.drawing import Fill, Line, Polygon, Stroke, Text, View, bounds
from scantling.papers.marking.face_drawing import draw_face
from scantling.papers.marking.face_view import FaceView
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import marked_parts
from scantling.plan.planner import make_plan
from scantling.units import LengthStyle
from tests.plan.jobs import demo_job, shipped_job


def _views(piece: str) -> dict[str, tuple[FaceView, ...]]:
    job = demo_job(rack=False) if piece == "reading_table" else shipped_job(piece, rack=False)
    groups = marked_parts(job.piece, make_plan(job).joints, figures=Figures(style=LengthStyle()))
    return {group.parts[0].name: group.views for group in groups}


def test_each_hole_of_the_seat_leans_to_its_own_corner() -> None:
    """Legs splay outward, so from each hole the arrow points away from the middle of the seat, by hand
    33.5 degrees off the length: the legs lean 12 degrees seen from the front and 8 from the side, and
    atan(tan 8 / tan 12) is 33.47.
    """
    view, _scooped_edge = _views("hall_bench")["seat"]
    box = bounds(view.outline)
    middle = (box.left + box.right) / 2.0, (box.low + box.high) / 2.0
    assert len(view.marks) == 4
    for mark in view.marks:
        assert mark.sight is not None
        turn = math.radians(mark.sight.turn_deg)
        assert math.copysign(1.0, math.cos(turn)) == math.copysign(1.0, mark.x_mm - middle[0])
        assert math.copysign(1.0, math.sin(turn)) == math.copysign(1.0, mark.y_mm - middle[1])
        assert math.degrees(math.atan2(abs(math.sin(turn)), abs(math.cos(turn)))) == pytest.approx(
            33.47, abs=0.01
        )
        assert (mark.sight.off, mark.sight.lean) == ("33.5°", "14.3°")


def test_the_line_is_drawn_with_its_angles_once() -> None:
    """Four lines with four heads on the seat; the angle off the length and the lean are told once."""
    view, _scooped_edge = _views("hall_bench")["seat"]
    place = View(corner=(0.0, 0.0), box=bounds(view.outline), per=10.0)
    items = draw_face(view, place)
    lines = [item for item in items if isinstance(item, Line) and item.stroke is Stroke.CENTER]
    heads = [item for item in items if isinstance(item, Polygon) and item.fill is Fill.INK]
    words = [item.text for item in items if isinstance(item, Text)]
    assert (len(lines), len(heads)) == (4, 4)
    assert words.count("33.5°") == 1
    assert words.count("leans 14.3°") == 1


def test_a_hole_along_a_leg_has_no_angle_off_its_length() -> None:
    """The stretcher's hole leans along the leg: a line and its lean, no angle between."""
    marks = [mark for view in _views("hall_bench")["leg_fl"] for mark in view.marks if mark.sight]
    assert [(mark.sight.off, mark.sight.lean) for mark in marks if mark.sight] == [("", "7.8°")]


def test_what_is_cut_square_has_no_sight_line() -> None:
    """No mark of the demo piece has one."""
    assert not [
        m for views in _views("reading_table").values() for view in views for m in view.marks if m.sight
    ]
