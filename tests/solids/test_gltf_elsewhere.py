"""Another program's reader of glTF finds every part by name, in millimeters, where it should stand."""

from __future__ import annotations

import numpy as np
import pytest
from OCP.BRep import BRep_Tool
from OCP.collections import Sequence_TDF_Label
from OCP.Message import Message, Message_ProgressRange
from OCP.RWGltf import RWGltf_CafReader
from OCP.RWMesh import RWMesh_CoordinateSystem
from OCP.TCollection import TCollection_AsciiString, TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_ShapeEnum
from OCP.TopExp import TopExp_Explorer
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS, TopoDS_Shape
from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from scantling.solids.gltf import glb_bytes
from scantling.solids.mesh import meshes_of
from scantling.solids.placed import placed_box
from scantling.solids.shape import shapes_of
from tests.solids.table import table


def corners(shape: TopoDS_Shape) -> np.ndarray:
    """Corners of the triangles read, where they stand. [mm] shape (n, 3)"""
    points = []
    faces = TopExp_Explorer(shape, TopAbs_ShapeEnum.TopAbs_FACE)
    while faces.More():
        place = TopLoc_Location()
        triangles = BRep_Tool.Triangulation_s(TopoDS.Face(faces.Current()), place)
        nodes = [triangles.Node(i + 1) for i in range(triangles.NbNodes())]
        points += [node.Transformed(place.Transformation()) for node in nodes]
        faces.Next()
    return np.array([(p.X(), p.Y(), p.Z()) for p in points])


def test_the_exact_kernels_reader_finds_all_parts_in_their_places(tmp_path):
    """Read as millimeters with Z up, each node's box is the part's; mirrored parts too."""
    piece, works = table()
    meshes = meshes_of(shapes_of(piece, works))
    path = tmp_path / "table.glb"
    path.write_bytes(glb_bytes(piece.parts, meshes))
    Message.DefaultMessenger_s().ChangePrinters().Clear()
    document, reader = TDocStd_Document(TCollection_ExtendedString("x")), RWGltf_CafReader()
    reader.SetDocument(document)
    reader.SetSystemLengthUnit(0.001)
    reader.SetSystemCoordinateSystem(RWMesh_CoordinateSystem.RWMesh_CoordinateSystem_Zup)
    assert reader.Perform(TCollection_AsciiString(str(path)), Message_ProgressRange())
    labels = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).GetFreeShapes(labels)
    found = {}
    for label in (labels.Value(i + 1) for i in range(labels.Length())):
        name = TDataStd_Name()
        label.FindAttribute(TDataStd_Name.GetID_s(), name)
        points = corners(XCAFDoc_ShapeTool.GetShape_s(label))
        found[name.Get().ToExtString()] = np.stack([points.min(axis=0), points.max(axis=0)])
    assert sorted(found) == sorted(piece.parts)
    for name, part in piece.parts.items():
        assert found[name] == pytest.approx(placed_box(part, meshes[name]), abs=0.01)
