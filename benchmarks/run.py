"""Run the timings, print them beside their limits and the last ones, and append them to the results.

Exit status 1 when one is over its limit. ``--dry`` appends nothing.
"""

from __future__ import annotations

import sys

import change
import job
import picture
import rebuild
import seasons
import solids
import startup
import web
from timing import Timing, earlier_median_s, record

__all__ = ["main"]

PARTS = (startup, job, solids, rebuild, change, seasons, web, picture)
"""Modules whose ``timings()`` are run, in this order."""


def _line(timing: Timing) -> str:
    earlier_s = earlier_median_s(timing.name)
    change = f"{timing.median_s / earlier_s:8.2f}" if earlier_s else "       -"
    limit = "        -" if timing.limit_s is None else f"{timing.limit_s:9.3f}"
    verdict = "" if timing.keeps_its_limit else "  OVER ITS LIMIT"
    return f"{timing.name:<44}{timing.median_s:9.3f}{limit}{change}{verdict}"


def main(arguments: list[str]) -> int:
    """Run as a command."""
    print(f"{'':<44}{'median s':>9}{'limit s':>9}{'x last':>8}")
    done: list[Timing] = []
    for part in PARTS:
        for timing in part.timings():
            print(_line(timing), flush=True)
            done.append(timing)
    if "--dry" not in arguments:
        record(done)
    return 0 if all(timing.keeps_its_limit for timing in done) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
