"""The piece as a STEP file (ISO 10303-21): an assembly of named, colored exact bodies.

The text is made in memory and read back before it is given out: what is written is what was meant.
"""

from __future__ import annotations

import io
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from scantling.errors import ModelError
from scantling.piece.geometry import Vec
from scantling.piece.model import Part
from scantling.solids.exact import ExactPart, exact_parts, exact_volume_mm3, rigid
from scantling.solids.shape import PartShape
from scantling.solids.step_color import colored
from scantling.solids.tones import Color

if TYPE_CHECKING:
    from OCP.TDF import TDF_Label
    from OCP.TDocStd import TDocStd_Document

__all__ = ["StepBody", "read_step", "step_bytes"]

_SAME_VOLUME = 1e-6
"""Greatest relative difference between a body and the one read back."""
_NO_TIME = "1970-01-01T00:00:00"
"""The header must hold a time; a fixed one keeps equal pieces equal files."""
_FOREIGN = re.compile(r"[^\x00-\x7f]+")
_OCCURRENCE = re.compile(r"(NEXT_ASSEMBLY_USAGE_OCCURRENCE)\(\s*'\d+'(.*?)\);", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class StepBody:
    """One named body as read from a STEP file.

    Parameters
    ----------
    name
        Of the part.
    volume_mm3
        [mm3]
    centroid_mm
        In the world. [mm]
    """

    name: str
    volume_mm3: float
    centroid_mm: Vec


def step_bytes(
    shapes: Mapping[str, PartShape], *, title: str, colors: Mapping[str, Color] | None = None
) -> bytes:
    """The piece as a STEP file; equal pieces give equal bytes.

    Parameters
    ----------
    shapes
        By name.
    title
        Name of the assembly.
    colors
        Color by species; none where it is not given.

    Returns
    -------
    bytes
        The whole file.

    Raises
    ------
    ModelError
        If the kernel fails, or a body read back has another volume than the one written.
    """
    bodies = exact_parts(shapes)
    text = _written(bodies, shapes, title=title, colors=colors or {})
    back = {body.name: body.volume_mm3 for body in read_step(text)}
    for name, exact in bodies.items():
        meant = exact_volume_mm3(exact.body)
        if abs(back.get(name, 0.0) - meant) > _SAME_VOLUME * meant:
            raise ModelError(f"{name}: wrote {meant} mm3 to STEP and read back {back.get(name)}")
    return text


def read_step(data: bytes) -> tuple[StepBody, ...]:
    """The bodies of a STEP file, placed, in the order of the file.

    Parameters
    ----------
    data
        The whole file.

    Returns
    -------
    tuple[StepBody, ...]
        Components of its assemblies, and bodies that are in none.

    Raises
    ------
    ModelError
        If it can not be read.
    """
    from OCP.collections import Sequence_TDF_Label
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.XCAFDoc import XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

    _hush()
    reader, document = STEPCAFControl_Reader(), _document()
    if reader.ReadStream("piece", io.BytesIO(data)) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise ModelError("the STEP text can not be read back")
    reader.Transfer(document)
    roots = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.ShapeTool_s(document.Main()).GetFreeShapes(roots)
    found: list[StepBody] = []
    for root in _each(roots):
        components = Sequence_TDF_Label()
        XCAFDoc_ShapeTool.GetComponents_s(root, components)
        found += [_body(label) for label in _each(components) or [root]]
    return tuple(found)


def _written(
    bodies: Mapping[str, ExactPart],
    shapes: Mapping[str, PartShape],
    *,
    title: str,
    colors: Mapping[str, Color],
) -> bytes:
    from OCP.APIHeaderSection import APIHeaderSection_MakeHeader
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.STEPCAFControl import STEPCAFControl_Writer
    from OCP.TCollection import TCollection_HAsciiString

    _hush()
    document = _assembled(bodies, shapes, title=title)
    writer = STEPCAFControl_Writer()
    writer.SetNameMode(True)
    done = writer.Transfer(document)
    header = APIHeaderSection_MakeHeader(writer.ChangeWriter().Model())
    blank = TCollection_HAsciiString("")
    header.SetName(blank)
    header.SetTimeStamp(TCollection_HAsciiString(_NO_TIME))
    header.SetOriginatingSystem(TCollection_HAsciiString("Scantling"))
    header.SetAuthorValue(1, blank)
    header.SetOrganizationValue(1, blank)
    stream = io.BytesIO()
    if not done or writer.WriteStream(stream) != IFSelect_ReturnStatus.IFSelect_RetDone:
        raise ModelError("the exact kernel could not write STEP")
    paints = {
        _product_name(shape.part): colors[shape.part.species]
        for shape in shapes.values()
        if shape.part.species in colors
    }
    text = colored(_renumbered(stream.getvalue().decode()), paints)
    return _escaped(text).encode("ascii")


def _assembled(
    bodies: Mapping[str, ExactPart], shapes: Mapping[str, PartShape], *, title: str
) -> TDocStd_Document:
    """One assembly; each form once, each part a component of its name."""
    from OCP.TopLoc import TopLoc_Location
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = _document()
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    tool.SetAutoNaming_s(False)
    root = tool.NewShape()
    _name(root, title)
    forms: dict[tuple[str, str], TDF_Label] = {}
    for name, exact in bodies.items():
        part = shapes[name].part
        form = (exact.form, part.species)
        if form not in forms:
            # A body used for two woods must be two bodies: the kernel knows a body by its surface.
            body = exact.body if form[0] not in {f for f, _ in forms} else _copied(exact)
            label = forms[form] = tool.AddShape(body, False, False)
            _name(label, _product_name(part))
        _name(tool.AddComponent(root, forms[form], TopLoc_Location(rigid(exact.frame))), name)
    tool.UpdateAssemblies()
    return document


def _copied(exact: ExactPart):  # type: ignore[no-untyped-def]
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Copy

    return BRepBuilderAPI_Copy(exact.body).Shape()


def _product_name(part: Part) -> str:
    return f"{part.like} ({part.species})"


def _document() -> TDocStd_Document:
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document

    return TDocStd_Document(TCollection_ExtendedString("piece"))


def _name(label: TDF_Label, name: str) -> None:
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name

    TDataStd_Name.Set_s(label, TCollection_ExtendedString(name, True))


def _each(labels: object) -> list[TDF_Label]:
    """The kernel's sequences count from one."""
    return [labels.Value(i + 1) for i in range(labels.Length())]  # type: ignore[attr-defined]


def _body(label: TDF_Label) -> StepBody:
    from OCP.BRepGProp import BRepGProp
    from OCP.GProp import GProp_GProps
    from OCP.TDataStd import TDataStd_Name
    from OCP.XCAFDoc import XCAFDoc_ShapeTool

    name = TDataStd_Name()
    label.FindAttribute(TDataStd_Name.GetID_s(), name)
    bulk = GProp_GProps()
    BRepGProp.VolumeProperties_s(XCAFDoc_ShapeTool.GetShape_s(label), bulk)
    center = bulk.CentreOfMass()
    return StepBody(
        name=name.Get().ToExtString(),
        volume_mm3=float(bulk.Mass()),
        centroid_mm=(center.X(), center.Y(), center.Z()),
    )


def _hush() -> None:
    """The kernel greets on standard output, where answers belong."""
    from OCP.Message import Message

    Message.DefaultMessenger_s().ChangePrinters().Clear()


def _renumbered(text: str) -> str:
    """Components numbered from one: the kernel counts on from the last file it wrote."""
    count = iter(range(1, len(text)))

    def numbered(found: re.Match[str]) -> str:
        rest = re.sub(r"\n\s*", "", found[2])
        return f"{found[1]}('{next(count)}'{rest});"

    return _OCCURRENCE.sub(numbered, text)


def _escaped(text: str) -> str:
    """Letters beyond ASCII as the format writes them (ISO 10303-21, clause 6.4.3.3)."""
    return _FOREIGN.sub(lambda found: "\\X4\\" + found[0].encode("utf-32-be").hex().upper() + "\\X0\\", text)
