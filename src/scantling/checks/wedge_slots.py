"""Wood round a slot that a wedge spreads: at its root in the tenon, and beyond the hole it locks in: F12."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.checks.catalogue import finding, limit
from scantling.checks.hollows import prism
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.work import Box, Connector, ConnectorKind, Cut, Hole, JointWork, Slot
from scantling.piece.convex import local_body
from scantling.piece.geometry import Frame, dot, sub
from scantling.piece.model import Part

__all__ = ["check"]

_ALONG = 0.7
"""From this cosine on a direction counts as lying the way of another. [1]"""
_LOCKED = ("hole", "mortise")
"""Cuts that a wedged tenon is locked in; a flare is drawn as a cut of its own. [name]"""
_SHOWN_MM = 0.05
"""What is missing by less is not missing: the figures of a finding would be equal. [mm]"""
_ALONG_GRAIN = (1.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Slot:
    """A slot in the end of a tenon, and how long the tenon is from where it enters. [mm]"""

    deep_mm: float
    tenon_mm: float
    frame: Frame


def check(subject: Subject) -> list[Finding]:
    """Findings on every joint whose tenon is spread by wedges in its end."""
    found: list[Finding] = []
    for work in subject.works:
        slots = [slot for one in work.connectors for slot in _slots(subject.part(work.first), work, one)]
        if slots:
            found += _roots(work, slots)
            found += _beyond(subject, work, slots)
    return found


def _slots(first: Part, work: JointWork, wedge: Connector) -> list[_Slot]:
    """The slots of wedges that go in along the tenon; one across it, of a tusk tenon, has none."""
    if wedge.kind is not ConnectorKind.WEDGE:
        return []
    deep = wedge.size_mm[2]
    found = []
    for frame in wedge.frames:
        along = dot(frame.grain, first.frame.grain)
        if abs(along) < _ALONG:
            continue
        far = abs(dot(sub(frame.origin, work.at), frame.grain)) + deep / 2.0
        found.append(_Slot(deep_mm=deep, tenon_mm=far, frame=frame))
    return found


def _roots(work: JointWork, slots: list[_Slot]) -> list[Finding]:
    """A slot so deep that the wedge splits the tenon on past where it enters."""
    slot = max(slots, key=lambda one: one.deep_mm / one.tenon_mm)
    most = limit("F12", "wedge_share") * slot.tenon_mm
    if slot.deep_mm <= most + _SHOWN_MM:
        return []
    return [
        finding(
            "F12",
            where=work.joint,
            message=f"the wedge slot of {work.joint} goes {slot.deep_mm:.1f} mm down a tenon of "
            f"{slot.tenon_mm:.1f} mm: {slot.tenon_mm - slot.deep_mm:.1f} mm of whole wood at its root, and "
            f"the wedge splits {work.first} on from there; at most {most:.1f} mm",
            advice=f"Saw the slot {math.floor(most + 1e-6)} mm deep and make the wedge as long; a hole of "
            "3 mm across its end stops the split.",
            numbers={"slot_mm": slot.deep_mm, "slot_most_mm": most, "tenon_mm": slot.tenon_mm},
        )
    ]


def _beyond(subject: Subject, work: JointWork, slots: list[_Slot]) -> list[Finding]:
    """Wood between the hole and the end of its part, which the wedge pushes along the grain."""
    part = subject.part(work.second)
    if all(abs(dot(slot.frame.thickness, part.frame.grain)) < _ALONG for slot in slots):
        return []
    start, end = local_body(part).extent(_ALONG_GRAIN)
    found = []
    for cut in work.cuts:
        body = prism(cut) if cut.part == part.name and cut.what in _LOCKED else None
        if body is None:
            continue
        low, high = body.extent(_ALONG_GRAIN)
        stub, which = min((low - start, "start"), (end - high, "end"))
        wide = _wide_mm(cut)
        wanted = limit("F12", "wedge_ratio") * wide
        if stub >= wanted - _SHOWN_MM:
            continue
        found.append(
            finding(
                "F12",
                where=f"{part.name}/{work.joint}",
                message=f"{stub:.1f} mm of {part.name} stand between the wedged {cut.what} of {work.joint} "
                f"and its {which}: the wedge pushes them out along the grain; at least {wanted:.0f} mm "
                f"beside {wide:.0f} mm",
                advice=f"Move the {cut.what} {wanted - stub:.1f} mm in from the {which}, make the tenon "
                "thinner, or leave the wedge out.",
                numbers={"fiber_mm": stub, "wanted_mm": wanted, "shortfall_mm": wanted - stub},
            )
        )
    return found


def _wide_mm(cut: Cut) -> float:
    """How wide a hollow is across the grain it is pushed along. [mm]"""
    tool = cut.tool
    assert isinstance(tool, Hole | Slot | Box)
    if isinstance(tool, Hole):
        return tool.diameter_mm
    return tool.width_mm if isinstance(tool, Slot) else min(tool.width_mm, tool.thickness_mm)
