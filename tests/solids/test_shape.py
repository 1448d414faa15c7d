"""What a shape gathers, and when two shapes are one form."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.joinery.work import Extension, JointWork
from scantling.piece.geometry import Plane
from scantling.piece.model import End, RoundSection, Trim
from scantling.solids.shape import content_key, shapes_of
from tests.solids.sticks import bar, busy_bar, hole, shaped, slot, square_trim
from tests.solids.table import table


def test_each_part_gets_the_cuts_and_extensions_of_all_its_joints():
    """Both sides of a joint are cut, and a part with several joints has the cuts of them all."""
    piece, works = table()
    longer = Extension(part="top", end=End.END, length_mm=8.0)
    tongue = JointWork(
        joint="t",
        family="f",
        first="top",
        second="leg_fl",
        at=(0, 0, 0),
        leaves=(1, 0, 0),
        extensions=(longer,),
    )
    shapes = shapes_of(piece, (*works, tongue))
    assert list(shapes) == list(piece.parts)
    assert {name: len(s.cuts) for name, s in shapes.items() if s.cuts} == {
        **dict.fromkeys(("leg_fl", "leg_fr", "leg_bl", "leg_br"), 2),
        **dict.fromkeys(("apron_front", "apron_back", "apron_left", "apron_right"), 2),
    }
    assert shapes["top"].extension_mm(End.END) == 8.0
    assert shapes["top"].extension_mm(End.START) == 0.0


def test_the_four_mirrored_legs_are_one_form_and_the_aprons_two():
    """Handed legs and opposite aprons share a key, although rounding differs between their frames."""
    piece, works = table()
    keys = {name: content_key(shape) for name, shape in shapes_of(piece, works).items()}
    assert len({keys[f"leg_{c}"] for c in ("fl", "fr", "bl", "br")}) == 1
    assert keys["apron_front"] == keys["apron_back"]
    assert keys["apron_left"] == keys["apron_right"]
    assert len(set(keys.values())) == 4


def test_the_order_of_cuts_their_repetition_and_the_point_of_a_plane_do_not_matter():
    """They describe the same wood."""
    one = shaped(bar(), slot((300, 0, 20)), hole((100, 0, 20)))
    other = shaped(bar(), hole((100, 0, 20)), slot((300, 0, 20)), hole((100, 0, 20)))
    assert content_key(one) == content_key(other)
    moved = Trim(plane=Plane(point=(700.0, 12.0, -3.0), normal=(1.0, 0.0, 0.0)), end=End.END, by="square")
    part = replace(bar(), trims=(square_trim(End.START, 0.0), moved))
    assert content_key(shaped(part)) == content_key(shaped(bar()))


def test_name_wood_and_place_do_not_matter():
    """The key is of the form alone."""
    part = replace(bar("other"), species="white oak", note="crisp arrises")
    assert content_key(shaped(part)) == content_key(shaped(bar()))


@pytest.mark.parametrize(
    "changed",
    [
        shaped(bar(length=700.001)),
        shaped(bar(width=60.001)),
        shaped(bar(thickness=40.001)),
        shaped(replace(bar(), round=RoundSection(start_mm=40.0, end_mm=40.0))),
        shaped(bar(), hole((300, 0, 20))),
        shaped(bar(), hole((300, 0, 20), depth=20.001)),
        shaped(bar(), extensions=(Extension(part="bar", end=End.END, length_mm=1.0),)),
        shaped(bar(), extensions=(Extension(part="bar", end=End.START, length_mm=1.0),)),
        busy_bar(),
    ],
)
def test_any_change_of_form_changes_the_key(changed):
    """A thousandth of a millimeter is a change."""
    others = (shaped(bar()), shaped(bar(), hole((300, 0, 20.0), depth=20.002)))
    assert content_key(changed) not in {content_key(other) for other in others}
