"""Commands about timber: the rack, the yard, the layout."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from scantling.cli.main import main
from tests.plan.jobs import EXAMPLES

BENCH_RACK = str(EXAMPLES / "racks" / "hall-bench.yaml")
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
    shown = capsys.readouterr().out
    assert "Rough in" in shown
    assert "m³" not in shown


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


def boards_of_the_sideboard(seconds: str) -> subprocess.Popen[str]:
    """The command at work on the largest example."""
    words = ["boards", str(EXAMPLES / "sideboard.yaml"), "--rack", str(EXAMPLES / "racks" / "sideboard.csv")]
    return subprocess.Popen(
        [sys.executable, "-m", "scantling", *words, "--seconds", seconds],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def test_an_interrupt_keeps_the_best_layout_so_far() -> None:
    """Ten minutes are asked for; interrupted after the first answer, it prints that layout and ends well."""
    begun = time.monotonic()
    with boards_of_the_sideboard("600") as running:
        assert running.stderr is not None
        first = running.stderr.readline()
        running.send_signal(signal.SIGINT)
        out, _ = running.communicate(timeout=240)
    assert "s: " in first
    assert running.returncode == 0
    assert "What comes out of each board" in out
    assert time.monotonic() - begun < 300


def test_a_rack_and_a_time_are_wanted(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a rack there is nothing to lay out, and no time is no search."""
    table = str(EXAMPLES / "reading_table.yaml")
    assert main(["boards", table]) == 2
    assert "--rack boards.csv" in capsys.readouterr().err
    assert main(["boards", table, "--rack", RACK, "--seconds", "0"]) == 2
    assert "above 0" in capsys.readouterr().err


def test_a_short_search_ends_by_itself(capsys: pytest.CaptureFixture[str]) -> None:
    """Better layouts are told as they come, and the one proven best ends a search that might go on."""
    assert main(["boards", str(EXAMPLES / "hall_bench.yaml"), "--rack", BENCH_RACK, "--seconds", "60"]) == 0
    said = capsys.readouterr()
    assert "proven best" in said.err
    assert "Largest offcut" in said.out


def test_the_shop_says_what_counts(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Where wood is paid for and waste counts, no bound on the price is told."""
    shop = tmp_path / "shop.yaml"
    text = (EXAMPLES / "shops" / "trestle-desk.yaml").read_text(encoding="utf-8")
    shop.write_text(text + "\nlayout: {price: 0, waste: 10, cut: 0.1}\n", encoding="utf-8")
    words = [str(EXAMPLES / "hall_bench.yaml"), "--rack", BENCH_RACK, "--shop", str(shop)]
    assert main(["plan", *words, "--sheet", "boards"]) == 0
    shown = capsys.readouterr().out
    assert "Price of these boards" in shown
    assert "Cannot cost less than" not in shown
