"""Jobs on the shipped pieces, for tests."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from scantling.cli.job import job_from_files
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.result import Plan

__all__ = ["EXAMPLES", "PLANNER", "SHIPPED", "demo_job", "demo_plan", "shipped_job", "shipped_plan"]

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SHIPPED = {
    "reading_table": ("reading-table", "high-plains-house"),
    "hall_bench": ("hall-bench", "family-house"),
    "trestle_desk": ("trestle-desk", "study-by-hygrometer"),
    "bookcase": ("tall-bookcase", "apartment"),
    "sideboard": ("sideboard", "mountain-flat"),
    "blanket_chest": ("blanket-chest", "family-house"),
    "tray": ("tray", "apartment"),
    "five_drawer_chest": ("five-drawer-chest", "nursery"),
    "coat_rack": ("coat-rack", "hall"),
}
"""Each piece with the name of its shop and rack, and its room."""


PLANNER = Planner()
"""Has at hand what plans of the shipped pieces ask again, in another unit perhaps."""


def shipped_job(piece: str, *, rack: bool = True, given: dict[str, str] | None = None) -> Job:
    """A shipped piece with its shop, room and, if asked for, its rack."""
    shop, room = SHIPPED[piece]
    boards = next((EXAMPLES / "racks").glob(f"{shop}.*")) if rack else None
    return job_from_files(
        EXAMPLES / f"{piece}.yaml",
        shop=EXAMPLES / "shops" / f"{shop}.yaml",
        rack=boards,
        room=str(EXAMPLES / "rooms" / f"{room}.yaml"),
        given=given,
    )


def demo_job(*, rack: bool = True, **given: str) -> Job:
    """The demo piece."""
    return shipped_job("reading_table", rack=rack, given=given)


@cache
def _shipped_plan(piece: str, rack: bool) -> Plan:
    return PLANNER.plan(shipped_job(piece, rack=rack))


def shipped_plan(piece: str, *, rack: bool = True) -> Plan:
    """The plan of a shipped piece as it stands, made once for all tests; it is frozen."""
    return _shipped_plan(piece, rack)


def demo_plan() -> Plan:
    """The plan of the demo piece, made once."""
    return shipped_plan("reading_table")
