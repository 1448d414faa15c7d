"""Wide parts: even finish on both faces, and seams clear of joints: F52, F59."""

from __future__ import annotations

from scantling.checks.catalogue import finding, limit
from scantling.checks.mortises import hollows_by_part
from scantling.checks.subject import FaceCoats, Subject
from scantling.errors import Finding

__all__ = ["check"]

_PLAY_MM = 0.5
"""Nobody places a seam more exactly than this. [mm]"""
_RUNS_ACROSS = ("groove", "tongue", "rabbet", "housing", "haunch", "notch", "socket")
"""Cuts that cross every seam whatever the strips are; sockets stand all along a corner."""


def check(subject: Subject) -> list[Finding]:
    """Findings on wide parts."""
    found: list[Finding] = []
    for coats in subject.coats:
        found += _finish(coats)
    hollows = hollows_by_part(subject)
    for name, seams in subject.seams_mm.items():
        half = subject.part(name).width_mm / 2.0
        places = [(f"the edge of {name}", -half, -half), (f"the edge of {name}", half, half)]
        for hollow in hollows.get(name, ()):
            if not any(word in hollow.cut.what for word in _RUNS_ACROSS):
                low, high = hollow.prism.extent((0.0, 1.0, 0.0))
                places.append((f"the {hollow.cut.what} of {hollow.joint}", low, high))
        found += _seams(name, seams, places=places)
    return found


def _finish(coats: FaceCoats) -> list[Finding]:
    most, fewest = max(coats.one, coats.other), min(coats.one, coats.other)
    if most <= 0.0 or fewest >= limit("F52", "share") * most - 1e-9:
        return []
    cups = f"; lying free it would cup {coats.cup_mm:.1f} mm in this room" if coats.cup_mm >= 0.05 else ""
    return [
        finding(
            "F52",
            where=coats.part,
            message=f"{coats.part} gets {most:g} coats on one face and {fewest:g} on the other{cups}",
            numbers={"most": most, "fewest": fewest, "cup_mm": coats.cup_mm},
        )
    ]


def _seams(part: str, seams: tuple[float, ...], *, places: list[tuple[str, float, float]]) -> list[Finding]:
    wanted = limit("F59", "clear_mm")
    found: list[Finding] = []
    for number, seam in enumerate(seams, start=1):
        near = [(max(low - seam, seam - high, 0.0), what) for what, low, high in places]
        clear, what = min(near)
        if clear < wanted - _PLAY_MM:
            found.append(
                finding(
                    "F59",
                    where=part,
                    message=f"seam {number} of {part} is {clear:.0f} mm from {what}; "
                    f"at least {wanted:.0f} mm",
                    numbers={"clear_mm": clear, "wanted_mm": wanted, "shortfall_mm": wanted - clear},
                )
            )
    return found
