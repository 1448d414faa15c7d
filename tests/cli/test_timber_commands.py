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


def test_bench_notes_beside_the_rack_are_heeded(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """What is cut is told and not laid out again; a name nobody has is a finding (T11)."""
    rack = tmp_path / "rack.csv"
    rack.write_text(Path(RACK).read_text(encoding="utf-8"), encoding="utf-8")
    notes = "cut:\n  L1: [leg_fl, leg_fr, leg_bl, leg_br]\npin: {apron_middle: C2}\n"
    (tmp_path / "rack.bench.yaml").write_text(notes, encoding="utf-8")
    words = (str(EXAMPLES / "reading_table.yaml"), "--rack", str(rack))
    assert main(["plan", *words, "--sheet", "boards"]) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert "Cut already, from L1: Leg, all four." in shown
    assert "leg fl" not in shown
    main(["check", *words, "--json"])
    told = [f for f in json.loads(capsys.readouterr().out) if f["code"] == "T11"]
    assert [f["where"] for f in told] == ["apron_middle"]
