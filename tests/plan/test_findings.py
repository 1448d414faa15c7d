"""Findings are told once for like parts, and a reason in the file sets one aside."""

from __future__ import annotations

from scantling.errors import Finding, Severity
from scantling.plan.findings import told_once
from tests.plan.jobs import demo_job, demo_plan


def found(where: str, message: str) -> Finding:
    """A finding at one place."""
    return Finding(code="F62", severity=Severity.MEDIUM, where=where, message=message)


def test_four_legs_with_one_fault_are_one_finding() -> None:
    """The same said of like parts is one remark that names them all."""
    piece = demo_job(rack=False).piece
    legs = ("leg_fl", "leg_fr", "leg_bl", "leg_br")
    report = told_once([found(leg, f"{leg} leans 7.0 degrees") for leg in legs], piece)
    assert [f.where for f in report.findings] == ["leg_fl, leg_fr, leg_bl, leg_br"]


def test_different_figures_stay_apart() -> None:
    """Another figure is another remark."""
    piece = demo_job(rack=False).piece
    report = told_once([found("leg_fl", "leg_fl leans 7.0"), found("leg_fr", "leg_fr leans 8.0")], piece)
    assert len(report.findings) == 2


def test_a_rule_set_aside_with_a_reason_is_a_note() -> None:
    """F18 stands in the demo's file with its reason: it stays visible and stops nothing."""
    notes = [f for f in demo_plan().findings if f.code == "F18"]
    assert [f.severity for f in notes] == [Severity.NOTE]
    assert notes[0].advice.startswith("Set aside: The legs are 48 mm")


def test_a_part_in_several_pairs_is_named_once() -> None:
    """Four corners where two parts each meet name four parts, not eight."""
    piece = demo_job(rack=False).piece
    pairs = [(f"apron_{a}", f"apron_{b}") for a in ("front", "back") for b in ("left", "right")]
    report = told_once([found(f"{a}, {b}", f"{a} and {b} share 5 mm3") for a, b in pairs], piece)
    assert [f.where for f in report.findings] == ["apron_front, apron_left, apron_right, apron_back"]


def test_glue_ups_alike_of_one_panel_are_one_finding() -> None:
    """Three sub-panels that want more clamps than there is time for are one remark that names them all."""
    piece = demo_job(rack=False).piece
    report = told_once(
        [found(f"top: group 1 of sub-panel {i}", "18 clamps are wanted") for i in (1, 2, 3)], piece
    )
    [one] = report.findings
    assert one.where == ", ".join(f"top: group 1 of sub-panel {i}" for i in (1, 2, 3))
