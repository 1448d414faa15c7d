"""What is said of cutting mortises for loose tenons."""

from __future__ import annotations

import pytest

from tests.joinery.bench import made_of
from tests.joinery.sample import stick


@pytest.mark.parametrize(("long_in", "long"), [("neither", False), ("second", True)])
def test_a_long_width_is_spoken_of_where_there_is_one(long_in: str, long: bool) -> None:
    """With all mortises tight there are no others to set the cutter to."""
    post = stick((0, 0, 0), (0, 0, 300), (200, 60), "back")
    rail = stick((0, 0, 150), (400, 0, 150), (90, 40), "top", trim={"start": "post.right"})
    made = made_of(
        {"post": post, "rail": rail},
        {"j": {"kind": "loose_tenon", "long_in": long_in, "between": [["rail.start", "post"]]}},
    )
    [work] = made.works
    assert any("long width for the others" in step for step in work.steps) is long
    assert any("Cut all mortises to the tenon's width." in step for step in work.steps) is not long
