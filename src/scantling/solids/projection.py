"""Line drawings of exact bodies, hidden lines told from visible ones.

The exact kernel draws true arcs and the outlines of rounds, and takes a tenth of the time of drawing the
meshes; it is loaded at the first drawing.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from scantling.solids.collinear import joined, without
from scantling.solids.exact import ExactPart, exact_parts, rigid
from scantling.solids.polyhedron import Floats
from scantling.solids.shape import PartShape
from scantling.solids.view import View

if TYPE_CHECKING:
    from OCP.OCP.HLRBRep import HLRBRep_Algo, HLRBRep_HLRToShape
    from OCP.OCP.TopoDS import TopoDS_Shape

__all__ = ["Lines", "project"]

_TURN_RAD = 0.12
"""Greatest turn from one piece of a drawn curve to the next: 52 pieces to the circle."""
_SAG_MM = 0.05
"""Greatest distance of a drawn curve from the true one. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lines:
    """A drawing at full size, in the paper's millimetres; the world's origin is at 0, 0.

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

    @property
    def box(self) -> Floats:
        """Least and greatest corner. [mm] shape (2, 2)"""
        points = np.concatenate([self.visible, self.hidden]).reshape(-1, 2)
        if not len(points):
            return np.zeros((2, 2))
        return np.stack([points.min(axis=0), points.max(axis=0)])


def project(
    shapes: Mapping[str, PartShape], view: View, *, bodies: Mapping[str, ExactPart] | None = None
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
    drawn = _drawn(_hidden_lines(placed.values(), view))
    of_part = {name: joined(_pieces(_seen(drawn, body))) for name, body in placed.items()}
    visible = joined(np.concatenate(list(of_part.values())))
    hidden = joined(_pieces(_unseen(drawn)))
    return Lines(visible=visible, hidden=without(hidden, visible), of_part=of_part)


def _stood(exact: ExactPart) -> TopoDS_Shape:
    from OCP.OCP.TopLoc import TopLoc_Location

    return exact.body.Moved(TopLoc_Location(rigid(exact.frame)))


def _hidden_lines(bodies: Collection[TopoDS_Shape], view: View) -> HLRBRep_Algo:
    from OCP.OCP.gp import gp_Ax2, gp_Dir, gp_Pnt
    from OCP.OCP.HLRAlgo import HLRAlgo_Projector
    from OCP.OCP.HLRBRep import HLRBRep_Algo

    work = HLRBRep_Algo()
    for body in bodies:
        work.Add(body)
    axes = gp_Ax2(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(*view.toward), gp_Dir(*view.right))
    work.Projector(HLRAlgo_Projector(axes))
    work.Update()
    work.Hide()
    return work


def _drawn(work: HLRBRep_Algo) -> HLRBRep_HLRToShape:
    from OCP.OCP.HLRBRep import HLRBRep_HLRToShape

    return HLRBRep_HLRToShape(work)


def _seen(drawn: HLRBRep_HLRToShape, body: TopoDS_Shape) -> list[TopoDS_Shape]:
    """Visible arrises and outlines of one part; where there are none the kernel gives nothing."""
    found = (drawn.VCompound(body), drawn.OutLineVCompound(body))
    return [edges for edges in found if edges is not None and not edges.IsNull()]


def _unseen(drawn: HLRBRep_HLRToShape) -> list[TopoDS_Shape]:
    found = (drawn.HCompound(), drawn.OutLineHCompound())
    return [edges for edges in found if edges is not None and not edges.IsNull()]


def _pieces(compounds: list[TopoDS_Shape]) -> Floats:
    """Straight pieces of flat edges. [mm] shape (n, 2, 2)"""
    runs = [run for compound in compounds for run in _runs(compound)]
    if not runs:
        return np.zeros((0, 2, 2))
    return np.concatenate([np.stack([run[:-1], run[1:]], axis=1) for run in runs])


def _runs(compound: TopoDS_Shape) -> Iterator[Floats]:
    """Each edge as a run of points. [mm] shape (k, 2)"""
    from OCP.OCP.BRepAdaptor import BRepAdaptor_Curve
    from OCP.OCP.BRepLib import BRepLib
    from OCP.OCP.GCPnts import GCPnts_TangentialDeflection
    from OCP.OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.OCP.TopExp import TopExp_Explorer
    from OCP.OCP.TopoDS import TopoDS

    BRepLib.BuildCurves3d_s(compound)
    edges = TopExp_Explorer(compound, TopAbs_ShapeEnum.TopAbs_EDGE)
    while edges.More():
        curve = BRepAdaptor_Curve(TopoDS.Edge(edges.Current()))
        points = GCPnts_TangentialDeflection(curve, _TURN_RAD, _SAG_MM)
        found = [points.Value(i + 1) for i in range(points.NbPoints())]
        yield np.array([(p.X(), p.Y()) for p in found])
        edges.Next()
