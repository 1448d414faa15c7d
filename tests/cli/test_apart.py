"""The command that says in which order a piece comes apart."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from scantling.cli.main import main

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_it_prints_the_order_and_what_meets(capsys: pytest.CaptureFixture[str]) -> None:
    """The trestle desk: feet first, as it is put together upside down; what lies on the top stays."""
    assert main(["apart", str(EXAMPLES / "trestle_desk.yaml")]) == 0
    out = capsys.readouterr().out
    assert "It comes apart in 7 straight moves" in out
    assert "   1  foot left" in out.replace("\u2009", " ")


def test_as_json_it_names_rings_and_ways(capsys: pytest.CaptureFixture[str]) -> None:
    """The bench whose legs spread holds itself: its ring is named, part by part."""
    assert main(["apart", str(EXAMPLES / "hall_bench.yaml"), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["rings"] == [["leg_fl", "stretcher_left", "leg_bl", "seat"]]
    assert answer["removals"] == []


@pytest.mark.parametrize(("units", "head", "area"), [("mm", "Area cm²", "23"), ("in", "Area in²", "3.6")])
def test_what_meets_is_told_with_its_area(
    units: str, head: str, area: str, capsys: pytest.CaptureFixture[str]
) -> None:
    """The reading table's top lies on the legs' tops, 48 square: 23 cm2, 3.6 square inches."""
    assert main(["apart", str(EXAMPLES / "reading_table.yaml"), "--units", units]) == 0
    out = capsys.readouterr().out
    assert head in out
    (row,) = [line for line in out.splitlines() if line.startswith("top, front left leg")]
    assert f" {area} " in row
