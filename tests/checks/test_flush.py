"""Edges drawn flush that the seasons move apart."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found
from tests.joinery.samples import SAMPLES

YEAR = MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)


def topped(width: float, *, longer: float = 0.0, fixed: str = "middle") -> Made:
    """A flat-sawn cherry panel and an end as long as it is wide, or longer at both edges."""
    sample = SAMPLES["breadboard_end"]
    half = width / 2.0 + longer
    parts = {
        "a": {**sample.parts["a"], "from": [630, -half, 100], "to": [630, half, 100]},
        "b": {**sample.parts["b"], "species": "black cherry", "section": [width, 20], "rings": "flat"},
    }
    options = {name: value for name, value in sample.options.items() if name not in ("slot", "mortise_over")}
    joint = {**options, "kind": "breadboard_end", "between": [["a", "b.end"]], "fixed": fixed}
    return made_of(parts, {"j": {**joint, "tenons": 1, "tenon_width": 40}}, moisture=YEAR)


@pytest.mark.parametrize(("width", "codes"), [(135.0, ["F07"]), (134.0, [])])
def test_half_a_millimeter_is_felt(width: float, codes: list[str]) -> None:
    """Half of 135 x 0.00248 x 3 is 0.502 mm, of 134 it is 0.498."""
    told = found(topped(width), "F07", moisture=YEAR)
    assert [f.code for f in told] == codes
    if codes:
        assert told[0].numbers["step_mm"] == pytest.approx(135 * 0.00248 * 3.0 / 2.0)


def test_a_wide_top_steps_as_worked_by_hand() -> None:
    """900 mm from 6 to 10.5 %: 10.0 mm in all, 5.02 at each edge; 3.35 of them out, 1.67 back."""
    [told] = found(topped(900.0), "F07", moisture=YEAR)
    assert told.numbers["swell_mm"] == pytest.approx(3.348)
    assert told.numbers["shrink_mm"] == pytest.approx(1.674)
    assert 2.0 * (told.numbers["swell_mm"] + told.numbers["shrink_mm"]) == pytest.approx(10.0, abs=0.05)


@pytest.mark.parametrize(
    ("air", "words"),
    [
        (YEAR, "each edge will stand back up to 1.7 mm when dry and out up to 3.3 mm when damp"),
        (replace(YEAR, dry_pct=YEAR.build_pct), "each edge will stand out up to 3.3 mm when damp"),
        (replace(YEAR, wet_pct=YEAR.build_pct), "each edge will stand back up to 1.7 mm when dry"),
    ],
)
def test_only_the_ways_it_goes_are_told(air: MoistureRange, words: str) -> None:
    """Built in the driest or the wettest month it goes one way alone, and no step of 0.0 mm is named."""
    [told] = found(topped(900.0), "F07", moisture=air)
    assert told.message.endswith(words)


def test_held_at_one_edge_the_other_steps_twice_as_far() -> None:
    """6.70 mm out."""
    [told] = found(topped(900.0, fixed="front"), "F07", moisture=YEAR)
    assert told.numbers["step_mm"] == pytest.approx(900 * 0.00248 * 3.0)


def test_an_end_that_stands_out_is_not_meant_to_be_flush() -> None:
    """Ends 4 mm longer at both edges are a reveal."""
    assert found(topped(900.0, longer=4.0), "F07", moisture=YEAR) == []
