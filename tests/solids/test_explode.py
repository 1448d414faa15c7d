"""Pulled apart, every joint opens along its own way, and no part is in another's place."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from scantling.joinery import JointWork, join, load_piece
from scantling.piece.convex import body_of
from scantling.piece.geometry import add, dot, sub, unit
from scantling.piece.model import Piece
from scantling.solids.explode import Explosion, explode, scene_vector_m
from scantling.solids.framed import framed_in
from scantling.solids.interference import gaps
from scantling.solids.mesh import PartMesh, meshes_of
from scantling.solids.pulling import units_of
from scantling.solids.shape import shapes_of
from scantling.wood.moisture import MoistureRange
from tests.solids.table import table

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
NAMES = [
    "reading_table",
    "hall_bench",
    "trestle_desk",
    "bookcase",
    "sideboard",
    "blanket_chest",
    "tray",
    "five_drawer_chest",
    "coat_rack",
]
_MOISTURE = MoistureRange(build_pct=8.49, dry_pct=4.51, wet_pct=8.49)


@cache
def _exploded(name: str) -> tuple[Piece, tuple[JointWork, ...], dict[str, PartMesh], Explosion]:
    piece = load_piece(EXAMPLES / f"{name}.yaml")
    works = join(piece, moisture=_MOISTURE)
    meshes = meshes_of(shapes_of(piece, works))
    return piece, works, meshes, explode(piece.parts, meshes, works)


@pytest.mark.parametrize("name", NAMES)
def test_no_two_parts_touch_when_pulled_apart(name: str) -> None:
    """Every pair is more than 5 mm apart, and the answer says so."""
    piece, _, meshes, exploded = _exploded(name)
    assert exploded.clear
    moved = {
        part.name: replace(
            part, frame=replace(part.frame, origin=add(part.frame.origin, exploded.offsets_mm[part.name]))
        )
        for part in piece.parts.values()
    }
    assert gaps(moved, meshes, within_mm=5.0) == ()


@pytest.mark.parametrize("name", NAMES)
def test_every_joint_opens_the_way_it_comes_apart(name: str) -> None:
    """The first part of each joint moves, against the second, along the direction in which it leaves it.

    But for two doors that close on each other: both come out, side by side.
    """
    piece, works, meshes, exploded = _exploded(name)
    case, *_ = units_of(piece.parts, meshes, works)
    for work in works:
        if work.passes and not {work.first, work.second} & set(case):
            for door in (work.first, work.second):
                assert dot(exploded.offsets_mm[door], unit(work.leaves)) > 20.0, work.joint
            continue
        opening = sub(exploded.offsets_mm[work.first], exploded.offsets_mm[work.second])
        assert dot(opening, unit(work.leaves)) > 20.0, work.joint


@pytest.mark.parametrize("name", NAMES)
def test_the_heaviest_part_stays(name: str) -> None:
    """The others move away from it; of twins, whichever is heavier in the last digit, the first stays."""
    _, _, meshes, exploded = _exploded(name)
    most_mm3 = max(mesh.volume_mm3 for mesh in meshes.values())
    twins = [part for part in meshes if meshes[part].volume_mm3 == pytest.approx(most_mm3, rel=1e-6)]
    assert exploded.offsets_mm[twins[0]] == (0.0, 0.0, 0.0)


def test_parts_stay_near_their_place() -> None:
    """The long chains of a case open modestly: its parts go half its diagonal at most, its drawers once."""
    piece, works, meshes, exploded = _exploded("sideboard")
    diagonal = float(np.linalg.norm([1440.0, 480.0, 850.0]))
    moved = {name: float(np.linalg.norm(offset)) for name, offset in exploded.offsets_mm.items()}
    units = units_of(piece.parts, meshes, works)
    assert max(moved[name] for name in units[0]) < 0.5 * diagonal
    assert max(moved.values()) < diagonal


def test_a_framed_back_comes_off_whole_and_opens_in_its_own_plane() -> None:
    """All of the bookcase's back goes as far behind its case; the case is not drawn through it."""
    piece, works, _, explosion = _exploded("bookcase")
    [back] = framed_in(tuple(piece.parts), piece.parts, works, root="side_left")
    assert (len(back.names), back.way) == (11, (0.0, 1.0, 0.0))
    behind = {round(explosion.offsets_mm[name][1], 6) for name in back.names}
    assert len(behind) == 1
    case = [name for name in piece.parts if name not in back.names]
    reach = max(body_of(piece.parts[n]).extent(back.way)[1] + explosion.offsets_mm[n][1] for n in case)
    assert min(body_of(piece.parts[n]).extent(back.way)[0] for n in back.names) + behind.pop() > reach
    assert len({explosion.offsets_mm[name] for name in back.names}) > 4


@pytest.mark.parametrize("name", [name for name in NAMES if name != "bookcase"])
def test_a_case_of_frames_is_no_back(name: str) -> None:
    """Its frames stand round a room; a back glued to its sides is of the case."""
    piece, works, meshes, _ = _exploded(name)
    case = units_of(piece.parts, meshes, works)[0]
    for root in case:
        assert framed_in(case, piece.parts, works, root=root) == ()


def test_doors_and_drawers_come_out_whole() -> None:
    """Two doors and three drawers are units of five parts each; all come out to the front.

    Drawers of three heights, each opening a little otherwise, come about as far. The doors
    close on each other: what the one says of the other is no way out of the case.
    """
    piece, works, meshes, exploded = _exploded("sideboard")
    case, *others = units_of(piece.parts, meshes, works)
    assert len(case) == 37
    assert [len(names) for names in others] == [5] * 5
    front = {name: exploded.offsets_mm[name][1] for names in others for name in names}
    assert max(front.values()) < -200.0
    drawers = [front[f"drawer_front_{i}"] for i in (1, 2, 3)]
    assert max(drawers) - min(drawers) < 10.0


def test_what_is_alike_on_both_sides_moves_alike() -> None:
    """The legs of the table, mirrored left to right and front to back, go out at the corners alike."""
    _, _, _, exploded = _exploded("reading_table")
    legs = np.array([exploded.offsets_mm[f"leg_{corner}"] for corner in ("fl", "fr", "bl", "br")])
    assert np.abs(legs) == pytest.approx(np.abs(legs[[0, 0, 0, 0]]), abs=1e-6)
    assert (np.sign(legs[:, :2]) == [[-1, -1], [1, -1], [-1, 1], [1, 1]]).all()


def test_parts_without_joints_come_apart_too() -> None:
    """Where nothing says how parts part, those that touch go apart square to their contact."""
    piece, _ = table()
    meshes = meshes_of(shapes_of(piece, ()))
    exploded = explode(piece.parts, meshes, ())
    assert exploded.clear


def test_a_single_part_stays_where_it_is() -> None:
    """There is nothing to pull it from."""
    piece, _, meshes, _ = _exploded("reading_table")
    exploded = explode({"top": piece.parts["top"]}, {"top": meshes["top"]}, ())
    assert exploded == Explosion(offsets_mm={"top": (0.0, 0.0, 0.0)}, clear=True)


def test_scene_axes_are_those_of_the_picture() -> None:
    """Up becomes Y, front (toward -Y in the piece) becomes +Z, millimeters become meters."""
    assert scene_vector_m((1000.0, 0.0, 0.0)) == (1.0, 0.0, 0.0)
    assert scene_vector_m((0.0, -1000.0, 0.0)) == (0.0, 0.0, 1.0)
    assert scene_vector_m((0.0, 0.0, 1000.0)) == (0.0, 1.0, 0.0)
