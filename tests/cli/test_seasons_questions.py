"""Questions of moisture on the command line: the answers, and bad air told in the maker's words."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from scantling.papers.sheets.model import Table
from scantling.seasons.air import Month
from scantling.web.designs.seasons import build_view
from scantling.web.designs.session import Session
from scantling.wood.species import woods_of_own
from tests.cli.test_command import TABLE, run
from tests.plan.jobs import EXAMPLES

ORCHARD = str(EXAMPLES / "woods" / "orchard.yaml")


def test_the_humidity_that_holds_wood_at_a_moisture(capsys: pytest.CaptureFixture[str]) -> None:
    """The equation turned round: 20 degC and 9.2711 % give 50 % (printed for the equation)."""
    assert run(capsys, "emc", "20 C", "--moisture", "9.2711 %")[1].startswith("50 % humidity holds wood at")
    answer = json.loads(run(capsys, "emc", "68 F", "--moisture", "9.2711", "--json")[1])
    assert answer["relative_humidity"] == pytest.approx(0.5, abs=1e-4)
    assert answer["temperature_c"] == pytest.approx(20.0)


def test_a_board_between_flat_and_quarter(capsys: pytest.CaptureFixture[str]) -> None:
    """Rings at 30 deg: three quarters of the tangential and one of the radial coefficient of cherry."""
    answer = json.loads(run(capsys, "move", "cherry", "400 mm", "8", "11", "--rings", "30 deg", "--json")[1])
    assert answer["change_mm"] == pytest.approx(400 * (0.75 * 0.00248 + 0.25 * 0.00126) * 3.0)
    assert answer["low_mm"] < answer["change_mm"] < answer["high_mm"]
    assert (
        "rings at 30° to the face" in run(capsys, "move", "cherry", "400 mm", "8", "11", "--rings", "30")[1]
    )


def test_own_woods_are_known_to_every_question_and_forgotten_after(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """In wood, its list, move, and a whole piece made of one; the next command does not know them."""
    assert "strips measured in the shop" in run(capsys, "wood", "pearwood", "--woods", ORCHARD)[1]
    assert run(capsys, "wood", "--list", "--woods", ORCHARD)[1].startswith("garden pear")
    assert "garden pear" in run(capsys, "move", "pear", "400 mm", "8", "11", "--woods", ORCHARD)[1]
    piece = tmp_path / "table.yaml"
    piece.write_text(Path(TABLE).read_text(encoding="utf-8").replace("black cherry", "garden pear"))
    status, out, _ = run(capsys, "seasons", str(piece), "--woods", ORCHARD, "--json")
    assert status == 0
    top = json.loads(out)["parts"][0]
    assert top["coefficient"] == pytest.approx((0.091 / 30) / (1 - 0.091 * 20 / 30))  # Table 13-5, footnote
    assert woods_of_own() == ()
    status, _, err = run(capsys, "seasons", str(piece))
    assert status == 2
    assert "--woods" in err


def test_a_wood_known_one_way_only_is_planned_flat_sawn(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """Street plum has no radial figure: its widths are told, thickness and cup of the rings are not."""
    text = Path(TABLE).read_text(encoding="utf-8").replace("black cherry", "street plum")
    piece = tmp_path / "table.yaml"
    piece.write_text(text.replace("rings: quarter", "rings: flat").replace("rings: rift", "rings: flat"))
    answer = json.loads(run(capsys, "seasons", str(piece), "--woods", ORCHARD, "--json")[1])
    assert all(part["ring_cup"] is None for part in answer["parts"])
    assert all(m["thickness_change_mm"] is None for part in answer["parts"] for m in part["months"])
    assert answer["parts"][0]["widest_mm"] > 0.0
    piece.write_text(text)
    status, _, err = run(capsys, "seasons", str(piece), "--woods", ORCHARD)
    assert status == 2
    assert "must have a published radial coefficient" in err


def test_the_seasons_as_data_hold_the_year(capsys: pytest.CaptureFixture[str]) -> None:
    """Parts, joints with a verdict, and month by month the edges and the room at every place."""
    answer = json.loads(run(capsys, "seasons", TABLE, "--json")[1])
    assert {joint["verdict"] for joint in answer["joints"]} <= {"free", "tight", "binds"}
    assert all(len(place["rooms_mm"]) == 12 for place in answer["year"]["places"])
    assert [edge["edge"] for edge in answer["year"]["edges"]] == ["front", "back"]


def test_when_to_build_says_what_the_page_says(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Every cell of the page's tables, in its order, and its sentences; as data every month is there."""
    monkeypatch.setenv("COLUMNS", "160")  # in a narrow window cells wrap
    piece = Path(TABLE)
    shop = tmp_path / "shop.yaml"
    climate = "{temperature: 20 C, humidity: 45 %, driest: 30 %, wettest: 60 %}"
    shop.write_text(f"name: Barn\nclimate: {climate}\n", encoding="utf-8")
    status, out, _ = run(capsys, "seasons", str(piece), "--shop", str(shop), "--when-to-build")
    assert status == 0
    (sheet,) = build_view(Session(piece, shop=shop), {}).sheets
    told = " ".join(out.split())
    assert sheet.lead in told
    tables = [block for block in sheet.blocks if isinstance(block, Table)]
    assert len(tables[0].rows) == 12
    for row in (row for table in tables for row in table.rows):
        assert " ".join(" ".join(row).split()) in told
    data = json.loads(run(capsys, "seasons", str(piece), "--shop", str(shop), "--when-to-build", "--json")[1])
    assert [day["month"] for day in data["months"]] == [month.value for month in Month]
    assert sheet.lead.startswith(Month(data["best"]).full_name)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("emc", "20 C", "150 %"), "humidity: must lie in 1..100 %, got 150 %. Air holds at most 100 %"),
        (("emc", "20 C", "-5 %"), "humidity: must lie in 1..100 %, got -5 %"),
        (("emc", "20 C", "0.45"), "Write 45 % for a relative humidity of 0.45"),
        (("emc", "293 K", "45 %"), "must be a temperature with a unit (C, F), got 293 K"),
        (("emc", "20 C"), "humidity: must be given, or --moisture instead of it"),
        (
            ("emc", "20 C", "45 %", "--moisture", "8 %"),
            "must be given, or --moisture instead of it, got both",
        ),
        (("emc", "20 C", "--moisture", "35 %"), "Wetter wood is green"),
        (("emc", "20 C", "--moisture", "0.08"), "write 8, not 0.08"),
        (
            ("move", "cherry", "400 mm", "8 %", "31 %"),
            "Above fiber saturation, about 30 %",
        ),
        (("move", "cherry", "400 mm", "0.08", "11"), "write 8, not 0.08"),
        (("move", "cherry", "400 mm", "8", "11", "--rings", "120"), "an angle from 0 to 90 deg"),
        (("wood", "pear", "--woods", "nowhere.yaml"), "nowhere.yaml"),
    ],
)
def test_bad_questions(words: tuple[str, ...], says: str, capsys: pytest.CaptureFixture[str]) -> None:
    """Humidity, temperature and moisture that cannot be, each with what was written and a way out."""
    status, out, err = run(capsys, *words)
    assert (status, out) == (2, "")
    assert says in err


BAD_AIR = {
    "too humid": (
        "air:\n  kind: range\n  winter: {temperature: 20 C, humidity: 150 %}\n"
        "  summer: {temperature: 24 C, humidity: 50 %}\n",
        ["room.yaml:5:", "air.winter.humidity: must lie in 1..100 %, got 150 %"],
    ),
    "wrong unit": (
        "air:\n  kind: range\n  winter: {temperature: 68 C, humidity: 30 %}\n"
        "  summer: {temperature: 293 K, humidity: 50 %}\n",
        ["If it is in Fahrenheit write 68 F, which is 20.0 C", "a unit (C, F), got 293 K"],
    ),
    "months missing": (
        "air:\n  kind: months\n  months:\n    jan: {temperature: 20 C, humidity: 30 %}\n",
        ["air.months.feb: must be given", "air.months.dec: must be given", "11 faults"],
    ),
    "above fiber saturation": (
        "air: {kind: moisture, dry: 6 %, wet: 34 %}\n",
        ["air.wet: must lie in 2..25 %, got 34 %"],
    ),
    "a house of 150 %": (
        "air: {kind: climate, place: 'Denver, CO', house: {humidify_to: 150 %}}\n",
        ["air.house.humidify_to: must lie in 1..100 %, got 150 %"],
    ),
    "no log": ("air: {kind: log, file: gone.csv}\n", ["gone.csv"]),
}


@pytest.mark.parametrize("name", BAD_AIR)
@pytest.mark.parametrize("verb", ["rooms", "seasons", "plan"])
def test_bad_rooms(name: str, verb: str, capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Every fault of a room file at its line, whichever command reads it; no figure is printed."""
    air, says = BAD_AIR[name]
    room = tmp_path / "room.yaml"
    room.write_text(f"room: Den\n\n{air}", encoding="utf-8")
    words = ("rooms", str(room)) if verb == "rooms" else (verb, TABLE, "--room", str(room))
    status, out, err = run(capsys, *words)
    assert (status, out) == (2, "")
    for part in says:
        assert part in err


MONTHS = range(1, 13)
GOOD_ROWS = [f"2025-{month:02d}-{day:02d} 12:00,20,{30 + month}" for month in MONTHS for day in range(1, 29)]
"""A year, a reading a day."""


def log_room(tmp_path: Path, rows: list[str]) -> str:
    """A room that is known by a log."""
    (tmp_path / "log.csv").write_text("\n".join(["time,temperature,humidity", *rows, ""]), encoding="utf-8")
    room = tmp_path / "room.yaml"
    room.write_text("room: Den\nair: {kind: log, file: log.csv}\n", encoding="utf-8")
    return str(room)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        ("2025-03-02 12:00,20,40", "time: must be later than the row before"),
        ("2025-12-28 13:00,20,150", "humidity: must lie in 0..100 %, got 150 %"),
        ("2025-12-28 13:00,68,40", "temperature: must lie in -40..60 C, got 68 C"),
        ("2025-12-28 13:00,low battery,40", "temperature: must be a number, got low battery"),
    ],
)
def test_a_bad_row_of_a_log_is_left_out_and_told(
    row: str, says: str, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """A clock that goes back, air that cannot be, rubbish: a stated repair where the rest is good."""
    status, out, _ = run(capsys, "rooms", log_room(tmp_path, [*GOOD_ROWS, row]))
    assert status == 0
    assert "1 row of the log left out" in out
    assert says in out


def test_a_log_that_is_mostly_rubbish_is_refused(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    """Fewer than four good rows for each bad one: nothing is computed."""
    room = log_room(tmp_path, [*GOOD_ROWS[:4], "2025-01-01 12:00,20,40", "x,y,z"])
    status, out, err = run(capsys, "seasons", TABLE, "--room", room)
    assert (status, out) == (2, "")
    assert "four for every bad one" in err


def test_what_was_repaired_in_a_log_is_told_with_the_seasons(capsys: pytest.CaptureFixture[str]) -> None:
    """A gap and three bad rows of the example's log stand on the sheet and in the data."""
    den = str(EXAMPLES / "rooms" / "den-by-log.yaml")
    sheet = " ".join(run(capsys, "seasons", TABLE, "--room", den)[1].split())
    assert "No readings from 2026-03-05 00:00 to 2026-03-09 00:00." in sheet
    assert "3 rows of the log left out; the first:" in sheet
    assert len(json.loads(run(capsys, "seasons", TABLE, "--room", den, "--json")[1])["notes"]) == 2
