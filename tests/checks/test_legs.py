"""Legs: slenderness and backing angle, against the worked values."""

from __future__ import annotations

import math

import pytest

from checks.bench import X, Y, leg, part, subject, work
from checks.test_loose import BROAD, FLAT, made
from scantling.checks.legs import backing_angle_deg, check, standing_legs, thinnest_mm
from scantling.joinery.joining import load_piece_text
from scantling.piece.geometry import Plane
from scantling.piece.model import Direction, End, RoundSection, Taper


@pytest.mark.parametrize(("length", "trips"), [(722.0, True), (721.0, False)])
def test_f48_slender_leg(length: float, trips: bool) -> None:
    """A 25 mm square leg reaches slenderness 100 at 25 * 100 / sqrt(12) = 721.7 mm."""
    found = check(subject((leg("leg", width=25.0, thickness=25.0, length=length),)))
    assert [f.code for f in found] == (["F48"] if trips else [])
    if trips:
        assert found[0].numbers["wanted_mm"] == pytest.approx(722.0 * math.sqrt(12.0) / 100.0)


@pytest.mark.parametrize(("diameter", "trips"), [(28.0, False), (27.9, True)])
def test_f48_round_leg(diameter: float, trips: bool) -> None:
    """A round leg's radius of gyration is a quarter of its thinner diameter."""
    stick = leg("leg", round=RoundSection(start_mm=diameter, end_mm=38.0))
    assert bool(check(subject((stick,)))) is trips


def test_the_thinnest_section_is_at_the_foot_of_a_taper() -> None:
    """Two tapers on neighbouring faces take off each its own side."""
    tapers = tuple(
        Taper(
            plane=Plane(point=(0.0, 0.0, 0.0), normal=normal),
            toward=End.START,
            begin_mm=90.0,
            loss_mm=18.0,
            face=Direction.FRONT,
        )
        for normal in ((0.03, 1.0, 0.0), (0.03, 0.0, 1.0))
    )
    assert thinnest_mm(leg("leg", tapers=tapers)) == 30.0


@pytest.mark.parametrize(
    ("front", "side", "delta", "gap", "width"),
    [(8.0, 5.0, 0.695, 0.55, 45.0), (12.0, 12.0, 2.48, 2.6, 60.0), (7.0, 5.0, 0.61, 0.51, 48.0)],
)
def test_backing_angle_by_the_worked_values(
    front: float, side: float, delta: float, gap: float, width: float
) -> None:
    """Three worked legs; printed to three figures, so half a unit of the last one."""
    angle = backing_angle_deg(front, side)
    assert angle == pytest.approx(delta, abs=0.006)
    assert width * math.tan(math.radians(angle)) == pytest.approx(gap, abs=0.006)


@pytest.mark.parametrize(("front", "side", "trips"), [(7.0, 5.0, True), (4.0, 4.0, False), (9.0, 0.0, False)])
def test_f62_leg_out_of_square(front: float, side: float, trips: bool) -> None:
    """48 square at 7 and 5 degrees shows 0.51 mm; at 4 and 4 it is 0.23; one lean alone stays square."""
    works = (work("j1", "a", "leg", leaves=X), work("j2", "b", "leg", leaves=Y))
    parts = (leg("leg", front_deg=front, side_deg=side), part("a"), part("b"))
    found = check(subject(parts, works))
    assert [f.code for f in found] == (["F62"] if trips else [])
    if trips:
        assert found[0].numbers["gap_mm"] == pytest.approx(0.51, abs=0.005)


def test_f62_needs_parts_on_two_sides() -> None:
    """A leg with aprons in one direction only has nothing to be out of square with."""
    parts = (leg("leg", front_deg=12.0, side_deg=12.0), part("a"))
    assert check(subject(parts, (work("j1", "a", "leg", leaves=X),))) == []


ROOM = "scantling: 1\ntitle: t\nunits: mm\nparts:\n"


def standing(part_text: str, brief: str = "") -> list[str]:
    """Names of the legs of a piece of one part."""
    return [leg.name for leg in standing_legs(load_piece_text(f"{ROOM}{part_text}{brief}"))]


def test_a_leg_is_one_whose_sizes_bring_it_to_the_floor() -> None:
    """Sawn by the floor or drawn from it; not a millimeter above, not lying on it, not a case's side."""
    assert standing(made("leg", "0, 0, 200", "top", "40, 40", **FLAT)) == ["leg"]
    assert standing(made("leg", "0, 0, 200", "bottom", "40, 40", **FLAT)) == ["leg"]
    sawn = made("leg", "0, 0, 202", "top", "40, 40", **FLAT, trim="{start: floor}")
    assert standing(sawn) == ["leg"]
    assert standing(made("leg", "0, 0, 201.5", "top", "40, 40", **FLAT)) == []
    assert standing(made("foot", "0, 0, 20", "right", "40, 40")) == []
    assert standing(made("side", "0, 0, 200", "top", "200, 20", **BROAD)) == []
    assert standing(made("leg", "0, 0, 200", "top", "40, 40", **FLAT), "brief: {stands: wall}\n") == []
