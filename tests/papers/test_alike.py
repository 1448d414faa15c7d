"""What is alike is told once: parts on one sheet, glue-ups in one stage, steps in one row."""

from __future__ import annotations

from functools import cache

import pytest

from scantling.papers.pages.alike import Twin, place_of, twins_of
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import joint_sheets, marked_parts, shared_methods
from scantling.papers.pages.work_pages import glue_stages, order_steps
from scantling.papers.words.joint_naming import words_of
from scantling.papers.words.order_rows import likes_of, order_rows
from scantling.piece.geometry import cross, dot
from scantling.plan.job import Job
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.units import LengthStyle
from tests.plan.jobs import shipped_job, shipped_plan

FIGURES = Figures(style=LengthStyle(inch=False, denominator=32, step_mm=0.5), currency="USD")


@cache
def _sideboard() -> tuple[Job, Plan]:
    job = shipped_job("sideboard", rack=False)
    return job, make_plan(job)


@cache
def _groups() -> tuple[tuple[Twin, ...], ...]:
    job, plan = _sideboard()
    marks = {name: [m for w in plan.joints for m in w.marks if m.part == name] for name in job.piece.parts}
    return twins_of({name: part for name, part in job.piece.parts.items() if marks[name]}, marks)


def _group(name: str) -> dict[str, Twin]:
    return next(g for g in ({t.part.name: t for t in group} for group in _groups()) if name in g)


def test_sides_of_the_drawers_share_a_sheet_the_right_ones_mirrored() -> None:
    """Of each height, one form and its mirror image; drawers of other heights have sheets of their own."""
    for i in (1, 2, 3):
        group = _group(f"drawer_side_left_{i}")
        assert set(group) == {f"drawer_side_{side}_{i}" for side in ("left", "right")}
        assert {name for name, twin in group.items() if twin.mirrored} == {f"drawer_side_right_{i}"}


def test_rails_of_the_doors_share_a_sheet_and_their_stiles_do_not() -> None:
    """Upper and lower rails are the same turned over; the lock stile alone is planed for its gap."""
    assert set(_group("door_upper_left")) == {
        f"door_{level}_{side}" for level in ("upper", "lower") for side in ("left", "right")
    }
    assert "lock_stile_left" not in _group("hinge_stile_left")


def test_a_twin_carries_the_marks_of_the_first_part_turned_into_it() -> None:
    """Carried over axis by axis, the marks of the first are those of each of its twins, place by place."""
    job, plan = _sideboard()
    marks = {name: [m for w in plan.joints for m in w.marks if m.part == name] for name in job.piece.parts}
    compared = 0
    for first, *others in _groups():
        for twin in others:
            turned = sorted(place_of(first.part, m, twin.turn) for m in marks[first.part.name])
            assert turned == sorted(place_of(twin.part, m) for m in marks[twin.part.name])
            compared += 1
    assert compared > 15


def test_hand_is_that_of_the_two_parts_in_space() -> None:
    """A reflection turns the hand round: checked on the frames of a mirrored copy."""
    group = _group("side_upper_left")
    one, other = group["side_upper_left"].part.frame, group["side_upper_right"].part.frame

    def hand(frame: object) -> float:
        return dot(cross(frame.grain, frame.width), frame.thickness)  # type: ignore[attr-defined]

    assert hand(one) * hand(other) == pytest.approx(-1.0)
    assert group["side_upper_right"].mirrored


def test_how_joints_are_cut_stands_once() -> None:
    """On many sheets each names its joints, and every sentence stands once at the end."""
    job, plan = _sideboard()
    groups = marked_parts(job.piece, plan.joints, figures=FIGURES)
    told = shared_methods(groups)
    sheets = joint_sheets(groups, figures=FIGURES)
    where = [bool(group.shoulders) for group in groups]  # the line on where its distances start
    assert [len(sheet.steps) - 1 for sheet in sheets] == where
    assert any(where)
    sentences = {line for work in plan.joints if work.marks for line in work.steps}
    shared = " ".join(told)
    assert not [line for line in sentences if line not in shared]
    assert len(told) == len(set(told))


def test_a_joint_named_on_a_sheet_is_a_heading_where_its_cutting_is_told() -> None:
    """Each name for which a sheet points to the end of the chapter stands there before a way of cutting."""
    job, plan = _sideboard()
    groups = marked_parts(job.piece, plan.joints, figures=FIGURES)
    heads = {name for line in shared_methods(groups) for name in line.partition(": ")[0].split("; ")}
    lead = "How they are cut, at the end of this chapter: "
    pointed = [step for sheet in joint_sheets(groups, figures=FIGURES) for step in sheet.steps]
    names = {name for step in pointed if step.startswith(lead) for name in step[len(lead) : -1].split("; ")}
    assert len(names) > 5
    assert names <= heads


def test_every_glue_up_is_in_one_stage() -> None:
    """The numbers of all stages are those of all glue-ups; bottoms of three drawers are glued in two stages.

    The drawers, each of a height of its own, are in a stage each.
    """
    _, plan = _sideboard()
    stages = glue_stages(plan.gluing, figures=FIGURES, likes=likes_of(plan.parts))
    told = []
    for stage in stages:
        for part in filter(None, stage.numbers.split(", ")):
            low, _, high = part.partition(" to ")
            told += range(int(low), int(high or low) + 1)
    assert sorted(told) == list(range(1, plan.gluing.count + 1))
    assert len([s for s in stages if s.title.startswith("Drawer") and "2 alike" in s.title]) == 2
    boxes = [s for s in stages if s.title.startswith("Drawer front") and "drawer side" in s.title]
    assert len(boxes) == 3


def test_every_step_is_in_one_row() -> None:
    """No step and no hour is lost, and a cure stands with its glue-up."""
    _, plan = _sideboard()
    rows = order_rows(plan.order, likes_of(plan.parts))
    titles = [step.title for row in rows for step in (*row.steps, *row.cures)]
    assert sorted(titles) == sorted(step.title for step in plan.order.steps)
    assert sum(row.hands_on_min for row in rows) == pytest.approx(plan.order.hours * 60.0)
    assert all(
        cure.needs == (step.title,)
        for row in rows
        if row.cures
        for step, cure in zip(row.steps, row.cures, strict=True)
    )
    assert len(order_steps(plan.order, likes_of(plan.parts), figures=FIGURES, sawn={})) == len(rows) < 100


def test_loose_boards_are_put_in_before_the_case_is_closed() -> None:
    """Eight boards and the till are one line, before the two joints of the back that shut them in."""
    plan = shipped_plan("blanket_chest")
    with words_of(plan):
        stages = glue_stages(plan.gluing, figures=FIGURES, likes=likes_of(plan.parts))
    steps = next(stage.steps for stage in stages if any("put in dry" in step for step in stage.steps))
    put = (
        "Before those that follow are closed, put in dry: bottom board 1 to 8, till bottom and front, "
        "till lid, to front and back; bottom board 1 to end left; bottom board 8 to end right; bottom board "
        "1 to 8, to each other."
    )
    assert steps[-3] == put
    assert [step.split(" (")[0] for step in steps[-2:]] == ["Close back", "Close back"]
    assert steps[-1].startswith("Close ")
