"""Mortises in a leg: meeting, thin walls, near the end."""

from __future__ import annotations

from dataclasses import replace

import pytest

from checks.bench import X, leg, mortise, part, subject, work
from scantling.checks import finding, run
from scantling.checks.mortises import check
from scantling.errors import Finding
from scantling.joinery.work import JointWork

UP = X  # a part's own u axis


def side_mortise(face: str, *, depth: float, offset: float = 0.0) -> JointWork:
    """An 8 mm mortise 60 long into a 55 leg from one of two neighbouring faces, ``offset`` off its axis."""
    if face == "front":
        cut = mortise("leg", at=(600.0, -27.5, offset), into=(0, 1, 0), along=UP, size=(60, 8, depth))
    else:
        cut = mortise("leg", at=(600.0, offset, -27.5), into=(0, 0, 1), along=UP, size=(60, 8, depth))
    return work(face, "rail", "leg", cuts=(cut,))


def collisions(*works: JointWork) -> list[Finding]:
    """F14 on a 55 leg."""
    parts = (leg("leg", width=55.0, thickness=55.0), part("rail"))
    return [f for f in check(subject(parts, works)) if f.code == "F14"]


@pytest.mark.parametrize("depth", [20.0, 21.3, 21.5, 23.0, 24.0])
def test_f14_wall_at_the_corner_of_two_mortises(depth: float) -> None:
    """On the middle lines the wall runs from corner to corner: sqrt(2) times what is left, 3 mm at 21.38."""
    wall = 2**0.5 * (27.5 - 4.0 - depth)
    found = collisions(side_mortise("front", depth=depth), side_mortise("side", depth=depth))
    assert bool(found) is (wall < 3.0)
    if found:
        assert ("These mortises meet" in found[0].advice) is (wall <= 0.0)
        assert found[0].numbers["wall_mm"] == pytest.approx(max(wall, 0.0), abs=1e-6)


@pytest.mark.parametrize(("depth", "trips"), [(35.1, True), (32.1, True), (31.9, False)])
def test_f14_at_the_worked_limits(depth: float, trips: bool) -> None:
    """Leg 55, setback 5, shoulder 7, tenon 8: the next mortise is 35 mm in, so 32 mm leaves 3 mm of wall."""
    offset = 27.5 - 5.0 - 7.0 - 8.0 / 2.0
    found = collisions(
        side_mortise("front", depth=depth, offset=-offset), side_mortise("side", depth=45.0, offset=offset)
    )
    assert bool(found) is trips


def test_f14_leaves_a_pin_through_its_own_tenon_alone() -> None:
    """Hollows of one joint may meet: the pin crosses the mortise on purpose."""
    first = mortise("leg", at=(600.0, -24.0, 0.0), into=(0, 1, 0), along=UP, size=(60, 8, 30.0))
    second = mortise("leg", at=(600.0, 0.0, -24.0), into=(0, 0, 1), along=UP, size=(8, 8, 30.0))
    joint = work("front", "a", "leg", cuts=(first, second))
    assert [f.code for f in check(subject((leg("leg"), part("a")), (joint,)))] == []


@pytest.mark.parametrize(("at", "trips"), [(13.7, True), (13.5, False)])
def test_f15_wall_beside_a_mortise(at: float, trips: bool) -> None:
    """An 8 mm mortise wants 6.4 mm of wall: on a 48 leg its middle may stand 13.6 mm off the axis."""
    cut = mortise("leg", at=(400.0, -24.0, at), into=(0, 1, 0), along=UP, size=(60, 8, 20.0))
    found = check(subject((leg("leg"), part("a")), (work("j", "a", "leg", cuts=(cut,)),)))
    assert [f.code for f in found] == (["F15"] if trips else [])
    if trips:
        assert found[0].numbers["wall_mm"] == pytest.approx(6.3, abs=0.05)


@pytest.mark.parametrize(("wood", "trips"), [(11.8, True), (12.2, False)])
def test_f16_near_the_end(wood: float, trips: bool) -> None:
    """A mortise 60 long whose top is 12 mm below the leg's end passes, nearer does not."""
    cut = mortise("leg", at=(700.0 - wood - 30.0, -24.0, 0.0), into=(0, 1, 0), along=UP, size=(60, 8, 20.0))
    found = check(subject((leg("leg"), part("a")), (work("j", "a", "leg", cuts=(cut,)),)))
    assert [f.code for f in found] == (["F16"] if trips else [])


def test_a_mortise_in_an_end_is_not_judged_by_the_wall_rule() -> None:
    """In end grain the tenon's share of the thickness decides (F17)."""
    cut = mortise("rail", at=(0.0, 0.0, 0.0), into=X, along=(0, 1, 0), size=(50, 10, 20.0))
    assert check(subject((part("rail"), part("b")), (work("j", "rail", "b", cuts=(cut,)),))) == []


@pytest.mark.parametrize(("depth", "codes"), [(35.1, {"F14"}), (33.0, {"F14", "F69"}), (31.9, {"F69"})])
def test_tenons_that_meet_are_not_told_again_as_parts_that_overlap(depth: float, codes: set[str]) -> None:
    """35 mm in the mortises run into each other, and the shared wood is theirs; not with a wall left."""
    one = side_mortise("front", depth=depth, offset=-11.5)
    cut = side_mortise("side", depth=45.0, offset=11.5).cuts
    parts = (leg("leg", width=55.0, thickness=55.0), part("rail"), part("other"))
    shared = finding("F69", where="other, rail", message="other and rail share 9 mm3")
    report = run(subject(parts, (one, work("side", "other", "leg", cuts=cut))), others=(shared,))
    assert {f.code for f in report.findings} & {"F14", "F69"} == codes


@pytest.mark.parametrize(("what", "trips"), [("rabbet", False), ("housing", True)])
def test_f14_lets_a_housing_run_out_in_the_rabbet_of_a_back(what: str, trips: bool) -> None:
    """A shelf's housing goes on into the rabbet behind it; into another housing across it it does not."""
    along = mortise("leg", at=(600.0, -27.5, 0.0), into=(0, 1, 0), along=UP, size=(60, 8, 8.0))
    across = mortise("leg", at=(600.0, -27.5, 0.0), into=(0, 1, 0), along=(0.0, 0.0, 1.0), size=(30, 8, 8.0))
    found = collisions(
        work("shelf", "rail", "leg", cuts=(replace(along, what="housing"),)),
        work("back", "rail", "leg", cuts=(replace(across, what=what),)),
    )
    assert bool(found) is trips
