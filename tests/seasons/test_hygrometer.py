"""Logs: rubbish is left out and told, gaps count for nothing, and a year is made only where there is one."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

import pytest

from scantling.errors import FileFaults, InputError
from scantling.seasons.air import Month
from scantling.seasons.hygrometer import parse_log, read_log
from tests.repo.sources import ROOT

START = datetime(2025, 1, 1)  # noqa: DTZ001  # a log has the clock of its room


def _log(
    days: int,
    *,
    humidity: Callable[[datetime], float] = lambda _: 50.0,
    keep: Callable[[datetime], bool] = lambda _: True,
    header: str = "time,temperature,humidity",
) -> str:
    times = [START + timedelta(hours=12 * step) for step in range(2 * days)]
    rows = [f"{time:%Y-%m-%d %H:%M},20.0,{humidity(time):.1f}" for time in times if keep(time)]
    return "\n".join([header, *rows]) + "\n"


def test_months_are_the_means_of_their_readings() -> None:
    """A log that jumps from month to month gives each month its own value."""
    log = parse_log(_log(366, humidity=lambda time: 30.0 + time.month), file="log.csv")
    year, notes = log.year()
    assert notes == ()
    assert [round(100 * humidity) for humidity in year.relative_humidity] == [31 + n for n in range(12)]


def test_readings_count_by_the_time_they_hold() -> None:
    """Twice as many readings in the damp half of a month weigh no more than the dry half."""
    rows = [(f"2025-01-{day:02d} {hour:02d}:00", 30) for day in range(1, 16) for hour in (0, 12)]
    rows += [(f"2025-01-{day:02d} {hour:02d}:00", 50) for day in range(16, 31) for hour in range(0, 24, 3)]
    text = "time,temp,rh\n" + "".join(f"{time},20,{humidity}\n" for time, humidity in rows)
    mean = parse_log(text, file="log.csv")._means()[Month.JAN].relative_humidity
    assert mean == pytest.approx(0.40, abs=0.005)


def test_rubbish_is_left_out_and_told() -> None:
    """A flat battery, a wild value, a clock going backwards and a repeated row, each with its line."""
    lines = _log(366).splitlines()
    lines[10] = "battery low,,"
    lines[20] = lines[20].replace("50.0", "999")
    lines[30] = lines[25]
    lines[40] = lines[39]
    log = parse_log("\n".join(lines), file="log.csv")
    assert [(fault.line, fault.code) for fault in log.left_out] == [
        (11, "not_a_time"),
        (21, "humidity_out_of_range"),
        (31, "clock_backwards"),
        (41, "clock_backwards"),
    ]
    assert log.notes[-1].startswith("4 rows of the log left out; the first: log.csv:11: time: must be a time")


def test_a_gap_is_told_and_counts_for_nothing() -> None:
    """Four silent days."""
    silent = [datetime(2025, 3, day) for day in (5, 9)]  # noqa: DTZ001  # as above
    log = parse_log(_log(366, keep=lambda time: not silent[0] < time < silent[1]), file="log.csv")
    assert [(gap.start, gap.end) for gap in log.gaps] == [tuple(silent)]
    assert log.notes == ("No readings from 2025-03-05 00:00 to 2025-03-09 00:00.",)


def test_two_missing_months_are_bridged_and_told() -> None:
    """The bridge lies between the neighbours."""
    log = parse_log(
        _log(366, humidity=lambda t: 30.0 if t.month < 5 else 60.0, keep=lambda t: t.month not in (4, 5)),
        file="log.csv",
    )
    year, notes = log.year()
    assert len(notes) == 2
    assert "April: bridged between March and June" in notes[0]
    assert 0.30 < year.relative_humidity[3] < year.relative_humidity[4] < 0.60


def test_three_missing_months_make_no_year() -> None:
    """They are named."""
    log = parse_log(_log(366, keep=lambda time: time.month not in (4, 5, 6)), file="log.csv")
    with pytest.raises(InputError, match="nothing for April, May, June") as caught:
        log.year()
    assert caught.value.code == "months_missing"


def test_fahrenheit_is_read_from_the_header() -> None:
    """68 degF are 20 degC."""
    text = "Date Time;Temperature °F;Humidity %\n2025-01-01 00:00;68,0;40\n2025-01-01 12:00;68;41 %\n"
    log = parse_log(text, file="log.csv")
    assert [reading.air.temperature_c for reading in log.readings] == pytest.approx([20.0, 20.0])


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("", ["column_missing"] * 3),
        ("time,hum\n2025-01-01,3\n", ["column_missing"]),
        ("time,temp,hum\n", ["log_unusable"]),
        ("time,temp,hum\nx,y,z\n2025-01-01,20,50\n2025-01-02,20,50\n", ["log_unusable", "not_a_time"]),
        ("\x00\x01\x02", ["column_missing"] * 3),
    ],
)
def test_what_is_no_log_is_refused(text: str, codes: list[str]) -> None:
    """Nothing, a column too few, no rows, a third rubbish, and bytes."""
    with pytest.raises(FileFaults) as caught:
        parse_log(text, file="log.csv")
    assert [fault.code for fault in caught.value.faults] == codes


def test_the_example_log_reads_with_its_faults_told() -> None:
    """It has a gap and three bad rows, and gives a year all the same."""
    log = read_log(ROOT / "examples" / "rooms" / "den-log.csv")
    assert (len(log.gaps), log.left_out_count) == (1, 3)
    assert max(log.year()[0].emc_pct) > min(log.year()[0].emc_pct) + 3.0
