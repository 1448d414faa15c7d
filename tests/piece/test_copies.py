"""Copies: mirrored, turned, moved and repeated parts are the same wood standing elsewhere."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.joinery import load_piece_text
from scantling.piece.contact import contacts
from scantling.piece.convex import body_of
from scantling.piece.geometry import Vec, cross, dot
from scantling.piece.model import Direction, Part
from tests.joinery.bench import file_text

LEG: dict[str, Any] = {
    "kind": "stick",
    "species": "black cherry",
    "from": [-90, -60, 0],
    "to": [-40, -30, 400],
    "section": [48, 36],
    "width_toward": "right",
    "trim": {"start": "floor", "end": "plate.bottom"},
    "taper": {"toward": "start", "begin": 80, "to": 28, "faces": ["right"]},
    "show": ["left", "front"],
}
PLATE: dict[str, Any] = {
    "kind": "stick",
    "species": "black cherry",
    "from": [-200, 0, 410],
    "to": [200, 0, 410],
    "section": [300, 20],
    "width_toward": "back",
}
MIRRORS = st.sampled_from(((), ("left-right",), ("front-back",), ("left-right", "front-back")))


def pair(copy: dict[str, Any]) -> tuple[Part, Part]:
    """A leg and its copy."""
    parts = load_piece_text(file_text({"plate": PLATE, "leg": {**LEG, "copies": {"other": copy}}})).parts
    return parts["leg"], parts["other"]


def carried(point: Vec, copy: dict[str, Any]) -> Vec:
    """Where a point of the leg stands in its copy."""
    x, y, z = point
    x = -x if "left-right" in copy["mirror"] else x
    y = -y if "front-back" in copy["mirror"] else y
    a = math.radians(copy["turn"])
    dx, dy, dz = copy["move"]
    return (x * math.cos(a) - y * math.sin(a) + dx, x * math.sin(a) + y * math.cos(a) + dy, z + dz)


@settings(max_examples=15)
@given(
    mirror=MIRRORS,
    turn=st.integers(-180, 180),
    move=st.tuples(*[st.integers(-300, 300)] * 3),
)
def test_a_copy_is_the_part_carried_over(mirror: tuple[str, ...], turn: int, move: tuple[int, ...]) -> None:
    """The middle of every face lands where mirror, turn and move put it; volume, areas and sizes stay."""
    copy = {"mirror": list(mirror), "turn": turn, "move": list(move)}
    leg, other = pair(copy)
    one, two = body_of(leg), body_of(other)
    for face, its_copy in zip(one.faces, two.faces, strict=True):
        assert its_copy.center == pytest.approx(carried(face.center, copy), abs=1e-6)
        assert its_copy.area_mm2 == pytest.approx(face.area_mm2)
    assert two.volume_mm3 == pytest.approx(one.volume_mm3)
    assert (other.like, other.length_mm) == (leg.like, leg.length_mm)


@pytest.mark.parametrize(
    ("mirror", "handed", "show"),
    [
        ((), False, {"left", "front"}),
        (("left-right",), True, {"right", "front"}),
        (("front-back",), True, {"left", "back"}),
        (("left-right", "front-back"), False, {"right", "back"}),
    ],
)
def test_one_mirror_makes_the_other_hand_and_two_do_not(
    mirror: tuple[str, ...], handed: bool, show: set[str]
) -> None:
    """The faces that show and the tapered face are mirrored too."""
    _, other = pair({"mirror": list(mirror), "turn": 0, "move": [0, 0, 0]})
    frame = other.frame
    sense = dot(cross(frame.grain, frame.width), frame.thickness)
    assert (other.mirrored, round(sense)) == (handed, -1 if handed else 1)
    assert {face.value for face in other.show} == show
    assert other.tapers[0].face is (Direction.LEFT if "left-right" in mirror else Direction.RIGHT)


def test_a_quarter_turn_carries_left_to_front() -> None:
    """Counterclockwise seen from above: what looked left looks to the front."""
    _, other = pair({"mirror": [], "turn": 90, "move": [0, 0, 0]})
    assert {face.value for face in other.show} == {"front", "right"}


def test_a_row_stands_by_its_step_first_one_in_place() -> None:
    """NAME_1 is where the part was drawn; the others follow."""
    row = {**PLATE, "repeat": {"count": 3, "step": [0, 10, 25]}}
    parts = load_piece_text(file_text({"shelf": row})).parts
    assert list(parts) == ["shelf_1", "shelf_2", "shelf_3"]
    assert [p.frame.origin for p in parts.values()] == [(-200, 0, 410), (-200, 10, 435), (-200, 20, 460)]
    assert {p.like for p in parts.values()} == {"shelf"}


def test_a_star_joins_a_whole_row() -> None:
    """Three shelves against one side give three joints, numbered in the order of the file."""
    shelf = {
        **PLATE,
        "repeat": {"count": 3, "step": [0, 0, 30]},
        "trim": {"end": "side.left"},
        "to": [150, 0, 410],
    }
    side = {**PLATE, "from": [160, 0, 300], "to": [160, 0, 600]}
    joints = {"in": {"kind": "housing", "between": [["shelf_*.end", "side"]], "depth": 5}}
    piece = load_piece_text(file_text({"shelf": shelf, "side": side}, joints))
    assert [(j.name, j.first.part) for j in piece.joints] == [(f"in.{k}", f"shelf_{k}") for k in (1, 2, 3)]
    assert all(contacts(piece.parts[j.first.part], piece.parts["side"]) for j in piece.joints)
