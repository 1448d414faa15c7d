"""A day at the bench on the command line: three parts cut, a knot found, the rest laid out anew."""

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

PIECE = """
scantling: 1
title: Six rails
units: mm
parts:
  rail:
    kind: stick
    species: white oak
    from: [-350 mm, 0, 500 mm]
    to: [350 mm, 0, 500 mm]
    section: [90 mm, 18 mm]
    width_toward: top
    repeat: {count: 6, step: [0, 100 mm, 0]}
"""
RACK = """name,species,thickness,length,width,price
A,white oak,4/4,2300,120,20
B,white oak,4/4,2300,120,21
C,white oak,4/4,1600,120,22
D,white oak,4/4,1600,120,30
"""


def files(folder: Path, notes: str = "") -> list[str]:
    """The piece and its rack, with bench notes beside it."""
    (folder / "rails.yaml").write_text(PIECE, encoding="utf-8")
    (folder / "rack.csv").write_text(RACK, encoding="utf-8")
    if notes:
        (folder / "rack.bench.yaml").write_text(notes, encoding="utf-8")
    return [str(folder / "rails.yaml"), "--rack", str(folder / "rack.csv")]


def laid(words: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[dict[str, tuple[str, float]], dict]:  # type: ignore[type-arg]
    """Where every blank lies, and all that is told of the timber."""
    assert main(["plan", *words, "--json"]) == 0
    timber = json.loads(capsys.readouterr().out)["timber"]
    boards = timber["layout"]["boards"]
    return {p["blank"]["name"]: (p["board"], p["x_mm"]) for b in boards for p in b["placed"]}, timber


def test_three_are_cut_a_knot_is_found_and_only_the_rest_moves(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Three rails come from A and three from B; once A is sawn, B shows a knot over the whole of its middle.

    What is cut stays cut and is not laid out again; B still gives one rail beside the knot at 700 mm, so two
    go to a board that lay unused, and no blank lies on the knot. Without the notes the first layout is back.
    """
    before, _ = laid(files(tmp_path), capsys)
    on = {board: sorted(n for n, (b, _) in before.items() if b == board) for board in "AB"}
    assert [len(names) for names in on.values()] == [3, 3]
    notes = f"cut: {{A: [{', '.join(on['A'])}]}}\nfound: {{B: 'knot at 700 x 20, 700 x 60'}}\n"
    after, timber = laid(files(tmp_path, notes), capsys)
    assert sorted(after) == on["B"]
    assert [c["name"] for c in timber["bench"]["cut"]] == on["A"]
    assert {board for board, _ in after.values()} <= {"B", "C", "D"}
    assert "A" not in {board for board, _ in after.values()}
    spans = [x for board, x in after.values() if board == "B"]
    assert all(x >= 1400 or x + 730 <= 700 for x in spans)
    assert len(spans) == 1
    assert timber["layout"]["price"] == pytest.approx(20 + 21 + 22)
    (tmp_path / "rack.bench.yaml").unlink()
    assert laid(files(tmp_path), capsys)[0] == before


def test_a_board_left_alone_and_a_pin_move_only_what_they_must(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """B is left, a rail is pinned to a place on D, 20 mm up: the others find room on A and C."""
    notes = "leave: [B]\npin: {rail_4: 'D at 100 mm, 10 mm up'}\n"
    places, timber = laid(files(tmp_path, notes), capsys)
    assert {board for board, _ in places.values()} <= {"A", "C", "D right"}
    assert "rail_4" not in places
    assert len(places) == 5
    assert "crosscut D at 100 mm" in timber["bench"]["pinned"][0]


def test_an_interrupted_search_loses_nothing_of_the_notes(tmp_path: Path) -> None:
    """Ten minutes are asked for; stopped by Ctrl-C, it prints its best, and the notes are as they were."""
    notes = "# mine\ncut: {S1: [leg_fl, leg_fr, leg_bl]}\nfound: {S2: 'knot at 700 x 20, 100 x 60'}\n"
    rack = tmp_path / "oak.csv"
    rack.write_text((EXAMPLES / "racks" / "sideboard.csv").read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "oak.bench.yaml").write_text(notes, encoding="utf-8")
    words = ["boards", str(EXAMPLES / "sideboard.yaml"), "--rack", str(rack), "--seconds", "600"]
    begun = time.monotonic()
    running = subprocess.Popen(
        [sys.executable, "-m", "scantling", *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    with running:
        assert running.stderr is not None
        assert "s: " in running.stderr.readline()
        running.send_signal(signal.SIGINT)
        out, _ = running.communicate(timeout=240)
    assert running.returncode == 0
    assert time.monotonic() - begun < 300
    said = " ".join(out.split())
    assert "Cut already, from S1: Front left, front right and back left" in said
    assert "back left leg" not in said.partition("What comes out of each board")[2]
    assert "back right leg" in said.partition("What comes out of each board")[2]
    assert (tmp_path / "oak.bench.yaml").read_text(encoding="utf-8") == notes
