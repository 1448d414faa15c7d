"""Every drawing of every shipped piece, in each unit and in both: no words crowded, struck or off it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.papers.drawing import Anchor, Circle, Fill, Line, Sheet, Text, backing
from scantling.papers.exports.drawings import NamedDrawing, drawings_of
from tests.papers.crowding import crowded, off_the_sheet, struck
from tests.papers.drawn import projected_once, source_of
from tests.plan.jobs import SHIPPED


def _drawings(piece: str, units: str) -> tuple[NamedDrawing, ...]:
    source = source_of(piece)
    lead, *both = units.split("+")
    with projected_once():
        return drawings_of(replace(source, plan=replace(source.plan, units=lead, both_units=bool(both))))


@pytest.mark.parametrize("piece", SHIPPED)
@pytest.mark.parametrize("units", ["mm", "in", "mm+in", "in+mm"])
def test_words_of_drawings_keep_clear_of_each_other_and_of_lines(piece: str, units: str) -> None:
    """Boxes of all figures, letters and names, and all lines but grain, of views, parts and boards."""
    drawings = _drawings(piece, units)
    assert len(drawings) > 4
    faults = {
        drawing.name: (crowded(drawing.sheet), struck(drawing.sheet), off_the_sheet(drawing.sheet))
        for drawing in drawings
    }
    assert {name: found for name, found in faults.items() if any(found)} == {}


def _sheet(*items) -> Sheet:
    return Sheet(width_mm=50.0, height_mm=20.0, items=items)


def test_the_check_finds_what_it_looks_for() -> None:
    """Two words in one place, a line over a word, a word over the edge; bare paper between is no fault."""
    word = Text((20.0, 10.0), "740", 3.2)
    line = Line((10.0, 9.2), (40.0, 9.2))
    assert crowded(_sheet(word, Text((21.0, 10.5), "716", 3.2))) == [("740", "716")]
    assert crowded(_sheet(word, Text((30.0, 10.0), "716", 3.2))) == []
    assert struck(_sheet(word, line)) == ["740"]
    assert struck(_sheet(line, word)) == ["740"]
    assert struck(_sheet(line, backing(word), word)) == []
    assert struck(_sheet(line, Circle((22.0, 9.0), 4.0, fill=Fill.PAPER), word)) == []
    assert off_the_sheet(_sheet(Text((49.0, 10.0), "740", 3.2))) == ["740"]
    assert off_the_sheet(_sheet(Text((49.0, 10.0), "740", 3.2, Anchor.END))) == []
