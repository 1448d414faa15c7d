"""Glue across the grain and on end grain: each rule trips where it should and not just before."""

from __future__ import annotations

import pytest

from checks.bench import X, mortise, part, subject, work
from scantling.checks import Subject
from scantling.checks.glue import check
from scantling.joinery.work import GlueFace, JointWork

# White oak, flat: 0.00365 per percent (Wood Handbook table 13-5), 4 points wetter than built:
# 1 mm of slip is reached at 1 / (0.00365 * 4) = 68.5 mm.


def glued(span: float, *, angle: float = 90.0, family: str = "halving", share: float = 0.0) -> JointWork:
    """Two parts glued over a span across the grain."""
    face = GlueFace(
        parts=("a", "b"),
        area_mm2=3000.0,
        grain_angle_deg=angle,
        end_grain_share=share,
        cross_span_mm=span,
    )
    cut = mortise("b", at=(100.0, 0.0, 10.0), into=(0.0, 0.0, -1.0), along=X, size=(30.0, 8.0, 8.0))
    return work("a/b", "a", "b", family=family, glue=(face,), cuts=(cut,))


def piece(joint: JointWork, *, width: float = 90.0) -> Subject:
    """The two parts with that joint."""
    return subject((part("a", width=width), part("b", width=width)), (joint,))


@pytest.mark.parametrize(("span", "angle", "trips"), [(69, 90, True), (68, 90, False), (90, 59, False)])
def test_f01_glue_across_the_grain(span: float, angle: float, trips: bool) -> None:
    """F01 at 69 mm of flat white oak glued across, not at 68, nor where the grains run nearly alike."""
    found = check(piece(glued(span, angle=angle)))
    assert [f.code for f in found] == (["F01"] if trips else [])
    if trips:
        assert found[0].numbers["slip_mm"] == pytest.approx(69 * 0.00365 * 4)
        assert "68 mm" in found[0].advice


@pytest.mark.parametrize(
    ("glued_mm", "width", "trips"), [(101, 600, True), (100, 600, False), (190, 200, False)]
)
def test_f04_breadboard_glued_too_far(glued_mm: float, width: float, trips: bool) -> None:
    """F04 at 101 mm glued of a 600 mm field, not at 100, nor on a field of 200."""
    found = check(piece(glued(glued_mm, family="breadboard_end"), width=width))
    assert [f.code for f in found] == (["F04"] if trips else [])


@pytest.mark.parametrize(
    ("share", "keyed", "trips"), [(0.51, False, True), (0.5, False, False), (1, True, False)]
)
def test_f11_end_grain(share: float, keyed: int, trips: bool) -> None:
    """F11 where more than half the glue is end grain and nothing else holds; a mortise holds."""
    joint = glued(20.0, share=share)
    if not keyed:
        joint = work("a/b", "a", "b", glue=joint.glue)
    assert [f.code for f in check(piece(joint))] == (["F11"] if trips else [])


def test_a_dry_joint_has_no_glue_to_judge() -> None:
    """A joint put together dry is passed over."""
    joint = work("a/b", "a", "b", glue=glued(200.0).glue, dry=True)
    assert check(piece(joint)) == []
