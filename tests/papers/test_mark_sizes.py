"""A place and the set-up that cuts it carry one size."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.joinery.work import Fit, Mark, MarkKind
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.season_pages import freedom_rows
from scantling.papers.sheets.season_tables import joints_table
from scantling.papers.sheets.show import Show
from scantling.papers.words.mark_sizes import mark_depth, mark_width, set_up_words
from scantling.piece.model import Direction, End
from scantling.units import LengthStyle, Round, show_length
from tests.plan.jobs import shipped_plan

INCH = LengthStyle(inch=True, denominator=32)
METRIC = LengthStyle(step_mm=0.5)
MORTISE = Mark(
    part="leg",
    kind=MarkKind.MORTISE,
    on_end=False,
    end=End.START,
    face=Direction.FRONT,
    reference_face=Direction.LEFT,
    from_end_mm=100.0,
    from_face_mm=20.0,
    length_mm=57.0,
    width_mm=6.0,
    depth_mm=18.0,
    fit=Fit.TIGHT,
    setup="6 mm mortises, 18 mm deep",
)


def test_a_mortise_is_rounded_deeper_and_its_tenon_shorter() -> None:
    """By hand: 6 mm is 15.1 and 18 mm 45.4 sixty-fourths, up to 46; 17 mm is 42.8, down to 42."""
    assert (mark_width(MORTISE, INCH), mark_depth(MORTISE, INCH)) == ("15/64", "23/32")
    assert set_up_words(MORTISE, INCH) == "15/64 in mortises, 23/32 in deep"
    tenon = replace(MORTISE, kind=MarkKind.TENON, depth_mm=17.0, setup="6 mm tenons, 17 mm long")
    assert mark_depth(tenon, INCH) == "21/32"
    assert set_up_words(tenon, INCH) == "15/64 in tenons, 21/32 in long"
    assert set_up_words(MORTISE, METRIC) == MORTISE.setup


def test_what_a_set_up_rounds_is_given_as_its_mark_is() -> None:
    """A button's mortise of 10.43 mm, named 10.4 mm deep, is 10.5 deep in both; other figures stay."""
    button = replace(MORTISE, depth_mm=10.43, setup="8 mm groove, 5 mm below the edge, 10.4 mm deep")
    assert mark_depth(button, METRIC) == "10.5"
    assert set_up_words(button, METRIC) == "8 mm groove, 5 mm below the edge, 10.5 mm deep"


@pytest.mark.parametrize("piece", ["reading_table", "sideboard", "trestle_desk"])
def test_no_set_up_names_a_depth_its_place_has_not(piece: str) -> None:
    """All places of shipped pieces, in inches: a set-up that says how deep says what the row says."""
    told = 0
    for work in shipped_plan(piece, rack=False).joints:
        for mark in work.marks:
            words = set_up_words(mark, INCH)
            if "in deep" in words or "in long" in words:
                told += 1
                assert f"{mark_depth(mark, INCH)} in " in words
            assert " mm deep" not in words
    assert told


def test_a_runners_groove_is_as_high_on_every_sheet() -> None:
    """What a groove is reckoned to is rounded up where it is marked, and where the year asks for it."""
    plan = shipped_plan("sideboard", rack=False)
    grooves = {work.joint: work.marks[0] for work in plan.joints if work.family == "drawer_groove"}
    travels = [each for each in plan.seasons.joints if each.joint in grooves]
    assert len(travels) == len(grooves) == 6
    for travel in travels:
        shown = mark_width(grooves[travel.joint], METRIC)
        assert shown == show_length(travel.cut_to_mm, METRIC.fine, direction=Round.UP, unit=False)
        assert float(shown) >= travel.cut_to_mm - 1e-6
    table = joints_table(travels, Show.in_units("mm"))
    rows = freedom_rows(replace(plan.seasons, joints=tuple(travels)), figures=Figures(style=METRIC))
    cut = table.columns.index(next(column for column in table.columns if column.title == "Cut to"))
    assert {row[cut] for row in table.rows} == {row.cut_to for row in rows}


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("name", ["reading_table", "sideboard"])
def test_no_place_is_told_to_move_within_less_room_than_it_asks_for(name: str, units: str) -> None:
    """A glue line that slips 0.96 mm of 1 mm read `3/64 of 1/32`, which would bind."""
    seasons = shipped_plan(name, rack=False).seasons
    table = joints_table(seasons.joints, Show.in_units(units))
    titles = [column.title for column in table.columns]
    needs, has, verdict = (titles.index(t) for t in ("Needs, drying / wetting", "Has", "Verdict"))
    free = [row for row in table.rows if row[verdict] != "binds"]
    assert len(free) > 3
    for row in free:
        pairs = zip(row[needs].split(" / "), row[has].split(" / "), strict=True)
        assert all(float(asked) <= float(there) for asked, there in pairs)
    style = LengthStyle(inch=units == "in")
    for row in freedom_rows(seasons, figures=Figures(style=style)):
        for asked, there in (each.split(" of ") for each in (row.shrink, row.swell)):
            assert there == "any" or float(asked) <= float(there)
        sides = [each.split(" of ") for each in (row.shrink, row.swell) if not each.endswith("any")]
        left = min(float(there) - float(asked) for asked, there in sides)
        assert float(row.means.split()[0]) == pytest.approx(left, abs=0.2 if units == "mm" else 0.002)


def test_a_cutters_width_is_told_as_it_is() -> None:
    """A groove of 6.2 mm was chosen; one of 16.648 was reckoned, and is cut no narrower."""
    groove = replace(
        MORTISE, kind=MarkKind.GROOVE, fit=Fit.SLIDING, setup="16.6 mm grooves for runners, 5 mm deep"
    )
    assert mark_width(replace(groove, width_mm=6.2), INCH) == "1/4"
    assert mark_width(replace(groove, width_mm=8.5), INCH) == "21/64"
    reckoned = replace(groove, width_mm=16.648, depth_mm=5.0)
    assert mark_width(reckoned, METRIC) == "16.7"
    assert set_up_words(reckoned, METRIC) == "16.7 mm grooves for runners, 5 mm deep"
