"""Worked faces at full size for a templating machine: DXF, one layer for each kind of cut, millimeters."""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from scantling.joinery.work import JointWork, Mark, MarkKind
from scantling.papers.drawing import bounds
from scantling.papers.marking.face_view import FaceView, MarkedOut, MarkedShape
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import MarkedPart, marked_parts
from scantling.papers.sheets.show import names_of
from scantling.piece.model import Piece
from scantling.units import LengthStyle, show_number

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

__all__ = ["BEYOND", "LABEL", "OUTLINE", "dxf_bytes", "layer_of"]

OUTLINE, LABEL, BEYOND = "OUTLINE", "LABEL", "BEYOND"
"""Layers beside those of the kinds of cut: edge of the wood, lettering, what lies on the far side."""
_BETWEEN_MM, _LETTER_MM = 40.0, 6.0
_COLORS = (1, 5, 3, 6, 4, 30, 2, 140, 200, 52, 94, 32, 8)
"""Color numbers of the standard palette, for the kinds in their order."""
_MM = 4
"""Header code for millimeters."""


def layer_of(kind: MarkKind) -> str:
    """Name of the layer a kind of cut lies on.

    Examples
    --------
    >>> layer_of(MarkKind.MORTISE)
    'MORTISE'
    """
    return kind.value.upper()


def dxf_bytes(piece: Piece, works: Sequence[JointWork]) -> bytes:
    """Every worked face and end of every form of part, side by side at 1:1.

    Parameters
    ----------
    piece
        The resolved piece.
    works
        What its joints answered.

    Returns
    -------
    bytes
        DXF of release 2010 with millimeters as its unit; equal pieces give equal bytes. Forms stand one under
        the other, faces of a form beside each other, each with its lower left corner on a line and its name
        over it. Round ends are arcs, holes are circles.
    """
    from ezdxf._options import options
    from ezdxf.filemanagement import new
    from ezdxf.math import Vec3

    figures = Figures(style=LengthStyle(inch=False, denominator=32, step_mm=0.1))
    kept = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True  # no time, no chance: equal pieces, equal bytes
    try:
        document = new("R2010", units=_MM)
        _layers(document)
        space = document.modelspace()
        base = 0.0
        for group in marked_parts(piece, works, figures=figures):
            base = _group(space, group, base)
        document.header["$EXTMIN"] = Vec3(0.0, base, 0.0)
        text = io.StringIO()
        document.write(text)
    finally:
        options.write_fixed_meta_data_for_testing = kept
    return text.getvalue().encode()


def _layers(document: Drawing) -> None:
    document.layers.add(OUTLINE, color=7)
    document.layers.add(LABEL, color=9)
    document.layers.add(BEYOND, color=252)
    for kind, color in zip(MarkKind, _COLORS, strict=True):
        document.layers.add(layer_of(kind), color=color)


def _group(space: Modelspace, group: MarkedPart, base: float) -> float:
    """One form of part, its faces in a row under a line; the line for the next one."""
    kinds = {tagged.tag: tagged.mark for tagged in group.marks}
    highest = max((bounds(view.outline).height for view in group.views), default=0.0)
    low = base - highest - 4.0 * _LETTER_MM
    x = 0.0
    names = names_of(twin.part.name for twin in group.twins if not twin.mirrored)
    mirrored = names_of(twin.part.name for twin in group.twins if twin.mirrored)
    _text(space, names + (f"; turned over: {mirrored}" if mirrored else ""), (0.0, base - _LETTER_MM))
    for view in group.views:
        x = _view(space, view, kinds, (x, low)) + _BETWEEN_MM
    return low - _BETWEEN_MM


def _view(space: Modelspace, view: FaceView, kinds: dict[str, Mark], corner: tuple[float, float]) -> float:
    """One face with its lower left corner at a place; its right edge."""
    box = bounds(view.outline)
    left, low = corner[0] - box.left, corner[1] - box.low
    _text(space, view.title, (corner[0], corner[1] + box.height + 0.6 * _LETTER_MM), size=0.7 * _LETTER_MM)
    outline = [(left + x, low + y) for x, y in view.outline]
    space.add_lwpolyline(outline, close=True, dxfattribs={"layer": OUTLINE})
    for marked in view.marks:
        layer = BEYOND if marked.hidden else layer_of(kinds[marked.tag].kind)
        _mark(space, marked, (left, low), layer)
        depth = show_number(kinds[marked.tag].depth_mm, digits=1)
        at = (left + marked.x_mm + 1.0, low + marked.y_mm + 1.0)
        _text(space, f"{marked.tag} {depth} deep", at, size=3.0)
    return left + box.right


def _mark(space: Modelspace, marked: MarkedOut, origin: tuple[float, float], layer: str) -> None:
    """A hole as a circle, a round-ended mortise with arcs, all else with straight sides."""
    center = (origin[0] + marked.x_mm, origin[1] + marked.y_mm)
    if marked.shape is MarkedShape.HOLE:
        space.add_circle(center, marked.width_mm / 2.0, dxfattribs={"layer": layer})
        return
    half, across = marked.length_mm / 2.0, marked.width_mm / 2.0
    rounded = marked.shape is MarkedShape.ROUND_ENDED
    end = max(half - across, 0.0) if rounded else half
    corners = ((-end, -across), (end, -across), (end, across), (-end, across))
    bulges = (0.0, 1.0 if rounded else 0.0) * 2  # 1 is half a circle to the left of the way
    turn = math.radians(marked.turn_deg)
    points = [
        (
            center[0] + x * math.cos(turn) - y * math.sin(turn),
            center[1] + x * math.sin(turn) + y * math.cos(turn),
            bulge,
        )
        for (x, y), bulge in zip(corners, bulges, strict=True)
    ]
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": layer})


def _text(space: Modelspace, words: str, at: tuple[float, float], *, size: float = _LETTER_MM) -> None:
    space.add_text(words, height=size, dxfattribs={"layer": LABEL}).set_placement(at)
