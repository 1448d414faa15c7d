"""``scantling stockroom``: boards in and out, told as they were, and laid out like any rack."""

from __future__ import annotations

import json
import subprocess
import sys
from datetime import UTC, datetime
from pathlib import Path

import pytest

from scantling.cli.main import main

ROOT = Path(__file__).resolve().parents[2]
RACK = ROOT / "examples" / "racks" / "reading-table.csv"
SHOP = str(ROOT / "examples" / "shops" / "reading-table.yaml")


@pytest.fixture(autouse=True)
def own_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Records of each test's own, and a folder in which nothing is called stockroom."""
    monkeypatch.setenv("SCANTLING_DATA", str(tmp_path / "data"))
    monkeypatch.chdir(tmp_path)


def _said(capsys: pytest.CaptureFixture[str], *words: str, status: int = 0) -> str:
    assert main(["stockroom", *words]) == status
    said = capsys.readouterr()
    return said.out if status == 0 else said.err


def _names(capsys: pytest.CaptureFixture[str]) -> list[str]:
    return [board["name"] for board in json.loads(_said(capsys, "list", "--json"))]


def test_a_rack_is_taken_in_and_given_out_again(capsys: pytest.CaptureFixture[str]) -> None:
    """The file written is the one read, but for the order of columns; it lists what each board says."""
    said = _said(capsys, "add", str(RACK), "--from", "The mill", "--on", "2026-03-05")
    assert said.splitlines()[0] == "2026-03-05  act 1"
    assert said.splitlines()[-1] == "There are now 6 boards."
    _said(capsys, "as-rack", "-o", "out.csv")
    main(["rack", str(RACK), "--json"])
    read = json.loads(capsys.readouterr().out)
    main(["rack", "out.csv", "--json"])
    assert json.loads(capsys.readouterr().out) == read
    main(["rack", "stockroom", "--json"])
    assert json.loads(capsys.readouterr().out) == read


def test_a_board_is_entered_on_a_line(capsys: pytest.CaptureFixture[str]) -> None:
    """As it is called out in the yard."""
    line = "A1, 5/4, 8 ft, 7 1/2 in, 11.50; knot at 620 x 40, 90 x 50"
    said = _said(capsys, "add", "--board", line, "--wood", "cherry", "--price-per", "board foot")
    assert "bought    #1 A1  5/4 black cherry, 2438 × 190 mm" in said
    (board,) = json.loads(_said(capsys, "list", "--json"))
    assert (board["length_mm"], board["width_mm"], board["price"]["basis"]) == (2438.4, 190.5, "board foot")


def test_a_used_board_leaves_its_offcut(capsys: pytest.CaptureFixture[str]) -> None:
    """Both in one act, which is taken back whole; an offcut can also be put in later."""
    _said(capsys, "add", str(RACK))
    said = _said(capsys, "use", "C1", "--for", "Stool", "--keep", "900 mm x 5 1/2 in")
    assert "used      #1 C1  for Stool" in said
    assert "kept      #7 C1 offcut  5/4 black cherry, 900 × 140 mm  from C1 (#1)" in said
    assert _names(capsys) == ["C2", "C3", "C4", "L1", "L2", "C1 offcut"]
    _said(capsys, "undo")
    assert _names(capsys) == ["C1", "C2", "C3", "C4", "L1", "L2"]
    refused = _said(capsys, "keep", "C1", "900", "140", status=2)
    assert "use 'C1' --keep '900 x 140'" in refused
    _said(capsys, "use", "C1")
    _said(capsys, "keep", "C1", "900", "140", "--name", "C1a")
    assert _names(capsys)[-1] == "C1a"


def test_the_history_tells_everything_last_first(capsys: pytest.CaptureFixture[str]) -> None:
    """Also what was taken back; and of one board alone, also one that is gone."""
    _said(capsys, "add", str(RACK), "--note", "before the winter")
    _said(capsys, "moisture", "C2", "8.1 %")
    _said(capsys, "sell", "C2", "--to", "Anna", "--price", "70")
    _said(capsys, "throw", "C3")
    _said(capsys, "undo")
    lines = _said(capsys, "history").splitlines()
    assert lines[0].endswith("taken back: act 4")
    assert lines[1].endswith("act 4, taken back since")
    told = _said(capsys, "history", "C2")
    assert "sold      #2 C2  to Anna  70" in told
    assert "read      #2 C2  8.1 %" in told
    assert told.splitlines()[-7].endswith("act 1: before the winter")
    acts = json.loads(_said(capsys, "history", "--json"))
    assert [act["takes_back"] for act in acts] == [None, None, None, None, 4]


def test_a_piece_is_laid_out_on_the_stockroom_and_taken_out_of_it(capsys: pytest.CaptureFixture[str]) -> None:
    """The plan is the one of the rack file; nothing changes until it is asked for, then all of it at once."""
    assert main(["plan", "reading-table", "--shop", SHOP, "--rack", str(RACK), "--sheet", "boards"]) == 0
    from_file = capsys.readouterr().out
    _said(capsys, "add", str(RACK))
    assert main(["plan", "reading-table", "--shop", SHOP, "--rack", "stockroom", "--sheet", "boards"]) == 0
    assert capsys.readouterr().out == from_file
    shown = _said(capsys, "cut", "reading-table", "--shop", SHOP)
    assert shown.splitlines()[-1].startswith("Nothing has been changed.")
    assert len(_names(capsys)) == 6
    done = _said(capsys, "cut", "reading-table", "--shop", SHOP, "--yes")
    assert done.splitlines()[:-1] == shown.splitlines()[:-1]
    out = [line.split()[2].rstrip(":") for line in shown.splitlines() if line.startswith("  out")]
    kept = [line[7:].split(":")[0] for line in shown.splitlines() if line.startswith("  in ")]
    left = [name for name in ["C1", "C2", "C3", "C4", "L1", "L2"] if name not in out]
    assert out
    assert kept
    assert _names(capsys) == [*left, *kept]
    again = _said(capsys, "cut", "reading-table", "--shop", SHOP)
    assert (
        f"Boards went out for it before, the last on {datetime.now(UTC):%Y-%m-%d}: {', '.join(out)}." in again
    )
    _said(capsys, "undo")
    assert len(_names(capsys)) == 6


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (["add"], "rack: must be a rack file, or one board with --board, got neither."),
        (["add", "nowhere.csv"], "must exist"),
        (["use", "Z9", "C1"], "board: must be in the stockroom, got Z9."),
        (["use", "C1", "C2", "--keep", "9 x 9"], "--keep: must be of one board, got 2 boards."),
        (["use", "C1", "--keep", "900"], "--keep: must be a length and a width, got 900."),
        (["use", "C1", "--keep", "9 m x 140 mm"], "must fit on C1, which was 2440 × 175 mm"),
        (["use", "C1", "--keep", "0 x 140 mm"], "must have a length and a width above 0"),
        (["use", "C1", "--on", "yesterday"], "--on: must be a day, got yesterday."),
        (["use", "C1", "--on", "2999-01-01"], "--on: must not be to come, got 2999-01-01."),
        (["moisture", "C1", "880 %"], "must lie in 0..200 % of the dry mass"),
        (["sell", "C1", "--price", "-1"], "price: must be 0 or more"),
        (["add", str(RACK)], "name: must be no other board's in the stockroom; #1 has it, got C1."),
    ],
)
def test_what_will_not_do_is_told_and_changes_nothing(
    capsys: pytest.CaptureFixture[str], words: list[str], code: str
) -> None:
    """Each with what was found and what is allowed."""
    _said(capsys, "add", str(RACK))
    assert code in _said(capsys, *words, status=2)
    assert len(_names(capsys)) == 6


def test_an_empty_stockroom_says_how_to_begin(capsys: pytest.CaptureFixture[str]) -> None:
    """Listed, it is no fault; as a rack it is one."""
    assert _said(capsys, "list") == (
        "The stockroom is empty. Take boards in with: scantling stockroom add RACK.csv\n"
    )
    assert _said(capsys, "history") == "Nothing has been done yet.\n"
    assert "nothing" in _said(capsys, "undo", status=2)
    assert main(["plan", "reading-table", "--rack", "stockroom"]) == 2
    assert "scantling stockroom add RACK.csv" in capsys.readouterr().err


def test_a_small_question_opens_no_records(tmp_path: Path) -> None:
    """A rack file is tallied without a database, and without loading what would open one."""
    code = (
        "import sys; from scantling.cli.main import main; "
        f"main(['rack', {str(RACK)!r}]); print('sqlalchemy' in sys.modules, 'alembic' in sys.modules)"
    )
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert said.stdout.splitlines()[-1] == "False False", said.stderr
    assert not (tmp_path / "data").exists()
