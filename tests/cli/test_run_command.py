"""``scantling boards`` for several pieces at once."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from scantling.cli.main import main
from scantling.stock.boards.rack_text import rack_csv
from scantling.stock.racks.rack import read_rack
from tests.plan.jobs import EXAMPLES

PIECE = str(EXAMPLES / "hall_bench.yaml")


@pytest.fixture
def rack(tmp_path: Path) -> str:
    """The boards of the hall bench four times over."""
    boards = read_rack(EXAMPLES / "racks" / "hall-bench.yaml").boards
    many = [replace(b, name=f"{b.name}.{n}") for n in range(4) for b in boards]
    path = tmp_path / "many.csv"
    path.write_text(rack_csv(many))
    return str(path)


def test_three_benches(
    rack: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Parts that any copy may take are told with their count, and the search tells how it goes."""
    monkeypatch.setenv("COLUMNS", "160")
    words = ["boards", PIECE, "--times", "3", "--rack", rack, "--seconds", "2"]
    assert main(words) == 0
    shown = capsys.readouterr()
    text = " ".join(shown.out.split())
    assert "To make 3 × hall bench" in text
    assert "Every blank has its place." in text
    assert "every blank has its place" in shown.err
    assert "hall_bench" not in text


def test_two_files(rack: str, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Two piece files make one run, each with its own number, on two processes."""
    other = tmp_path / "other_bench.yaml"
    other.write_text(Path(PIECE).read_text())
    words = ["boards", PIECE, str(other), "--times", "1", "--times", "2", "--rack", rack]
    assert main([*words, "--seconds", "1", "--workers", "2"]) == 0
    assert "1 × hall bench, 2 × other bench" in " ".join(capsys.readouterr().out.split())


def test_refusals(rack: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Numbers that are none, and more of them than pieces, are refused with what to write."""
    for words in (["--times", "0"], ["--times", "2", "--times", "3"]):
        assert main(["boards", PIECE, "--rack", rack, *words]) == 2
        assert "--times 40" in capsys.readouterr().err
    assert main(["boards", PIECE, "--rack", rack, "--workers", "0"]) == 2
    assert "--workers 2" in capsys.readouterr().err
    assert main(["boards", PIECE, PIECE]) == 2
    assert "--rack boards.csv" in capsys.readouterr().err
