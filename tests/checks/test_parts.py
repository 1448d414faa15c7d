"""Handed parts, wide parts and chains of sizes, each at its limit."""

from __future__ import annotations

import pytest

from checks.bench import X, part, subject, work
from scantling.checks import Chain, FaceCoats, chains, hands, panels
from scantling.joinery.work import Cut, Hole
from scantling.piece.geometry import Frame, Plane, unit
from scantling.piece.model import End, Part, Trim


@pytest.mark.parametrize(("mirrored", "trips"), [(0, False), (1, True), (2, False), (4, True)])
def test_f60_hands(mirrored: int, trips: bool) -> None:
    """Of four legs none or two are mirrored; one or all would not pair."""
    legs = tuple(part(f"leg{k}", like="leg", mirrored=k < mirrored) for k in range(4))
    found = hands.check(subject(legs))
    assert [f.code for f in found] == (["F60"] if trips else [])


def sloped(name: str, *, start: float, end: float) -> Part:
    """A stick whose ends slope in the width view, as mm along per mm across."""
    trims = (
        Trim(plane=Plane(point=(0, 0, 0), normal=unit((-1.0, start, 0.0))), end=End.START, by="floor"),
        Trim(plane=Plane(point=(700, 0, 0), normal=unit((1.0, -end, 0.0))), end=End.END, by="top"),
    )
    return part(name, like="leg", trims=trims)


@pytest.mark.parametrize(("end", "trips"), [(0.2, False), (-0.2, True)])
def test_f61_sense_of_the_ends(end: float, trips: bool) -> None:
    """Two sticks made alike, one parallel and one mirrored, trip; two parallel ones do not."""
    pair = (sloped("one", start=0.2, end=0.2), sloped("two", start=0.2, end=end))
    found = hands.check(subject(pair))
    assert [f.code for f in found] == (["F61"] if trips else [])


@pytest.mark.parametrize(("under", "trips"), [(2.0, False), (1.9, True), (0.0, True)])
def test_f52_one_face_finished(under: float, trips: bool) -> None:
    """Half the coats underneath pass, fewer do not."""
    piece = subject((part("top"),), coats=(FaceCoats(part="top", one=4.0, other=under),))
    assert [f.code for f in panels.check(piece)] == (["F52"] if trips else [])


def test_f52_tells_the_cup() -> None:
    """The finding holds how far the part would cup; without a figure it says nothing of it."""
    coats = FaceCoats(part="top", one=4.0, other=0.0, cup_mm=2.04)
    [told] = panels.check(subject((part("top"),), coats=(coats,)))
    assert "lying free it would cup 2.0 mm in this room" in told.message
    assert told.numbers["cup_mm"] == 2.04
    [bare] = panels.check(subject((part("top"),), coats=(FaceCoats(part="top", one=4.0, other=0.0),)))
    assert "cup" not in bare.message


@pytest.mark.parametrize(
    ("seam", "trips"), [(0.0, False), (21.4, False), (21.6, True), (-275.4, False), (-275.6, True)]
)
def test_f59_seam_clear_of_edges_and_holes(seam: float, trips: bool) -> None:
    """25 mm less half a millimeter, from the edge of a 600 top and from an 8 mm hole 50 off its middle."""
    frame = Frame(origin=(300, 50, 10), grain=(0, 0, -1), width=X, thickness=(0, 1, 0))
    cut = Cut(part="top", tool=Hole(frame=frame, diameter_mm=8.0, depth_mm=12.0), what="pilot hole")
    piece = subject(
        (part("top", width=600.0), part("b")),
        (work("j", "top", "b", cuts=(cut,)),),
        seams_mm={"top": (seam,)},
    )
    assert [f.code for f in panels.check(piece)] == (["F59"] if trips else [])


@pytest.mark.parametrize(("overall", "trips"), [(1370.0, False), (1370.5, False), (1370.6, True)])
def test_f63_chain(overall: float, trips: bool) -> None:
    """Two ends and a field against the overall length, to half a millimeter."""
    chain = Chain(
        name="length of the top",
        sizes_mm=(("end", 75.0), ("field", 1220.0), ("end", 75.0)),
        overall_mm=overall,
    )
    found = chains.check(subject((part("top"),), chains=(chain,)))
    assert [f.code for f in found] == (["F63"] if trips else [])
    if trips:
        assert found[0].numbers["off_mm"] == pytest.approx(-0.6)
