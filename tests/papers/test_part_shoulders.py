"""Shoulder lines of tongues on the broad face: where the solid has its shoulders, and told once."""

from __future__ import annotations

import pytest

from scantling.joinery.work import Box, Cut
from scantling.papers.marking.face_view import FaceView
from scantling.papers.marking.part_sheet import PartDrawing, draw_part
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import marked_parts
from scantling.units import LengthStyle
from tests.joinery.bench import Made, made_of
from tests.papers.crowding import crowded, off_the_sheet

__all__: list[str] = []

MM = Figures(style=LengthStyle())


def bottom(*, toward: str = "back", shift: float = 0.0, **more: object) -> Made:
    """A bottom 400 by 300 by 10 in grooves of four sides, its tongue 6 thick."""
    base = {"kind": "stick", "species": "black cherry"}
    parts = {
        "panel": {
            **base,
            "from": [0, 0, 50],
            "to": [400, 0, 50],
            "section": [300, 10],
            "width_toward": toward,
        },
        "front": {**base, "from": [-12, -153, 50], "to": [412, -153, 50], "section": [100, 18]},
        "back": {**base, "from": [-12, 153, 50], "to": [412, 153, 50], "section": [100, 18]},
        "left": {**base, "from": [-3, -144, 50], "to": [-3, 144, 50], "section": [100, 18]},
        "right": {**base, "from": [403, -144, 50], "to": [403, 144, 50], "section": [100, 18]},
    }
    for name in ("front", "back", "left", "right"):
        parts[name]["width_toward"] = "top"
    parts["panel"]["kind"] = "panel"
    pairs = [["panel", name] for name in ("front", "back", "left", "right")]
    joint = {"kind": "panel_groove", "between": pairs, "tongue": 6, "shift": shift, **more}
    return made_of(parts, {"j": joint})


def sheet(made: Made) -> tuple[FaceView, ...]:
    """What is drawn of the panel."""
    return next(
        g for g in marked_parts(made.piece, made.works, figures=MM) if g.parts[0].name == "panel"
    ).views


def shoulders(made: Made) -> set[float]:
    """Where the cheeks of the solid end, from the sides of the panel. [mm]"""

    def from_side(cut: Cut) -> float:
        assert isinstance(cut.tool, Box)
        u, v, _ = cut.tool.frame.origin
        along = abs(cut.tool.frame.grain[0]) > 0.5
        return round(min(u, 400.0 - u) if along else 150.0 - abs(v), 6)

    return {from_side(c) for work in made.works for c in work.cuts if c.what == "tongue cheek"}


@pytest.mark.parametrize("toward", ["back", "front"])
def test_shoulders_are_drawn_where_the_solid_has_them(toward: str) -> None:
    """One broad face with a line for each of the four, as far from its side as the cheeks are cut."""
    made = bottom(toward=toward)
    (face,) = [v for v in sheet(made) if v.outline and len(v.visible) == 4]
    drawn = {
        round(min(a, 400.0 - a) if abs(a - c) < 1e-6 else min(b, 300.0 - b), 6)
        for (a, b), (c, _) in face.visible
    }
    assert drawn == shoulders(made)
    assert len(face.lengths) == 3
    assert len(face.widths) == 3


def test_a_tongue_flush_with_the_face_has_its_shoulder_hidden() -> None:
    """Shifted by all of its 2 mm, the cheeks are on the other face only."""
    (face,) = [v for v in sheet(bottom(shift=2.0)) if v.hidden]
    assert len(face.hidden) == 4
    assert not face.visible


def test_a_panel_without_tongues_is_drawn_as_before() -> None:
    """Nothing on it is cut, so it has no sheet."""
    groups = marked_parts((made := bottom(tongue=10)).piece, made.works, figures=MM)
    assert "panel" not in {group.parts[0].name for group in groups}


def test_its_figures_keep_clear_of_each_other() -> None:
    """On a sheet as wide as the packet's."""
    drawn = draw_part(PartDrawing(name="panel", views=sheet(bottom())), room_mm=174.0)
    assert not crowded(drawn)
    assert not off_the_sheet(drawn)
