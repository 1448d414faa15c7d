"""Wood beyond a wedge that goes through a tenon: F13."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.hollows import prism
from scantling.checks.subject import Subject
from scantling.checks.tenons import tenon_of
from scantling.errors import Finding
from scantling.joinery.tusk_tenon import WEDGE_MORTISE
from scantling.joinery.work import JointWork
from scantling.piece.model import End

__all__ = ["check"]

_OUTLINE_MM = 0.05
"""The hole's sloping end is drawn a tenth past the tenon's face, and so reaches this much too far. [mm]"""


def check(subject: Subject) -> list[Finding]:
    """A finding for each wedge whose tenon is too short beyond it."""
    return [item for work in subject.works for item in _of(subject, work)]


def _of(subject: Subject, work: JointWork) -> list[Finding]:
    tenon = tenon_of(work)
    if tenon is None:
        return []
    wanted = max(limit("F13", "tail_mm"), limit("F13", "tail_ratio") * tenon.thickness_mm)
    found = []
    for cut in work.cuts:
        body = prism(cut) if cut.what == WEDGE_MORTISE else None
        extension = next((e for e in work.extensions if e.part == cut.part), None)
        if body is None or extension is None:
            continue
        part = subject.part(cut.part)
        low, high = body.extent((1.0, 0.0, 0.0))
        end = part.end_mm + extension.length_mm
        tail = end - high if extension.end is End.END else low - (part.start_mm - extension.length_mm)
        if tail < wanted - _OUTLINE_MM:
            found.append(
                finding(
                    "F13",
                    where=work.joint,
                    message=f"{tail:.1f} mm of tenon stand beyond the wedge of {work.joint}; at least "
                    f"{wanted:.0f} mm beside a {tenon.thickness_mm:.1f} mm tenon",
                    numbers={"tail_mm": tail, "wanted_mm": wanted, "shortfall_mm": wanted - tail},
                )
            )
    return found
