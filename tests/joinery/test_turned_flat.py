"""Joints of a rail laid flat: what bears turning is its thickness, by strength of materials."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.joinery.strength import Known
from scantling.joinery.work import JointWork
from scantling.wood.species import find_species
from tests.joinery.bench import made_of
from tests.joinery.sample import Options, stick

UPRIGHT, FLAT = "top", "back"
KINDS: dict[str, Options] = {
    "mortise_tenon": {"thickness": 8, "length": 26, "shoulder": 7},
    "loose_tenon": {"thickness": 8, "width": 31, "depth_first": 30, "depth_second": 26, "long_in": "neither"},
    "tusk_tenon": {"thickness": 8, "shoulder": 7, "driven_from": "front"},
    "dowel_pin": {"diameter": 8, "count": 2, "depth_first": 25, "depth_second": 25},
    "cross_bolt": {"count": 1, "dowels": 0},
}


def rail(kind: str, laid: str, **options: Any) -> JointWork:
    """A rail of white oak 45 x 28 in a plumb leg 45 square, on edge or laid flat."""
    parts = {
        "a": stick((0, 0, 150), (400, 0, 150), (45, 28), laid, trim={"end": "b.left"}),
        "b": stick((422.5, 0, 0), (422.5, 0, 300), (45, 45), "right"),
    }
    asked = {"kind": kind, "between": [["a.end", "b"]], **KINDS[kind], **options}
    return made_of(parts, {"j": asked}).works[0]


def mor_mpa() -> float:
    """Of white oak."""
    found = find_species("white oak").mor_mpa
    assert found is not None
    return found


@pytest.mark.parametrize("kind", ["mortise_tenon", "loose_tenon", "tusk_tenon"])
def test_a_flat_tenon_bends_over_its_thickness(kind: str) -> None:
    """8 x 31: on edge 8 31^2 / 6 = 1281 mm3, laid flat 31 8^2 / 6 = 331."""
    assert rail(kind, UPRIGHT).strength.moment_nmm.low == pytest.approx(mor_mpa() * 8.0 * 31.0**2 / 6.0)
    assert rail(kind, FLAT).strength.moment_nmm.low == pytest.approx(mor_mpa() * 31.0 * 8.0**2 / 6.0)


@pytest.mark.parametrize("kind", ["mortise_tenon", "loose_tenon"])
def test_a_flat_tenon_turns_more_easily(kind: str) -> None:
    """By (8 / 31)^2 = 0.067, as its second moment is to that of one on edge."""
    upright, flat = (rail(kind, laid).strength.stiffness_nmm_rad for laid in (UPRIGHT, FLAT))
    assert upright.likely is not None
    assert flat.likely == pytest.approx(upright.likely * (31.0 * 8.0**3) / (8.0 * 31.0**3))
    assert flat.known is Known.MEMORY
    assert "laid flat" in flat.source


def test_what_was_tested_on_edge_is_not_claimed_of_a_flat_tenon() -> None:
    """The broken joints of oak stood on edge: no greatest figure of theirs for one laid flat."""
    moment = rail("mortise_tenon", FLAT).strength.moment_nmm
    assert moment.known is Known.RECKONED
    assert moment.high == moment.low


@pytest.mark.parametrize("kind", ["mortise_tenon", "loose_tenon"])
def test_the_tenon_of_a_leaning_rail_is_upright_by_strength_and_stiffness_alike(kind: str) -> None:
    """A brace at 50 degrees: its width leans, the tenon's in the leg's face is plumb, and bends over it."""
    rise = 200.0 * math.tan(math.radians(50.0))
    parts = {
        "a": stick((200, 0, 450 - rise), (400, 0, 450), (45, 28), UPRIGHT, trim={"end": "b.left"}),
        "b": stick((422.5, 0, 0), (422.5, 0, 700), (45, 45), "right"),
    }
    sizes = {"depth_first": 26} if kind == "loose_tenon" else {}
    asked = {"kind": kind, "between": [["a.end", "b"]], **KINDS[kind], **sizes}
    leaning = made_of(parts, {"j": asked}).works[0].strength
    upright = rail(kind, UPRIGHT).strength
    assert leaning.moment_nmm.low is not None
    assert leaning.moment_nmm.low > mor_mpa() * 8.0 * 30.0**2 / 6.0
    assert leaning.stiffness_nmm_rad == upright.stiffness_nmm_rad
    assert leaning.moment_nmm.known is upright.moment_nmm.known


def test_dowels_side_by_side_bear_no_couple() -> None:
    """In a row one over the other they are drawn out; side by side none is."""
    upright, flat = (rail("dowel_pin", laid).strength for laid in (UPRIGHT, FLAT))
    assert upright.moment_nmm.likely is not None
    assert upright.stiffness_nmm_rad.likely is not None
    assert flat.moment_nmm.likely is None
    assert flat.stiffness_nmm_rad.likely is None
    assert flat.pull_n.likely == upright.pull_n.likely


def test_a_bolt_pulls_at_half_the_height_of_its_rail() -> None:
    """One bolt in the middle: the joint opens about an edge 22.5 mm from it on edge, 14 mm laid flat."""
    upright, flat = (
        rail("cross_bolt", laid, nut_face=face).strength.moment_nmm.likely
        for laid, face in ((UPRIGHT, "front"), (FLAT, "bottom"))
    )
    assert upright is not None
    assert flat == pytest.approx(upright * 14.0 / 22.5)


def test_edge_to_edge_dowels_lie_along_the_grain() -> None:
    """Two boards side by side: turned in their own plane, a row along the edge draws."""
    parts = {
        "a": stick((0, 0, 0), (500, 0, 0), (120, 22), "back"),
        "b": stick((0, 110, 0), (500, 110, 0), (100, 22), "back"),
    }
    asked = {"kind": "dowel_pin", "between": [["a", "b"]], "along_grain": True, "count": 3}
    moment = made_of(parts, {"j": asked}).works[0].strength.moment_nmm
    assert moment.likely is not None
    assert moment.likely > 0.0


def test_a_lap_of_crossing_grains_turns_in_its_own_face() -> None:
    """Loose tenons through a rail that lies across a leg's face: they shear, and no bending is claimed."""
    parts = {
        "a": stick((-200, 0, 150), (200, 0, 150), (60, 24), "top"),
        "b": stick((0, 36, 0), (0, 36, 300), (60, 48), "right"),
    }
    asked = {"kind": "loose_tenon", "between": [["a.back", "b"]], "thickness": 8, "width": 20}
    asked |= {"depth_first": 12, "depth_second": 20, "long_in": "neither"}
    strength = made_of(parts, {"j": asked}).works[0].strength
    assert strength.moment_nmm.likely is None
    assert strength.stiffness_nmm_rad.likely is None
