"""Parts that overlap or fall apart are told, with figures."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.cli.job import job_from_files
from scantling.joinery import load_piece_text
from scantling.plan.cache import Cache
from scantling.plan.job import Job
from scantling.plan.planner import Planner, make_plan
from scantling.plan.standing.solidity import solidity_findings
from scantling.units.sentences import sentence_in_inches
from tests.plan.jobs import EXAMPLES, SHIPPED, demo_job, shipped_plan

TWO_BARS = """
scantling: 1
title: Two bars
parts:
  one: {kind: stick, species: beech, section: [40, 20], center: [0, 0, 10], along: right,
        length: 300 mm, width_toward: back}
  two: {kind: stick, species: beech, section: [40, 20], center: [0, 0, %s], along: back,
        length: 300 mm, width_toward: right}
"""


def bars(height: str) -> Job:
    """Two bars crossing, the second at a height."""
    usual = job_from_files(EXAMPLES / "reading_table.yaml")
    return Job(piece=load_piece_text(TWO_BARS % height), shop=usual.shop, room=usual.room)


@pytest.mark.parametrize(("height", "codes"), [("29", ["F69"]), ("30", []), ("31", [])])
def test_two_bars_that_cross_without_a_joint(height: str, codes: list[str]) -> None:
    """One millimeter into each other over 40 x 40 is 1600 mm3; side by side is nothing."""
    found = [f for f in make_plan(bars(height)).findings if f.code in ("F69", "F70")]
    assert [f.code for f in found] == codes
    if codes:
        assert found[0].numbers["volume_mm3"] == pytest.approx(1600.0, rel=1e-6)
        assert "share 1.6 cm³ of wood" in found[0].message
        assert "share 0.1 in³ of wood" in sentence_in_inches(found[0].message)


def test_a_part_its_joints_cut_in_two() -> None:
    """A solid in two pieces is told with their number."""
    job = bars("30")
    meshes = Planner().solids(job)
    meshes["two"] = replace(meshes["two"], pieces=2)
    found = solidity_findings(job.piece, meshes, Cache())
    assert [(f.code, f.where, f.numbers) for f in found] == [("F70", "two", {"pieces": 2.0})]


def test_a_groove_deeper_than_its_part_is_named() -> None:
    """Of a side cut in two: the joint whose cut goes 12 mm deep into 10 mm of wood."""
    job = bars("30")
    meshes = Planner().solids(job)
    meshes["two"] = replace(meshes["two"], pieces=2)
    mark = Planner().works(demo_job(rack=False))[0].marks[0]
    deep = replace(mark, part="two", on_end=False, depth_mm=22.0)
    work = replace(Planner().works(demo_job(rack=False))[0], joint="bottom.4", marks=(deep,))
    [found] = solidity_findings(job.piece, meshes, Cache(), works=(work,))
    assert (
        found.message
        == "its joints cut two into 2 pieces; bottom.4 goes 22.0 mm deep where it is 20.0 mm thick"
    )
    shallow = replace(work, marks=(replace(deep, depth_mm=19.0),))
    [found] = solidity_findings(job.piece, meshes, Cache(), works=(shallow,))
    assert found.message == "its joints cut two into 2 pieces"


def test_tenons_that_meet_in_a_leg_are_told_as_such() -> None:
    """Both bars enter one post: the way out is the tenons', not to move the rails."""
    job = bars("29")
    planner = Planner()
    one = planner.works(demo_job(rack=False))[0]
    works = tuple(replace(one, joint=name, first=name, second="post", dry=False) for name in ("one", "two"))
    [found] = solidity_findings(job.piece, planner.solids(job), Cache(), works=works)
    assert "Both enter post" in found.advice
    [plain] = solidity_findings(job.piece, planner.solids(job), Cache(), works=works[:1])
    assert "move or trim one of the parts" in plain.advice


@pytest.mark.parametrize("piece", SHIPPED)
def test_no_shipped_piece_stands_in_its_own_wood(piece: str) -> None:
    """Every joint of every example makes room for what it joins."""
    plan = shipped_plan(piece, rack=False)
    assert [f for f in plan.findings if f.code in ("F69", "F70")] == []
