"""The whole job on the demo piece: plan cold and warm, plan after one change, packet, check."""

from __future__ import annotations

import subprocess
import sys
from itertools import cycle
from pathlib import Path

from timing import Timing, measure

__all__ = ["timings"]

COMMAND = Path(sys.executable).with_name("scantling")
EXAMPLES = Path(__file__).resolve().parent.parent / "examples"
FILES = {
    "piece": EXAMPLES / "reading_table.yaml",
    "shop": EXAMPLES / "shops" / "reading-table.yaml",
    "rack": EXAMPLES / "racks" / "reading-table.csv",
    "room": EXAMPLES / "rooms" / "high-plains-house.yaml",
}


def timings() -> list[Timing]:
    """Time what a maker waits for."""
    from scantling.cli.job import job_from_files
    from scantling.papers.packet import Paper
    from scantling.papers.pages.packet_pdf import packet_pdf
    from scantling.plan.planner import Planner, make_plan

    def job(**given: str):
        rest = {name: str(path) for name, path in FILES.items() if name != "piece"}
        return job_from_files(FILES["piece"], given=given, **rest)

    planner = Planner()
    planner.plan(job())
    heights = cycle(f"{mm} mm" for mm in range(700, 780))
    thicknesses = cycle(f"{mm / 2} mm" for mm in range(40, 56))
    rackless = {name: str(path) for name, path in FILES.items() if name in ("shop", "room")}
    planned = job()
    return [
        measure("plan of the demo piece, from a cold process", lambda: _run("plan"), limit_s=5.0, runs=5),
        measure("plan of the demo piece, warm, nothing kept", lambda: make_plan(job()), limit_s=2.0),
        measure(
            "plan again after one size changed (height)", lambda: planner.plan(job(height=next(heights)))
        ),
        measure(
            "plan again after a small change (apron thickness)",
            lambda: planner.plan(job(apron_thickness=next(thicknesses))),
        ),
        measure("plan again, nothing changed", lambda: planner.plan(job())),
        measure(
            "plan without a rack, warm, nothing kept",
            lambda: make_plan(job_from_files(FILES["piece"], **rackless)),
            limit_s=2.0,
        ),
        measure(
            "packet of the demo piece, warm", lambda: packet_pdf(planned, planner, paper=Paper.A4), runs=5
        ),
    ]


def _run(verb: str) -> None:
    options = [word for name in ("shop", "rack", "room") for word in (f"--{name}", str(FILES[name]))]
    subprocess.run(
        [COMMAND, verb, str(FILES["piece"]), "--json", *options],
        check=True,
        stdin=subprocess.DEVNULL,
        capture_output=True,
    )
