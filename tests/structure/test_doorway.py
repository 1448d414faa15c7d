"""The way in: doors, corners, tipping, tilting, and what is taken apart."""

from __future__ import annotations

import math

import pytest
from pydantic import TypeAdapter

from scantling.errors import Severity
from scantling.structure import Corner, Doorway, Limit, Thing, Way, find_way
from scantling.structure.doorway import check
from scantling.structure.passage import tilted_spare_mm
from scantling.units.sentences import sentence_in_inches

BOOKCASE = Thing(name="bookcase", size_mm=(900.0, 300.0, 2000.0))
CORNER = Corner(name="corridor", first_mm=900.0, second_mm=1000.0, ceiling_mm=2350.0)
DOOR = Doorway(name="door", width_mm=760.0, height_mm=1980.0)


def test_tall_case_goes_upright_round_the_corner_then_tips() -> None:
    """Wrapped 37 all round it turns the corner only standing (2074 lying, 1937 allowed), and the door
    only lying.
    """
    way = find_way(BOOKCASE, [CORNER, DOOR], padding_mm=37.0)
    assert way.passes
    corner, door = way.steps
    assert corner.stance.startswith("upright")
    assert not door.stance.startswith("upright")
    assert "tip it" in door.before


def test_a_low_ceiling_forbids_the_tip() -> None:
    """Wrapped it swings sqrt(2050^2 + 350^2) = 2080 mm high tipping: no lower ceiling lets it."""
    swing = math.hypot(2050.0, 350.0)
    high = Corner(name="corridor", first_mm=900.0, second_mm=1000.0, ceiling_mm=swing + 1.0)
    low = Corner(name="corridor", first_mm=900.0, second_mm=1000.0, ceiling_mm=swing - 1.0)
    case = Thing(name="case", size_mm=(1400.0, 300.0, 2000.0))
    wide_door = Doorway(name="door", width_mm=1460.0, height_mm=400.0)
    assert find_way(case, [high, wide_door]).passes
    blocked = find_way(case, [low, wide_door])
    assert not blocked.passes
    assert blocked.blocked_at == "door"
    assert blocked.short_by_mm == pytest.approx(1.0)  # the door would take it: what lacks is height to tip it


@pytest.mark.parametrize(("width", "passes"), [(710.0, True), (709.0, False)])
def test_a_table_on_its_side_through_a_door(width: float, passes: bool) -> None:
    """A 1 370 x 660 x 740 table wrapped 25 all round wants 710 mm of width, by its depth."""
    door = Doorway(name="door", width_mm=width, height_mm=1980.0)
    way = find_way(Thing(name="table", size_mm=(1370.0, 660.0, 740.0)), [door])
    assert way.passes is passes
    if passes:
        assert way.spare_mm == pytest.approx(0.0)
    else:
        assert way.short_by_mm == pytest.approx(1.0, abs=0.01)


def test_a_hull_narrower_than_its_box_slips_through_tilted() -> None:
    """A square prism standing on its edge: its box is too wide, turned by 45 degrees it passes."""
    r = 400.0
    corners = tuple(
        (x, r * math.cos(k * math.pi / 2.0), r * math.sin(k * math.pi / 2.0))
        for x in (0.0, 900.0)
        for k in range(4)
    )
    side = r * math.sqrt(2.0)
    thing = Thing(name="prism", size_mm=(900.0, 2 * r, 2 * r), corners_mm=corners)
    door = Doorway(name="door", width_mm=side + 52.0, height_mm=790.0)
    way = find_way(thing, [door], padding_mm=25.0)
    assert way.passes
    assert "tilted" in way.steps[0].stance
    assert not find_way(Thing(name="box", size_mm=(900.0, 2 * r, 2 * r)), [door], padding_mm=25.0).passes


def test_a_cube_does_not_pass_a_smaller_square() -> None:
    """A unit square's hole must be at least the cube's face for a straight push along an edge direction."""
    cube = [(x, y, z) for x in (0.0, 1000.0) for y in (0.0, 1000.0) for z in (0.0, 1000.0)]
    room = tilted_spare_mm(cube, Doorway(name="d", width_mm=1000.0, height_mm=1000.0))
    assert room == pytest.approx(0.0, abs=1e-6)
    assert tilted_spare_mm(cube, Doorway(name="d", width_mm=940.0, height_mm=940.0)) < 0.0


def test_a_stair_that_takes_things_up_to_a_size() -> None:
    """A 1 600 desk top fails a stair that takes 1 450; a 1 390 one passes."""
    stair = Limit(name="spiral stair", longest_mm=1450.0, middle_mm=750.0, shortest_mm=90.0)
    long = find_way(Thing(name="top", size_mm=(1600.0, 680.0, 30.0)), [stair])
    assert (long.passes, long.blocked_at) == (False, "spiral stair")
    assert long.short_by_mm == pytest.approx(200.0)
    assert find_way(Thing(name="top", size_mm=(1390.0, 680.0, 30.0)), [stair]).passes


def test_f56_only_when_taking_it_apart_does_not_help() -> None:
    """A whole that is stuck is no fault when its parts pass; a part that is stuck is named."""
    fits = Way(thing="base", passes=True)
    stuck = Way(thing="table", passes=False, blocked_at="door", short_by_mm=30.0)
    top = Way(thing="top", passes=False, blocked_at="stair", short_by_mm=5.0)
    assert check(fits) == []
    assert check(stuck, [fits]) == []
    assert [f.where for f in check(stuck)] == ["table"]
    assert [(f.code, f.where) for f in check(stuck, [fits, top])] == [("F56", "top")]


def test_f56_at_a_stair_tells_what_it_takes_and_three_ways_out() -> None:
    """1 600 where 1 450 goes: that, two leaves of 800, or another way in; a depth that is over too."""
    stuck = Way(thing="top", passes=False, blocked_at="stair", short_by_mm=150.0)
    largest = {"stair": (740.0, 1450.0, 90.0)}
    [long] = check(stuck, sizes_mm={"top": (1600.0, 700.0, 30.0)}, largest_mm=largest)
    assert "1600 × 700 × 30 mm" in long.message
    assert "1450 × 740 × 90 mm" in long.message
    for way in ("Of its 1600 mm make 1450 mm at most", "in 2 pieces of 800 mm", "hoist"):
        assert way in long.advice
    [wide] = check(stuck, sizes_mm={"top": (1400.0, 800.0, 100.0)}, largest_mm=largest)
    assert "of its 100 mm make 90 mm at most" in wide.advice
    assert "in 2 pieces of 400 mm" in wide.advice


def test_way_goes_to_json_and_back() -> None:
    """Plain values only."""
    adapter = TypeAdapter(Way)
    way = find_way(BOOKCASE, [CORNER, DOOR])
    assert adapter.validate_json(adapter.dump_json(way)) == way


def test_what_passes_with_its_wrapping_off_is_no_stop() -> None:
    """A table of 735 mm through a door of 762: 50 mm of wrapping is 23 too much, bare it has 27 to spare."""
    door = Doorway(name="door", width_mm=762.0, height_mm=1980.0)
    table = find_way(Thing(name="table", size_mm=(1600.0, 840.0, 735.0)), [door])
    assert (table.passes, table.short_by_mm) == (False, pytest.approx(23.0))
    assert table.bare_spare_mm == pytest.approx(27.0)
    [told] = check(table)
    assert (told.code, told.severity) == ("F56", Severity.MEDIUM)
    assert "23 mm too big" in told.message
    assert "27 mm to spare" in told.advice
    assert sentence_in_inches(told.message).count("1 in on every side") == 1
    wide = find_way(Thing(name="table", size_mm=(1600.0, 840.0, 790.0)), [door])
    assert wide.bare_spare_mm is None
    assert [each.severity for each in check(wide)] == [Severity.STOP]
