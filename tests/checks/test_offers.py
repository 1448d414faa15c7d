"""Parts that meet with no joint between them, and the joints offered there, taken at their word."""

from __future__ import annotations

import pytest

from checks.bench import work
from checks.test_loose import BROAD, OPTIONS, PAIRS, PLY, POST, RAIL, made
from scantling.checks.offers import unjoined
from scantling.joinery.joining import join, load_piece_text
from tests.joinery.bench import YEAR

MORE = {
    **OPTIONS,
    "cross_bolt": ", bolt: [6 mm, 70 mm], nut_face: front, dowels: 0",
    "spline": ", depth: 6 mm",
    "plain_screw": ", screw: [4 mm, 50 mm], counterbore: 20 mm",
}


def text_of(parts: str, joints: str = "") -> str:
    """A piece file."""
    return f"scantling: 1\ntitle: t\nunits: mm\nparts:\n{parts}{joints}"


@pytest.mark.parametrize("name", PAIRS)
def test_every_joint_offered_can_be_made_there(name: str) -> None:
    """The pair as offered, with options that fit, joins the two parts; then nothing is offered any more."""
    piece = load_piece_text(text_of(PAIRS[name]))
    [meets] = unjoined(piece, ())
    assert meets.offers
    for offer in meets.offers:
        asked = f"kind: {offer.family}, between: [[{offer.first}, {offer.second}]]{MORE[offer.family]}"
        joined = load_piece_text(text_of(PAIRS[name], f"joints:\n  j: {{{asked}}}\n"))
        assert unjoined(joined, join(joined, moisture=YEAR)) == ()
        assert offer.reason


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("end on side", "mortise_tenon"),
        ("end in line", "dowel_pin"),
        ("shelf end", "housing"),
        ("box corner", "dovetail"),
        ("panel end", "breadboard_end"),
        ("sheet end", "breadboard_end"),
        ("top on rail", "slotted_screw"),
        ("edges", "edge_glue"),
        ("faces", "face_lamination"),
        ("across", "slotted_screw"),
        ("crossing", "halving"),
        ("panel in rail", "panel_groove"),
    ],
)
def test_the_first_choice_is_the_trades(name: str, first: str) -> None:
    """End grain gets a tenon, a broad end a housing, long grain glue, a top what lets it move."""
    [meets] = unjoined(load_piece_text(text_of(PAIRS[name])), ())
    assert meets.offers[0].family == first


def test_a_contact_is_told_by_its_faces_and_area() -> None:
    """A rail of 50 x 22 on the right of a post: its start on the post's right face, 1100 mm2."""
    [meets] = unjoined(load_piece_text(text_of(POST + RAIL)), ())
    assert (meets.one, meets.other, meets.faces) == ("post", "rail", ("right", "start"))
    assert meets.area_mm2 == pytest.approx(50.0 * 22.0)


def test_parts_that_stand_apart_or_touch_at_a_corner_are_not_told() -> None:
    """A tenth of a millimeter of gap, and a contact of 4 mm by 5 mm."""
    gap = POST + made("rail", "220.2, 0, 200", "right", "50, 22")
    assert unjoined(load_piece_text(text_of(gap)), ()) == ()
    corner = POST + made("rail", "220, 27, 402", "right", "8, 22")
    [meets] = unjoined(load_piece_text(text_of(POST + made("rail", "220, 27, 380", "right", "8, 22"))), ())
    assert meets.area_mm2 == pytest.approx(8.0 * 4.0)
    assert unjoined(load_piece_text(text_of(corner)), ()) == ()


def test_a_broad_side_takes_a_sticks_end_by_a_tenon() -> None:
    """A rail's end on a panel is no shelf: no housing."""
    side = made("side", "0, 0, 200", "top", "200, 20", **BROAD)
    parts = side + made("rail", "210, 0, 200", "right", "50, 22")
    [meets] = unjoined(load_piece_text(text_of(parts)), ())
    assert meets.offers[0].family == "mortise_tenon"


FIELD = made("field", "0, 0, 200", "right", "400, 24", **BROAD)


def families_on(stick: str) -> list[str]:
    """What is offered where the panel's end lies on a stick across it."""
    [meets] = unjoined(load_piece_text(text_of(FIELD + stick)), ())
    return [offer.family for offer in meets.offers]


def test_a_panels_end_on_a_stick_across_it_takes_a_breadboard_end_before_a_housing() -> None:
    """The reason is that the panel must be free; a cap of 36 mm on 24 is still one, a rail of 37 is not."""
    cap = made("cap", "245, 0, 200", "back", "90, 36", width_toward="right")
    assert families_on(cap)[:2] == ["breadboard_end", "housing"]
    [meets] = unjoined(load_piece_text(text_of(FIELD + cap)), ())
    assert "change its width over the year" in meets.offers[0].reason
    assert (meets.offers[0].first, meets.offers[0].second) == ("cap", "field.end")
    deep = made("cap", "245, 0, 200", "back", "90, 37", width_toward="right")
    assert families_on(deep)[0] == "housing"


def test_a_stick_along_an_upright_or_too_short_is_no_end_cap() -> None:
    """A post stands across the thickness; a stick of 359 mm covers less than nine tenths of 400 mm."""
    post = made("cap", "220, 0, 200", "top", "40, 40", width_toward="right")
    assert "breadboard_end" not in families_on(post)
    short = made("cap", "245, 0, 200", "back", "90, 24", width_toward="right", length="359 mm")
    assert "breadboard_end" not in families_on(short)
    enough = made("cap", "245, 0, 200", "back", "90, 24", width_toward="right", length="361 mm")
    assert families_on(enough)[0] == "breadboard_end"


SIDE_BOARD = made("side", "0, 0, 75", "right", "150, 15")


def corner_with(front: str) -> list[str]:
    """What is offered where the side of a box ends on its front."""
    [meets] = unjoined(load_piece_text(text_of(SIDE_BOARD + front)), ())
    return [offer.family for offer in meets.offers]


def test_boards_that_end_at_each_other_are_a_corner_and_those_between_are_not() -> None:
    """Flush or 2 mm past, to be planed off; set in, in plywood, or a square stick, there are no tails."""
    flush = corner_with(made("front", "207.5, 192.5, 75", "back", "150, 15"))
    assert flush == ["dovetail", "finger_joint", "dowel_pin"]
    assert corner_with(made("front", "207.5, 190.5, 75", "back", "150, 15"))[0] == "dovetail"
    for at in ("207.5, 189, 75", "207.5, 0, 75"):
        assert "dovetail" not in corner_with(made("front", at, "back", "150, 15"))
    plywood = corner_with(made("front", "207.5, 192.5, 75", "back", "150, 15", **{**PLY, "kind": "sheet"}))
    assert plywood[0] == "finger_joint"
    assert "dovetail" not in plywood
    assert corner_with(made("front", "207.5, 192.5, 75", "back", "20, 15"))[0] == "mortise_tenon"


RAIL_POST = made("rail", "220, 0, 375", "right", "50, 22") + POST
TOP = made("top", "200, 0, 412.5", "right", "300, 25", **BROAD)
TIED = "  tie: {kind: mortise_tenon, between: [[rail.start, post]], length: 20 mm}\n"
CLIPS = f"  clips: {{kind: top_clip, between: [[rail.front, top]]{OPTIONS['top_clip']}}}\n"


def top_on_post(joints: str, top: str = TOP) -> tuple[list[str], str]:
    """What is offered between a top and the post under it, and why it is held already."""
    piece = load_piece_text(text_of(RAIL_POST + top, f"joints:\n{joints}" if joints else ""))
    works = join(piece, moisture=YEAR)
    [meets] = [m for m in unjoined(piece, works) if {m.one, m.other} == {"post", "top"}]
    return [offer.family for offer in meets.offers], meets.held


def test_a_top_held_by_clips_gets_no_stiff_joint_to_the_post_it_touches() -> None:
    """It is said to be held already; without the clips, or with the rail loose from the post, it is not."""
    families, held = top_on_post(TIED + CLIPS)
    assert families == []
    assert held == "top is held already, free to move, by top clips at rail."
    for joints in (TIED, CLIPS):
        families, held = top_on_post(joints)
        assert families[0] == "mortise_tenon"
        assert held == ""


def test_plain_screws_do_not_count_as_letting_it_move() -> None:
    """Neither does a sheet need to: it hardly changes its width."""
    screws = f"  screws: {{kind: plain_screw, between: [[rail, top]]{MORE['plain_screw']}}}\n"
    assert top_on_post(TIED + screws)[1] == ""
    sheet = made("top", "200, 0, 412.5", "right", "300, 25", **{**BROAD, **PLY})
    assert top_on_post(TIED + CLIPS, sheet)[1] == ""


def test_parts_that_move_past_each_other_in_use_are_offered_nothing() -> None:
    """A lid hung on a back touches the front; hung by what holds it still, it is offered joints."""
    parts = PAIRS["top on rail"] + made("back", "0, 400, 100", "right", "60, 22")
    piece = load_piece_text(text_of(parts))
    tie = work("tie", "back", "rail")
    [meets] = unjoined(piece, (tie, work("hinges", "top", "back", passes=True)))
    assert (meets.offers, meets.held) == ((), "rail and top move past each other in use.")
    [meets] = unjoined(piece, (tie, work("hinges", "top", "back")))
    assert meets.offers
    assert meets.held == ""
