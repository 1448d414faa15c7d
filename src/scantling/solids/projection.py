"""Line drawings of exact bodies, hidden lines told from visible ones.

Flat faces and their arrises are drawn exactly, rounds by facets finer than a pen. The kernel's way of
drawing rounds exactly takes most of a minute where one round stands exactly behind another, as the legs of
every symmetrical piece do in its front view. It is loaded at the first drawing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from scantling.solids.collinear import joined, without
from scantling.solids.exact import ExactPart, exact_parts, rigid
from scantling.solids.polyhedron import Floats
from scantling.solids.runs import strung
from scantling.solids.shape import PartShape
from scantling.solids.view import View

if TYPE_CHECKING:
    from OCP.HLRBRep import HLRBRep_PolyHLRToShape
    from OCP.TopoDS import TopoDS_Shape

__all__ = ["Hidden", "Lines", "project"]

_TURN_RAD = 0.2
"""Greatest turn from one facet of a round to the next: 31 to the circle."""
_SAG_MM = 0.03
"""Greatest distance of a facet from the round. [mm]"""


class Hidden(StrEnum):
    """What becomes of hidden lines. Left out, a picture takes half the time."""

    DASHED = "dashed"
    LEFT_OUT = "left out"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lines:
    """A drawing at full size, in the paper's millimeters; the world's origin is at 0, 0.

    Parameters
    ----------
    visible, hidden
        Ends of straight pieces, those in one line joined; nothing hidden lies under something visible.
        [mm] shape (n, 2, 2)
    of_part
        Visible pieces of each part, for drawing some parts heavier. [mm] shape (n, 2, 2) each
    """

    visible: Floats
    hidden: Floats
    of_part: Mapping[str, Floats]

    def hidden_runs(self) -> tuple[Floats, ...]:
        """Hidden pieces strung together, so that dashes run on round a curve. [mm] shape (k, 2) each"""
        return strung(self.hidden)

    def visible_runs(self) -> tuple[Floats, ...]:
        """Visible pieces strung together. [mm] shape (k, 2) each"""
        return strung(self.visible)

    @property
    def box(self) -> Floats:
        """Least and greatest corner. [mm] shape (2, 2)"""
        points = np.concatenate([self.visible, self.hidden]).reshape(-1, 2)
        if not len(points):
            return np.zeros((2, 2))
        return np.stack([points.min(axis=0), points.max(axis=0)])


def project(
    shapes: Mapping[str, PartShape],
    view: View,
    *,
    bodies: Mapping[str, ExactPart] | None = None,
    hidden: Hidden = Hidden.DASHED,
) -> Lines:
    """Draw parts where they stand.

    Parameters
    ----------
    shapes
        Parts drawn, by name.
    view
        Where from.
    bodies
        Their exact bodies, if they are at hand from an earlier drawing (``exact_parts``).
    hidden
        Whether hidden lines are wanted.

    Returns
    -------
    Lines
        Sharp arrises and outlines of rounds; seams where a round runs smoothly into a flat are not drawn.
    """
    known = exact_parts(shapes) if bodies is None else bodies
    placed = {name: _stood(known[name]) for name in shapes if name in known}
    if not placed:
        nothing = np.zeros((0, 2, 2))
        return Lines(visible=nothing, hidden=nothing, of_part={})
    drawn = _drawn(placed.values(), view)
    of_part = {name: joined(_pieces(_seen(drawn, body))) for name, body in placed.items()}
    visible = joined(np.concatenate(list(of_part.values())))
    unseen = _unseen(drawn) if hidden is Hidden.DASHED else []
    return Lines(visible=visible, hidden=without(joined(_pieces(unseen)), visible), of_part=of_part)


def _stood(exact: ExactPart) -> TopoDS_Shape:
    from OCP.TopLoc import TopLoc_Location

    return exact.body.Moved(TopLoc_Location(rigid(exact.frame)))


def _drawn(bodies: Collection[TopoDS_Shape], view: View) -> HLRBRep_PolyHLRToShape:
    """All edges, cut where something passes before them, each piece seen or unseen."""
    from OCP.BRepMesh import BRepMesh_IncrementalMesh
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
    from OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.HLRBRep import HLRBRep_PolyAlgo, HLRBRep_PolyHLRToShape

    work = HLRBRep_PolyAlgo()
    for body in bodies:
        BRepMesh_IncrementalMesh(body, _SAG_MM, False, _TURN_RAD, True)
        work.Load(body)
    axes = gp_Ax2(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(*view.toward), gp_Dir(*view.right))
    work.Projector(HLRAlgo_Projector(axes))
    work.Update()
    drawn = HLRBRep_PolyHLRToShape()
    drawn.Update(work)
    return drawn


def _seen(drawn: HLRBRep_PolyHLRToShape, body: TopoDS_Shape) -> list[TopoDS_Shape]:
    """Visible arrises and outlines of one part; where there are none the kernel gives nothing."""
    found = (drawn.VCompound(body), drawn.OutLineVCompound(body))
    return [edges for edges in found if edges is not None and not edges.IsNull()]


def _unseen(drawn: HLRBRep_PolyHLRToShape) -> list[TopoDS_Shape]:
    found = (drawn.HCompound(), drawn.OutLineHCompound())
    return [edges for edges in found if edges is not None and not edges.IsNull()]


def _pieces(compounds: list[TopoDS_Shape]) -> Floats:
    """Straight edges by their ends. [mm] shape (n, 2, 2)"""
    ends = [end for compound in compounds for end in _ends(compound)]
    return np.array(ends, dtype=np.float64).reshape(-1, 2, 2)


def _ends(compound: TopoDS_Shape) -> Iterator[tuple[float, float]]:
    """Two points of each edge, one after the other. [mm]"""
    from OCP.BRep import BRep_Tool
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp, TopExp_Explorer
    from OCP.TopoDS import TopoDS

    edges = TopExp_Explorer(compound, TopAbs_ShapeEnum.TopAbs_EDGE)
    while edges.More():
        edge = TopoDS.Edge(edges.Current())
        for vertex in (TopExp.FirstVertex_s(edge), TopExp.LastVertex_s(edge)):
            point = BRep_Tool.Pnt_s(vertex)
            yield point.X(), point.Y()
        edges.Next()
