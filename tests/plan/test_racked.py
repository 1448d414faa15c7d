"""Frames braced one way only: what is pushed, what is said, and where F47 is given."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import InputError
from scantling.piece.model import JointRequest, PartKind, Piece
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.standing import racked
from scantling.structure.legged import Legged, Racked
from tests.plan.jobs import shipped_job


def table_without(*names: str) -> Piece:
    """The reading table with some parts and all their joints left out."""
    piece = shipped_job("reading_table", rack=False).piece

    def stays(joint: JointRequest) -> bool:
        return joint.first.part not in names and joint.second.part not in names

    return replace(
        piece,
        parts={name: part for name, part in piece.parts.items() if name not in names},
        joints=tuple(joint for joint in piece.joints if stays(joint)),
        brief=replace(
            piece.brief,
            carried={
                name: tuple(part for part in carried if part not in names)
                for name, carried in piece.brief.carried.items()
            },
        ),
    )


def planned(piece: Piece) -> Plan:
    """Its plan in the usual shop."""
    return make_plan(replace(shipped_job("reading_table", rack=False), piece=piece))


def test_a_table_without_side_aprons_has_no_rail_across() -> None:
    """Pushed along it stands as before; across nothing holds it: F47, and it is told as not judged."""
    strength = planned(table_without("apron_left", "apron_right")).strength
    assert [frame.direction for frame in strength.frames] == ["along the piece"]
    (found,) = [one for one in strength.findings if one.code == "F47"]
    assert "no rail holds it across" in found.message
    assert found.where == "frame, across the piece"
    assert "Racking across the piece: no rail holds it across." in strength.unjudged


def test_a_table_without_any_apron_folds_both_ways() -> None:
    """Each way has its own finding."""
    bare = table_without("apron_left", "apron_right", "apron_front", "apron_back")
    strength = planned(bare).strength
    assert strength.frames == ()
    assert [one.where for one in strength.findings if one.code == "F47"] == [
        "frame, along the piece",
        "frame, across the piece",
    ]


def test_what_may_hold_a_way_is_named_and_not_called_loose() -> None:
    """Side aprons of plywood have no published stiffness here; they hold it all the same."""
    piece = table_without()
    sides = {
        name: replace(part, kind=PartKind.SHEET, species="birch plywood")
        if name in ("apron_left", "apron_right")
        else part
        for name, part in piece.parts.items()
    }
    strength = planned(replace(piece, parts=sides)).strength
    assert [one for one in strength.findings if one.code == "F47"] == []
    told = "apron_left, apron_right may hold it, and nothing published says how stiffly"
    assert f"Racking across the piece: {told}." in strength.unjudged


def test_a_mechanism_does_not_pass(monkeypatch: pytest.MonkeyPatch) -> None:
    """A frame that the sum finds to move freely is told and given F47, never left out."""

    def moves(frame: Legged, *, push_n: float) -> Racked:
        raise InputError(
            code="frame_moves", field="bars", value=(len(frame.rails), push_n), rule="must stand"
        )

    monkeypatch.setattr(racked, "rack_legged", moves)
    strength = planned(table_without()).strength
    assert [one.code for one in strength.findings if one.code == "F47"] == ["F47", "F47"]
    assert "Racking: its rails hold it as hinges do." in strength.unjudged
