"""The second counting of hours: what each joint counts as."""

from __future__ import annotations

from collections import Counter

import pytest

from scantling.joinery.families import joint_families
from scantling.plan.steps import counts
from tests.plan.jobs import shipped_plan


def test_every_family_named_is_one_there_is() -> None:
    """A family renamed would count as a joint of an hour without a word."""
    assert set(counts._OPERATIONS) <= set(joint_families())


def test_a_groove_or_a_gap_is_not_an_hours_joint() -> None:
    """Of the five-drawer chest: dovetails and tenons are joints, 38 panels' grooves and 25 gaps are not."""
    plan = shipped_plan("five_drawer_chest", rack=False)
    families = Counter(joint.family for joint in plan.joints)
    lines = {line.operation: line for line in plan.pricing.second_opinion.lines}
    assert lines["joint"].count == families["dovetail"] + families["mortise_tenon"]
    assert lines["groove"].count == families["panel_groove"] + families["housing"]
    assert lines["hang"].count == families["drawer_runner"]
    assert lines["fit_opening"].count == families["opening_fit"]
    assert lines["fit_opening"].likely_h == pytest.approx(lines["fit_opening"].count * 10.0 / 60.0)
