"""An end trimmed by a tapered leg stops at the face it really meets."""

from __future__ import annotations

import pytest

from scantling.errors import FileFaults
from scantling.joinery.joining import join, load_piece_text
from scantling.piece.contact import contacts
from scantling.piece.model import Piece
from scantling.wood.moisture import MoistureRange

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=12.0)
LEG_MM, BEGIN_MM, FOOT_MM, STAND_MM = 45.0, 100.0, 30.0, 700.0


def tied(z_mm: float, *, faces: str = "right", joints: str = "") -> Piece:
    """Two legs 600 mm apart, tapered below 100 mm from the top, and a rail 50 mm high between them."""
    text = f"""
scantling: 1
title: t
units: mm
parts:
  leg_l:
    kind: stick
    species: white oak
    from: [-300, 0, 0]
    to: [-300, 0, {STAND_MM}]
    section: [{LEG_MM}, {LEG_MM}]
    width_toward: right
    taper: {{toward: start, begin: {BEGIN_MM}, to: {FOOT_MM}, faces: [{faces}]}}
    copies: {{leg_r: {{mirror: [left-right]}}}}
  rail:
    kind: stick
    species: white oak
    from: [-300, 0, {z_mm}]
    to: [300, 0, {z_mm}]
    section: [50, 22]
    width_toward: top
    trim: {{start: leg_l.right, end: leg_r.left}}
{joints}"""
    return load_piece_text(text)


@pytest.mark.parametrize(("faces", "loss"), [("right", 15.0), ("left, right", 7.5)])
def test_a_rail_in_the_taper_reaches_the_tapered_face(faces: str, loss: float) -> None:
    """Length by similar triangles: the face stands back by its share of the loss at the rail's lower edge."""
    rail = tied(150.0, faces=faces).parts["rail"]
    back = loss * (STAND_MM - BEGIN_MM - 125.0) / (STAND_MM - BEGIN_MM)
    assert rail.length_mm == pytest.approx(600.0 - LEG_MM + 2.0 * back)


@pytest.mark.parametrize("leg", ["leg_l", "leg_r"])
def test_the_whole_end_lies_on_the_leg(leg: str) -> None:
    """The end of the rail, 50 by 22 mm and a little out of square, touches the leg all over."""
    piece = tied(150.0)
    (contact,) = contacts(piece.parts["rail"], piece.parts[leg])
    assert contact.area_mm2 == pytest.approx(50.0 * 22.0 * (1.0 + (15.0 / 600.0) ** 2) ** 0.5)


def test_above_the_taper_the_plain_face_counts() -> None:
    """A rail at the straight top of the legs is as long as if they were not tapered."""
    assert tied(660.0).parts["rail"].length_mm == pytest.approx(600.0 - LEG_MM)


def test_where_the_taper_begins_the_middle_of_the_rail_decides() -> None:
    """Just below the line at which the taper begins the end is out of square, just above it square."""
    below, above = (tied(z).parts["rail"].length_mm for z in (590.0, 610.0))
    assert below > 600.0 - LEG_MM
    assert above == pytest.approx(600.0 - LEG_MM)


@pytest.mark.parametrize("second", ["leg_l", "leg_l.right"])
def test_a_joint_may_name_the_side_or_leave_it_out(second: str) -> None:
    """A tapered face is still the right side of its leg; the left side is refused."""
    joint = f"joints:\n  j: {{kind: mortise_tenon, between: [[rail.start, {second}]], length: 15}}\n"
    assert join(tied(150.0, joints=joint), moisture=YEAR)
    with pytest.raises(FileFaults):
        join(tied(150.0, joints=joint.replace(second, "leg_l.left")), moisture=YEAR)
