"""The pin that keeps a floating panel still at one place of its width."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.joinery.meeting import moved, slot_frame, spot_on
from scantling.joinery.work import Connector, ConnectorKind, Cut, Fit, Hole, Mark, MarkKind
from scantling.piece.convex import body_of, face_direction, named_face
from scantling.piece.geometry import Vec, dot, scale
from scantling.piece.model import Part

__all__ = ["PanelPin", "panel_pin"]

_OVER_MM = 2.0
_BEYOND_MM = 2.0
"""How far the pin reaches past the panel's tongue. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelPin:
    """The pin, the holes for it in rail and panel, and how it is marked out."""

    connector: Connector
    cuts: tuple[Cut, ...]
    mark: Mark


def panel_pin(panel: Part, rail: Part, *, at: Vec, tongue_mm: float, diameter_mm: float) -> PanelPin:
    """A pin through a rail into a panel, from the rail's face that shows less.

    Parameters
    ----------
    panel, rail
        The panel, and what its end stands in.
    at
        Middle of the tongue where the pin goes through. World. [mm]
    tongue_mm
        Thickness of the tongue. [mm]
    diameter_mm
        Of the pin. [mm]
    """
    into = panel.frame.thickness
    hidden = scale(into, -1.0)
    if face_direction(hidden) in rail.show and face_direction(into) not in rail.show:
        into = hidden
    _, out = body_of(rail).extent(scale(into, -1.0))
    reach = dot(at, into) + out
    start = moved(at, into, -reach)
    depth = reach + tongue_mm / 2.0 + _BEYOND_MM
    cuts = []
    for part in (rail, panel):
        frame = slot_frame(moved(start, into, -_OVER_MM), into=into, along=panel.frame.width)
        tool = Hole(frame=part.frame.frame_in(frame), diameter_mm=diameter_mm, depth_mm=depth + _OVER_MM)
        cuts.append(Cut(part=part.name, tool=tool, what="pin hole"))
    face = named_face(rail, face_direction(scale(into, -1.0)))
    spot = spot_on(rail, start, face.label if face else "thickness-")
    return PanelPin(
        connector=Connector(
            kind=ConnectorKind.PIN,
            count=1,
            size_mm=(diameter_mm, depth),
            drill_mm=(diameter_mm, depth),
            note="through the rail into the panel, where it is to stay still; nowhere else",
            frames=(slot_frame(moved(start, into, depth / 2.0), into=into, along=panel.frame.width),),
        ),
        cuts=tuple(cuts),
        mark=Mark(
            part=rail.name,
            kind=MarkKind.HOLE,
            on_end=False,
            end=spot.end,
            face=spot.face,
            reference_face=spot.reference_face,
            from_end_mm=spot.from_end_mm,
            from_face_mm=spot.from_face_mm,
            length_mm=diameter_mm,
            width_mm=diameter_mm,
            depth_mm=depth,
            fit=Fit.TIGHT,
            setup=f"{diameter_mm:g} mm pin holes for panels",
            note="bored with the panel in place",
        ),
    )
