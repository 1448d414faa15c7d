"""The command line: what it prints, how it ends, and that it never writes over anything unasked."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from scantling.cli.main import main, parser
from tests.plan.jobs import EXAMPLES

TABLE = str(EXAMPLES / "reading_table.yaml")


def run(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str, str]:
    """Exit status, standard output, standard error."""
    status = main(words)
    out, err = capsys.readouterr()
    return status, out, err


def test_help_names_every_verb(capsys: pytest.CaptureFixture[str]) -> None:
    """``--help`` ends with status 0 and lists what there is."""
    with pytest.raises(SystemExit) as end:
        main(["--help"])
    assert end.value.code == 0
    shown = capsys.readouterr().out
    for verb in (
        "plan",
        "check",
        "packet",
        "offer",
        "export",
        "serve",
        "demo",
        "forms",
        "new",
        "wood",
        "emc",
        "move",
    ):
        assert f"    {verb} " in shown


def test_every_verb_explains_itself() -> None:
    """Each verb has a help text of its own."""
    verbs = next(a for a in parser()._actions if a.dest == "verb")
    assert all(choice.help for choice in verbs._choices_actions)


def test_plan_prints_every_sheet(capsys: pytest.CaptureFixture[str]) -> None:
    """The text plan holds all subjects, none of them empty."""
    status, out, _ = run(capsys, "plan", TABLE)
    assert status == 0
    for title in (
        "PARTS",
        "BOARDS",
        "MILLING",
        "SAW SETTINGS",
        "JOINTS",
        "SEASONS",
        "GLUE-UPS",
        "FINISH",
        "ORDER OF WORK",
        "STRENGTH",
        "MOVING",
        "MONEY",
        "FINDINGS",
        "TO BUY AND MAKE",
    ):
        assert f"\n{title}\n" in out
    assert "{" not in out
    assert "None" not in out


def test_plan_in_inches(capsys: pytest.CaptureFixture[str]) -> None:
    """The same plan in inches and fractions: 660 mm is 25 31/32 in."""
    _, out, _ = run(capsys, "plan", TABLE, "--units", "in", "--sheet", "parts")
    assert "25 31/32" in out


def test_a_parameter_is_set_on_the_command_line(capsys: pytest.CaptureFixture[str]) -> None:
    """A length as a maker writes it."""
    _, out, _ = run(capsys, "plan", TABLE, "--set", "width=28 in", "--sheet", "parts")
    assert "711" in out


def test_json_is_complete(capsys: pytest.CaptureFixture[str]) -> None:
    """``--json`` prints one document."""
    status, out, _ = run(capsys, "plan", TABLE, "--json")
    assert status == 0
    assert json.loads(out)["title"] == "Reading table with splayed legs"


def test_check_refuses_short_slots(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A pin slot half a millimeter longer than its pin stops the piece, and the exit status says so."""
    text = (
        Path(TABLE)
        .read_text(encoding="utf-8")
        .replace("    pin: 6 mm\n", "    pin: 6 mm\n    slot: 6.5 mm\n")
    )
    piece = tmp_path / "short.yaml"
    piece.write_text(text, encoding="utf-8")
    room = str(EXAMPLES / "rooms" / "high-plains-house.yaml")
    status, out, _ = run(capsys, "check", str(piece), "--room", room, "--json")
    assert status == 1
    codes = {f["code"]: f for f in json.loads(out)}
    assert codes["F05"]["severity"] == "stop"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["plan", "nowhere.yaml"], "nowhere.yaml"),
        (["plan", "no-such-form"], "reading-table"),
        (["plan", TABLE, "--set", "width"], "NAME=VALUE"),
        (["plan", TABLE, "--set", "width=3 parsec"], "width"),
        (["plan", TABLE, "--set", "width=9 m"], "500 mm to 1050 mm"),
        (["plan", TABLE, "--set", "wdith=600 mm"], "width"),
        (["plan", TABLE, "--room", "moon"], "room"),
        (["plan", TABLE, "--shop", "nowhere.yaml"], "nowhere.yaml"),
        (["plan", TABLE, "--rack", "nowhere.csv"], "nowhere.csv"),
        (["plan", TABLE, "--sheet", "pats"], "parts"),
        (["wood", "chery"], "cherry"),
        (["emc", "20 C", "150 %"], "humidity"),
        (["emc", "20 C", "0.45"], "45 %"),
        (["emc", "68", "45 %"], "temperature"),
        (["move", "white oak", "34", "6", "11"], "34 in"),
        (["move", "white oak", "34 in", "0.08", "11"], "percent"),
        (["new", "no-such-form"], "reading-table"),
        (["plan", ""], "got nothing"),
        (["plan", TABLE, "--room", ""], "--room: must name something"),
        (["check", TABLE, "--shop", " ", "--rack", ""], "--rack: must name something"),
        (["serve", TABLE, "--no-browser", "--shop", ""], "--shop: must name something"),
        (["new", "hall-bench", "-o", "nowhere/mine.yaml"], "must be in a folder that is there"),
        (["wood", "oka"], "white oak"),
        (["packet", TABLE, "-o", "nowhere/x.pdf"], "must be in a folder that is there"),
        (["packet", TABLE, "-o", "x.txt"], "Write x.pdf"),
        (["packet", TABLE, "-o", ""], "must end in .pdf"),
        (["offer", TABLE, "-o", "x.txt"], "Write x.pdf"),
        (["offer", TABLE, "-o", "x.pdf", "--price", "much"], "price: must be a sum of money above 0"),
        (["offer", TABLE, "-o", "x.pdf", "--price", "-5"], "price: must be a sum of money above 0"),
        (["demo", "-o", "x.txt", "--no-serve"], "Write x.pdf"),
        (["serve", "nowhere.yaml", "--no-browser"], "nowhere.yaml"),
        (["serve", TABLE, "--no-browser", "--rack", "nowhere.csv"], "nowhere.csv"),
        (["serve", TABLE, "--no-browser", "--set", "wdith=600 mm"], "width"),
        (["rooms", "moon"], "dry-winter-house"),
        (["emc", "900 C", "45 %"], "temperature: must lie in -40..133 degC, got 900 C"),
        (["move", "white oak", "34 in", "8 %", "40 %"], "to: must lie in 1..30 %, got 40 %"),
        (["move", "white oak", "-34 in", "8 %", "11 %"], "width: must be greater than 0 mm, got -34 in"),
    ],
)
def test_what_is_wrong_ends_with_2_and_says_so(
    words: list[str],
    says: str,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    """One line a fault on standard error, nothing on standard output, no traceback, nothing written."""
    monkeypatch.chdir(tmp_path)
    status, out, err = run(capsys, *words)
    assert status == 2
    assert out == ""
    assert says in err
    assert "Traceback" not in err
    assert list(tmp_path.iterdir()) == []


def test_all_faults_of_all_files_come_at_once(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A bad piece, a bad rack and a bad shop are told in one go, each with its file."""
    piece, rack, shop = tmp_path / "p.yaml", tmp_path / "r.csv", tmp_path / "s.yaml"
    piece.write_text("scantling: 1\ntitle: x\nparts: {}\n", encoding="utf-8")
    rack.write_text("name,species\n", encoding="utf-8")
    shop.write_text("machines: 3\n", encoding="utf-8")
    status, _, err = run(capsys, "plan", str(piece), "--rack", str(rack), "--shop", str(shop))
    assert status == 2
    assert "p.yaml" in err
    assert "s.yaml" in err
    assert "r.csv" in err


def test_new_copies_a_form_once(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """A form is copied, and not over a file that is there."""
    target = tmp_path / "mine.yaml"
    assert run(capsys, "new", "hall-bench", "-o", str(target))[0] == 0
    assert "Hall bench" in target.read_text(encoding="utf-8")
    target.write_text("mine", encoding="utf-8")
    status, _, err = run(capsys, "new", "hall-bench", "-o", str(target))
    assert (status, target.read_text(encoding="utf-8")) == (2, "mine")
    assert "not be there yet" in err


def test_export_writes_all_or_nothing(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Tables and scene are written; a second time nothing is touched."""
    words = ["export", TABLE, "--to", "csv", "--to", "glb", "-o", str(tmp_path / "out")]
    status, out, _ = run(capsys, *words)
    written = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert status == 0
    assert len(written) == 4
    assert all(name in out for name in written)
    before = {p.name: p.read_bytes() for p in (tmp_path / "out").iterdir()}
    status, _, err = run(capsys, *words)
    assert status == 2
    assert "--force" in err
    assert {p.name: p.read_bytes() for p in (tmp_path / "out").iterdir()} == before
    assert run(capsys, *words, "--force")[0] == 0


def test_small_questions(capsys: pytest.CaptureFixture[str]) -> None:
    """Answers with their source: 34 in of flat-sawn white oak from 6.17 to 10.97 % grows 15.1 mm (C2)."""
    assert "15.1 mm" in run(capsys, "move", "white oak", "34 in", "6.17 %", "10.97 %")[1]
    assert re.match(r"11\.\d % at 70 °F and 60 % humidity", run(capsys, "emc", "70 F", "60 %")[1])
    assert "Prunus serotina" in run(capsys, "wood", "cherry")[1]


def test_steps_are_told_in_the_order_they_begin(capsys: pytest.CaptureFixture[str]) -> None:
    """Numbered as they are begun, and no order is said to need longer at least than it takes."""
    out = run(capsys, "plan", TABLE, "--sheet", "order")[1]
    begins = [int(day) for day in re.findall(r"^ *\d+  .* day (\d+)  ", out, flags=re.MULTILINE)]
    assert len(begins) > 30
    assert begins == sorted(begins)
    takes = re.search(r"first to last day +(\d+) days", out)
    least = re.search(r"takes less than +(\d+) days", out)
    assert takes
    assert least
    assert int(least[1]) <= int(takes[1])


def test_inches_reach_forces_areas_and_loads(capsys: pytest.CaptureFixture[str]) -> None:
    """Where lengths are inches, forces are pounds of force, areas square feet and loads pounds."""
    strength = run(capsys, "plan", "hall-bench", "--units", "in", "--sheet", "strength")[1]
    assert "lbf" in strength
    assert " kg" not in strength
    finish = run(capsys, "plan", "hall-bench", "--units", "in", "--sheet", "finish")[1]
    assert "ft²" in finish
    assert "m²" not in finish


def test_a_blank_is_never_told_smaller_than_it_must_be(capsys: pytest.CaptureFixture[str]) -> None:
    """The apron's blank is 994.04 mm, 39.135 in: 39 5/32, not 39 1/8."""
    assert "39 5/32" in run(capsys, "plan", TABLE, "--units", "in", "--sheet", "parts")[1]


def test_forms_and_rooms_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """Everything shipped can be found."""
    assert "reading-table" in run(capsys, "forms")[1]
    names = [form["name"] for form in json.loads(run(capsys, "forms", "--json")[1])]
    assert names == [
        "blanket-chest",
        "bookcase",
        "coat-rack",
        "five-drawer-chest",
        "hall-bench",
        "reading-table",
        "sideboard",
        "tray",
        "trestle-desk",
    ]
    assert "dry-winter-house" in run(capsys, "rooms")[1]


@pytest.mark.parametrize("what", ["piece", "plan"])
def test_schemas_are_printed(what: str, capsys: pytest.CaptureFixture[str]) -> None:
    """A JSON Schema, as it is."""
    assert json.loads(run(capsys, "schema", what)[1])["$schema"].endswith("2020-12/schema")


def test_a_closed_pipe_is_no_error() -> None:
    """``scantling plan ... | head -1`` ends quietly."""
    command = Path(sys.executable).with_name("scantling")
    words = f'"{command}" plan "{TABLE}" | head -1'
    done = subprocess.run(["bash", "-c", words], capture_output=True, text=True, check=True, timeout=120)
    assert done.stdout.startswith("READING TABLE")
    assert done.stderr == ""


def test_a_verb_that_writes_nothing_does_not_say_so(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """``check`` counts the faults; ``packet`` adds that nothing was written."""
    assert run(capsys, "check", "nowhere.yaml")[2].endswith("scantling: 1 fault.\n")
    output = str(tmp_path / "a.pdf")
    assert "1 fault; nothing was written." in run(capsys, "packet", "nowhere.yaml", "-o", output)[2]


def test_a_faulty_file_is_served_with_its_faults_told(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The page shows them until they are mended, so it is opened; the terminal tells them as well."""
    served: list[Path] = []
    monkeypatch.setattr("scantling.web.serving.serve", lambda piece, **_: served.append(piece))
    piece = tmp_path / "p.yaml"
    text = Path(TABLE).read_text(encoding="utf-8")
    piece.write_text(text.replace("kind: loose_tenon", "kind: lose_tenon"), encoding="utf-8")
    status, _, err = run(capsys, "serve", str(piece), "--no-browser")
    assert (status, served) == (0, [piece])
    assert "got lose_tenon" in err
    assert "until the file is mended" in err


def test_woods_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a name, or with ``--list``, every wood is named with its botanical name."""
    for words in (["wood"], ["wood", "--list"]):
        status, out, _ = run(capsys, *words)
        assert status == 0
        assert len(out.splitlines()) > 200
        assert re.search(r"^black cherry +Prunus serotina$", out, flags=re.MULTILINE)
    assert {"name": "black cherry", "botanical": "Prunus serotina"} in json.loads(
        run(capsys, "wood", "--json")[1]
    )


def test_one_room_is_shown_month_by_month(capsys: pytest.CaptureFixture[str]) -> None:
    """A typical room, and a town as a heated house there: twelve months of air and moisture."""
    out = run(capsys, "rooms", "dry-winter-house")[1]
    assert len(re.findall(r"^  [a-z]{3} +[\d.]+ °C +\d+ % +[\d.]+ %$", out, flags=re.MULTILINE)) == 12
    inch = run(capsys, "rooms", "dry-winter-house", "--units", "in")[1]
    assert len(re.findall(r"^  [a-z]{3} +\d+ °F +\d+ % ", inch, flags=re.MULTILINE)) == 12
    months = json.loads(run(capsys, "rooms", "Denver, CO", "--json")[1])["months"]
    assert len(months) == 12
    assert months["jan"]["relative_humidity"] < 0.35


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["move", "oka", "34", "0.08", "40 %"], ("species:", "width:", "from:", "to:")),
        (["emc", "900 C", "0.45"], ("temperature:", "humidity:")),
        (
            ["plan", "no-such-form", "--set", "width", "--set", "a=1", "--set", "a=2"],
            ("form:", "NAME=VALUE", "it has 1 already"),
        ),
        (
            ["plan", TABLE, "--shop", "no.yaml", "--rack", "no.csv", "--room", "moon"],
            ("no.yaml", "no.csv", "room:"),
        ),
        (["plan", TABLE, "--sheet", "pats", "--sheet", "sea"], ("got pats", "got sea")),
    ],
)
def test_all_that_is_wrong_is_told_at_once(
    words: list[str], told: tuple[str, ...], capsys: pytest.CaptureFixture[str]
) -> None:
    """A line each, and how many there are."""
    status, _, err = run(capsys, *words)
    assert status == 2
    assert all(sum(wording in line for line in err.splitlines()) == 1 for wording in told), err
    assert f"{len(told)} faults" in err


def test_new_does_not_offer_what_it_does_not_know(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """It never writes over a file, so its refusal names no --force; a folder is no file to write over."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mine.yaml").write_text("x", "utf-8")
    (tmp_path / "folder.pdf").mkdir()
    _, _, err = run(capsys, "new", "hall-bench", "-o", "mine.yaml")
    assert "Choose another name." in err
    assert "--force" not in err
    status, _, err = run(capsys, "packet", TABLE, "-o", "folder.pdf", "--force")
    assert (status, "there is a folder of that name" in err) == (2, True)


def test_wood_that_stays_as_wet_stays_as_wide(capsys: pytest.CaptureFixture[str]) -> None:
    """Nothing is told of a movement that is none."""
    assert "as wide as before" in run(capsys, "move", "white oak", "34 in", "8 %", "8 %")[1]


def test_the_command_alone_prints_the_ways_in(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a verb: what there is, on standard error, and status 2."""
    status, out, err = run(capsys)
    assert (status, out) == (2, "")
    assert "Ways in:" in err


def test_the_ways_in_name_a_form_there_is(capsys: pytest.CaptureFixture[str]) -> None:
    """The form the help copies is one of those listed."""
    _, _, err = run(capsys)
    form = err.split("scantling new ")[1].split()[0]
    assert form in run(capsys, "forms")[1]


def test_export_offers_no_units_it_does_not_write(capsys: pytest.CaptureFixture[str]) -> None:
    """Tables and solids are in millimeters."""
    with pytest.raises(SystemExit) as end:
        main(["export", TABLE, "--to", "csv", "-o", "x", "--units", "in"])
    assert end.value.code == 2
    assert "--units" in capsys.readouterr().err


def test_towns_are_listed_and_an_unknown_one_is_told_where(capsys: pytest.CaptureFixture[str]) -> None:
    """``rooms --towns`` lists every place of the table; an unknown town names it."""
    from scantling.seasons.places import places

    _, out, _ = run(capsys, "rooms", "--towns")
    assert [line[:27].strip() for line in out.splitlines()] == [place.name for place in places()]
    status, _, err = run(capsys, "rooms", "Elsewhere-upon-Nothing")
    assert status == 2
    assert "scantling rooms --towns" in err


def test_move_says_what_its_band_is_about(capsys: pytest.CaptureFixture[str]) -> None:
    """The upper figure comes from the other method, which is told with its own figure."""
    _, out, _ = run(capsys, "move", "white oak", "34 in", "6.17", "10.97")
    assert "15.1 mm" in out
    assert "25% either way, about this and about 15.8 mm by full shrinkage" in out
