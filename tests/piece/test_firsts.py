"""A piece read again with another size keeps the parts and joints that say what they said."""

from __future__ import annotations

from dataclasses import replace

from scantling.joinery import look_at
from scantling.piece.files.firsts import first_part
from tests.plan.jobs import EXAMPLES


def test_parts_and_joints_a_size_leaves_as_they_were_are_the_same_objects() -> None:
    """A narrower desk top changes what it is joined to in no way."""
    first = look_at(EXAMPLES / "trestle_desk.yaml").piece
    other = look_at(EXAMPLES / "trestle_desk.yaml", given={"width": "690 mm"}).piece
    assert other.parts["top"] != first.parts["top"]
    same = [name for name, part in other.parts.items() if part is first.parts[name]]
    assert same == [name for name, part in other.parts.items() if part == first.parts[name]]
    assert len(same) >= len(first.parts) // 2
    assert all(one is other for one, other in zip(first.joints, other.joints, strict=True))


def test_a_nought_of_another_sign_makes_another_part() -> None:
    """They compare as equal and are written otherwise, so neither may stand for the other."""
    part = first_part(next(iter(look_at(EXAMPLES / "trestle_desk.yaml").piece.parts.values())))
    x, y, _ = part.frame.origin
    up = first_part(replace(part, frame=replace(part.frame, origin=(x, y, 0.0))))
    down = first_part(replace(part, frame=replace(part.frame, origin=(x, y, -0.0))))
    assert up == down
    assert repr(up) != repr(down)
