"""Lines of a panel that no seam should come near: rows of holes and mortises that joints cut in its faces."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.joinery.work import Cut, Hole, JointWork, Slot
from scantling.piece.model import Part

__all__ = ["seam_lines"]

_ALONG = 0.9
"""A hole bored along the grain, into an end, lies in one strip and minds no seam."""


def seam_lines(part: Part, works: Iterable[JointWork]) -> tuple[float, ...]:
    """Places across a panel to keep seams from, from the edge of negative v. [mm]

    Both ends of a slot that runs across the grain count. Grooves and tongues cross every seam whatever
    the strips are, and are left out.

    Parameters
    ----------
    part
        The panel.
    works
        The joints of the piece.
    """
    half = part.width_mm / 2.0
    lines = {
        round(at + half, 1)
        for work in works
        for cut in work.cuts
        if cut.part == part.name
        for at in _across(cut)
        if -half < at < half
    }
    return tuple(sorted(lines))


def _across(cut: Cut) -> tuple[float, ...]:
    tool = cut.tool
    if not isinstance(tool, Hole | Slot) or abs(tool.frame.grain[0]) > _ALONG:
        return ()
    at = tool.frame.origin[1]
    if isinstance(tool, Hole):
        return (at,)
    reach = (tool.length_mm - tool.width_mm) / 2.0 * tool.frame.width[1]
    return (at - reach, at + reach)
