"""Strength of whole pieces: what is judged, under what load, and what is said of the rest."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.checks.subject import Subject
from scantling.joinery import load_piece_text
from scantling.piece.convex import body_of
from scantling.piece.model import PartKind, Stands
from scantling.plan.planner import Planner, make_plan
from scantling.plan.standing.opened import drawers_of, load_kg
from scantling.plan.standing.strength import _loads, _longest_gap, _room_to_sit, _run_over
from scantling.plan.year.seasons import moisture_of
from scantling.structure.gravity import GRAVITY_M_S2
from tests.plan.jobs import shipped_job, shipped_plan


def test_a_seat_carries_its_sitters_between_the_legs() -> None:
    """The brief's 160 kg lie on the span, not 160 kg times span over length; of the seat, what spans."""
    plan = shipped_plan("hall_bench", rack=False)
    (seat,) = plan.strength.sags
    own = next(part.mass_kg for part in plan.parts if part.name == "seat") * seat.beam.span_mm / 1220.0
    assert own > 6.0
    assert seat.beam.load_n == pytest.approx((160.0 + own) * GRAVITY_M_S2)


def test_nothing_lies_on_a_dust_panel() -> None:
    """The chest's 25 kg lie on its top, 616 of 800 mm of it free, and not on the panels under its drawers."""
    plan = shipped_plan("five_drawer_chest", rack=False)
    top = next(check for check in plan.strength.sags if check.part == "top")
    own = next(part.mass_kg for part in plan.parts if part.name == "top")
    assert top.beam.load_n == pytest.approx((25.0 + own) * GRAVITY_M_S2 * 616.0 / 800.0)
    assert not any("dust_panel" in one.part for one in plan.strength.carried)
    assert any("dust_panel_1" in line and "drawer runs" in line for line in plan.strength.unjudged)


_BOARD_ON_RAILS = """
scantling: 1
title: board on rails
units: mm
parts:
  board: {kind: panel, species: WOOD, center: [0, 0, 712], along: right, length: 800, section: [280, 24],
          width_toward: back}
  rail: {kind: stick, species: black walnut, center: [0, -100, 690], along: right, length: 700,
         section: [40, 20], width_toward: back, copies: {other: {mirror: [front-back]}}}
joints:
  held: {kind: slotted_screw, between: [[rail, board], [other, board]]}
brief: {load: 14 kg}
"""


@pytest.mark.parametrize(
    ("wood", "without", "why"),
    [
        ("black walnut", "", "what carries it runs along it"),
        ("black walnut", ", [other, board]", "carried in fewer than two places"),
        ("winged elm", "", "of a wood without a published stiffness"),
    ],
)
def test_why_a_board_is_not_judged_is_said_of_that_board(wood: str, without: str, why: str) -> None:
    """Rails all along it leave no span; one rail is one place; of some woods no stiffness is published."""
    job = shipped_job("reading_table", rack=False)
    text = _BOARD_ON_RAILS.replace("WOOD", wood).replace(without or "\0", "")
    plan = make_plan(replace(job, piece=load_piece_text(text)))
    (said,) = [line for line in plan.strength.unjudged if line.startswith("Sag of board")]
    assert said.startswith(f"Sag of board: {why}")


def _chest_subject() -> Subject:
    job, planner = shipped_job("five_drawer_chest", rack=False), Planner()
    return Subject(piece=job.piece, works=planner.works(job), moisture=moisture_of(job.shop, job.room))


@pytest.mark.parametrize(
    ("raised_mm", "wider_mm", "over", "resting"),
    [(0.0, 0.0, True, False), (6.2, 0.0, False, True), (0.0, 2000.0, False, False)],
)
def test_a_board_is_taken_out_only_where_drawers_clear_nearly_all_of_it(
    raised_mm: float, wider_mm: float, over: bool, resting: bool
) -> None:
    """Raised until the drawer rests on it, a panel bears what lies in it; on a wider one things can lie."""
    subject = _chest_subject()
    panel = subject.part("dust_panel_1")
    x, y, z = panel.frame.origin
    moved = replace(
        panel, frame=replace(panel.frame, origin=(x, y, z + raised_mm)), width_mm=panel.width_mm + wider_mm
    )
    subject = replace(subject, piece=replace(subject.piece, parts={**subject.piece.parts, panel.name: moved}))
    drawers = drawers_of(subject.piece, subject.works)
    assert _run_over(subject, moved, drawers) is over
    found = _loads(subject)
    assert (moved not in found) is over
    if not over:
        top = subject.part("top")
        mine, whole = (sum(p.length_mm * p.width_mm for p in parts) for parts in ((moved,), (moved, top)))
        bears = load_kg(subject, drawers[0]) if resting else 0.0
        assert found[moved] == pytest.approx(25.0 * mine / whole + bears)


def test_a_shelf_carries_what_lies_on_its_span() -> None:
    """Books are spread over a shelf, so its load grows with the span it is judged over."""
    shelf = shipped_plan("bookcase", rack=False).strength.sags[0]
    per_mm = shelf.beam.load_n / shelf.beam.span_mm
    assert 0.0 < per_mm * shelf.beam.span_mm < 160.0 * GRAVITY_M_S2


def test_every_shelf_is_judged_high_or_low() -> None:
    """A back that is screwed to boards carries none; what lies on pins is judged as what is housed."""
    strength = shipped_plan("bookcase", rack=False).strength
    loose = (f"{where}_shelf_{number}" for where in ("lower", "upper") for number in (1, 2))
    assert {check.part for check in strength.sags} == {"bottom", "mid_shelf", "top", *loose}
    assert len({round(check.beam.span_mm, 3) for check in strength.sags}) == 1
    assert not any("Sag of" in line for line in strength.unjudged)


def test_silence_is_not_approval() -> None:
    """Round legs are not put through the racking sum, and no load is named for the table: both are said."""
    bench = shipped_plan("hall_bench", rack=False).strength
    table = shipped_plan("reading_table", rack=False).strength
    assert bench.frames == ()
    assert any(line.startswith("Racking") for line in bench.unjudged)
    assert table.sags == ()
    assert any("no load" in line for line in table.unjudged)


@pytest.mark.parametrize(
    ("rests", "longest"),
    [
        ([(0.0, 20.0), (500.0, 520.0), (900.0, 920.0)], 480.0),
        ([(0.0, 600.0), (100.0, 120.0), (700.0, 720.0)], 100.0),
        ([(0.0, 20.0)], 0.0),
        ([], 0.0),
    ],
)
def test_the_span_is_between_what_carries(rests: list[tuple[float, float]], longest: float) -> None:
    """A support that lies within another does not open a span of its own."""
    assert _longest_gap(rests) == pytest.approx(longest)


def test_what_hangs_on_a_wall_is_not_tipped_over() -> None:
    """The brief says ``stands: wall``: no feet are pressed on, and the fixing is left to someone licensed."""
    job = shipped_job("bookcase")
    brief = replace(job.piece.brief, stands=Stands.WALL)
    hung = make_plan(replace(job, piece=replace(job.piece, brief=brief))).strength
    assert make_plan(job).strength.tip is not None
    assert hung.tip is None
    assert hung.frames == ()
    assert any("hung on the wall, which holds it upright" in said for said in hung.unjudged)
    assert any("hung on the wall: not judged here" in said and "licensed" in said for said in hung.unjudged)


@pytest.mark.parametrize("kind", [PartKind.LAMINATION, PartKind.STICK])
def test_a_top_is_judged_whatever_it_is_glued_from(kind: PartKind) -> None:
    """Glued from layers or of one board, the desk's top is leaned on and sags as the same top of strips."""
    job = shipped_job("trestle_desk", rack=False)
    top = replace(job.piece.parts["top"], kind=kind, strips=None)
    other = replace(job, piece=replace(job.piece, parts={**job.piece.parts, "top": top}))
    strips, whole = (Planner().plan(each).strength for each in (job, other))
    assert strips.tip is not None
    assert whole.tip == strips.tip
    assert [check.beam.load_n for check in whole.sags] == [check.beam.load_n for check in strips.sags]
    assert whole.sags
    assert not any(said.startswith("Tipping") for said in whole.unjudged)


def test_a_top_of_sheet_is_tipped_and_its_sag_said_not_to_be_judged() -> None:
    """What is pressed on needs no known stiffness; how far it sags does."""
    job = shipped_job("trestle_desk", rack=False)
    top = replace(job.piece.parts["top"], kind=PartKind.SHEET, species="birch plywood", strips=None)
    strength = make_plan(
        replace(job, piece=replace(job.piece, parts={**job.piece.parts, "top": top}))
    ).strength
    assert strength.tip is not None
    assert strength.sags == ()
    assert "Sag of top: of sheet material, which is not judged here." in strength.unjudged


def test_legs_of_sheet_are_said_not_to_be_judged() -> None:
    """A leg cut from plywood has no wood's stiffness; the plan is made all the same."""
    job = shipped_job("hall_bench", rack=False)
    parts = {
        name: replace(part, kind=PartKind.SHEET, species="birch plywood", round=None)
        if "leg" in name
        else part
        for name, part in shipped_job("reading_table", rack=False).piece.parts.items()
    }
    piece = replace(shipped_job("reading_table", rack=False).piece, parts=parts)
    strength = make_plan(replace(job, piece=piece)).strength
    assert strength.frames == ()
    assert "Racking: legs of sheet material are not judged here." in strength.unjudged


def test_a_frame_hung_on_the_wall_is_not_pushed_over() -> None:
    """The table's legs reach the floor and are pushed; hung, the wall holds it."""
    job = shipped_job("reading_table", rack=False)
    hung = replace(job.piece, brief=replace(job.piece.brief, stands=Stands.WALL))
    assert make_plan(job).strength.frames
    assert make_plan(replace(job, piece=hung)).strength.frames == ()


@pytest.mark.parametrize(("length", "codes"), [("2260", []), ("2259", ["F44"])])
def test_a_table_for_eight_seats_one_at_each_end(length: str, codes: list[str]) -> None:
    """Legs of 80 set 150 in: three places a side want 1 800 mm between them; the ends take one each."""
    size = {"length": length, "width": "950", "splay": "0", "rake": "0", "leg": "80", "leg_foot": "38"}
    job, planner = shipped_job("reading_table", rack=False, given=size), Planner()
    piece = replace(job.piece, brief=replace(job.piece.brief, seats=8))
    subject = Subject(piece=piece, works=planner.works(job), moisture=moisture_of(job.shop, job.room))
    found = [each for each in _room_to_sit(subject) if each.code == "F44"]
    assert [each.code for each in found] == codes


@pytest.mark.parametrize(("arms", "codes"), [(-10.0, []), (-9.0, ["F43"])])
def test_the_arms_of_the_chairs_are_held_against_the_apron(arms: float, codes: list[str]) -> None:
    """10 mm are wanted between the arms and the lower edge of the apron; nothing is said of no arms."""
    job, planner = shipped_job("reading_table", rack=False), Planner()
    base = Subject(piece=job.piece, works=planner.works(job), moisture=moisture_of(job.shop, job.room))
    up = (0.0, 0.0, 1.0)
    under = min(body_of(part).extent(up)[0] for name, part in job.piece.parts.items() if "apron" in name)
    asked = replace(job.piece, brief=replace(job.piece.brief, chair_arms_mm=under + arms))
    told = _room_to_sit(replace(base, piece=asked))
    assert [each.code for each in told if each.code == "F43"] == codes
    assert not [each for each in _room_to_sit(base) if each.code == "F43"]
