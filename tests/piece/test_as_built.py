"""What is measured and made flows into the piece: hand-computed figures for what follows and what stays."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from scantling.joinery import look_at
from scantling.piece.built import AsBuilt, Built, Meeting
from scantling.piece.model import Piece
from scantling.plan.refusals import every_fault

EXAMPLES = Path(__file__).parents[2] / "examples"


def piece_as(name: str, *, measured: dict[str, float], done: tuple[str, ...] = ()) -> Piece:
    """An example with some sizes measured and some parts done; it must still be one that can be made."""
    cut = {f"{part}.{size}": None for part in done for size in ("length", "width", "thickness")}
    cut = {size: mm for size, mm in cut.items() if size not in measured}
    reading = look_at(EXAMPLES / f"{name}.yaml", built=Built(measured=measured, cut=cut))
    assert every_fault(reading, shop=None, room=None) == ()
    return reading.piece


def record(piece: Piece) -> AsBuilt:
    """What is made of it."""
    assert piece.built is not None
    return piece.built


def test_top_narrower_before_anything_is_cut_counts_for_the_width_of_the_table() -> None:
    """The file writes `width` for the top: the ends are `width` long, and the legs stand 100 mm in from its
    edges, so that the side aprons are shorter by the same 3 mm.
    """
    drawn, piece = (
        look_at(EXAMPLES / "reading_table.yaml").piece,
        piece_as("reading_table", measured={"top.width": 657.0}),
    )
    assert piece.parts["end_left"].length_mm == pytest.approx(657.0)
    assert piece.parts["end_right"].length_mm == pytest.approx(657.0)
    for side in ("apron_left", "apron_right"):
        assert piece.parts[side].length_mm == pytest.approx(drawn.parts[side].length_mm - 3.0, abs=1e-6)
    assert piece.parts["apron_front"].length_mm == pytest.approx(drawn.parts["apron_front"].length_mm)
    assert [(n.name, n.drawn_mm, n.stands_mm, n.because) for n in record(piece).names] == [
        ("width", 660.0, 657.0, "top.width")
    ]


def test_top_narrower_over_a_base_that_is_made_lets_only_its_ends_follow() -> None:
    """The aprons are cut by 660 mm and stay; the breadboard ends are flush with the top, and get 657 mm."""
    drawn = look_at(EXAMPLES / "reading_table.yaml").piece
    piece = piece_as("reading_table", measured={"top.width": 657.0}, done=("apron_left", "apron_right"))
    assert piece.parts["end_left"].length_mm == pytest.approx(657.0)
    for name in ("apron_left", "leg_fl"):
        assert piece.parts[name].frame == drawn.parts[name].frame
        assert piece.parts[name].length_mm == pytest.approx(drawn.parts[name].length_mm)
    assert record(piece).names == ()
    assert record(piece).alone == (("top.width", "width"),)
    assert record(piece).loose == ()


def test_ends_cut_by_the_width_drawn_stand_out_over_a_narrower_top() -> None:
    """660 mm beside 657 mm: 1.5 mm at each edge."""
    piece = piece_as("reading_table", measured={"top.width": 657.0}, done=("end_left",))
    loose = record(piece).loose
    assert {(each.part, each.other, each.meeting) for each in loose} == {("end_left", "top", Meeting.FLUSH)}
    assert [each.off_mm for each in loose] == pytest.approx([1.5, 1.5])
    assert piece.parts["end_right"].length_mm == pytest.approx(657.0)


def test_legs_thinner_before_the_aprons_are_cut_lengthen_the_aprons() -> None:
    """Each leg's face lies 0.5 mm nearer its middle line, square to the leg. The front aprons run square to
    the piece: along them that is 0.5 / c with c = sqrt(1 - gx^2), g being the direction of the leg. They also
    move 0.5 mm toward the leg's middle to keep their setback, which along the leaning face takes gx gy / c^2
    of it back.
    """
    drawn = look_at(EXAMPLES / "reading_table.yaml").piece
    piece = piece_as("reading_table", measured={"leg_fl.width": 47.0, "leg_fl.thickness": 47.0})
    slope_x, slope_y = math.tan(math.radians(7.0)), math.tan(math.radians(5.0))
    length = math.sqrt(1.0 + slope_x**2 + slope_y**2)
    gx, gy = slope_x / length, slope_y / length
    each = 0.5 / math.sqrt(1.0 - gx**2) - 0.5 * gx * gy / (1.0 - gx**2)
    for name in ("apron_front", "apron_back"):
        got = piece.parts[name].length_mm - drawn.parts[name].length_mm
        assert got == pytest.approx(2.0 * each, abs=1e-4)
        assert got == pytest.approx(0.997, abs=5e-4)
    assert [n.name for n in record(piece).names] == ["leg"]


def test_one_leg_thinner_than_those_made_already_keeps_the_faces_the_aprons_stand_against() -> None:
    """The wood that is missing is missing outside: no apron changes, and one leg alone has another size."""
    drawn = look_at(EXAMPLES / "reading_table.yaml").piece
    made = ("leg_fr", "leg_bl", "leg_br")
    piece = piece_as("reading_table", measured={"leg_fl.width": 47.0}, done=made)
    assert piece.parts["leg_fl"].width_mm == 47.0
    for name in ("apron_front", "apron_left", "apron_back"):
        assert piece.parts[name].length_mm == pytest.approx(drawn.parts[name].length_mm, abs=0.01)
    for name in made:
        assert piece.parts[name].frame == drawn.parts[name].frame
        assert piece.parts[name].length_mm == pytest.approx(drawn.parts[name].length_mm)


def test_legs_that_differ_by_no_more_than_half_a_millimeter_count_by_their_mean() -> None:
    """47.2, 47.0 and 46.8 mm are one size: the name is 47.0, and each leg keeps its own."""
    measured = {"leg_fl.width": 47.2, "leg_fr.width": 47.0, "leg_bl.width": 46.8}
    piece = piece_as("reading_table", measured=measured)
    assert [(n.name, round(n.stands_mm, 6)) for n in record(piece).names] == [("leg", 47.0)]
    assert [piece.parts[p].width_mm for p in ("leg_fl", "leg_fr", "leg_bl", "leg_br")] == [
        47.2,
        47.0,
        46.8,
        47.0,
    ]


def test_apron_cut_short_stays_short_and_a_shorter_table_is_a_way_out() -> None:
    """2 mm short between two legs: a top 2 mm shorter brings each leg 1 mm nearer; nothing else would do."""
    drawn = look_at(EXAMPLES / "reading_table.yaml").piece.parts["apron_front"].length_mm
    piece = piece_as("reading_table", measured={"apron_front.length": drawn - 2.0})
    (size,) = record(piece).sizes
    assert (size.name, size.cut, size.off_mm) == ("apron_front.length", True, pytest.approx(-2.0))
    assert [(way.parameter, way.value_mm) for way in record(piece).ways] == [("length", 1368.0)]
    assert piece.parts["apron_back"].length_mm == pytest.approx(drawn)


def test_a_table_made_to_the_short_apron_cannot_have_its_other_apron_made_already() -> None:
    """With the back apron cut to its full length, a shorter table would make that one 2 mm too long."""
    drawn = look_at(EXAMPLES / "reading_table.yaml").piece.parts["apron_front"].length_mm
    piece = piece_as("reading_table", measured={"apron_front.length": drawn - 2.0}, done=("apron_back",))
    assert record(piece).ways == ()


def test_drawer_opening_measured_gives_the_drawers_their_size() -> None:
    """The opening is 420.5 mm in place of 422: fronts 1 mm from either side of it, 418.5 long, as is the box.

    Its back stands between two sides of 14 mm, its bottom 6 mm in each. From the leg, 655 left of the middle,
    1 to the box and 418.5 less half a side to the middle of the right one.
    """
    piece = piece_as("sideboard", measured={"drawer_width": 418.5}, done=("divider", "partition"))
    assert piece.parts["drawer_front_1"].length_mm == pytest.approx(418.5)
    assert piece.parts["drawer_back_3"].length_mm == pytest.approx(418.5 - 28.0)
    assert piece.parts["drawer_bottom_2"].length_mm == pytest.approx(418.5 - 28.0 + 12.0)
    middle = piece.parts["drawer_side_right_1"].frame.origin[0]
    assert middle == pytest.approx(-655.0 + 1.0 + 418.5 - 7.0)
    assert piece.parts["divider"].length_mm == pytest.approx(640.0)


def test_a_drawer_rail_that_is_done_is_told_beside_the_opening_measured() -> None:
    """Cut 422 mm between leg and divider, and asked for 420.5: what is done stays."""
    piece = piece_as("sideboard", measured={"drawer_width": 418.5}, done=("drawer_rail_1",))
    rail = record(piece).size("drawer_rail_1", "length")
    assert rail is not None
    assert (rail.cut, rail.off_mm) == (True, pytest.approx(1.5))
    assert record(piece).ways == ()


def test_a_panel_grows_with_the_opening_of_a_rail_planed_narrower() -> None:
    """An upper side rail 1 mm narrower keeps its edge under the top; what is below it gets 1 mm longer."""
    drawn = look_at(EXAMPLES / "sideboard.yaml").piece
    measured = {"side_upper_left.width": 79.0}
    piece = piece_as("sideboard", measured=measured, done=("side_upper_right", "back_upper"))
    assert piece.parts["side_upper_left"].frame.origin[2] == pytest.approx(
        drawn.parts["side_upper_left"].frame.origin[2] + 0.5
    )
    grown = piece.parts["side_panel_fl"].length_mm - drawn.parts["side_panel_fl"].length_mm
    assert grown == pytest.approx(1.0)
    muntins = [one.parts["side_muntin_left"].length_mm for one in (piece, drawn)]
    assert muntins[0] - muntins[1] == pytest.approx(1.0)
    assert piece.parts["side_panel_fr"].length_mm == pytest.approx(drawn.parts["side_panel_fr"].length_mm)


def test_lengths_are_told_over_tenons_and_shoulders_between_them() -> None:
    """The top of the reading table is 1220 mm between its breadboard ends and has 48 mm of tenon at each."""
    over = piece_as("reading_table", measured={"top.length": 1314.0})
    between = piece_as("reading_table", measured={"top.shoulders": 1218.0})
    assert over.parts["top"].length_mm == pytest.approx(1218.0)
    assert between.parts == over.parts
    size = record(over).size("top", "length")
    assert size is not None
    assert (size.drawn_mm, size.stands_mm) == pytest.approx((1316.0, 1314.0))


def test_what_hangs_on_a_part_alone_moves_with_its_end() -> None:
    """A top 2 mm shorter, with an apron made by the length drawn: each end stands 1 mm nearer the middle."""
    drawn = look_at(EXAMPLES / "reading_table.yaml").piece
    built = Built(measured={"top.length": 1314.0}, cut={"apron_front.length": None})
    piece = look_at(EXAMPLES / "reading_table.yaml", built=built).piece
    left = piece.parts["end_left"].middle[0] - drawn.parts["end_left"].middle[0]
    right = piece.parts["end_right"].middle[0] - drawn.parts["end_right"].middle[0]
    assert (left, right) == pytest.approx((1.0, -1.0))


def test_without_its_measures_a_piece_is_as_drawn() -> None:
    """Taking back the last measure brings the plan back."""
    drawn = look_at(EXAMPLES / "reading_table.yaml").piece
    assert look_at(EXAMPLES / "reading_table.yaml", built=Built()).piece == drawn


def test_names_the_piece_no_longer_has_are_told() -> None:
    """A measure of a part that was left out since is kept and told, and nothing else is upset."""
    piece = piece_as("reading_table", measured={"stretcher.length": 900.0, "splay": 3.0})
    assert record(piece).unknown == ("stretcher.length", "splay")
    assert record(piece).sizes == ()


@pytest.mark.parametrize("name", ["reading_table", "hall_bench"])
def test_every_part_may_come_out_thinner_or_narrower_or_shorter(name: str) -> None:
    """A millimeter less anywhere, with all the others made: it can still be drawn, and what is made stays."""
    drawn = look_at(EXAMPLES / f"{name}.yaml").piece
    tried = set()
    for part in drawn.parts.values():
        if part.like in tried:
            continue
        tried.add(part.like)
        others = {
            f"{o}.{size}": None for o in drawn.parts if o != part.name for size in ("width", "thickness")
        }
        for size in ("width", "thickness"):
            measured = {f"{part.name}.{size}": getattr(part, f"{size}_mm") - 1.0}
            reading = look_at(EXAMPLES / f"{name}.yaml", built=Built(measured=measured, cut=others))
            assert every_fault(reading, shop=None, room=None) == ()
            kept = {p: (x.width_mm, x.thickness_mm) for p, x in reading.piece.parts.items() if p != part.name}
            assert kept == {p: (x.width_mm, x.thickness_mm) for p, x in drawn.parts.items() if p != part.name}
