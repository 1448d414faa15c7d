"""Lines to keep seams from are read off the cuts that joints make in a panel."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.joinery.work import Box, Cut, Hole, JointWork, Slot, Tool
from scantling.piece.geometry import Frame, Vec
from scantling.shop.sizes.seamlines import seam_lines
from tests.shop.sticks import between

TOP = between("top", (0, 0, 700), (1400, 0, 700), section_mm=(700.0, 30.0), thickness_axis=(0, 0, 1))


def at(v: float, *, into: Vec = (0.0, 0.0, 1.0), along: Vec = (0.0, 1.0, 0.0)) -> Frame:
    """A frame on the lower face of the top at that place across."""
    across = (1.0, 0.0, 0.0) if along[1] else (0.0, 1.0, 0.0)
    return Frame(origin=(300.0, v, -15.0), grain=into, width=along, thickness=across)


def cutting(*tools: Tool, part: str = "top") -> JointWork:
    """A joint that makes these cuts."""
    cuts = tuple(Cut(part=part, tool=tool, what="cut") for tool in tools)
    return JointWork(
        joint="j", family="f", first="batten", second="top", at=(0, 0, 0), leaves=(0, 0, 1), cuts=cuts
    )


def test_holes_count_where_they_stand() -> None:
    """A pilot hole 100 from the middle of 700 lies 450 from the edge; twice in a row it is one line."""
    hole = Hole(frame=at(100.0), diameter_mm=4.0, depth_mm=20.0)
    assert seam_lines(TOP, [cutting(hole, hole)]) == (450.0,)


def test_a_slot_across_counts_at_both_ends_and_one_along_only_once() -> None:
    """20 over round ends of 6: its round ends' centers lie 7 to each side."""
    slot = Slot(frame=at(0.0), length_mm=20.0, width_mm=6.0, depth_mm=20.0)
    assert seam_lines(TOP, [cutting(slot)]) == (343.0, 357.0)
    along = replace(slot, frame=at(0.0, along=(1.0, 0.0, 0.0)))
    assert seam_lines(TOP, [cutting(along)]) == (350.0,)


@pytest.mark.parametrize(
    "work",
    [
        cutting(Hole(frame=at(0.0, into=(1.0, 0.0, 0.0)), diameter_mm=8.0, depth_mm=20.0)),
        cutting(Box(frame=at(0.0), length_mm=10.0, width_mm=10.0, thickness_mm=10.0)),
        cutting(Hole(frame=at(0.0), diameter_mm=4.0, depth_mm=20.0), part="batten"),
    ],
    ids=["bored into an end", "a groove", "in another part"],
)
def test_what_minds_no_seam_is_left_out(work: JointWork) -> None:
    """Holes in an end, grooves, and cuts in other parts give no line."""
    assert seam_lines(TOP, [work]) == ()
