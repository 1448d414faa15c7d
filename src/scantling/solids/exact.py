"""Parts as exact bodies: planes, cylinders and cones, for exchange files and drawings.

The kernel takes about a second to load, so it is imported inside the functions that need it: by its packages
(``OCP.gp``), never by the module they come from (``OCP.OCP.gp``). That one's parts are found, without their
constructors, while another thread still loads the rest; a package waits until all of it is there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.errors import ModelError
from scantling.joinery.work import Arched, Box, Hole, Profile, Slot, Turned
from scantling.piece.geometry import Frame, Plane, Vec, scale
from scantling.solids.placed import is_left_handed, turned_over
from scantling.solids.shape import PartShape, content_key
from scantling.solids.workpiece import Blank, Cutter, right_arch, right_handed, right_outline, workpiece_of

if TYPE_CHECKING:
    from OCP.gp import gp_Ax2, gp_Trsf
    from OCP.TopoDS import TopoDS_Shape

__all__ = ["ExactPart", "build_exact", "exact_parts", "exact_volume_mm3", "rigid"]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class ExactPart:
    """An exact body and where it stands.

    Parameters
    ----------
    form
        Key shared by parts of one form and one hand.
    body
        The body in its own coordinates; reversed in w for a mirrored part.
    frame
        A right-handed frame that puts the body where the part is.
    """

    form: str
    body: TopoDS_Shape
    frame: Frame


def exact_parts(shapes: Mapping[str, PartShape]) -> dict[str, ExactPart]:
    """Exact bodies of all parts, by name; parts of one form and hand share one.

    Parameters
    ----------
    shapes
        By name.

    Returns
    -------
    dict[str, ExactPart]
        In the order given; parts with no wood left are left out.
    """
    bodies: dict[str, TopoDS_Shape] = {}
    placed: dict[str, ExactPart] = {}
    for name, shape in shapes.items():
        key, over = content_key(shape), is_left_handed(shape.part.frame)
        if key not in bodies:
            bodies[key] = build_exact(shape)
        form = f"{key} reversed" if over else key
        if form not in bodies:
            bodies[form] = _reversed(bodies[key])
        if _holds_wood(bodies[key]):
            frame = turned_over(shape.part.frame) if over else shape.part.frame
            placed[name] = ExactPart(form=form, body=bodies[form], frame=frame)
    return placed


def build_exact(shape: PartShape) -> TopoDS_Shape:
    """A part with its joints cut, as an exact body in its own coordinates.

    Parameters
    ----------
    shape
        The part, its extensions and cuts.

    Returns
    -------
    TopoDS_Shape
        A solid, or a compound of solids where the cuts leave several or none.

    Raises
    ------
    ModelError
        If the kernel fails at a cut.
    """
    work = workpiece_of(shape)
    reach = _reach(work.blank)
    middle = ((work.blank.start_mm + work.blank.end_mm) / 2.0, 0.0, 0.0)
    body = _blank(work.blank)
    body = _less(body, [_beyond(plane, middle, reach) for plane in work.planes])
    body = _less(body, [_tool(tool, reach) for tool in work.tools])
    return _single(body)


def exact_volume_mm3(body: TopoDS_Shape) -> float:
    """Volume of an exact body. [mm3]"""
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps

    bulk = GProp_GProps()
    BRepGProp.VolumeProperties_s(body, bulk)
    return float(bulk.Mass())


def rigid(frame: Frame) -> gp_Trsf:
    """The motion that takes u, v, w to where a right-handed frame stands."""
    from OCP.gp import gp_Ax3, gp_Dir, gp_Pnt, gp_Trsf

    motion = gp_Trsf()
    there = gp_Ax3(gp_Pnt(*frame.origin), gp_Dir(*frame.thickness), gp_Dir(*frame.grain))
    motion.SetDisplacement(gp_Ax3(), there)
    return motion


def _reversed(body: TopoDS_Shape) -> TopoDS_Shape:
    """The body with w reversed: a mirrored part is its twin's mirror image, not a turned copy."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt, gp_Trsf

    mirror = gp_Trsf()
    mirror.SetMirror(gp_Ax2(gp_Pnt(0.0, 0.0, 0.0), gp_Dir(0.0, 0.0, 1.0)))
    return BRepBuilderAPI_Transform(body, mirror, True).Shape()


def _less(body: TopoDS_Shape, tools: list[TopoDS_Shape]) -> TopoDS_Shape:
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut
    from OCP.collections import List_TopoDS_Shape

    if not tools:
        return body
    arguments, cutters = List_TopoDS_Shape(), List_TopoDS_Shape()
    arguments.Append(body)
    for tool in tools:
        cutters.Append(tool)
    cut = BRepAlgoAPI_Cut()
    cut.SetArguments(arguments)
    cut.SetTools(cutters)
    cut.SetRunParallel(True)
    cut.Build()
    if not cut.IsDone():
        raise ModelError("the exact kernel failed at a cut")
    return cut.Shape()


def _single(body: TopoDS_Shape) -> TopoDS_Shape:
    """The one solid of a compound, or the compound where there is not just one."""
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp_Explorer

    found = TopExp_Explorer(body, TopAbs_ShapeEnum.TopAbs_SOLID)
    if not found.More():
        return body
    solid = found.Current()
    found.Next()
    return body if found.More() else solid


def _holds_wood(body: TopoDS_Shape) -> bool:
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp_Explorer

    return bool(TopExp_Explorer(body, TopAbs_ShapeEnum.TopAbs_SOLID).More())


def _reach(blank: Blank) -> float:
    """A length greater than the part in any direction. [mm]"""
    across = max(blank.width_mm, blank.thickness_mm, *(blank.diameters_mm or (0.0,)))
    return 2.0 * (blank.end_mm - blank.start_mm + across)


def _axes(origin: Vec, way: Vec) -> gp_Ax2:
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

    return gp_Ax2(gp_Pnt(*origin), gp_Dir(*way))


def _blank(blank: Blank) -> TopoDS_Shape:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCone
    from OCP.gp import gp_Pnt

    length = blank.end_mm - blank.start_mm
    start = (blank.start_mm, 0.0, 0.0)
    if blank.diameters_mm is None:
        corner = gp_Pnt(blank.start_mm, -blank.width_mm / 2.0, -blank.thickness_mm / 2.0)
        return BRepPrimAPI_MakeBox(corner, length, blank.width_mm, blank.thickness_mm).Solid()
    low, high = (d / 2.0 for d in blank.diameters_mm)
    if abs(low - high) < 1e-9:
        return _cylinder(start, (1.0, 0.0, 0.0), low, length)
    return BRepPrimAPI_MakeCone(_axes(start, (1.0, 0.0, 0.0)), low, high, length).Solid()


def _cylinder(origin: Vec, way: Vec, radius: float, length: float) -> TopoDS_Shape:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder

    return BRepPrimAPI_MakeCylinder(_axes(origin, way), radius, length).Solid()


def _beyond(plane: Plane, middle: Vec, reach: float) -> TopoDS_Shape:
    """A block on the side of a plane that goes, big enough to take all of it."""
    foot = plane.distance(middle)
    origin = tuple(m - foot * n for m, n in zip(middle, plane.normal, strict=True))
    side = 2.0 * reach
    return _block((origin[0], origin[1], origin[2]), plane.normal, (side, side, reach))


def _block(origin: Vec, way: Vec, sizes: Vec) -> TopoDS_Shape:
    """A block standing centered on ``origin``, its third size along ``way``."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Ax2, gp_Pnt

    axes = _axes(origin, way)
    x, y = axes.XDirection(), axes.YDirection()
    corner = [
        o - sizes[0] / 2.0 * a - sizes[1] / 2.0 * b
        for o, a, b in zip(origin, (x.X(), x.Y(), x.Z()), (y.X(), y.Y(), y.Z()), strict=True)
    ]
    return BRepPrimAPI_MakeBox(gp_Ax2(gp_Pnt(*corner), axes.Direction(), x), *sizes).Solid()


def _tool(tool: Cutter, reach: float) -> TopoDS_Shape:
    frame = tool.frame
    match tool:
        case Box():
            return _box(tool)
        case Slot():
            return _slot(tool)
        case Hole():
            return _cylinder(frame.origin, frame.grain, tool.diameter_mm / 2.0, tool.depth_mm)
        case Turned():
            side = 2.0 * (reach + tool.diameter_mm)
            slab = _block(frame.origin, frame.grain, (side, side, tool.length_mm))
            before = frame.point((-1.0, 0.0, 0.0))
            return _less(slab, [_cylinder(before, frame.grain, tool.diameter_mm / 2.0, tool.length_mm + 2.0)])
        case Profile():
            return _profile(tool)
        case Arched():
            return _arched(tool)


def _box(tool: Box) -> TopoDS_Shape:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt

    frame = right_handed(tool.frame)
    corner = frame.point((0.0, -tool.width_mm / 2.0, -tool.thickness_mm / 2.0))
    axes = gp_Ax2(gp_Pnt(*corner), gp_Dir(*frame.thickness), gp_Dir(*frame.grain))
    return BRepPrimAPI_MakeBox(axes, tool.length_mm, tool.width_mm, tool.thickness_mm).Solid()


def _profile(tool: Profile) -> TopoDS_Shape:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeFace, BRepBuilderAPI_MakePolygon
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Pnt, gp_Vec

    frame = right_handed(tool.frame)
    outline = BRepBuilderAPI_MakePolygon()
    for v, w in right_outline(tool):
        outline.Add(gp_Pnt(*frame.point((0.0, v, w))))
    outline.Close()
    face = BRepBuilderAPI_MakeFace(outline.Wire(), True).Face()
    return BRepPrimAPI_MakePrism(face, gp_Vec(*scale(frame.grain, tool.length_mm))).Shape()


def _arched(tool: Arched) -> TopoDS_Shape:
    from OCP.BRepBuilderAPI import (
        BRepBuilderAPI_MakeEdge,
        BRepBuilderAPI_MakeFace,
        BRepBuilderAPI_MakeWire,
    )
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.GC import GC_MakeArcOfCircle
    from OCP.gp import gp_Pnt, gp_Vec

    frame = right_handed(tool.frame)
    outline, through = right_arch(tool)
    points = [gp_Pnt(*frame.point((0.0, v, w))) for v, w in outline]
    arc = GC_MakeArcOfCircle(points[0], gp_Pnt(*frame.point((0.0, *through))), points[1])
    wire = BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(arc.Value()).Edge())
    for one, other in zip(points[1:], [*points[2:], points[0]], strict=True):
        wire.Add(BRepBuilderAPI_MakeEdge(one, other).Edge())
    face = BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()
    return BRepPrimAPI_MakePrism(face, gp_Vec(*scale(frame.grain, tool.length_mm))).Shape()


def _slot(tool: Slot) -> TopoDS_Shape:
    from OCP.BRepBuilderAPI import (
        BRepBuilderAPI_MakeEdge,
        BRepBuilderAPI_MakeFace,
        BRepBuilderAPI_MakeWire,
    )
    from OCP.BRepPrimAPI import BRepPrimAPI_MakePrism
    from OCP.gp import gp_Circ, gp_Pnt, gp_Vec

    radius = tool.width_mm / 2.0
    half = tool.length_mm / 2.0 - radius
    frame = right_handed(tool.frame)
    if half <= 1e-9:
        return _cylinder(frame.origin, frame.grain, radius, tool.depth_mm)
    right_low, right_high, left_high, left_low = (
        gp_Pnt(*frame.point((0.0, v, w)))
        for v, w in ((half, -radius), (half, radius), (-half, radius), (-half, -radius))
    )
    outline = BRepBuilderAPI_MakeWire()
    for center, first, last in ((half, right_low, right_high), (-half, left_high, left_low)):
        circle = gp_Circ(_axes(frame.point((0.0, center, 0.0)), frame.grain), radius)
        outline.Add(BRepBuilderAPI_MakeEdge(circle, first, last).Edge())
        straight = (right_high, left_high) if center > 0.0 else (left_low, right_low)
        outline.Add(BRepBuilderAPI_MakeEdge(*straight).Edge())
    face = BRepBuilderAPI_MakeFace(outline.Wire(), True).Face()
    return BRepPrimAPI_MakePrism(face, gp_Vec(*scale(frame.grain, tool.depth_mm))).Shape()
