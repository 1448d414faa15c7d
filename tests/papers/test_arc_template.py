"""Templates of arched faces: true to the circle, tiled full size, with heights to bend a batten through."""

from __future__ import annotations

import math

import pytest

from scantling.papers.drawing import Line, Stroke, Window
from scantling.papers.packet.blocks import Paper
from scantling.papers.templates.arc_template import arc_heights, arc_template
from scantling.papers.templates.template_sheets import template_sheets
from scantling.piece.shaping import Shaping, ShapingKind, arc_radius_mm

__all__: list[str] = []

HOLLOW = Shaping(
    kind=ShapingKind.HOLLOW, size_mm=60.0, start_mm=100.0, end_mm=1300.0, side=(0, -1), where="lower edge"
)


@pytest.mark.parametrize(("chord", "rise"), [(1200.0, 60.0), (400.0, 12.0), (90.0, 30.0)])
def test_every_height_lies_on_the_circle(chord: float, rise: float) -> None:
    """By the closed form: distance to the center is the radius everywhere, nothing at the ends."""
    radius = arc_radius_mm(chord, rise)
    heights = arc_heights(chord, rise, step_mm=7.0)
    for x, height in heights:
        assert math.hypot(x, height + radius - rise) == pytest.approx(radius)
    assert heights[0] == (0.0, pytest.approx(rise))
    assert heights[-1] == (chord / 2.0, pytest.approx(0.0, abs=1e-9))


def test_the_arc_is_drawn_to_a_hundredth_of_a_millimeter() -> None:
    """No straight piece leaves the circle by more, in the middle where it is farthest off."""
    template = arc_template("Apron", HOLLOW, shown=lambda mm: f"{mm:.1f}")
    pieces = [item for item in template.items if isinstance(item, Line) and item.stroke is Stroke.VISIBLE]
    assert sum(math.dist(p.start, p.end) for p in pieces) == pytest.approx(
        arc_radius_mm(1200.0, 60.0) * math.asin(600.0 / arc_radius_mm(1200.0, 60.0)), rel=1e-6
    )
    top = template.height_mm - 6.0
    radius = arc_radius_mm(1200.0, 60.0)
    for piece in pieces:
        x, y = (piece.start[0] + piece.end[0]) / 2.0, (piece.start[1] + piece.end[1]) / 2.0
        assert math.hypot(x, top - y + radius - 60.0) == pytest.approx(radius, abs=0.01)


def test_a_long_arc_is_tiled_and_keeps_its_length() -> None:
    """Half of 1200 mm takes four pieces of 170 mm less a lap of 10, all on one or two sheets of A4."""
    template = arc_template("Apron", HOLLOW, shown=lambda mm: f"{mm:.1f}")
    assert template.width_mm == pytest.approx(614.0)
    sheets = template_sheets((template,), paper=Paper.A4, title="Trial")
    assert len([i for sheet in sheets for i in sheet.items if isinstance(i, Window)]) == 4
    assert len(sheets) <= 2
