"""Bridles and halvings at a corner, in the middle and at angles: closed forms, and what cannot be made."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.work import MarkKind
from scantling.wood.species import find_species
from tests.joinery.bench import Made, made_of
from tests.joinery.sample import stick

RAIL, STILE, THICK = 60.0, 70.0, 24.0


def crossed(
    kind: str, turn_deg: float, *, rail: tuple[float, float], stile_to: float, **options: Any
) -> Made:
    """A rail along x from rail[0] to rail[1], and a stile that comes to its middle at an angle."""
    a = math.radians(turn_deg)
    way = (math.cos(a), math.sin(a))
    parts = {
        "rail": stick((rail[0], 0, 12), (rail[1], 0, 12), (RAIL, THICK), "back"),
        "stile": stick(
            (-400 * way[0], -400 * way[1], 12),
            (stile_to * way[0], stile_to * way[1], 12),
            (STILE, THICK),
            "right",
        ),
    }
    return made_of(parts, {"j": {"kind": kind, "between": [["rail", "stile"]], **options}})


def test_a_tongue_is_a_third_to_a_usual_cutter() -> None:
    """A third of 24 is 8; the fork keeps 8 on both sides; its moment is MOR / 4 times 8 x 60 squared / 6."""
    made = crossed("bridle", 90.0, rail=(-300, 300), stile_to=RAIL / 2.0)
    work = made.works[0]
    (slot,) = [mark for mark in work.marks if mark.kind is MarkKind.SOCKET]
    assert (slot.width_mm, slot.depth_mm, slot.length_mm) == pytest.approx((8.0, RAIL, STILE))
    assert slot.from_face_mm == pytest.approx(12.0)
    mor = find_species("white oak").mor_mpa
    assert mor is not None
    assert work.breaking_nmm == pytest.approx(mor * 8.0 * RAIL**2 / 6.0)
    assert work.glue[0].area_mm2 == pytest.approx(2.0 * RAIL * STILE)


@pytest.mark.parametrize("turn", [90.0, 75.0, 60.0, 120.0, 45.0])
def test_a_bridle_in_the_middle_holds_at_any_angle(turn: float) -> None:
    """Off the rail two cheeks of the parallelogram w1 w2 / sin; the fork's slot is as wide as the tongue."""
    far = 400.0  # past the rail, then cut flush by it
    made = flush(turn, far)
    sine = math.sin(math.radians(turn))
    shared = RAIL * (STILE + 0.2) / sine
    assert made.removed_mm3("rail") == pytest.approx(shared * (THICK - 8.0), rel=1e-6)
    assert made.removed_mm3("stile") == pytest.approx(RAIL * STILE / sine * 8.0, rel=1e-6)
    assert made.in_the_way("rail", "stile") == ()
    assert {made.mesh(name).pieces for name in ("rail", "stile")} == {1}


def flush(turn: float, far: float) -> Made:
    """A stile that ends flush with the rail's far edge, cut along it."""
    a = math.radians(turn)
    way = (math.cos(a), math.sin(a))
    parts = {
        "rail": stick((-400, 0, 12), (400, 0, 12), (RAIL, THICK), "back"),
        "edge": stick((-600, RAIL / 2.0 + 50.0, 12), (600, RAIL / 2.0 + 50.0, 12), (100, THICK), "back"),
        "stile": stick(
            (-far * way[0], -far * way[1], 12),
            (far * way[0], far * way[1], 12),
            (STILE, THICK),
            "right",
            trim={"end": "edge.front"},
        ),
    }
    return made_of(parts, {"j": {"kind": "bridle", "between": [["rail", "stile"]]}})


def test_a_corner_bridle_is_open_on_two_sides() -> None:
    """Both end at the other's outer edge: shoulder room on one side only, and it comes apart upward."""
    made = crossed("bridle", 90.0, rail=(-300, STILE / 2.0), stile_to=RAIL / 2.0, clearance=0.2)
    assert made.removed_mm3("rail") == pytest.approx((STILE + 0.2) * RAIL * 16.0)
    assert made.removed_mm3("stile") == pytest.approx(STILE * RAIL * 8.0)
    work = made.works[0]
    for by in (5.0, 40.0, 90.0):
        assert made.leaving(work, by) == ()


def test_a_fork_that_goes_on_is_refused() -> None:
    """20 mm past the rail its slot is closed; the other way round the rail has no end there either."""
    with pytest.raises(FileFaults) as error:
        crossed("bridle", 90.0, rail=(-300, 300), stile_to=RAIL / 2.0 + 20.0)
    (fault,) = error.value.faults
    assert fault.code == "bridle_closed"
    assert "20.0 mm past rail" in fault.value
    assert crossed("bridle", 90.0, rail=(-300, 300), stile_to=RAIL / 2.0 + 0.4).works


@pytest.mark.parametrize(("thickness", "fits"), [(22.0, True), (22.1, False)])
def test_a_tongue_leaves_a_millimeter_on_both_sides(thickness: float, fits: bool) -> None:
    """Of 24 mm a tongue of 22 leaves 1 and 1."""
    if fits:
        assert crossed("bridle", 90.0, rail=(-300, 300), stile_to=30.0, thickness=thickness).works
        return
    with pytest.raises(FileFaults, match="must leave 1 mm"):
        crossed("bridle", 90.0, rail=(-300, 300), stile_to=30.0, thickness=thickness)


@pytest.mark.parametrize("turn", [90.0, 75.0, 60.0, 45.0, 135.0])
def test_a_halving_holds_at_any_angle(turn: float) -> None:
    """Each gives up half of its thickness over w1 w2 / sin of the angle, the other's room beside it."""
    made = crossed("halving", turn, rail=(-400, 400), stile_to=400.0, clearance=0.1)
    sine = math.sin(math.radians(turn))
    half = THICK / 2.0
    assert made.removed_mm3("rail") == pytest.approx(RAIL * (STILE + 0.2) / sine * half, rel=1e-6)
    assert made.removed_mm3("stile") == pytest.approx(STILE * (RAIL + 0.2) / sine * half, rel=1e-6)
    assert made.works[0].glue[0].area_mm2 == pytest.approx(RAIL * STILE / sine)
    assert made.in_the_way("rail", "stile") == ()
    assert {made.mesh(name).pieces for name in ("rail", "stile")} == {1}
    tilts = {round(mark.tilt_deg, 6) for mark in made.works[0].marks}
    assert tilts == {round(abs(90.0 - turn), 6)}
