"""Connectors inside a part: dowels, bolts and screws that meet, or stand too near a face."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.checks.mortises import check
from scantling.checks.subject import Subject
from tests.joinery.bench import YEAR, made_of
from tests.joinery.sample import stick

POST = stick((0, 0, 0), (0, 0, 700), (60, 60), "right")


def codes(parts: dict[str, Any], joints: dict[str, Any]) -> list[str]:
    """What is said of the hollows of all parts."""
    made = made_of(parts, joints)
    found = check(Subject(piece=made.piece, works=made.works, moisture=YEAR))
    return [item.code for item in found]


def two_rails(*, dowels: float, bolt_z: float) -> list[str]:
    """A rail doweled into a post, and a second one at the next face, bolted through it."""
    parts = {
        "post": POST,
        "x": stick((0, 0, 400), (500, 0, 400), (90, 26), "top", trim={"start": "post.right"}),
        "y": stick((0, 0, bolt_z), (0, 500, bolt_z), (60, 26), "top", trim={"start": "post.back"}),
    }
    joints = {
        "dowels": {
            "kind": "dowel_pin",
            "between": [["x.start", "post"]],
            "diameter": 10,
            "depth_first": 30,
            "depth_second": dowels,
            "count": 1,
        },
        "bolt": {
            "kind": "cross_bolt",
            "between": [["y.start", "post"]],
            "bolt": [8, 120],
            "nut": [12, 16],
            "nut_face": "right",
            "dowels": 0,
        },
    }
    return codes(parts, joints)


@pytest.mark.parametrize(("dowels", "told"), [(22.7, []), (22.8, ["F14"]), (30.0, ["F14"])])
def test_f14_a_dowel_that_comes_near_a_bolt_in_a_leg(dowels: float, told: list[str]) -> None:
    """The bolt's hole, 8.5 wide, is 25.75 mm in from the face the dowel enters; 3 mm should stand."""
    assert two_rails(dowels=dowels, bolt_z=400.0) == told


def test_f14_a_bolt_above_the_dowel_is_clear() -> None:
    """14 mm up: 14 less half of both holes leaves 4.75 mm."""
    assert two_rails(dowels=30.0, bolt_z=414.0) == []


@pytest.mark.parametrize(("thick", "told"), [(14.0, []), (13.9, ["F15", "F15"])])
def test_f15_dowels_beside_a_face(thick: float, told: list[str]) -> None:
    """8 mm dowels in the middle of 14 mm leave 3 mm on both sides; in the post there is more."""
    parts = {
        "post": POST,
        "x": stick((0, 0, 400), (500, 0, 400), (90, thick), "top", trim={"start": "post.right"}),
    }
    sizes = {"diameter": 8, "depth_first": 30, "depth_second": 25, "count": 2}
    assert codes(parts, {"j": {"kind": "dowel_pin", "between": [["x.start", "post"]], **sizes}}) == told
