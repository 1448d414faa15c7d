"""Findings: what the machines of the shop cannot take, and how to go round it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scantling.checks import finding, rule
from scantling.errors import Finding, Severity
from scantling.joinery.work import JointWork, Mark, MarkKind
from scantling.remembering import remembered
from scantling.shop.milling.ledger import MillingLedger, Pass, Stage
from scantling.shop.operations.routing import Machine, Operation
from scantling.shop.profile.machines import Machines
from scantling.shop.profile.profile import Shop
from scantling.shop.sawing.saw import PartSawing
from scantling.units.show import show_number

__all__ = ["cutter_findings", "least_sizes_mm", "milling_findings", "saw_findings"]

_FIXED = "loose-tenon cutter"
_SAME_MM = 0.2
"""A mortise this near a cutter's width is that cutter's. [mm]"""
_NO_LESS_MM = 0.5
"""So little under the least width ripped no sled is needed: it is a rule of thumb. [mm] (judgement)"""
_SETS_WIDTH = {
    "breadboard_end": "tongue_thickness",
    "loose_tenon": "thickness",
    "mortise_tenon": "thickness",
    "top_button": "tongue",
}
"""The option of each family that decides how wide its mortises are."""


def milling_findings(ledgers: Iterable[MillingLedger], shop: Shop) -> tuple[Finding, ...]:
    """Parts too short, thin, wide or long for the machines, or too narrow to rip (F23 to F26, F28).

    A part is told once for each rule, at the pass that breaks it most gravely, the first of equals.
    """
    told: dict[tuple[str, str], Finding] = {}
    for ledger in ledgers:
        for item in _part_findings(ledger, shop):
            known = told.setdefault((ledger.part, item.code), item)
            told[ledger.part, item.code] = min(known, item, key=lambda each: each.severity.rank)
    return tuple(told.values())


@remembered(limit=1024)
def _part_findings(ledger: MillingLedger, shop: Shop) -> tuple[Finding, ...]:
    return tuple(found for one in ledger.passes for found in _pass_findings(ledger, one, shop))


def saw_findings(sawings: Iterable[PartSawing]) -> tuple[Finding, ...]:
    """Ends that no saw of the shop reaches (F27), once a part."""
    found: list[Finding] = []
    for sawing in sawings:
        cut = next((cut for cut in sawing.cuts if not cut.lay.reaches), None)
        if cut is not None:
            lay = cut.lay
            asked = f"{lay.miter_deg:.1f}° of turn and {lay.bevel_deg:.1f}° of tilt are asked for"
            found.append(
                finding(
                    "F27",
                    where=f"{sawing.part}.{cut.end.value}",
                    message=f"{asked}; {'; '.join(lay.why_not)}.",
                    numbers={"miter_deg": lay.miter_deg, "bevel_deg": lay.bevel_deg},
                )
            )
    return tuple(found)


def cutter_findings(works: Iterable[JointWork], shop: Shop) -> tuple[Finding, ...]:
    """Mortises for which no machine of the shop has the cutter and the depth (F27), once a joint."""
    found: list[Finding] = []
    for work in works:
        deep = sorted((m for m in work.marks if m.kind is MarkKind.MORTISE), key=lambda m: -m.depth_mm)
        if deep and not _cuts_mortise(shop.machines, deep[0]):
            found.append(_cutter_finding(work, deep[0], shop.machines))
    return tuple(found)


def _pass_findings(ledger: MillingLedger, one: Pass, shop: Shop) -> Iterator[Finding]:
    least_mm, thinnest_mm = least_sizes_mm(one.machine, shop.machines)
    length_mm, thickness_mm = one.before.length_mm, one.after.thickness_mm
    part, name = ledger.part, one.machine.value
    if length_mm < least_mm:
        yield finding(
            "F23",
            where=part,
            message=f"The blank is {show_number(length_mm)} mm long; the {name} takes "
            f"{show_number(least_mm)} mm and more.",
            numbers={"length_mm": length_mm, "wanted_mm": least_mm},
            severity=rule("F23").severity_at(1.0 - length_mm / least_mm),
        )
    if thickness_mm < thinnest_mm:
        yield finding(
            "F24",
            where=part,
            message=f"It is milled to {thickness_mm:.1f} mm; the {name} takes {thinnest_mm:.0f} mm and more.",
            numbers={"thickness_mm": thickness_mm, "wanted_mm": thinnest_mm},
            severity=rule("F24").severity_at(1.0 - thickness_mm / thinnest_mm),
        )
    if length_mm > shop.space.run_out_mm:
        yield finding(
            "F26",
            where=part,
            message=(
                f"The blank is {show_number(length_mm)} mm long; {shop.space.run_out_mm:.0f} mm are free "
                "before and behind the machines."
            ),
            numbers={"length_mm": length_mm, "free_mm": shop.space.run_out_mm},
        )
    yield from _wide(ledger, one, shop.machines)
    yield from _narrow(ledger, one, shop.machines)


def least_sizes_mm(machine: Machine, machines: Machines) -> tuple[float, float]:
    """Least length and thickness a machine takes safely; 0 for those without. [mm]"""
    if machine is Machine.JOINTER and machines.jointer:
        return machines.jointer.min_length_mm, machines.jointer.min_thickness_mm
    if machine in (Machine.PLANER, Machine.PLANER_SLED) and machines.planer:
        return machines.planer.min_length_mm, machines.planer.min_thickness_mm
    if machine is Machine.MITER_SAW and machines.miter_saw:
        return machines.miter_saw.min_length_mm, 0.0
    if machine is Machine.DRUM_SANDER and machines.drum_sander:
        return machines.drum_sander.min_length_mm, 0.0
    return 0.0, 0.0


def _wide(ledger: MillingLedger, one: Pass, machines: Machines) -> Iterator[Finding]:
    """A planer is owned and the workpiece is too wide for it; a note where only last joints are left."""
    planes = (Operation.FACE, Operation.PLANE, Operation.SETTLE, Operation.REFLATTEN)
    if one.operation not in planes or not one.machine.by_hand or machines.planer is None:
        return
    capacity_mm = machines.planer.max_width_mm
    if one.before.width_mm <= capacity_mm:
        return
    last_joints = one.stage is Stage.WHOLE and ledger.strips is not None and ledger.strips.last_joints > 0
    yield finding(
        "F25",
        where=ledger.part,
        message=(
            f"It is {show_number(one.before.width_mm)} mm wide when it is to {one.operation.value}; the "
            f"planer takes {capacity_mm:.0f} mm."
        ),
        advice=(
            "Planned: sub-panels through the planer, the last joints leveled by hand."
            if last_joints
            else None
        ),
        numbers={"width_mm": one.before.width_mm, "capacity_mm": capacity_mm},
        severity=Severity.NOTE if last_joints else None,
    )


def _narrow(ledger: MillingLedger, one: Pass, machines: Machines) -> Iterator[Finding]:
    saw = machines.table_saw
    if one.operation is not Operation.RIP or one.machine is not Machine.TABLE_SAW or saw is None:
        return
    width_mm = one.after.width_mm
    if width_mm < saw.min_rip_mm - _NO_LESS_MM:
        yield finding(
            "F28",
            where=ledger.part,
            message=f"It is ripped to {show_number(width_mm)} mm; below {show_number(saw.min_rip_mm)} mm a "
            "sled carries it.",
            numbers={"width_mm": width_mm, "wanted_mm": saw.min_rip_mm},
            severity=rule("F28").severity_at(1.0 - width_mm / saw.min_rip_mm),
        )


def _tools(machines: Machines) -> tuple[tuple[str, tuple[float, ...], float], ...]:
    """Machines that cut mortises: name, widths, depth."""
    loose, router = machines.loose_tenon_cutter, machines.router
    chisel, drill = machines.mortiser, machines.drill_press
    owned: list[tuple[str, tuple[float, ...], float]] = []
    if loose:
        owned.append((_FIXED, loose.cutters_mm, loose.max_depth_mm))
    if router:
        owned.append(("router", router.bits_mm, router.max_depth_mm))
    if chisel:
        owned.append(("mortiser", chisel.chisels_mm, chisel.max_depth_mm))
    if drill:
        owned.append(("drill press", drill.bits_mm, drill.travel_mm))
    return tuple(owned)


def _cuts_mortise(machines: Machines, mark: Mark) -> bool:
    """Whether a machine has the cutter and the depth; without machines, chisels cut any.

    A narrower bit or chisel cuts a wider mortise in two passes, the fence moved between them; the width a
    loose-tenon cutter leaves is its own. A through mortise is cut half way from each face.
    """
    tools, reach_mm = _tools(machines), mark.depth_mm / 2.0 if mark.both_faces else mark.depth_mm
    return not tools or any(
        depth_mm >= reach_mm - 1e-6
        and any(abs(w - mark.width_mm) < _SAME_MM or (w < mark.width_mm and name != _FIXED) for w in widths)
        for name, widths, depth_mm in tools
    )


def _cutter_finding(work: JointWork, mark: Mark, machines: Machines) -> Finding:
    said = "; ".join(
        f"{name}: {', '.join(f'{w:g}' for w in widths)} mm wide, {depth_mm:g} mm deep"
        for name, widths, depth_mm in _tools(machines)
    )
    return finding(
        "F27",
        where=work.joint,
        message=(
            f"A mortise {mark.width_mm:.1f} mm wide and {mark.depth_mm:.1f} mm deep"
            f"{', cut from both faces,' if mark.both_faces else ''} is asked for; {said}."
        ),
        advice=(
            f"Change its {_SETS_WIDTH.get(work.family, 'tenon')} to suit a cutter that reaches, or bore and "
            "chop the mortise by hand."
        ),
        numbers={"width_mm": mark.width_mm, "depth_mm": mark.depth_mm},
    )
