"""Size of tenons and the wood beyond their pins, at each limit."""

from __future__ import annotations

import pytest

from checks.bench import X, part, subject, work
from scantling.checks.tenons import check
from scantling.joinery.work import Connector, ConnectorKind, Cut, Extension, Hole
from scantling.piece.geometry import Frame
from scantling.piece.model import End


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
