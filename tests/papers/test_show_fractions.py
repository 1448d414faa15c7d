"""Sizes in inches to the fraction a maker reads; gaps and slots stay finer."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.joinery import load_piece_text
from scantling.papers.sheets.parts import parts_sheet
from scantling.papers.sheets.show import Show
from tests.plan.jobs import EXAMPLES, demo_plan

__all__: list[str] = []


@pytest.mark.parametrize(("fractions", "shown"), [(16, "28 7/8"), (32, "28 29/32"), (64, "28 29/32")])
def test_a_leg_is_shown_to_the_fraction_set(fractions: int, shown: str) -> None:
    """The same leg of 734 mm; a gap keeps its 1/64."""
    plan = replace(demo_plan(), units="in", fractions=fractions)
    show = Show.of(plan)
    leg = next(part for part in plan.parts if part.name == "leg_fl")
    assert show.length(leg.length_mm) == shown
    assert show.gap(1.0) == "3/64"
    assert shown in str(parts_sheet(plan))


def test_a_piece_file_sets_it() -> None:
    """Beside its units; another figure is refused by the file's reader."""
    text = (EXAMPLES / "reading_table.yaml").read_text(encoding="utf-8")
    piece = load_piece_text(text.replace("units: mm", "units: mm\nfractions: 16", 1))
    assert piece.fractions == 16
    assert load_piece_text(text).fractions == 32
