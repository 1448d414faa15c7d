"""Ends and edges drawn flush that the seasons move apart: F07."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.breadboard_end import BreadboardEnd, BreadboardEndOptions, FixedAt
from scantling.joinery.travel import Travel, travel
from scantling.joinery.work import JointWork
from scantling.piece.convex import body_of
from scantling.piece.model import Part

__all__ = ["check"]

_FLUSH_MM = 0.5
"""Edges nearer than this are meant to be flush. [mm]"""
_SEEN_MM = 0.2
"""A travel below this shows as nothing, on a rule of 64ths too. [mm]"""


def check(subject: Subject) -> list[Finding]:
    """Findings on breadboard ends whose ends are flush with the panel's edges."""
    asked = {joint.name: joint.options for joint in subject.piece.joints}
    found: list[Finding] = []
    for work in subject.works:
        options = asked.get(work.joint)
        if work.family == BreadboardEnd.name and isinstance(options, BreadboardEndOptions):
            found += _breadboard(subject, work, options)
    return found


def _breadboard(subject: Subject, work: JointWork, options: BreadboardEndOptions) -> list[Finding]:
    cap, panel = subject.part(work.first), subject.part(work.second)
    if not _flush(cap, panel):
        return []
    spans = (0.5, -0.5) if options.fixed is FixedAt.MIDDLE else (1.0,)
    edges = [travel(panel, share * panel.width_mm, subject.moisture) for share in spans]
    moves = max(edges, key=lambda edge: edge.shrink_mm + edge.swell_mm)
    step, allowed = max(moves.shrink_mm, moves.swell_mm), limit("F07", "step_mm")
    if step <= allowed:
        return []
    return [
        finding(
            "F07",
            where=work.joint,
            message=f"{cap.name} is drawn flush with the edges of {panel.name}; each edge will stand "
            f"{_way_words(moves)}",
            numbers={"step_mm": step, "shrink_mm": moves.shrink_mm, "swell_mm": moves.swell_mm},
        )
    ]


def _way_words(moves: Travel) -> str:
    """Both ways an edge goes, but for one that would read as nothing."""
    ways = (
        (moves.shrink_mm, f"back up to {moves.shrink_mm:.1f} mm when dry"),
        (moves.swell_mm, f"out up to {moves.swell_mm:.1f} mm when damp"),
    )
    return " and ".join(words for mm, words in ways if mm >= _SEEN_MM)


def _flush(cap: Part, panel: Part) -> bool:
    """Whether an end is as long as its panel is wide, at one edge at least."""
    way = panel.frame.width
    ends, edges = body_of(cap).extent(way), body_of(panel).extent(way)
    return any(abs(a - b) <= _FLUSH_MM for a, b in zip(ends, edges, strict=True))
