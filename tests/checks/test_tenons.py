"""Size of tenons and the wood beyond their pins, at each limit."""

from __future__ import annotations

import pytest

from checks.bench import X, part, subject, work
from scantling.checks.tenons import check, tenon_of
from scantling.joinery.work import Connector, ConnectorKind, Cut, Extension, Fit, Hole, Mark, MarkKind
from scantling.piece.geometry import Frame
from scantling.piece.model import Direction, End


def loose(thickness: float, *, length: float = 60.0) -> list[str]:
    """Codes for a loose tenon of that thickness from a 20 mm rail."""
    tenon = Connector(kind=ConnectorKind.LOOSE_TENON, count=1, size_mm=(thickness, 50.0, length))
    joint = work("rail/leg", "rail", "leg", connectors=(tenon,))
    return [f.code for f in check(subject((part("rail"), part("leg")), (joint,)))]


@pytest.mark.parametrize(
    ("thickness", "codes"), [(4.9, ["F17"]), (5.0, []), (10.0, []), (10.1, ["F17", "F18"])]
)
def test_f17_thickness(thickness: float, codes: list[str]) -> None:
    """A quarter to a half of a 20 mm rail."""
    assert loose(thickness) == codes


@pytest.mark.parametrize(("length", "codes"), [(60.0, []), (59.8, ["F18"])])
def test_f18_depth(length: float, codes: list[str]) -> None:
    """A 10 mm tenon goes 30 mm into each part."""
    assert loose(10.0, length=length) == codes


@pytest.mark.parametrize(
    ("end", "at", "codes"),
    [
        (End.END, 720.0, []),
        (End.END, 720.1, ["F19"]),
        (End.START, -20.0, []),
        (End.START, -20.1, ["F19"]),
    ],
)
def test_f19_pin_near_the_end(end: End, at: float, codes: list[str]) -> None:
    """An 8 mm pin wants 20 mm of a 40 mm tenon beyond it (the worked value)."""
    frame = Frame(origin=(at, 0, 10), grain=(0, 0, -1), width=X, thickness=(0, 1, 0))
    hole = Hole(
        frame=frame,
        diameter_mm=8,
        depth_mm=20,
    )
    joint = work(
        "field/end",
        "field",
        "cap",
        extensions=(Extension(part="field", end=end, length_mm=40.0),),
        cuts=(Cut(part="field", tool=hole, what="pin hole"),),
    )
    assert [f.code for f in check(subject((part("field"), part("cap")), (joint,)))] == codes


def test_a_tenon_on_the_receiving_part_is_read_as_such() -> None:
    """A breadboard end receives the field's tenons: the thickness is held against the field."""
    mark = Mark(
        part="field",
        kind=MarkKind.TENON,
        on_end=True,
        end=End.END,
        face=Direction.TOP,
        reference_face=Direction.FRONT,
        from_end_mm=0.0,
        from_face_mm=0.0,
        length_mm=60.0,
        width_mm=8.0,
        depth_mm=40.0,
        fit=Fit.LONG,
        setup="",
    )
    tenon = tenon_of(work("cap/field", "cap", "field", marks=(mark,)))
    assert tenon is not None
    assert (tenon.on, tenon.into, tenon.thickness_mm, tenon.depth_mm) == ("field", "cap", 8.0, 40.0)
