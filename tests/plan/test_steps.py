"""Steps say what the piece holds, and count each thing that is put on once."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from scantling.cli.job import job_from_files
from scantling.joinery.work import ConnectorKind
from scantling.plan.making.pace import rate
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.steps.step import Step
from tests.plan.jobs import EXAMPLES, demo_plan, shipped_job, shipped_plan


@cache
def _bench() -> Plan:
    return shipped_plan("hall_bench", rack=False)


def _step(plan: Plan, begins: str) -> Step:
    [found] = [step for step in plan.order.steps if step.title.startswith(begins)]
    return found


def _needed(plan: Plan, kind: ConnectorKind) -> int:
    return sum(line.needed for line in plan.hardware if line.kind is kind)


def test_a_bench_with_only_wedges_is_told_to_make_wedges() -> None:
    """What is made is named by what the piece holds, and the dry run still waits for it."""
    made = _step(_bench(), "Make the wedge")
    assert made.title == "Make the wedges"
    assert made.details == ("4 wedges and 1 to spare",)
    assert made.title in _step(_bench(), "Put everything together dry").needs


def test_round_parts_are_sawn_square_and_bored_round() -> None:
    """The saw lays a leg by its faces; the bit goes in from a cradle: between the two it is made round."""
    titles = [step.title for step in _bench().order.steps]
    rounding = titles.index("Make the round parts round")
    legs = {name for name, part in shipped_job("hall_bench", rack=False).piece.parts.items() if part.round}
    of_legs = [(at, step) for at, step in enumerate(_bench().order.steps) if legs & set(step.parts)]
    sawn = [at for at, step in of_legs if step.title.startswith("Saw set-up")]
    bored = [at for at, step in of_legs if step.title.startswith("Cut the joints")]
    assert max(sawn) < rounding < min(bored)


def test_loose_tenons_are_counted_in_the_plural() -> None:
    """More than one of a thing is written as more than one, with the length they are crosscut from.

    By hand: nine tenons of 52 mm with a kerf of 3.2 mm each and two ends of 15 mm take 526.8 mm; eleven pins
    of 20 mm take 285.2 mm, and the machines 300 mm.
    """
    details = _step(demo_plan(), "Make the loose tenons").details
    told = [line.partition(", milled")[0] for line in details]
    assert told == [
        "8 loose tenons and 1 to spare: out of one length of 527 mm",
        "10 pins and 1 to spare: out of one length of 300 mm",
    ]


def test_a_clip_and_its_screw_are_one_thing_to_put_on() -> None:
    """Minutes are those of the clips alone, each driven with the screw that holds it."""
    plan = demo_plan()
    clips = _needed(plan, ConnectorKind.TOP_CLIP)
    assert clips > 0
    assert _needed(plan, ConnectorKind.SCREW) == clips
    step = _step(plan, "Put on what goes without glue")
    assert step.hands_on_min == rate("fit_top").minutes(count=clips)


def test_photographs_are_priced_only_where_the_brief_asks_for_them() -> None:
    """Nobody is charged for the writing up of a job that did not ask for it."""
    job = shipped_job("hall_bench", rack=False)
    asked = replace(job, piece=replace(job.piece, brief=replace(job.piece.brief, photographs=True)))
    assert not [step for step in _bench().order.steps if "photographs" in step.title]
    plan = make_plan(asked)
    step = _step(plan, "Sort the photographs")
    once = sum(1 for each in plan.order.steps if each.once)
    assert step.hands_on_min == rate("record").minutes(count=once) > 0.0
    assert plan.order.hours == pytest.approx(_bench().order.hours + step.hands_on_min / 60.0)


def test_sub_panels_wait_for_no_other_sub_panel() -> None:
    """A table's three sub-panels are glued side by side, as clamps allow; the last joints wait for all."""
    steps = {step.title: step for step in demo_plan().order.steps}
    subs = [title for title in steps if title.startswith("Glue up") and "sub-panel" in title]
    assert len(subs) >= 2
    assert {steps[title].needs for title in subs} == {("Mill the parts to size",)}
    [last] = [step for title, step in steps.items() if title.endswith("last joints")]
    assert set(last.needs) >= {f"{title.removeprefix('Glue up ')} cured" for title in subs}
    begun = {entry.task: entry.start_min // 1440 for entry in demo_plan().order.timetable.entries}
    assert len({begun[title] for title in subs}) == 1


def test_the_saw_is_set_in_the_order_of_its_sheet() -> None:
    """Set-ups of parts that are ready together are begun by number; those of a glued panel come after."""
    plan = demo_plan()
    begun = {entry.task: entry.start_min for entry in plan.order.timetable.entries}
    needs = {step.title: step.needs for step in plan.order.steps}

    def glued(title: str) -> bool:
        return any("Flatten" in need or glued(need) for need in needs[title])

    titles = [f"Saw set-up {setup.number}" for setup in plan.setups]
    early = [title for title in titles if not glued(title)]
    panels = [title for title in titles if glued(title)]
    assert early
    assert panels
    for row in (early, panels):
        assert row == sorted(row, key=begun.__getitem__)
    assert max(begun[t] for t in early) < min(begun[t] for t in panels)


def test_a_coat_takes_as_long_on_the_finish_sheet_as_in_the_order_of_work() -> None:
    """From the second on both count the rubbing down."""
    plan = _bench()
    steps = [step.hands_on_min for step in plan.order.steps if step.title.startswith("Coat ")]
    assert steps == list(plan.finishing.coats_min)
    assert steps[1] == pytest.approx(steps[0] + rate("denib").minutes(m2=plan.finishing.areas.finished_m2))


def test_what_hangs_is_told_what_its_fixings_bear() -> None:
    """The coat rack: its weight, how far it stands out (24 and a peg of 80), and who chooses the fixings."""
    job = shipped_job("coat_rack", rack=False)
    plan = make_plan(job)
    bears, hang = _step(plan, "Wrap, deliver").details
    assert bears.startswith("Its fixings bear its own 3.8 kg and whatever is put on it, ")
    assert bears.endswith("; it stands 104 mm out from the wall.")
    assert "licensed where it can fall on people" in hang
    laden = replace(job.piece, brief=replace(job.piece.brief, load_kg=20.0))
    assert " kg and 20 kg on it; " in _step(make_plan(replace(job, piece=laden)), "Wrap, deliver").details[0]
    assert _step(_bench(), "Wrap, deliver").details == ()


def test_what_moves_is_fitted_when_its_opening_is_glued() -> None:
    """A drawer is not planed to an opening that is not there yet: after every glue-up, before the finish."""
    steps = make_plan(job_from_files(EXAMPLES / "sideboard.yaml")).order.steps
    at = {step.title: place for place, step in enumerate(steps)}
    fitted = [title for title in at if title.startswith("Fit in its opening")]
    assert sorted(fitted) == ["Fit in its opening: door gap", "Fit in its opening: drawer gap"]
    glued = max(place for title, place in at.items() if title.startswith("Glue up"))
    assert all(glued < at[title] < at["Coat 1 of hard-wax oil"] for title in fitted)
    told = [line for step in steps if step.title == "Fit in its opening: drawer gap" for line in step.details]
    assert sum(f"between drawer_front_{n} and" in line for line in told for n in (1, 2, 3)) == 3
