"""``scantling pieces``: files go in and come out as they were, with every version between."""

from __future__ import annotations

import json
import os
from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.cli.main import main
from scantling.cli.records import now, opened
from scantling.store.content import Attached, Content
from scantling.store.versions import begin_piece
from scantling.web.designs.sources import FileSources
from scantling.web.kept.desk import desk_of

ROOT = Path(__file__).resolve().parents[2]
RACK = ROOT / "examples" / "racks" / "reading-table.csv"
SHOP = ROOT / "examples" / "shops" / "reading-table.yaml"
PIECE = ROOT / "examples" / "reading_table.yaml"


@pytest.fixture(autouse=True)
def own_records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Records of each test's own, and an empty folder to write into."""
    monkeypatch.setenv("SCANTLING_DATA", str(tmp_path / "data"))
    (tmp_path / "bench").mkdir()
    monkeypatch.chdir(tmp_path / "bench")


def _said(capsys: pytest.CaptureFixture[str], *words: str, status: int = 0) -> str:
    assert main(["pieces", *words]) == status
    said = capsys.readouterr()
    return said.out if status == 0 else said.err


def test_what_is_kept_is_written_as_it_was(capsys: pytest.CaptureFixture[str]) -> None:
    """Piece, shop and rack, to the byte; the line that plans it gives the very plan of the files."""
    files = ["--shop", str(SHOP), "--rack", str(RACK), "--room", "dry-winter house"]
    said = _said(capsys, "keep", str(PIECE), *files, "--set", "length=1300 mm")
    assert said.startswith("   1  Reading table with splayed legs: at version 1 of 1 version, changed ")
    written = _said(capsys, "write", "1", "-o", "out").splitlines()
    stem = "out/reading-table-with-splayed-legs"
    assert written[:3] == [f"{stem}.yaml", f"{stem}-shop.yaml", f"{stem}-rack.csv"]
    assert Path(f"{stem}.yaml").read_bytes() == PIECE.read_bytes()
    assert Path(f"{stem}-rack.csv").read_bytes() == RACK.read_bytes()
    assert written[3] == (
        f"Plan it with: scantling plan {stem}.yaml --shop {stem}-shop.yaml --rack {stem}-rack.csv "
        "--room 'dry-winter house' --set 'length=1300 mm'"
    )
    assert "file_is_there" not in _said(capsys, "write", "1", "-o", "out", status=2)
    assert _said(capsys, "write", "1", "-o", "out", "--force").splitlines() == written


def test_notes_from_the_bench_go_along_with_their_rack(capsys: pytest.CaptureFixture[str]) -> None:
    """The file beside the rack is kept, and written where the rack that is written finds it again."""
    Path("cherry.csv").write_bytes(RACK.read_bytes())
    Path("cherry.bench.yaml").write_text("leave: [L2]  # promised\n", encoding="utf-8")
    _said(capsys, "keep", str(PIECE), "--rack", "cherry.csv")
    written = _said(capsys, "write", "1", "-o", "out")
    notes = Path("out/reading-table-with-splayed-legs-rack.bench.yaml")
    assert notes.read_text(encoding="utf-8") == "leave: [L2]  # promised\n"
    assert "--bench" not in written
    assert main(["rack", "out/reading-table-with-splayed-legs-rack.csv"]) == 0


def test_notes_on_the_stockroom_go_along_with_their_piece(capsys: pytest.CaptureFixture[str]) -> None:
    """There is no rack file for them to lie beside; boards that have left since are no fault of theirs."""
    assert main(["stockroom", "add", str(RACK)]) == 0
    Path("table.yaml").write_bytes(PIECE.read_bytes())
    notes = "leave: [L2, gone]  # promised\nmeasured: {top: {width: 657 mm}}\n"
    Path("table-stockroom.bench.yaml").write_text(notes, encoding="utf-8")
    _said(capsys, "keep", "table.yaml", "--rack", "stockroom")
    written = _said(capsys, "write", "1", "-o", "out").splitlines()
    piece = Path("out/reading-table-with-splayed-legs.yaml")
    beside = piece.with_name(f"{piece.stem}-stockroom.bench.yaml")
    assert written == [str(piece), str(beside), f"Plan it with: scantling plan {piece} --rack 'stockroom'"]
    assert beside.read_text(encoding="utf-8") == notes
    job = job_from_files(piece, rack="stockroom", shop=SHOP)
    assert job.rack is not None
    assert job.rack.notes.leave == ("L2",)
    assert [board for board, _ in job.rack.notes.gone] == ["gone"]
    assert job.piece.built == job_from_files(PIECE, shop=SHOP, measured=beside).piece.built
    stock = desk_of(os.environ).rack
    sources = FileSources(piece, rack=Path("stockroom"), shop=SHOP, room=None, stockroom=stock)
    assert sources.rack() == job.rack
    noted = sources.notes()
    assert noted is not None
    assert (noted.name, noted.text) == (beside.name, notes)
    assert sources.piece({}).piece.built == job.piece.built
    key = sources.key()
    beside.write_text("leave: [L1]\n", encoding="utf-8")
    assert sources.key() != key


def test_notes_of_a_piece_without_a_rack_are_named(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """What is measured counts for a piece that is still to be bought for."""
    content = Content(
        piece=PIECE.read_text(encoding="utf-8"),
        bench=Attached(name="boards.bench.yaml", text="measured: {top: {width: 657 mm}}\n"),
    )
    with opened() as database, database.writing() as records:
        begin_piece(records, "Table", content, now=now())
    written = _said(capsys, "write", "1", "-o", ".").splitlines()
    assert written[2] == "Plan it with: scantling plan table.yaml --measured table.bench.yaml"
    assert main(["check", "table.yaml", "--measured", "table.bench.yaml"]) != 2


def test_versions_are_kept_and_stepped_along(capsys: pytest.CaptureFixture[str]) -> None:
    """By name or number; a save on a version left since is refused."""
    mine = Path("table.yaml")
    mine.write_text(PIECE.read_text(encoding="utf-8"), encoding="utf-8")
    _said(capsys, "keep", "table.yaml", "--name", "Hall table")
    mine.write_text(mine.read_text(encoding="utf-8") + "# two\n", encoding="utf-8")
    assert "at version 2" in _said(capsys, "keep", "table.yaml", "--into", "Hall table", "--why", "Note")
    assert "at version 1" in _said(capsys, "undo", "Hall table")
    assert "at version 2" in _said(capsys, "redo", "1")
    assert "at version 3" in _said(capsys, "restore", "1", "1")
    lines = _said(capsys, "versions", "1").splitlines()
    assert [line[:6] for line in lines] == ["*    3", "     2", "     1"]
    assert lines[0].endswith("Version 1 again")
    told = json.loads(_said(capsys, "versions", "Hall table", "--json"))
    assert [version["why"] for version in told] == ["Version 1 again", "Note", "Begun"]


def test_nobody_saves_over_another(capsys: pytest.CaptureFixture[str]) -> None:
    """A file made from a version left since is refused; both changes are kept where they do not touch."""
    text = PIECE.read_text(encoding="utf-8")
    mine, theirs = Path("mine.yaml"), Path("theirs.yaml")
    theirs.write_text(text + "# theirs\n", encoding="utf-8")
    mine.write_text("# mine\n" + text, encoding="utf-8")
    _said(capsys, "keep", str(PIECE), "--name", "Hall table")
    _said(capsys, "keep", "theirs.yaml", "--into", "1")
    refused = _said(capsys, "keep", "mine.yaml", "--into", "1", "--parent", "1", status=2)
    assert "--parent: must be the current version, which is 2, got version 1." in refused
    assert "say --merge" in refused
    assert "at version 3" in _said(capsys, "keep", "mine.yaml", "--into", "1", "--parent", "1", "--merge")
    _said(capsys, "write", "1", "-o", ".")
    assert Path("hall-table.yaml").read_text(encoding="utf-8") == f"# mine\n{text}# theirs\n"
    mine.write_text(text + "# mine\n", encoding="utf-8")
    clash = _said(capsys, "keep", "mine.yaml", "--into", "1", "--parent", "1", "--merge", status=2)
    assert f"Both changed piece line {len(text.splitlines()) + 1}" in clash


def test_pieces_are_put_away_and_taken_out(capsys: pytest.CaptureFixture[str]) -> None:
    """They stand on the other list until then."""
    assert _said(capsys, "list").startswith("No piece is kept.")
    _said(capsys, "keep", "reading-table")
    assert _said(capsys, "put-away", "1").rstrip().endswith(", put away")
    assert _said(capsys, "list").startswith("No piece is kept.")
    assert "Reading table" in _said(capsys, "list", "--put-away")
    _said(capsys, "take-out", "1")
    assert [piece["number"] for piece in json.loads(_said(capsys, "list", "--json"))] == [1]


def test_a_piece_with_faults_is_kept(capsys: pytest.CaptureFixture[str]) -> None:
    """It is told when it is planned, not when it is put by for tomorrow."""
    Path("half.yaml").write_text("title: [half\n", encoding="utf-8")
    assert "half" in _said(capsys, "keep", "half.yaml")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["undo", "Hall tabel"], "Did you mean Hall table?"),
        (["undo", "9"], "piece: must be the number of a piece that is kept, got 9."),
        (["undo", "1"], "version: must have a version before it, got version 1."),
        (["restore", "1", "7"], "version: must be the number of a version of this piece, got 7."),
        (["keep", "reading-table", "--name", "Hall table"], "name: must be no other piece's"),
        (["keep", "nowhere.yaml"], "must exist"),
        (["write", "1", "--version", "4", "-o", "out"], "got 4."),
    ],
)
def test_what_will_not_do_is_told(capsys: pytest.CaptureFixture[str], words: list[str], told: str) -> None:
    """With what there is."""
    _said(capsys, "keep", "reading-table", "--name", "Hall table")
    assert told in _said(capsys, *words, status=2)
