"""Parts, loose things and joint layout as tables for other programs: millimeters, one row a thing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from scantling.joinery.work import Connector, JointWork, Mark
from scantling.papers.exports.csv_table import Cell, csv_bytes
from scantling.papers.exports.workbook import WorkbookTable
from scantling.solids.mesh import PartMesh
from scantling.solids.placed import placed_centroid
from scantling.solids.shape import PartShape
from scantling.wood.ring import rings_in_words

__all__ = ["hardware_csv", "hardware_table", "marks_csv", "marks_table", "parts_csv", "parts_table"]

_PARTS = (
    "part",
    "like",
    "kind",
    "species",
    "rings",
    "length_mm",
    "width_mm",
    "thickness_mm",
    "start_diameter_mm",
    "end_diameter_mm",
    "length_with_tongues_mm",
    "mirrored",
    "volume_mm3",
    "surface_mm2",
    "center_x_mm",
    "center_y_mm",
    "center_z_mm",
    "note",
)
_HARDWARE = (
    "joint",
    "kind",
    "count",
    "diameter_mm",
    "thickness_mm",
    "width_mm",
    "length_mm",
    "drill_diameter_mm",
    "drill_depth_mm",
    "note",
)
_MARKS = (
    "joint",
    "part",
    "kind",
    "setup",
    "end",
    "on_end",
    "face",
    "reference_face",
    "from_end_mm",
    "from_face_mm",
    "length_mm",
    "width_mm",
    "depth_mm",
    "fit",
    "angle_deg",
    "tilt_deg",
    "toward",
    "note",
)


def parts_csv(shapes: Mapping[str, PartShape], meshes: Mapping[str, PartMesh]) -> bytes:
    """One row a part: finished sizes, wood as cut, and where its center is.

    Parameters
    ----------
    shapes, meshes
        By name; the same names.

    Returns
    -------
    bytes
        CSV.
    """
    table = parts_table(shapes, meshes)
    return csv_bytes(table.columns, table.rows)


def hardware_csv(works: Iterable[JointWork]) -> bytes:
    """One row for each kind and size of loose thing of each joint.

    Parameters
    ----------
    works
        What the joints answered.

    Returns
    -------
    bytes
        CSV.
    """
    table = hardware_table(works)
    return csv_bytes(table.columns, table.rows)


def marks_csv(works: Iterable[JointWork]) -> bytes:
    """One row for each mortise, groove, hole or tenon to mark out.

    Parameters
    ----------
    works
        What the joints answered.

    Returns
    -------
    bytes
        CSV.
    """
    table = marks_table(works)
    return csv_bytes(table.columns, table.rows)


def parts_table(shapes: Mapping[str, PartShape], meshes: Mapping[str, PartMesh]) -> WorkbookTable:
    """The table of :func:`parts_csv` as cells."""
    rows = tuple(_part(shape, meshes[name]) for name, shape in shapes.items())
    return WorkbookTable(title="Parts", columns=_PARTS, rows=rows)


def hardware_table(works: Iterable[JointWork]) -> WorkbookTable:
    """The table of :func:`hardware_csv` as cells."""
    rows = tuple(_loose(work.joint, thing) for work in works for thing in work.connectors)
    return WorkbookTable(title="Hardware", columns=_HARDWARE, rows=rows)


def marks_table(works: Iterable[JointWork]) -> WorkbookTable:
    """The table of :func:`marks_csv` as cells."""
    rows = tuple(_mark(work.joint, mark) for work in works for mark in work.marks)
    return WorkbookTable(title="Marks", columns=_MARKS, rows=rows)


def _part(shape: PartShape, mesh: PartMesh) -> dict[str, Cell]:
    part = shape.part
    x, y, z = placed_centroid(part, mesh)
    return {
        "part": part.name,
        "like": part.like,
        "kind": part.kind.value,
        "species": part.species,
        "rings": rings_in_words([ring for _, ring in part.rings_across]),
        "length_mm": part.length_mm,
        "width_mm": part.width_mm,
        "thickness_mm": part.thickness_mm,
        "start_diameter_mm": part.round.start_mm if part.round else None,
        "end_diameter_mm": part.round.end_mm if part.round else None,
        "length_with_tongues_mm": float(mesh.box[1][0] - mesh.box[0][0]),
        "mirrored": part.mirrored,
        "volume_mm3": mesh.volume_mm3,
        "surface_mm2": mesh.surface_area_mm2,
        "center_x_mm": x,
        "center_y_mm": y,
        "center_z_mm": z,
        "note": part.note,
    }


def _loose(joint: str, thing: Connector) -> dict[str, Cell]:
    """Three sizes are thickness, width and length; two are diameter and length."""
    names = {3: ("thickness_mm", "width_mm", "length_mm"), 2: ("diameter_mm", "length_mm")}
    sizes = dict(zip(names.get(len(thing.size_mm), ("length_mm",)), thing.size_mm, strict=False))
    drill = dict(zip(("drill_diameter_mm", "drill_depth_mm"), thing.drill_mm, strict=False))
    return {
        "joint": joint,
        "kind": thing.kind.value,
        "count": thing.count,
        "note": thing.note,
        **sizes,
        **drill,
    }


def _mark(joint: str, mark: Mark) -> dict[str, Cell]:
    return {
        "joint": joint,
        "part": mark.part,
        "kind": mark.kind.value,
        "setup": mark.setup,
        "end": mark.end.value,
        "on_end": mark.on_end,
        "face": mark.face.value,
        "reference_face": mark.reference_face.value,
        "from_end_mm": mark.from_end_mm,
        "from_face_mm": mark.from_face_mm,
        "length_mm": mark.length_mm,
        "width_mm": mark.width_mm,
        "depth_mm": mark.depth_mm,
        "fit": mark.fit.value,
        "angle_deg": mark.angle_deg,
        "tilt_deg": mark.tilt_deg,
        "toward": " ".join(way.value for way in mark.toward),
        "note": mark.note,
    }
