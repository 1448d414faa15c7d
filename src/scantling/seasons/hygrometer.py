"""A log from a hygrometer: the air of a room as it was measured, with its gaps and rubbish told."""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path

from scantling.errors import Fault, FileFaults, InputError
from scantling.seasons.air import Air, AirYear, Month
from scantling.wood.moisture import relative_humidity_for_emc

__all__ = ["AirLog", "Gap", "Reading", "parse_log", "read_log"]

MAX_BYTES = 60_000_000
MAX_SHOWN = 20
"""Faulty rows told one by one; the rest are counted. [1]"""
GAP = timedelta(hours=24)
"""A longer silence is a gap, and counts for neither side."""
WORST_SHARE = 0.2
"""With more rubbish than this, a log is refused. [1]"""
MONTHS_BRIDGED = 2
"""Missing months in a row that are bridged between their neighbours. [1]"""
_COLUMNS = {"time": ("time", "date"), "temperature": ("temp",), "humidity": ("hum", "rh")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One row of a log."""

    time: datetime
    air: Air


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A silence of a log."""

    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class AirLog:
    """A log, read.

    Parameters
    ----------
    readings
        The good rows, in order of time.
    left_out
        Faults of the first rows left out.
    left_out_count
        How many rows were left out. [1]
    gaps
        Silences longer than a day.
    """

    readings: tuple[Reading, ...]
    left_out: tuple[Fault, ...] = ()
    left_out_count: int = 0
    gaps: tuple[Gap, ...] = ()

    @property
    def notes(self) -> tuple[str, ...]:
        """What was left out, in words."""
        notes = [
            f"No readings from {gap.start:%Y-%m-%d %H:%M} to {gap.end:%Y-%m-%d %H:%M}." for gap in self.gaps
        ]
        if self.left_out_count:
            first = self.left_out[0]
            rows = "1 row" if self.left_out_count == 1 else f"{self.left_out_count} rows"
            notes.append(f"{rows} of the log left out; the first: {first}")
        return tuple(notes)

    def year(self) -> tuple[AirYear, tuple[str, ...]]:
        """Means by month of the year, and what was repaired to get them.

        Readings count by the time until the next one. One or two missing months in a row are bridged
        between their neighbours, by the moisture wood settles at.

        Raises
        ------
        InputError
            ``months_missing``, naming them.
        """
        means = self._means()
        missing = [month for month in Month if month not in means]
        notes = []
        for month in missing:
            before, after = _neighbour(month, means, -1), _neighbour(month, means, 1)
            if before is None or after is None:
                raise _too_few(missing)
            notes.append(
                f"No readings in {month.full_name}: bridged between {before[0].full_name} and "
                f"{after[0].full_name}."
            )
        bridged = {month: _between(month, means) for month in missing}
        return AirYear(months=tuple({**means, **bridged}[month] for month in Month)), tuple(notes)

    def _means(self) -> dict[Month, Air]:
        sums: dict[Month, list[float]] = {}
        for reading, following in pairwise(self.readings):
            held = following.time - reading.time
            if held > GAP:
                continue
            total = sums.setdefault(list(Month)[reading.time.month - 1], [0.0, 0.0, 0.0])
            hours = held.total_seconds() / 3600.0
            total[0] += hours
            total[1] += hours * reading.air.temperature_c
            total[2] += hours * reading.air.relative_humidity
        return {
            month: Air(temperature_c=warm / hours, relative_humidity=damp / hours)
            for month, (hours, warm, damp) in sums.items()
            if hours >= 24.0
        }


def _neighbour(month: Month, means: Mapping[Month, Air], step: int) -> tuple[Month, int] | None:
    """Nearest month with readings on one side, and how far it is, when near enough to bridge to."""
    for away in range(1, MONTHS_BRIDGED + 1):
        other = list(Month)[(month.number + step * away) % 12]
        if other in means:
            return other, away
    return None


def _between(month: Month, means: Mapping[Month, Air]) -> Air:
    before, after = _neighbour(month, means, -1), _neighbour(month, means, 1)
    assert before is not None
    assert after is not None
    share = before[1] / (before[1] + after[1])
    first, last = means[before[0]], means[after[0]]
    temperature = first.temperature_c + share * (last.temperature_c - first.temperature_c)
    moisture = first.emc_pct + share * (last.emc_pct - first.emc_pct)
    return Air(temperature_c=temperature, relative_humidity=relative_humidity_for_emc(temperature, moisture))


def _too_few(missing: Sequence[Month]) -> InputError:
    return InputError(
        code="months_missing",
        field="log",
        value=f"nothing for {', '.join(month.full_name for month in missing)}",
        rule=f"must have readings in every month; at most {MONTHS_BRIDGED} in a row are bridged",
        remedy="Log longer, or write the months down in the room file.",
    )


def read_log(path: str | Path) -> AirLog:
    """Read a log.

    Parameters
    ----------
    path
        CSV with a header naming time, temperature and humidity; a name with F or °F in it means
        Fahrenheit. Times as ``2026-01-31 14:30``.

    Raises
    ------
    FileFaults
        ``file_missing``, ``file_too_big``, and those of :func:`parse_log`.
    """
    place = Path(path)
    try:
        size = place.stat().st_size
        if size > MAX_BYTES:
            raise FileFaults([_fault(str(path), 0, "file_too_big", f"{size} bytes", "must be at most 60 MB")])
        text = place.read_text(encoding="utf-8-sig", errors="replace")
    except OSError as error:
        reason = error.strerror or "cannot be read"
        raise FileFaults(
            [_fault(str(path), 0, "file_missing", reason, "must be a file that can be read")]
        ) from None
    return parse_log(text, file=str(path))


def parse_log(text: str, *, file: str) -> AirLog:
    """Read the text of a log.

    Raises
    ------
    FileFaults
        ``column_missing`` for each column not found; ``log_unusable`` where more than a fifth of the
        rows are rubbish or fewer than two are good, with the first of them.
    """
    lines = text.splitlines()
    header = lines[0] if lines else ""
    separator = max(",;\t", key=header.count)
    columns = _columns(next(csv.reader([header], delimiter=separator), []), file)
    readings: list[Reading] = []
    faults: list[Fault] = []
    for line, row in _rows(lines, separator):
        try:
            reading = _reading(row, columns)
            if readings and reading.time <= readings[-1].time:
                raise _backwards(reading, readings[-1])
            readings.append(reading)
        except InputError as error:
            fault = error.fault
            faults.append(_fault(file, line, fault.code, fault.value, fault.rule, field=fault.field))
    if len(readings) < 2 or len(faults) > WORST_SHARE * (len(readings) + len(faults)):
        counts = f"{len(readings)} good rows and {len(faults)} bad ones"
        rule = "must have at least two good rows, and four for every bad one"
        raise FileFaults([_fault(file, 0, "log_unusable", counts, rule), *faults[:MAX_SHOWN]])
    gaps = tuple(
        Gap(start=one.time, end=two.time) for one, two in pairwise(readings) if two.time - one.time > GAP
    )
    return AirLog(
        readings=tuple(readings), left_out=tuple(faults[:MAX_SHOWN]), left_out_count=len(faults), gaps=gaps
    )


def _fault(file: str, line: int, code: str, value: str, rule: str, *, field: str = "log") -> Fault:
    return Fault(code=code, field=field, value=value[:60], rule=rule, file=file, line=line)


def _rows(lines: Sequence[str], separator: str) -> Iterator[tuple[int, list[str]]]:
    for line, text in enumerate(lines[1:], start=2):
        if text.strip() and not text.startswith("#"):
            yield line, text.replace('"', "").split(separator)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Columns:
    places: Mapping[str, int]
    fahrenheit: bool


def _columns(header: Sequence[str], file: str) -> _Columns:
    places: dict[str, int] = {}
    for name, words in _COLUMNS.items():
        for place, title in enumerate(header):
            if place not in places.values() and any(word in title.casefold() for word in words):
                places[name] = place
                break
    missing = [name for name in _COLUMNS if name not in places]
    if missing:
        found = ", ".join(header) or "nothing"
        raise FileFaults(
            [_fault(file, 1, "column_missing", found, f"must name a column for {name}") for name in missing]
        )
    title = header[places["temperature"]]
    return _Columns(
        places=places, fahrenheit=bool(re.search(r"°\s*F|\bF\b|fahrenheit", title, re.IGNORECASE))
    )


def _cell(row: Sequence[str], columns: _Columns, name: str) -> str:
    place = columns.places[name]
    return row[place].strip() if place < len(row) else ""


def _number(row: Sequence[str], columns: _Columns, name: str) -> float:
    text = _cell(row, columns, name)
    match = re.fullmatch(r"([-+]?\d{1,6}(?:[.,]\d{0,6})?)\s*(?:%|°?[CF])?", text)
    if match is None:
        raise InputError(code="not_a_number", field=name, value=text or "nothing", rule="must be a number")
    return float(match[1].replace(",", "."))


def _reading(row: Sequence[str], columns: _Columns) -> Reading:
    text = _cell(row, columns, "time")
    try:
        time = datetime.fromisoformat(text).replace(tzinfo=None)
    except ValueError:
        raise InputError(
            code="not_a_time",
            field="time",
            value=text or "nothing",
            rule="must be a time such as 2026-01-31 14:30",
        ) from None
    temperature = _number(row, columns, "temperature")
    if columns.fahrenheit:
        temperature = (temperature - 32.0) / 1.8
    humidity = _number(row, columns, "humidity") / 100.0
    return Reading(time=time, air=Air(temperature_c=temperature, relative_humidity=humidity))


def _backwards(reading: Reading, last: Reading) -> InputError:
    return InputError(
        code="clock_backwards",
        field="time",
        value=str(reading.time),
        rule=f"must be later than the row before, {last.time}",
    )
