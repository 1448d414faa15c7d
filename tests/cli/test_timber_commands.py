"""Commands about timber: the rack, the yard, the layout."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from scantling.cli.main import main
from tests.plan.jobs import EXAMPLES

RACK = str(EXAMPLES / "racks" / "reading-table.csv")


def test_rack_is_tallied_with_what_is_wrong(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each board with its tally, measured feet, price and marks; the sums below."""
    monkeypatch.setenv("COLUMNS", "160")
    assert main(["rack", RACK]) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert "Tally 34.5 bf As measured 34.02 bf" in shown
    assert "knot 95 × 70 at 760 × 35" in shown
    assert "Price 397.14 USD" in shown


def test_rack_as_json_and_in_inches(capsys: pytest.CaptureFixture[str]) -> None:
    """The same for programs, and for a maker who measures in inches."""
    assert main(["rack", RACK, "--json"]) == 0
    boards = json.loads(capsys.readouterr().out)
    assert [b["tally_board_feet"] for b in boards] == [6.25, 6.25, 6.25, 3.75, 6.0, 6.0]
    assert main(["rack", RACK, "--units", "in"]) == 0
    assert "Rough in" in capsys.readouterr().out


def test_a_faulty_rack_is_refused_with_its_lines(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Every fault of the file, and status 2."""
    path = tmp_path / "rack.csv"
    path.write_text("name,species,thickness,width,length\nA,oak,4/4,0,2000\n", encoding="utf-8")
    assert main(["rack", str(path)]) == 2
    told = capsys.readouterr().err
    assert "rack.csv:2" in told
    assert "2 faults" in told
