"""Dovetails and fingers at corners: what they hold, how they are divided, and what cannot be cut."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.dovetail import slope_for, tail_count
from scantling.joinery.work import MarkKind
from tests.joinery.bench import YEAR, Made, made_of
from tests.joinery.judging import found_codes
from tests.joinery.samples import FRONT, SIDE, Options


def corner(front: Options | None = None, side: Options | None = None, **options: Any) -> Made:
    """A drawer side of 120 x 16 on a front of 20."""
    joint = {"kind": "dovetail", "between": [["a.end", "b"]], **options}
    return made_of({"a": side or SIDE, "b": front or FRONT}, {"j": joint})


def codes(**options: Any) -> list[str]:
    """Codes of the faults of a corner that cannot be made."""
    with pytest.raises(FileFaults) as caught:
        corner(**options)
    return [fault.code for fault in caught.value.faults]


@pytest.mark.parametrize(
    ("width", "pin", "flare", "tails"),
    [(100, 6, 1.75, 3), (60, 6, 1.75, 2), (45, 6, 1.75, 1), (300, 8, 2.5, 6)],
)
def test_tails_are_two_to_three_times_as_wide_as_pins(
    width: float, pin: float, flare: float, tails: int
) -> None:
    """94 / 33.25 = 2.8, 54 / 33.25 = 1.6, 39 / 33.25 = 1.2; with pins of 8, 292 / 45.5 = 6.4."""
    assert tail_count(width, pin_mm=pin, half_pin_mm=pin, flare_mm=flare) == tails
    base = (width - 2 * pin - (tails - 1) * pin) / tails - 2 * flare
    assert 1.8 <= base / (pin + 2 * flare) <= 3.7  # a whole number of them, so not just two to three


def test_flanks_lean_one_in_eight_in_hardwood_and_one_in_six_in_softwood() -> None:
    """7.13 and 9.46 degrees; the tail is narrower at its baseline by two flanks' run."""
    oak, pine = corner(lap=6), corner(side={**SIDE, "species": "eastern white pine"}, lap=6)
    assert [slope_for(made.piece.parts["a"]) for made in (oak, pine)] == [8.0, 6.0]
    assert math.degrees(math.atan(1 / 8)) == pytest.approx(7.13, abs=0.005)
    assert math.degrees(math.atan(1 / 6)) == pytest.approx(9.46, abs=0.005)


def test_the_tails_are_marked_from_the_edge() -> None:
    """Four tails in 120, half pins 5, pins 6: 23 wide at the end, middles 16.5 from both edges and 29 on."""
    work = corner(lap=6, tails=4, half_pin=5).works[0]
    tails = [mark for mark in work.marks if mark.kind is MarkKind.TAIL]
    assert sorted(mark.from_end_mm for mark in tails) == pytest.approx([16.5, 16.5, 45.5, 45.5])
    assert {round(mark.length_mm, 6) for mark in tails} == {23.0}
    assert {mark.depth_mm for mark in tails} == {14.0}
    sockets = [mark for mark in work.marks if mark.kind is MarkKind.SOCKET]
    assert len(sockets) == 4
    assert {mark.part for mark in sockets} == {"b"}


def test_a_dovetail_cannot_be_pulled_out_the_way_the_tails_point() -> None:
    """Drawn back along its own grain the tail board meets the pins; a finger joint lets it go."""
    made = corner(lap=6)
    assert made.in_the_way("a", "b", moved=(-5.0, 0.0, 0.0)) != ()
    fingers = made_of({"a": SIDE, "b": FRONT}, {"j": {"kind": "finger_joint", "between": [["a.end", "b"]]}})
    assert fingers.in_the_way("a", "b", moved=(-5.0, 0.0, 0.0)) == ()


def test_a_lap_leaves_the_front_whole() -> None:
    """Half-blind, nothing reaches nearer to the front's outer face than the lap; through, the tails show."""
    outer = 420.0
    for lap in (6.0, 0.0):
        made = corner(lap=lap)
        reach = made.mesh("a").box[1][0] + made.piece.parts["a"].frame.origin[0]
        assert reach == pytest.approx(outer - lap, abs=1e-4)


def test_the_glue_is_on_the_flanks() -> None:
    """Eight flanks of hypot(14, 1.75) x 16."""
    glue = corner(lap=6, tails=4).works[0].glue[0]
    assert glue.area_mm2 == pytest.approx(8 * math.hypot(14.0, 1.75) * 16.0)
    assert glue.end_grain_share == 0.0


def test_what_cannot_be_cut_is_refused() -> None:
    """Too many tails, a lap as thick as the front, a front that stops short or stands far out, a lean."""
    assert codes(tails=9, lap=6) == ["tails_too_narrow"]
    assert codes(lap=18) == ["lap_over_part"]
    assert codes(front={**FRONT, "to": [410, 4, 150]}) == ["not_a_corner"]
    assert codes(front={**FRONT, "to": [410, 11, 150]}) == ["not_a_corner"]
    assert codes(
        front={
            **FRONT,
            "width_toward": "right",
            "section": [20, 120],
            "from": [410, -8, 0],
            "to": [410, -8, 300],
        }
    ) == ["not_a_corner"]


def test_ends_may_stand_out_to_be_planed_off() -> None:
    """Two millimeters past the side: the sockets run out through them."""
    made = corner(front={**FRONT, "to": [410, 10, 150]}, lap=6)
    assert made.leaving(made.works[0], 20.0) == ()
    assert made.in_the_way("a", "b") == ()


def test_a_sound_corner_gives_no_finding_about_its_sockets() -> None:
    """Pins of 6 mm are wood enough between sockets (F14), and the glue is on long grain (F11)."""
    assert not {"F11", "F14", "F15"} & set(found_codes(corner(lap=6), moisture=YEAR))


def test_sockets_do_not_count_as_a_weakened_section() -> None:
    """Through tails take three quarters of the end, past which the board carries nothing: no F22."""
    assert "F22" not in found_codes(corner(lap=0), moisture=YEAR)


def test_fingers_come_out_even() -> None:
    """120 mm of 16 mm wood: seven of 17.14, four of them on the side; too narrow ones are refused."""
    made = made_of({"a": SIDE, "b": FRONT}, {"j": {"kind": "finger_joint", "between": [["a.end", "b"]]}})
    fingers = [mark for mark in made.works[0].marks if mark.kind is MarkKind.TAIL]
    assert len(fingers) == 4
    assert {round(mark.length_mm, 4) for mark in fingers} == {round(120 / 7, 4)}
    with pytest.raises(FileFaults):
        made_of(
            {"a": SIDE, "b": FRONT},
            {"j": {"kind": "finger_joint", "finger": 2, "between": [["a.end", "b"]]}},
        )
