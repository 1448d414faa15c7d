"""The STEP file read back by the exchange reader: same names, places and volumes."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from OCP.collections import Sequence_TDF_Label
from OCP.Quantity import Quantity_Color
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDF import TDF_Label
from OCP.TDocStd import TDocStd_Document
from OCP.XCAFDoc import XCAFDoc_ColorType, XCAFDoc_DocumentTool, XCAFDoc_ShapeTool

from scantling.errors import ModelError
from scantling.solids import step
from scantling.solids.mesh import meshes_of
from scantling.solids.placed import placed_centroid
from scantling.solids.shape import PartShape, shapes_of
from scantling.solids.step import read_step, step_bytes
from tests.solids.sticks import bar, shaped
from tests.solids.table import table


@pytest.fixture(scope="module")
def shapes() -> dict[str, PartShape]:
    """The table's parts, cut."""
    return shapes_of(*table())


@pytest.fixture(scope="module")
def written(shapes) -> bytes:
    """The table as STEP."""
    return step_bytes(shapes, title="Small table", colors={"black cherry": (0.6, 0.35, 0.2)})


def test_parts_come_back_by_name_with_their_volumes_and_places(shapes, written):
    """Volumes within one part in a million, also of mirrored parts; centers within a hundredth of a mm."""
    meshes = meshes_of(shapes)
    back = {body.name: body for body in read_step(written)}
    assert list(back) == list(shapes)
    for name, body in back.items():
        assert body.volume_mm3 == pytest.approx(meshes[name].volume_mm3, rel=1e-6)
        center = placed_centroid(shapes[name].part, meshes[name])
        assert body.centroid_mm == pytest.approx(center, abs=1e-2)


def test_like_parts_are_one_product_used_several_times(written):
    """Two hands of leg, two of each apron, one top, and the assembly."""
    text = written.decode()
    assert text.count("= PRODUCT(") == 8
    assert text.count("NEXT_ASSEMBLY_USAGE_OCCURRENCE(") == 9
    assert text.count("STYLED_ITEM(") == 7
    assert ".MILLI.,.METRE." in text.replace("\n", "").replace(" ", "")


def test_equal_pieces_give_equal_bytes_though_the_kernel_counts_on(shapes, written):
    """Neither the time nor what was written before shows."""
    again = step_bytes(shapes, title="Small table", colors={"black cherry": (0.6, 0.35, 0.2)})
    assert again == written
    assert b"'1970-01-01T00:00:00'" in written


def test_one_form_in_two_woods_is_two_products_of_two_colors():
    """The kernel tells bodies apart by their surface, so the second wood gets a body of its own."""
    woods = {"a": "black cherry", "b": "white oak"}
    two = {name: shaped(replace(bar(name), species=species)) for name, species in woods.items()}
    two["b"] = shaped(replace(two["b"].part, frame=replace(two["b"].part.frame, origin=(0.0, 100.0, 0.0))))
    text = step_bytes(
        two, title="two", colors={"black cherry": (0.5, 0.3, 0.1), "white oak": (0.8, 0.7, 0.5)}
    )
    assert text.count(b"COLOUR_RGB(") == 2
    assert colors_read(text) == {"a": pytest.approx((0.5, 0.3, 0.1)), "b": pytest.approx((0.8, 0.7, 0.5))}
    assert {b.name: round(b.centroid_mm[1], 6) for b in read_step(text)} == {"a": 0.0, "b": 100.0}


def colors_read(data: bytes) -> dict[str, tuple[float, float, float]]:
    """Surface color of each component, as the kernel's own reader understands the file."""
    document, reader = TDocStd_Document(TCollection_ExtendedString("x")), STEPCAFControl_Reader()
    reader.SetColorMode(True)
    reader.ReadStream("x", io.BytesIO(data))
    reader.Transfer(document)
    shapes, tool = (
        XCAFDoc_DocumentTool.ShapeTool_s(document.Main()),
        XCAFDoc_DocumentTool.ColorTool_s(document.Main()),
    )
    roots, components = Sequence_TDF_Label(), Sequence_TDF_Label()
    shapes.GetFreeShapes(roots)
    XCAFDoc_ShapeTool.GetComponents_s(roots.Value(1), components)
    found = {}
    for label in (components.Value(i + 1) for i in range(components.Length())):
        name, product, color = TDataStd_Name(), TDF_Label(), Quantity_Color()
        label.FindAttribute(TDataStd_Name.GetID_s(), name)
        XCAFDoc_ShapeTool.GetReferredShape_s(label, product)
        tool.GetColor(XCAFDoc_ShapeTool.GetShape_s(product), XCAFDoc_ColorType.XCAFDoc_ColorSurf, color)
        found[name.Get().ToExtString()] = tuple(
            round(_screen(x), 4) for x in (color.Red(), color.Green(), color.Blue())
        )
    return found


def _screen(light: float) -> float:
    """Light as a screen value (IEC 61966-2-1); the kernel keeps light."""
    return 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055


def test_names_beyond_ascii_survive():
    """They are written as the format escapes them."""
    text = step_bytes({"façade": shaped(bar("façade"))}, title="Étagère")
    assert text.isascii()
    assert [body.name for body in read_step(text)] == ["façade"]


def test_rubbish_is_no_step_file():
    """A file that can not be read is said to be so."""
    with pytest.raises(ModelError, match="read back"):
        read_step(b"this is no exchange file")


def test_a_body_that_comes_back_smaller_is_not_given_out(shapes, monkeypatch):
    """The check on reading back can fail: here the reader is made to lose a thousandth."""
    real = step.read_step

    def shrunk(data: bytes) -> tuple[step.StepBody, ...]:
        return tuple(replace(body, volume_mm3=body.volume_mm3 * 0.999) for body in real(data))

    monkeypatch.setattr(step, "read_step", shrunk)
    with pytest.raises(ModelError, match="top: wrote"):
        step_bytes(shapes, title="Small table")
