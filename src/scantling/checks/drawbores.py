"""Pins that bear on the end of the slot they should slide in, or are drawn across the movement: F20."""

from __future__ import annotations

from collections.abc import Iterator

from scantling.checks.catalogue import finding
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.joinery.work import Cut, Hole, JointWork, Slot
from scantling.piece.geometry import Frame, Vec, dot, norm, scale, sub

__all__ = ["check"]

_NEAR_MM = 25.0
"""Two bores farther apart than this are not one pin's. [mm]"""
_PLAY_MM = 0.05
"""Offset that is none. [mm]"""


def check(subject: Subject) -> list[Finding]:
    """Findings on every pin of a joint with places that must be free to move."""
    return [item for work in subject.works for item in _of(subject, work)]


def _of(subject: Subject, work: JointWork) -> list[Finding]:
    found = []
    for slot, hole in _pairs(subject, work):
        tool = slot.tool
        assert isinstance(tool, Slot)
        frame = _world(subject, slot)
        off = _off_axis(sub(_world(subject, hole).origin, frame.origin), frame.grain)
        along = dot(off, frame.width)
        room = (tool.length_mm - tool.width_mm) / 2.0
        if abs(along) < room - _PLAY_MM or room <= _PLAY_MM:
            continue
        found.append(
            finding(
                "F20",
                where=work.joint,
                message=f"a pin of {work.joint} stands {abs(along):.1f} mm along its {tool.length_mm:.1f} mm "
                f"slot in {slot.part}, hard against its end: drawn so, it holds what should slide",
                numbers={"offset_mm": abs(along), "room_mm": room},
            )
        )
    return found


def _pairs(subject: Subject, work: JointWork) -> Iterator[tuple[Cut, Cut]]:
    """Each pin's slot in one part with the nearest pin hole in the other."""
    pins = [cut for cut in work.cuts if "pin" in cut.what]
    for slot in pins:
        holes = [cut for cut in pins if cut.part != slot.part and isinstance(cut.tool, Hole)]
        if not isinstance(slot.tool, Slot) or not holes:
            continue
        frame = _world(subject, slot)

        def aside(hole: Cut, frame: Frame = frame) -> float:
            return norm(_off_axis(sub(_world(subject, hole).origin, frame.origin), frame.grain))

        nearest = min(holes, key=aside)
        if aside(nearest) < _NEAR_MM:
            yield slot, nearest


def _world(subject: Subject, cut: Cut) -> Frame:
    assert isinstance(cut.tool, Hole | Slot)
    return subject.part(cut.part).frame.frame_out(cut.tool.frame)


def _off_axis(between: Vec, axis: Vec) -> Vec:
    """What of a vector is square to an axis."""
    return sub(between, scale(axis, dot(between, axis)))
