"""The benchmarks tell what they timed, and compare like with like."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

import seasons
from seasons import fitted_powers
from timing import Timing, earlier_median_s, measure, record

DRAWN = Timing(name="draw a top", runs=10, least_s=0.1, median_s=0.2, most_s=0.4, limit_s=0.25)


def test_the_first_run_is_not_counted() -> None:
    """Three timed runs take four calls."""
    calls: list[int] = []
    timing = measure("count", lambda: calls.append(1), runs=3)
    assert len(calls) == 4
    assert timing.runs == 3
    assert timing.least_s <= timing.median_s <= timing.most_s


@pytest.mark.parametrize(("limit_s", "kept"), [(0.2, True), (0.19, False), (None, True)])
def test_the_median_is_held_against_the_limit(limit_s: float | None, kept: bool) -> None:
    """A median just at its limit keeps it; with no limit there is nothing to break."""
    assert replace(DRAWN, limit_s=limit_s).keeps_its_limit is kept


def test_a_timing_is_compared_with_the_last_one_of_its_name(tmp_path: Path) -> None:
    """Of three rows the later one of the same name and machine counts."""
    results = tmp_path / "results.jsonl"
    assert earlier_median_s("draw a top", results=results) is None
    rows = [DRAWN, replace(DRAWN, median_s=0.3), replace(DRAWN, name="other", median_s=9.0)]
    record(rows, now=datetime(2026, 1, 31, 9, 30, tzinfo=UTC), results=results)
    assert earlier_median_s("draw a top", results=results) == 0.3
    first = json.loads(results.read_text(encoding="utf-8").splitlines()[0])
    assert first["date"] == "2026-01-31T09:30Z"
    foreign = {**first, "machine": "another", "median_s": 7.0}
    results.write_text(results.read_text(encoding="utf-8") + json.dumps(foreign) + "\n", encoding="utf-8")
    assert earlier_median_s("draw a top", results=results) == 0.3


def test_the_powers_of_a_cost_are_found() -> None:
    """Made to grow as the parts and as the square of the hours, a table of costs is found to do so."""
    made = {(parts, hours): 2e-6 * parts * hours**2 for parts in (5, 50, 500) for hours in (100, 200)}
    assert fitted_powers(made) == pytest.approx((1.0, 2.0))


def test_the_table_of_costs_is_printed(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A line a number of parts, and the fit; run on two small sizes here."""
    monkeypatch.setattr(seasons, "TABLE_PARTS", (2, 4))
    monkeypatch.setattr(seasons, "TABLE_YEARS", (0.01, 0.02))
    seasons.main()
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[:2] for line in lines[1:3]] == [["2", "parts"], ["4", "parts"]]
    assert lines[3].startswith("cost goes as parts^")
