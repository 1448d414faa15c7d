"""Every shipped form can be made at both ends of each of its parameters, and at corners of all of them."""

from __future__ import annotations

import math
from random import Random

import pytest

from scantling.piece.model import ParameterValue
from scantling.plan.cache import Cache
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.plan.standing.solidity import solidity_findings
from tests.plan.jobs import SHIPPED, shipped_job

_UNITS = {"length": "mm", "angle": "deg", "number": ""}


def _text(parameter: ParameterValue, value: float | None) -> str:
    assert value is not None, f"{parameter.name} has no limit"
    return f"{value:g} {_UNITS[parameter.dimension]}".strip()


def _planned(piece: str, given: dict[str, str], planner: Planner) -> Job:
    """The job, whose parts are whole and out of each other's way."""
    job = shipped_job(piece, rack=False, given=given)
    meshes = planner.solids(job)
    broken = solidity_findings(job.piece, meshes, Cache())
    assert not broken, (given, [finding.message for finding in broken])
    assert all(mesh.volume_mm3 > 0.0 for mesh in meshes.values())
    return job


@pytest.mark.parametrize("piece", SHIPPED)
def test_both_ends_of_every_range_can_be_built(piece: str) -> None:
    """All joints meet, nothing overlaps and nothing falls apart, one parameter at a time."""
    planner = Planner()
    for parameter in shipped_job(piece, rack=False).piece.parameters:
        for value in (parameter.least, parameter.most):
            _planned(piece, {parameter.name: _text(parameter, value)}, planner)


@pytest.mark.parametrize("piece", SHIPPED)
def test_corners_of_all_ranges_are_planned(piece: str) -> None:
    """All least, all most, one corner by lot: figures are finite, and each finding has its way out."""
    planner, lot = Planner(), Random(piece)
    parameters = shipped_job(piece, rack=False).piece.parameters
    corners = [
        {p.name: _text(p, p.least) for p in parameters},
        {p.name: _text(p, p.most) for p in parameters},
        {p.name: _text(p, lot.choice((p.least, p.most))) for p in parameters},
    ]
    for corner in corners:
        plan = planner.plan(_planned(piece, corner, planner))
        assert math.isfinite(plan.pricing.quote.price)
        assert 0.0 < plan.moving.mass_kg < 200.0
        for finding in plan.findings:
            assert finding.advice, finding
            assert all(math.isfinite(number) for number in finding.numbers.values()), finding
