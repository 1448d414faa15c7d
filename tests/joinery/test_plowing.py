"""Loose boards side by side stand in one groove; boards apart each keep their own."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.joinery.plowing import LEAST_WALL_MM, plowed
from scantling.joinery.work import JointWork, Mark, MarkKind
from scantling.solids.mesh import build_mesh
from scantling.solids.shape import shapes_of
from tests.joinery.bench import Made, made_of

ROOM_MM = 1.0
"""Of a groove past a panel that lies with its side in it, at each end."""


def boards(gap_mm: float) -> Made:
    """Three panels of 100 in a row, a gap between them, whose sides stand 8 mm in one long rail."""
    step = 100.0 + gap_mm
    common = {"species": "white oak", "along": "right", "section": [200, 10], "width_toward": "back"}
    parts = {
        f"board_{i + 1}": {**common, "kind": "panel", "length": 100, "center": [100.0 + i * step, 0, 100]}
        for i in range(3)
    }
    rail = {**common, "kind": "stick", "length": 600, "center": [250, 122, 100], "section": [60, 22]}
    joint = {"kind": "panel_groove", "between": [[name, "rail"] for name in parts], "tongue": 6, "depth": 12}
    return made_of({**parts, "rail": rail}, {"j": joint})


def grooves(works: tuple[JointWork, ...]) -> list[Mark]:
    """What is plowed in the rail."""
    return [m for work in works for m in work.marks if m.kind is MarkKind.GROOVE]


def test_grooves_with_a_sliver_between_are_one() -> None:
    """Three of 102 with 1 mm of wood between: one from 49 to 357, marked once and cut once."""
    made = boards(3.0)
    works = plowed(made.works, made.piece.parts)
    [groove] = grooves(works)
    assert groove.length_mm == pytest.approx(3.0 * 100.0 + 2.0 * 3.0 + 2.0 * ROOM_MM)
    assert "one groove for 3 parts" in groove.note
    rail = build_mesh(shapes_of(made.piece, works)["rail"])
    removed = 600.0 * 60.0 * 22.0 - rail.volume_mm3
    assert removed == pytest.approx(308.0 * 12.0 * 6.2, rel=1e-6)


@pytest.mark.parametrize(("wall_mm", "count"), [(LEAST_WALL_MM - 0.1, 1), (LEAST_WALL_MM + 0.1, 3)])
def test_wood_that_can_stand_is_left(wall_mm: float, count: int) -> None:
    """A wall of 10 mm and more between two grooves stays; a thinner one would break out."""
    made = boards(wall_mm + 2.0 * ROOM_MM)
    assert len(grooves(plowed(made.works, made.piece.parts))) == count


def test_grooves_of_other_set_ups_stay_apart() -> None:
    """One a tenth of a millimeter deeper is cut by itself."""
    made = boards(3.0)
    first, *others = made.works
    deeper = tuple(replace(m, depth_mm=m.depth_mm + 0.1) for m in first.marks)
    works = plowed((replace(first, marks=deeper), *others), made.piece.parts)
    assert [m.note.startswith("one groove for 2") for m in grooves(works)] == [False, True]
