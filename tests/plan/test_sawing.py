"""How boards must be sawn for the parts of a piece: from its file to the layout and what is said of it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.papers.pages.figures import Figures
from scantling.papers.pages.timber_pages import board_pictures
from scantling.piece.model import Part, RoundSection, StripRule
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.timber.sawing import sawn_for
from scantling.stock.racks.rack import Rack
from scantling.units import LengthStyle
from scantling.wood.ring import Ring, Sawn
from tests.plan.jobs import demo_job, demo_plan

FIGURES = Figures(style=LengthStyle(inch=False, denominator=32, step_mm=0.5))


def part(**changes: object) -> Part:
    """An apron of the demo piece, 90 x 20, otherwise."""
    return replace(demo_job().piece.parts["apron_front"], **changes)  # type: ignore[arg-type]


def told(plan: Plan, code: str) -> list[str]:
    """Where findings of a code stand."""
    return [f.where for f in plan.findings if f.code == code]


@pytest.mark.parametrize(
    ("angle", "ways"),
    [(0.0, ()), (29.0, ()), (30.0, (Sawn.RIFT,)), (59.0, (Sawn.RIFT,)), (60.0, (Sawn.QUARTER,))],
)
def test_a_board_like_part_asks_for_what_its_rings_are_called(angle: float, ways: tuple[Sawn, ...]) -> None:
    """Flat asks for nothing: any board moves as much as it at most."""
    assert sawn_for(part(ring=Ring(angle))) == ways


def test_a_square_stick_may_be_turned_and_a_round_one_has_no_face() -> None:
    """Quarter-sawn out of a flat board, turned on its side; rift stays rift; round takes any board."""
    square = part(width_mm=48.0, thickness_mm=48.0)
    assert sawn_for(replace(square, ring=Ring.QUARTER)) == (Sawn.FLAT, Sawn.QUARTER)
    assert sawn_for(replace(square, ring=Ring.RIFT)) == (Sawn.RIFT,)
    assert sawn_for(replace(square, width_mm=52.0, ring=Ring.QUARTER)) == (Sawn.QUARTER,)
    turned = RoundSection(start_mm=28.0, end_mm=38.0)
    assert sawn_for(replace(square, ring=Ring.RIFT, round=turned)) == ()


def test_strips_with_rings_of_their_own_ask_each_for_theirs() -> None:
    """Quarter outside, whatever there is in the middle."""
    rule = StripRule(count=3, least_mm=60.0, most_mm=150.0, rings=(Ring.QUARTER, Ring.FLAT, Ring.QUARTER))
    panel = part(strips=rule, ring=Ring.FLAT)
    assert [sawn_for(panel, k) for k in range(3)] == [(Sawn.QUARTER,), (), (Sawn.QUARTER,)]


def with_rings(**rings: Ring | None) -> Plan:
    """The demo piece on its rack, some boards with other rings."""
    job = demo_job()
    assert job.rack is not None
    boards = tuple(replace(b, rings=rings[b.name]) if b.name in rings else b for b in job.rack.boards)
    rack: Rack = replace(job.rack, boards=boards)
    return make_plan(replace(job, rack=rack))


def test_a_note_says_which_ends_to_look_at() -> None:
    """Aprons and breadboard ends of the demo are quarter-sawn and its 5/4 boards are not looked at: T18.

    The picture of each such board says it too, with the parts it is about.
    """
    plan = demo_plan()
    assert (told(plan, "T17"), told(plan, "T18")) == ([], ["rack"])
    notes = {p.name: p.notes for p in board_pictures(plan, figures=FIGURES)}
    asking = [name for name, said in notes.items() if any("Look at the end" in line for line in said)]
    boards = {b.board.name: b for b in plan.timber.layout.boards} if plan.timber.layout else {}
    assert asking == [
        n for n, b in boards.items() if b.board.rings is None and any(p.blank.sawn for p in b.placed)
    ]
    assert asking


def test_where_no_board_serves_the_parts_have_no_wood() -> None:
    """All 5/4 boards flat-sawn: T17 for each part that is to be quarter-sawn, and none is laid out."""
    plan = with_rings(**dict.fromkeys(("C1", "C2", "C3", "C4"), Ring.FLAT))
    assert set(", ".join(told(plan, "T17")).split(", ")) == {
        "apron_front",
        "apron_back",
        "apron_left",
        "apron_right",
        "end_left",
        "end_right",
    }
    layout = plan.timber.layout
    assert layout is not None
    quarter = [p.blank.name for b in layout.boards for p in b.placed if Sawn.QUARTER in p.blank.sawn]
    assert quarter == []


def test_one_quarter_sawn_board_takes_what_asks_for_it() -> None:
    """With C2 quarter-sawn and the others flat, what asks for quarter-sawn wood comes from C2 alone."""
    plan = with_rings(C1=Ring.FLAT, C2=Ring(75.0), C4=Ring.FLAT)
    layout = plan.timber.layout
    assert layout is not None
    homes = {b.board.name for b in layout.boards for p in b.placed if p.blank.sawn == (Sawn.QUARTER,)}
    assert homes == {"C2"}
    assert told(plan, "T18") == []
