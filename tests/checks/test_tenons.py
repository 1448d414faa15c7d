"""Size of tenons and the wood beyond their pins, at each limit."""

from __future__ import annotations

import pytest

from checks.bench import X, part, subject, work
from scantling.checks.subject import Subject
from scantling.checks.tenons import check, tenon_of
from scantling.joinery.work import Connector, ConnectorKind, Cut, Extension, Fit, Hole, Mark, MarkKind
from scantling.piece.geometry import Frame
from scantling.piece.model import Direction, End
from tests.joinery.bench import YEAR, made_of
from tests.joinery.sample import stick


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


@pytest.mark.parametrize(("length", "stands"), [(29.9, 29.9), (30.0, None)])
def test_f18_reads_the_tenon_and_not_the_air_behind_it(length: float, stands: float | None) -> None:
    """The mortise is 2 mm deeper: a 10 mm tenon of 29.9 mm is told as that, one of 30 is long enough."""
    post = stick((0, 0, 0), (0, 0, 300), (200, 60), "back")
    rail = stick((0, 0, 150), (400, 0, 150), (90, 40), "top", trim={"start": "post.right"})
    options = {"length": length, "thickness": 10, "end_room": 2, "between": [["rail.start", "post"]]}
    made = made_of({"post": post, "rail": rail}, {"j": {"kind": "mortise_tenon", **options}})
    assert {m.depth_mm for w in made.works for m in w.marks if m.part == "post"} == {length + 2.0}
    told = [f for f in check(Subject(piece=made.piece, works=made.works, moisture=YEAR)) if f.code == "F18"]
    assert [f.numbers["depth_mm"] for f in told] == ([] if stands is None else [stands])


@pytest.mark.parametrize(("depth", "stands"), [(30.9, 29.9), (31.0, None)])
def test_f18_reads_the_loose_tenon_in_its_mortise(depth: float, stands: float | None) -> None:
    """Mortises of 41 and 31 mm with 1 mm of air behind each end: 10 mm tenons stand 40 and 30 mm in them."""
    post = stick((0, 0, 0), (0, 0, 300), (200, 60), "back")
    rail = stick((0, 0, 150), (400, 0, 150), (90, 40), "top", trim={"start": "post.right"})
    options = {"depth_first": 41, "depth_second": depth, "thickness": 10, "width": 40, "end_room": 1}
    made = made_of(
        {"post": post, "rail": rail},
        {"j": {"kind": "loose_tenon", **options, "between": [["rail.start", "post"]]}},
    )
    told = [f for f in check(Subject(piece=made.piece, works=made.works, moisture=YEAR)) if f.code == "F18"]
    assert [round(f.numbers["depth_mm"], 6) for f in told] == ([] if stands is None else [stands])


@pytest.mark.parametrize(
    ("thick", "says"),
    [
        (36.0, "Let the tenon go 30 mm deep"),
        (35.9, "take it through side and wedge it, or"),
        (29.9, "too thin for a blind one 30 mm deep: house the end of rail in side"),
    ],
)
def test_f18_no_deeper_than_the_part_that_receives_has_room(thick: float, says: str) -> None:
    """10 mm tenons want 30, with 6 of wood behind: a side of 36 has that, one of 30 lets them through."""
    side = stick((0, 0, 0), (0, 0, 300), (200, thick), "back")
    rail = stick((0, 0, 150), (400, 0, 150), (90, 40), "top", trim={"start": "side.right"})
    options = {"length": 12, "thickness": 10, "end_room": 0, "between": [["rail.start", "side"]]}
    made = made_of({"side": side, "rail": rail}, {"j": {"kind": "mortise_tenon", **options}})
    told = [f for f in check(Subject(piece=made.piece, works=made.works, moisture=YEAR)) if f.code == "F18"]
    assert [f.numbers["depth_mm"] for f in told] == [12.0]
    assert says in told[0].advice


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
