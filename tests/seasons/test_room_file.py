"""Room files: every example reads, and every fault comes at once with its line and a way out."""

from __future__ import annotations

import pytest

from scantling.errors import FileFaults, InputError
from scantling.reading import parse_document
from scantling.seasons.air import Month
from scantling.seasons.room import Room, moisture_range
from scantling.seasons.room_file import find_room, read_room, room_from_document, typical_rooms
from tests.repo.sources import ROOT

EXAMPLES = sorted((ROOT / "examples" / "rooms").glob("*.yaml"))


def _read(text: str) -> Room:
    return room_from_document(parse_document(text, file="room.yaml"))


def _faults(text: str) -> list[tuple[int, str, str]]:
    with pytest.raises(FileFaults) as caught:
        _read(text)
    return [(fault.line, fault.field, fault.code) for fault in caught.value.faults]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_room_reads(path: object) -> None:
    """It has a name, and wood in it lies between bone dry and damp."""
    room = read_room(str(path))
    assert room.name
    assert 3.5 <= min(room.year.emc_pct) <= max(room.year.emc_pct) <= 16.0


@pytest.mark.parametrize("name", list(typical_rooms()))
def test_every_typical_room_reads_and_says_where_it_is_from(name: str) -> None:
    """A typical room names its source or calls itself common practice."""
    room = find_room(name)
    assert "Wood Handbook" in room.about or "Common practice" in room.about


def test_the_high_plains_house() -> None:
    """20 % in January and 45 % in July: 4.51 and 8.49 % in the wood."""
    room = find_room(str(ROOT / "examples" / "rooms" / "high-plains-house.yaml"))
    moisture = moisture_range(room, 8.49)
    assert (moisture.dry_pct, moisture.wet_pct) == pytest.approx((4.51, 8.49), abs=0.005)
    assert (moisture.shrink_pct, moisture.swell_pct) == pytest.approx((3.98, 0.0), abs=0.005)
    assert (room.driest, room.wettest) == (Month.JAN, Month.JUL)


def test_a_room_by_moisture_has_just_that_moisture() -> None:
    """Typed as a meter read it."""
    room = _read("room: Hall\nair: {kind: moisture, dry: 6 %, wet: 10 %, dry_month: jul}\n")
    moisture = moisture_range(room, 8.0)
    assert (moisture.dry_pct, moisture.wet_pct) == pytest.approx((6.0, 10.0), abs=1e-6)
    assert room.driest is Month.JUL


def test_names_are_forgiving() -> None:
    """Spaces, underscores and capitals lead to the same typical room."""
    assert find_room("Dry winter_house") == find_room("dry-winter-house")


def test_an_unknown_room_names_the_typical_ones() -> None:
    """Neither a file nor a name."""
    with pytest.raises(InputError, match="dry-winter-house") as caught:
        find_room("on the moon")
    assert (caught.value.code, caught.value.value) == ("unknown_room", "on the moon")


def test_a_missing_file_is_told_as_a_file() -> None:
    """A path that leads nowhere is no unknown name."""
    with pytest.raises(FileFaults) as caught:
        find_room("nowhere/room.yaml")
    assert caught.value.faults[0].code == "file_missing"


def test_all_faults_of_a_range_come_at_once() -> None:
    """Fahrenheit without its F, 150 %, a unit of no temperature, a fraction for a percent."""
    text = (
        "room: Study\nair:\n  kind: range\n"
        "  winter: {temperature: 68, humidity: 150 %}\n"
        "  summer: {temperature: 20 K, humidity: 0.45}\n"
    )
    assert _faults(text) == [
        (4, "air.winter.temperature", "temperature_out_of_range"),
        (4, "air.winter.humidity", "humidity_out_of_range"),
        (5, "air.summer.temperature", "not_a_temperature"),
        (5, "air.summer.humidity", "humidity_out_of_range"),
    ]


def test_each_missing_month_is_named() -> None:
    """One month of twelve."""
    faults = _faults("room: x\nair: {kind: months, months: {jan: {temperature: 20 C, humidity: 30 %}}}\n")
    assert [field for _, field, _ in faults] == [f"air.months.{month}" for month in list(Month)[1:]]
    assert {code for _, _, code in faults} == {"field_missing"}


def test_an_unknown_kind_names_those_known() -> None:
    """A misspelt kind of air."""
    with pytest.raises(FileFaults, match="must be one of range, moisture, months, climate, log, got rainge"):
        _read("room: x\nair: {kind: rainge}\n")


@pytest.mark.parametrize("build", [0.08, 45.0, float("nan")])
def test_no_furniture_is_built_that_wet_or_dry(build: float) -> None:
    """A fraction, green wood and no number."""
    with pytest.raises(InputError, match=r"build_mc_pct: must lie in 3\.\.25 %, got") as caught:
        moisture_range(find_room("most-of-the-us"), build)
    assert caught.value.code == "mc_out_of_range"


@pytest.mark.parametrize("name", ["../secret.csv", "a/b.csv", "c:d.csv"])
def test_a_log_lies_beside_its_room(name: str) -> None:
    """No path leads out of the folder."""
    assert _faults(f"room: x\nair: {{kind: log, file: '{name}'}}\n") == [(2, "air.file", "wrong_form")]


def test_a_log_that_is_not_there_is_told_at_its_line() -> None:
    """The room file reads well, the log beside it is missing."""
    with pytest.raises(FileFaults) as caught:
        _read("room: x\nair:\n  kind: log\n  file: nothing-here.csv\n")
    assert caught.value.faults[0].code == "file_missing"
