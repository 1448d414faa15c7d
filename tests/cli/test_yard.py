"""Boards called out one a line: each is judged, the advice followed unless said otherwise, the pile kept."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path

import pytest

from scantling.cli.main import main
from scantling.plan.planner import make_plan
from scantling.plan.timber.needs import cutting_of
from scantling.stock import read_rack
from scantling.stock.boards.rack_text import rack_csv
from scantling.stock.buying.yard import Needs, judge_board
from tests.plan.jobs import EXAMPLES, SHIPPED, shipped_job

TABLE = str(EXAMPLES / "reading_table.yaml")
SHOP = str(EXAMPLES / "shops" / "reading-table.yaml")


def yard(
    lines: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, *more: str
) -> list[str]:
    """What is said, line by line, after the list of words."""
    monkeypatch.setattr("sys.stdin", io.StringIO(lines))
    assert main(["yard", TABLE, "--shop", SHOP, *more]) == 0
    out = capsys.readouterr().out
    return out.partition("the end\n")[2].splitlines()


def test_boards_are_taken_until_the_pile_is_enough(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Cherry for the table: taken while it covers what is missing, put back once the pile is enough."""
    lines = "".join(f"A{n}, 5/4, 10 ft, 7 1/2 in, 11\n" for n in range(1, 5))
    lines += "L1, 8/4, 6 ft, 6 in, 13; check at 0 x 0, 40 x 30\nZ1, 5/4, 6 ft, 7 in, 99\n"
    path = tmp_path / "pile.csv"
    said = yard(lines, capsys, monkeypatch, "-o", str(path))
    verdicts = [line.split(".")[0] for line in said if re.match("TAKE|SWAP|PUT BACK", line)]
    assert verdicts[-1] == "PUT BACK"
    assert "TAKE" in verdicts
    assert any("For: Leg, all four" in line for line in said)
    assert "The pile is enough." in said
    pile = read_rack(path)
    assert "Z1" not in {b.name for b in pile.boards}
    assert next(b for b in pile.boards if b.name == "L1").defects[0].length_mm == 40


def test_the_maker_has_the_last_word(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """``no`` goes against the advice, both ways; ``drop`` takes a board off; ``?`` says what is missing."""
    said = yard(
        "A, 5/4, 10 ft, 7 in\nno\npile\nno\npile\ndrop A\n?\nend\nB, 5/4, 8 ft, 7 in\n", capsys, monkeypatch
    )
    assert said[0].startswith("TAKE")
    assert said.index("The pile is empty.") < said.index("On the pile: A")
    assert any(line.startswith("A put back.") for line in said)
    assert any(line.startswith("Still without wood") for line in said)
    assert not any("B" in line.split(",")[0] for line in said if line.startswith("On the pile"))


def test_help_and_quit_are_no_boards(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The words are told again; after ``quit`` no board is taken; one board is one board."""
    said = yard("A, 5/4, 10 ft, 7 in\nHelp\npile\nquit\nB, 5/4, 8 ft, 7 in\n", capsys, monkeypatch)
    assert any(line.startswith("drop NAME") for line in said)
    assert not any("must read" in line or line.startswith("On the pile: A, B") for line in said)
    assert any(": 1 board, " in line for line in said)


def test_a_line_that_is_no_board_is_told_and_passed_over(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A slip at the rack loses nothing: the fault with its remedy, then the next board."""
    said = yard("A, 5/4\nB, oak 5/4, 8 ft, 7 in\nC, 5/4, 8 ft, 7 in\n", capsys, monkeypatch)
    assert "must read NAME" in said[0]
    assert "must name a wood" in said[1]
    assert said[2].startswith("TAKE")


@pytest.mark.parametrize("piece", ["reading_table", "sideboard"])
def test_boards_of_the_rack_cover_something(piece: str) -> None:
    """The first boards of a shipped rack, called out one by one, cover some of what its piece asks for."""
    job = shipped_job(piece)
    assert job.rack is not None
    timber = make_plan(replace(job, rack=None)).timber
    needs = Needs(blanks=timber.blanks, panels=timber.panels, cutting=cutting_of(job.shop))
    pile = job.rack.boards[:3]
    answer = judge_board(job.rack.boards[3], list(pile), needs=needs)
    assert 0 < answer.covered_pct <= 100


@pytest.mark.parametrize("piece", sorted(SHIPPED))
def test_a_rack_written_reads_back_the_same(piece: str, tmp_path: Path) -> None:
    """Every example rack, through the table it is written as."""
    boards = read_rack(next((EXAMPLES / "racks").glob(f"{SHIPPED[piece][0]}.*"))).boards
    path = tmp_path / "again.csv"
    path.write_text(rack_csv(boards), encoding="utf-8")
    assert read_rack(path).boards == boards
