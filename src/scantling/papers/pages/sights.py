"""The sight line of a leaning hole as it lies in the drawing of its face."""

from __future__ import annotations

import math

from scantling.joinery.work import Mark
from scantling.papers.marking.face_view import Sight
from scantling.papers.pages.figures import Figures
from scantling.piece.geometry import Vec, dot

__all__ = ["sight_of"]

_ALONG_DEG = 0.05


def sight_of(mark: Mark, *, right: Vec, up: Vec, figures: Figures) -> Sight | None:
    """The sight line of a mark in a view; None for a cut that has none.

    Parameters
    ----------
    mark
        Of a hole.
    right, up
        Where the view's own directions look: along the grain (on an end, along the width), and across. World.
    figures
        How angles are written.
    """
    if not mark.toward:
        return None
    along = math.copysign(1.0, dot(mark.toward[0].vector, right))
    across = math.copysign(1.0, dot(mark.toward[-1].vector, up))
    angle = math.radians(mark.angle_deg)
    between = _ALONG_DEG < mark.angle_deg < 90.0 - _ALONG_DEG
    return Sight(
        turn_deg=math.degrees(math.atan2(across * math.sin(angle), along * math.cos(angle))),
        off=figures.angle(mark.angle_deg) if between else "",
        lean=figures.angle(mark.tilt_deg),
    )
