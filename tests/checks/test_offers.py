"""Parts that meet with no joint between them, and the joints offered there, taken at their word."""

from __future__ import annotations

import pytest

from checks.test_loose import BROAD, OPTIONS, PAIRS, POST, RAIL, made
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
