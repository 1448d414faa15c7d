"""One timing: what was timed, how often, how long it took, and how long it may take."""

from __future__ import annotations

import json
import os
import platform
import statistics
import subprocess
import time
from collections.abc import Callable, Iterable, Sequence
from dataclasses import asdict, dataclass
from datetime import UTC, datetime
from pathlib import Path

__all__ = ["Timing", "earlier_median_s", "measure", "record", "timed"]

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # as the command has it
ROOT = Path(__file__).resolve().parent.parent
RESULTS = ROOT / "benchmarks" / "results.jsonl"


@dataclass(frozen=True, slots=True, kw_only=True)
class Timing:
    """How long one thing took over several runs.

    Parameters
    ----------
    name
        What was timed; stays the same for ever, so that results can be compared.
    runs
        How many runs were timed, after one that was not.
    least_s, median_s, most_s
        Wall time of the runs. [s]
    limit_s
        What the project promises of the median; None where it promises nothing. [s]
    """

    name: str
    runs: int
    least_s: float
    median_s: float
    most_s: float
    limit_s: float | None

    @property
    def keeps_its_limit(self) -> bool:
        """Whether the median is within what is promised."""
        return self.limit_s is None or self.median_s <= self.limit_s


def measure(
    name: str, action: Callable[[], object], *, limit_s: float | None = None, runs: int = 10
) -> Timing:
    """Time an action: once to warm the disk's cache, then ``runs`` times."""
    action()
    taken_s: list[float] = []
    for _ in range(runs):
        start = time.perf_counter()
        action()
        taken_s.append(time.perf_counter() - start)
    return timed(name, taken_s, limit_s=limit_s)


def timed(name: str, taken_s: Sequence[float], *, limit_s: float | None = None) -> Timing:
    """The timing of runs that were clocked elsewhere. [s]"""
    return Timing(
        name=name,
        runs=len(taken_s),
        least_s=round(min(taken_s), 5),
        median_s=round(statistics.median(taken_s), 5),
        most_s=round(max(taken_s), 5),
        limit_s=limit_s,
    )


def record(timings: Iterable[Timing], *, now: datetime | None = None, results: Path = RESULTS) -> None:
    """Append timings to the results, one JSON object a line, with the commit and the machine."""
    date = (now or datetime.now(UTC)).strftime("%Y-%m-%dT%H:%MZ")
    with results.open("a", encoding="utf-8") as file:
        for timing in timings:
            row = {"date": date, "commit": _commit(), "machine": _machine(), **asdict(timing)}
            file.write(json.dumps(row) + "\n")


def earlier_median_s(name: str, *, results: Path = RESULTS) -> float | None:
    """Return the median recorded last for this name on a machine like this one. [s]"""
    if not results.exists():
        return None
    rows = [json.loads(line) for line in results.read_text(encoding="utf-8").splitlines()]
    medians = [row["median_s"] for row in rows if row["name"] == name and row["machine"] == _machine()]
    return medians[-1] if medians else None


def _commit() -> str:
    said = subprocess.run(
        ["git", "-C", str(ROOT), "describe", "--always", "--dirty"],
        check=False,
        capture_output=True,
        text=True,
    )
    return said.stdout.strip() or "unknown"


def _machine() -> str:
    python = f"Python {platform.python_version()}"
    return ", ".join((f"{os.cpu_count()} cores", platform.machine(), platform.system(), python))
