"""Ends that go past a face, faces of rings and of rows: each by its plane, and each fault at its line."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.joinery import load_piece_text
from scantling.piece.model import Part
from tests.joinery.bench import file_text
from tests.piece.files import faults_of


def stick(begin: list[float], end: list[float], **more: Any) -> dict[str, Any]:
    """A stick 60 x 10."""
    return {
        "kind": "stick",
        "species": "white oak",
        "from": begin,
        "to": end,
        "section": [60, 10],
        "width_toward": "top",
        **more,
    }


def board(**more: Any) -> dict[str, Any]:
    """A board lying flat, 10 thick, along x."""
    return stick([-200, 0, 100], [200, 0, 100], width_toward="back", section=[80, 10], **more)


def leaning(x: float, lean: float, toward: str) -> dict[str, Any]:
    """An upright board across x that leans."""
    return stick([x, -100, 100], [x, 100, 100], lean=[f"{lean} deg", toward])


@pytest.mark.parametrize("past", [0.0, 4.0, 7.5])
def test_an_end_goes_so_far_past_an_upright_face(past: float) -> None:
    """Between faces at -95 and +95 the board is 190 long, and as much longer at both ends as is written."""
    tail = f" + {past} mm" if past else ""
    parts = {
        "left": leaning(-100, 0.0, "left"),
        "right": leaning(100, 0.0, "right"),
        "board": board(trim={"start": f"left.right{tail}", "end": f"right.left{tail}"}),
    }
    placed = load_piece_text(file_text(parts)).parts["board"]
    assert placed.length_mm == pytest.approx(190.0 + 2.0 * past)


def test_past_a_leaning_face_it_is_square() -> None:
    """At the middle of its thickness it goes 5 past the face; to the face alone it is beveled by the lean."""
    parts = {"right": leaning(100, 20.0, "right")}
    bare, past = (
        load_piece_text(file_text({**parts, "board": board(trim={"end": ref})})).parts["board"]
        for ref in ("right.left", "right.left + 5 mm")
    )
    at = 100.0 - 5.0 / math.cos(math.radians(20.0))
    assert abs(past.trims[-1].plane.normal[0]) == pytest.approx(1.0)
    assert past.end_mm - 200.0 == pytest.approx(at + 5.0)
    assert abs(bare.trims[-1].plane.normal[0]) == pytest.approx(math.cos(math.radians(20.0)))


def test_how_far_past_may_be_worked_out() -> None:
    """An expression over values and sizes, as everywhere else."""
    parts = {
        "right": leaning(100, 0.0, "right"),
        "board": board(trim={"end": "right.left + right.thickness / 2 - play"}),
    }
    placed = load_piece_text(file_text(parts, values={"play": "1 mm"})).parts["board"]
    assert placed.end_mm - 200.0 == pytest.approx(95.0 + 4.0)


def ring(count: int) -> dict[str, Any]:
    """Upright boards round the middle, at 150."""
    return stick([-20, -150, 100], [20, -150, 100], repeat={"count": count, "turn": f"360 deg / {count}"})


@pytest.mark.parametrize("count", [5, 6, 8, 12])
def test_the_inside_of_a_ring_is_found_whichever_way_it_looks(count: int) -> None:
    """A board out to the inner face of each member in turn stops at 145, square to it."""
    for k in range(1, count + 1):
        a = math.radians(-90.0 + 360.0 / count * (k - 1))
        way = (math.cos(a), math.sin(a))
        spoke = stick([0, 0, 100], [100 * way[0], 100 * way[1], 100], trim={"end": f"side_{k}.inside"})
        placed = load_piece_text(file_text({"side": ring(count), "spoke": spoke})).parts["spoke"]
        assert placed.end_mm == pytest.approx(145.0)
        assert placed.trims[-1].plane.normal[0] == pytest.approx(1.0)


def test_a_whole_row_may_trim_an_end() -> None:
    """The inner faces of a row of two make an end of two planes."""
    side = {**ring(8), "repeat": {"count": 2, "turn": "45 deg"}}
    top = board()
    top |= {"from": [0, 120, 100], "to": [0, -120, 100], "width_toward": "right"}
    top["trim"] = {"end": "side_*.inside"}
    placed = load_piece_text(file_text({"side": side, "top": top})).parts["top"]
    assert [trim.by for trim in ends(placed)] == ["side_1.inside", "side_2.inside"]


def ends(part: Part) -> list[Any]:
    """The trims of its end."""
    return [trim for trim in part.trims if trim.end.value == "end"]


@pytest.mark.parametrize(
    ("ref", "code"),
    [
        ("right.left + 4 deg", "wrong_dimension"),
        ("right.left + nothing_known", "unknown_name"),
        ("right.inside", "not_a_row"),
        ("side_9.left", "unknown_face"),
        ("side_last.up", "unknown_face"),
    ],
)
def test_what_cannot_be_followed_is_told_where_it_stands(ref: str, code: str) -> None:
    """Each with its code, at the trim's line."""
    parts = {
        "right": leaning(100, 0.0, "right"),
        "side": ring(6),
        "board": board(trim={"end": ref}),
    }
    faults = faults_of(file_text(parts))
    assert code in {fault.code for fault in faults}
    assert all(fault.line > 0 for fault in faults)
