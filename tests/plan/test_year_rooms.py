"""The year month by month: how far a place has moved, and what room it has left."""

from __future__ import annotations

import pytest

from scantling.plan.year.year_rooms import fixed_line_mm
from tests.plan.jobs import demo_job, demo_plan

__all__: list[str] = []


def test_the_room_left_is_that_at_build_less_the_way_gone() -> None:
    """By hand for each place: nearer side of the slot, the part's change taken as a share of its greatest."""
    plan = demo_plan()
    rooms = plan.year
    season = next(part for part in plan.seasons.parts if part.part == "top")
    freedoms = [f for work in plan.joints for f in work.freedoms]
    assert len(rooms.places) == len(freedoms) > 10
    for place, freedom in zip(rooms.places, freedoms, strict=True):
        for month, room in enumerate(place.rooms_mm):
            change = season.months[month].width_change_mm
            gone = (
                freedom.shrink_travel_mm * change / season.narrowest_mm
                if change < 0.0
                else freedom.swell_travel_mm * change / season.widest_mm
            )
            nearer = freedom.shrink_room_mm if change < 0.0 else freedom.swell_room_mm
            farther = freedom.swell_room_mm if change < 0.0 else freedom.shrink_room_mm
            assert room == pytest.approx(min(nearer - gone, farther + gone))


def test_no_place_has_less_room_in_a_month_than_the_whole_year_leaves_it() -> None:
    """Thickness and finish slow the wood: its real year stays within what the joints are laid out for."""
    plan = demo_plan()
    rooms = plan.year
    spare = {(t.joint, t.part, t.what): t.spare_mm for t in plan.seasons.joints}
    for place in rooms.places:
        assert min(place.rooms_mm) >= spare[place.joint, place.part, place.what] - 1e-6


def test_the_tightest_place_of_a_month_has_the_least_room() -> None:
    """Of all places that move, for each of the twelve months; one at the fixed line is none of them."""
    plan = demo_plan()
    rooms = plan.year
    for month in range(12):
        tightest = rooms.tightest(month)
        assert tightest is not None
        moving = [place for place in rooms.places if max(map(abs, place.moved_mm)) >= 0.05]
        assert len(moving) < len(rooms.places)
        assert tightest.rooms_mm[month] == min(place.rooms_mm[month] for place in moving)


def test_a_part_moves_about_the_line_its_joints_hold() -> None:
    """The top is held at its middle, an apron at the edge under the top, where the clips hold it."""
    plan, job = demo_plan(), demo_job()
    rooms = plan.year
    fixed = {part.part: part.fixed_mm for part in rooms.parts}
    assert fixed["top"] == pytest.approx(0.0, abs=1.0)
    apron = job.piece.parts["apron_front"]
    assert abs(fixed["apron_front"]) == pytest.approx(apron.width_mm / 2.0, abs=25.0)


@pytest.mark.parametrize("line", [-300.0, 0.0, 120.0])
def test_a_fixed_line_is_found_from_distances_on_either_side(line: float) -> None:
    """Distances carry no sign: three places are enough to tell which side the line is on."""
    places = [(at, abs(at - line)) for at in (-260.0, 10.0, 340.0)]
    assert fixed_line_mm(places) == pytest.approx(line)
