"""Sizes are offered in the unit of the piece, as words and as numbers that agree."""

from __future__ import annotations

from scantling.joinery import load_piece_text
from scantling.web.sent.parameters import parameter_views
from tests.web.specimen import DEMO


def test_inches_are_shown_as_fractions_and_stepped_by_sixteenths() -> None:
    """28 3/4 in is 28.75 on a scale whose step is a sixteenth."""
    text = DEMO.read_text(encoding="utf-8").replace("units: mm", "units: in").replace("740 mm", "28 3/4 in")
    views = {view.name: view for view in parameter_views(load_piece_text(text))}
    height = views["height"]
    assert (height.shown, height.unit, height.value, height.step) == ("28 3/4 in", "in", 28.75, 0.0625)
    assert height.shown_least == "23 5/8 in"
    assert views["splay"].shown == "7°"
    assert views["splay"].unit == "deg"


def test_a_size_given_is_shown_beside_the_one_drawn() -> None:
    """The value in force and the default of the file are both there."""
    piece = load_piece_text(DEMO.read_text(encoding="utf-8"), given={"length": "120 cm"})
    length = parameter_views(piece)[0]
    assert (length.shown, length.shown_default) == ("1200 mm", "1370 mm")
    assert (length.value, length.default) == (1200.0, 1370.0)
