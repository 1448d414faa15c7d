"""The page on drawers, doors and lids is true: its joints exist, and its worked figures come out."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scantling.checks.catalogue import codes, limit
from scantling.joinery import joint_families
from scantling.joinery.hinge_edge import hinge_count, hinge_length_mm
from scantling.joinery.opening_fit import jams
from scantling.joinery.swing import swing_bevel_deg, swing_clearance_mm
from scantling.structure.drawer_tipping import Drawer, DrawerTip

PAGE = (Path(__file__).parents[2] / "docs" / "drawers-and-doors.md").read_text(encoding="utf-8")


def test_what_it_names_exists() -> None:
    """Every joint of its first table, and every rule."""
    joints = set(re.findall(r"^\| [^|]+ \| `(\w+)`", PAGE, flags=re.M))
    assert len(joints) == 9
    assert joints <= set(joint_families())
    assert set(re.findall(r"\bF\d\d\b", PAGE)) <= set(codes())


def test_its_drawer_jams_and_runs_waxed() -> None:
    """190 / 0.4 = 475 and 190 / 0.25 = 760 for a drawer 722 wide."""
    assert (limit("F49", "friction"), limit("F49", "waxed")) == (0.4, 0.25)
    assert [jams(722, 190, friction=mu) for mu in (0.4, 0.25)] == [True, False]
    assert "190 / 0.4 = 475" in PAGE
    assert "190 / 0.25 = 760" in PAGE


def test_its_doors_swing_as_it_says() -> None:
    """0.70 mm for 440, 3.03 mm for 100, and 4.1 degrees in 1.5 mm."""
    size = {"thickness_mm": 22.0, "pin_out_mm": 3.0}
    told = [f"{swing_clearance_mm(wide, **size):.2f} mm" for wide in (440.0, 100.0)]
    told.append(f"{swing_bevel_deg(100.0, gap_mm=1.5, **size):.1f}°")
    assert [one in PAGE for one in told] == [True, True, True]


def test_its_chest_tips_by_what_it_says() -> None:
    """-510 kg mm, 4.8 mm, 1.3 kg."""
    case = DrawerTip(
        mass_kg=52.0,
        behind_mm=225.0,
        drawers=(Drawer(mass_kg=9.0, arm_mm=150.0),) * 3,
        child_kg=limit("F41", "child_kg"),
        child_arm_mm=300.0,
        back_mm=400.0,
    )
    assert case.margin_kg_mm == pytest.approx(-510.0)
    assert f"{case.forward_mm:.1f} mm farther" in PAGE
    assert f"{case.ballast_kg:.1f} kg of ballast 400 mm" in PAGE


def test_its_rules_of_the_trade_are_those_used() -> None:
    """Two hinges to 1 m and one more each 600 mm; a twelfth of the edge."""
    assert [hinge_count(edge) for edge in (1000.0, 1600.0, 2200.0)] == [2, 3, 4]
    assert hinge_length_mm(600.0) == 600.0 / 12.0
