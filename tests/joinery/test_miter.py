"""Miters: what holds them, its sizes by the trade's proportions, and what speaks against glue alone."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.checks.glue import check
from scantling.checks.subject import Subject
from scantling.errors import FileFaults
from scantling.joinery.meeting import Meeting
from scantling.joinery.miter import opening_mm
from scantling.joinery.miter_corner import miter_corner
from scantling.joinery.work import ConnectorKind, JointWork
from scantling.piece.contact import contacts
from scantling.wood.species import find_species
from tests.joinery.bench import YEAR, Made, made_of

FLAT_WIDE, FLAT_THICK = 60.0, 20.0


def _stick(begin: Any, end: Any, section: Any, toward: str, **more: Any) -> dict[str, Any]:
    return {
        "kind": "stick",
        "species": "black walnut",
        "from": list(begin),
        "to": list(end),
        "section": list(section),
        "width_toward": toward,
        **more,
    }


def frame_parts() -> dict[str, Any]:
    """The corner of a flat frame: rails 60 x 20."""
    section = (FLAT_WIDE, FLAT_THICK)
    return {
        "a": _stick((0, 0, 10), (300, 0, 10), section, "back", trim={"end": "miter with b"}),
        "b": _stick((300, 0, 10), (300, 300, 10), section, "right", trim={"start": "miter with a"}),
    }


def ring_parts(sides: int, lean: float = 0.0) -> dict[str, Any]:
    """A ring of boards 70 x 10."""
    side = _stick(
        (-60, -150, 100),
        (60, -150, 100),
        (70, 10),
        "top",
        lean=[f"{lean} deg", "front"],
        trim={"start": "miter with previous", "end": "miter with next"},
        repeat={"count": sides, "turn": f"360 deg / {sides}"},
    )
    return {"side": side}


def frame(**options: Any) -> Made:
    """A flat frame's corner with its joint."""
    return made_of(frame_parts(), {"j": {"kind": "miter", "between": [["a.end", "b.start"]], **options}})


def ring(sides: int, lean: float = 0.0, **options: Any) -> Made:
    """A ring with its joints."""
    between = [["side_*.end", "next.start"]]
    return made_of(ring_parts(sides, lean), {"j": {"kind": "miter", "between": between, **options}})


def test_a_spline_in_a_flat_frame_runs_along_the_miter() -> None:
    """A quarter of 20 thick: 5; a quarter of 60 deep: 15; as long as the miter, 60 sqrt 2; each loses it."""
    made = frame()
    (spline,) = made.works[0].connectors
    assert spline.kind is ConnectorKind.SPLINE
    assert spline.size_mm == pytest.approx((5.0, 60.0 * math.sqrt(2.0), 2.0 * 15.0 - 0.5))
    for name in ("a", "b"):
        assert made.removed_mm3(name) == pytest.approx(5.0 * 15.0 * 60.0 * math.sqrt(2.0))
    assert made.in_the_way("a", "b") == ()


def test_a_stopped_spline_stays_inside() -> None:
    """Stopped 17 short at both ends, it is 34 shorter; 15 deep it would come out at 15, and 1 is left."""
    made = frame(stopped=17)
    assert made.removed_mm3("a") == pytest.approx(5.0 * 15.0 * (60.0 * math.sqrt(2.0) - 34.0))
    with pytest.raises(FileFaults, match="must end inside the part"):
        frame(stopped=15.9)


@pytest.mark.parametrize(("sides", "lean"), [(4, 0.0), (4, 20.0), (6, 20.0), (8, 10.0)])
def test_a_spline_at_a_boxs_corner_is_as_wide_as_the_part_is_thick(sides: int, lean: float) -> None:
    """In boards of 10: one kerf thick, 5 into each, and no two parts in each other's way."""
    made = ring(sides, lean)
    for work in made.works:
        (spline,) = work.connectors
        assert spline.size_mm[0] == pytest.approx(3.2)
        assert spline.size_mm[2] == pytest.approx(9.5)
        assert made.in_the_way(work.first, work.second) == ()
    assert {made.mesh(name).pieces for name in made.piece.parts} == {1}


def test_keys_are_cut_two_thirds_in_from_the_outer_corner() -> None:
    """Two keys in 70 mm, 9.43 deep of a miter of 14.14: off each part a kerf by half of depth squared."""
    made = ring(4, held_by="keys")
    depth = 10.0 * math.sqrt(2.0) * 2.0 / 3.0
    work = made.works[0]
    (key,) = work.connectors
    assert (key.kind, key.count) == (ConnectorKind.KEY, 2)
    assert key.size_mm == pytest.approx((3.2, depth, 2.0 * depth))
    both_ends = 2  # each side of the ring has a miter at both ends
    assert made.removed_mm3("side_1") == pytest.approx(both_ends * 2 * 3.2 * depth**2 / 2.0, rel=1e-6)
    assert sum(face.area_mm2 for face in work.glue[1:]) == pytest.approx(2 * 2 * depth**2)
    assert {mark.on_end for mark in work.marks} == {False}


def test_keys_of_six_sides_are_longer() -> None:
    """At a corner that turns by 60 degrees a key is 2 d / tan 30 long."""
    (key,) = ring(6, held_by="keys").works[0].connectors
    depth = 10.0 / math.cos(math.radians(30.0)) * 2.0 / 3.0
    assert key.size_mm[2] == pytest.approx(2.0 * depth / math.tan(math.radians(30.0)))


def test_loose_tenons_are_a_third_as_thick() -> None:
    """In a flat frame: 7 of 20, half of the miter wide, a quarter of the width deep, in mortises."""
    made = frame(held_by="loose tenons")
    (tenon,) = made.works[0].connectors
    wide = 60.0 * math.sqrt(2.0) / 2.0
    assert tenon.size_mm == pytest.approx((7.0, wide, 29.0))
    taken = ((wide - 7.0) * 7.0 + math.pi / 4.0 * 49.0) * 15.0
    assert made.removed_mm3("a") == pytest.approx(taken, rel=2e-3)  # round ends are facets


def test_what_crosses_the_miter_breaks_at_its_strength() -> None:
    """MOR times the section modulus about the arris; of glue alone nothing is said."""
    mor = find_species("black walnut").mor_mpa
    assert mor is not None
    run = 60.0 * math.sqrt(2.0)
    assert frame().works[0].breaking_nmm == pytest.approx(mor * 5.0 * run**2 / 6.0)
    assert frame(held_by="glue").works[0].breaking_nmm is None


def end_grain(work: JointWork) -> float:
    """Share of end grain in the slanting face."""
    return work.glue[0].end_grain_share


@pytest.mark.parametrize(("sides", "lean"), [(4, 0.0), (4, 20.0), (6, 0.0), (8, 0.0)])
def test_the_more_sides_the_more_end_grain(sides: int, lean: float) -> None:
    """The cosine between grain and miter: cos(180 / n) of an upright side, whatever it leans."""
    assert end_grain(ring(sides, lean).works[0]) == pytest.approx(math.cos(math.pi / sides))


@pytest.mark.parametrize(("held_by", "codes"), [("glue", {"F11"}), ("spline", set()), ("keys", set())])
def test_glue_alone_is_told(held_by: str, codes: set[str]) -> None:
    """F11 where nothing but end-grain glue holds the corner; none once wood crosses it."""
    made = frame(held_by=held_by)
    found = check(Subject(piece=made.piece, works=made.works, moisture=YEAR))
    assert {finding.code for finding in found} == codes
    assert {finding.severity.value for finding in found} <= {"high"}


def test_a_wide_flat_miter_opens_inside_when_it_dries() -> None:
    """S l sin 2 phi with s the shrinkage of both widths: for 60 wide walnut, flat-sawn, from 8 to 6.5 %."""
    made = frame()
    (contact,) = contacts(made.piece.parts["a"], made.piece.parts["b"])
    meeting = Meeting(first=made.piece.parts["a"], second=made.piece.parts["b"], contact=contact)
    corner = miter_corner(made.piece.joints[0], meeting)
    coefficient = 0.00274  # black walnut, tangential: Wood Handbook table 13-5
    by_hand = 1.5 * coefficient * 60.0 * math.sqrt(2.0)
    assert opening_mm(corner, YEAR) == pytest.approx(by_hand, rel=0.02)


@pytest.mark.parametrize(
    ("options", "code"),
    [
        ({"depth": 42}, "deeper_than_part"),
        ({"thickness": 11}, "tongue_too_thick"),
        ({"stopped": 41}, "nothing_left"),
        ({"held_by": "keys", "depth": 84.5}, "key_through_corner"),
        ({"held_by": "keys", "count": 5}, "tongue_too_thick"),
    ],
)
def test_what_cannot_be_cut_is_refused(options: dict[str, Any], code: str) -> None:
    """Each just over what the corner has; a little less goes."""
    with pytest.raises(FileFaults) as error:
        frame(**options)
    assert [fault.code for fault in error.value.faults] == [code]
    less = {"depth": 30, "thickness": 10, "stopped": 39, "count": 2}
    just = {key: min(value, less[key]) if key in less else value for key, value in options.items()} | (
        {"depth": 80} if code == "key_through_corner" else {}
    )
    assert frame(**just).works


def test_parts_that_butt_are_no_miter() -> None:
    """An end on a face is told to be trimmed as a miter."""
    parts = frame_parts()
    parts["a"]["trim"] = {"end": "b.left"}
    parts["b"]["trim"] = {}
    with pytest.raises(FileFaults) as error:
        made_of(parts, {"j": {"kind": "miter", "between": [["a.end", "b"]]}})
    (fault,) = error.value.faults
    assert fault.code == "not_a_miter"
    assert "miter with" in fault.remedy


def test_one_end_left_square_is_told_what_to_write() -> None:
    """Only one of the two is mitered: the way out names both trims."""
    parts = frame_parts()
    parts["b"]["trim"] = {}
    with pytest.raises(FileFaults) as error:
        made_of(parts, {"j": {"kind": "miter", "between": [["a.end", "b.start"]]}})
    (fault,) = error.value.faults
    assert fault.code == "parts_do_not_touch"
    assert "b by 'miter with a'" in fault.remedy
