"""Short grain, wedges, drawn pins and dusts: each rule at its limit and just past it."""

from __future__ import annotations

import pytest

from checks.bench import X, Y, part, subject, work
from scantling.checks import drawbores, dusts, sheets, short_grain, wedges
from scantling.checks.run import run
from scantling.checks.subject import Subject
from scantling.errors import Finding, Severity
from scantling.joinery.work import Box, Cut, Hole, Slot
from scantling.piece.geometry import Frame, Plane, Vec, cross, unit
from scantling.piece.model import Direction, End, Taper
from scantling.piece.shaping import Shaping, ShapingKind
from tests.joinery.bench import YEAR, made_of
from tests.joinery.samples import SAMPLES


@pytest.mark.parametrize(("loss", "trips"), [(18.0, False), (18.2, True)])
def test_f12_a_taper_steeper_than_one_in_eight(loss: float, trips: bool) -> None:
    """Over 144 mm: 18 mm are one in eight, 18.2 are not."""
    plane = Plane(point=(556.0, 45.0, 0.0), normal=unit((loss, 144.0, 0.0)))
    taper = Taper(plane=plane, toward=End.END, begin_mm=556.0, loss_mm=loss, face=Direction.BACK)
    found = short_grain.check(subject((part("leg", tapers=(taper,)),)))
    assert [f.code for f in found] == (["F12"] if trips else [])
    if trips:
        assert found[0].numbers["length_wanted_mm"] == pytest.approx(8.0 * loss)


def housing(from_end: float, *, deep: float = 8.0, along: Vec = Y) -> Cut:
    """A housing 20 wide across (or along) a part of 700 x 90 x 20, cut in its upper face."""
    into: Vec = (0.0, 0.0, -1.0)
    frame = Frame(
        origin=(700.0 - from_end - 10.0, 0.0, 10.0), grain=into, width=along, thickness=cross(into, along)
    )
    return Cut(
        part="side",
        tool=Box(frame=frame, length_mm=deep, width_mm=94.0, thickness_mm=20.0),
        what="housing",
    )


@pytest.mark.parametrize(("from_end", "trips"), [(24.0, False), (23.9, True), (0.0, False), (0.05, False)])
def test_f12_the_wood_beyond_a_housing_shears_off(from_end: float, trips: bool) -> None:
    """8 mm deep wants 24 mm of fiber beyond it; run out at the end, it is a rabbet."""
    joint = work("shelf/side", "shelf", "side", cuts=(housing(from_end),))
    found = short_grain.check(subject((part("side"), part("shelf")), (joint,)))
    assert [f.code for f in found] == (["F12"] if trips else [])
    if trips:
        assert (found[0].numbers["fiber_mm"], found[0].numbers["wanted_mm"]) == (
            pytest.approx(23.9),
            pytest.approx(24.0),
        )


def test_f12_a_groove_along_the_grain_leaves_no_stub() -> None:
    """It runs with the fibers: what stands beyond its end is whole."""
    joint = work("shelf/side", "shelf", "side", cuts=(housing(40.0, deep=18.0, along=X),))
    assert short_grain.check(subject((part("side"), part("shelf")), (joint,))) == []


def tusk(tail: float, thickness: float) -> list[Finding]:
    """The sample's tusk tenon with another tail."""
    sample = SAMPLES["tusk_tenon"]
    options = {**sample.asked("back"), "tail": tail, "thickness": thickness}
    made = made_of(sample.parts, {"j": {"kind": "tusk_tenon", "between": [["a.end", "b"]], **options}})
    return wedges.check(Subject(piece=made.piece, works=made.works, moisture=YEAR))


@pytest.mark.parametrize(
    ("tail", "thickness", "wanted"),
    [(40.1, 12.0, None), (39.9, 12.0, 40.0), (44.1, 22.0, None), (43.9, 22.0, 44.0)],
)
def test_f13_wood_beyond_the_wedge(tail: float, thickness: float, wanted: float | None) -> None:
    """40 mm, or twice the thickness of a tenon thicker than 20 mm."""
    found = tusk(tail, thickness)
    assert [f.code for f in found] == ([] if wanted is None else ["F13"])
    if wanted is not None:
        assert found[0].numbers["wanted_mm"] == wanted
        assert found[0].advice == f"Leave at least {wanted:.0f} mm beyond the wedge."


@pytest.mark.parametrize(("off", "trips"), [(2.9, False), (3.0, True), (-3.0, True)])
def test_f20_a_pin_hard_against_the_end_of_its_slot(off: float, trips: bool) -> None:
    """A 12 mm slot gives a 6 mm pin 3 mm each way; drawn so far along it, it holds what should slide."""
    slot = Slot(
        frame=Frame(origin=(300.0, 0.0, 10.0), grain=(0.0, 0.0, -1.0), width=Y, thickness=X),
        length_mm=12.0,
        width_mm=6.0,
        depth_mm=20.0,
    )
    hole = Hole(
        frame=Frame(origin=(301.5, off, 10.0), grain=(0.0, 0.0, -1.0), width=Y, thickness=X),
        diameter_mm=6.0,
        depth_mm=20.0,
    )
    cuts = (Cut(part="top", tool=slot, what="pin slot"), Cut(part="end", tool=hole, what="pin hole"))
    found = drawbores.check(subject((part("top"), part("end")), (work("top/end", "top", "end", cuts=cuts),)))
    assert [f.code for f in found] == (["F20"] if trips else [])


@pytest.mark.parametrize(
    ("wood", "severity"),
    [
        ("sugar maple", None),
        ("white oak", Severity.NOTE),
        ("black walnut", Severity.NOTE),
        ("western redcedar", Severity.STOP),
        ("cocobolo", Severity.STOP),
    ],
)
def test_f65_dusts_by_their_class(wood: str, severity: Severity | None) -> None:
    """A note for oak (A1) and walnut (A2); a stop for sensitizers, until the maker says what is done."""
    found = dusts.check(subject((part("a", species=wood), part("b", species=wood))))
    assert [f.severity for f in found] == ([] if severity is None else [severity])


def test_f65_is_set_aside_by_a_reason() -> None:
    """Once the maker has said what is done about it, it is a note."""
    one = (part("a", species="western redcedar"),)
    told = run(subject(one, accept={"F65": "Extraction at every tool, a fitted mask when sanding."}))
    assert [f.severity for f in told.findings if f.code == "F65"] == [Severity.NOTE]


def rails() -> Subject:
    """Two rails into a post, their tenons meeting in it."""
    base = {"kind": "stick", "species": "white oak", "section": [90, 22], "width_toward": "top"}
    parts = {
        "post": {**base, "from": [0, 0, 0], "to": [0, 0, 700], "section": [55, 55], "width_toward": "right"},
        "x": {**base, "from": [27.5, 0, 600], "to": [500, 0, 600], "trim": {"start": "post.right"}},
        "y": {**base, "from": [0, 27.5, 600], "to": [0, 500, 600], "trim": {"start": "post.back"}},
    }
    joint = {"kind": "mortise_tenon", "length": 40, "between": [["x.start", "post"], ["y.start", "post"]]}
    made = made_of(parts, {"j": joint})
    return Subject(piece=made.piece, works=made.works, moisture=YEAR)


def shared(volume: float) -> Finding:
    """What is said of rails that share so much wood."""
    return Finding(
        code="F69",
        severity=Severity.STOP,
        where="x, y",
        message="",
        advice="",
        numbers={"volume_mm3": volume},
    )


def test_f14_hides_an_overlap_of_its_tenons_and_no_more() -> None:
    """Mortises 8 wide, 78 high and 41 deep cross in 8 x 8 x 78 mm: as much is the tenons', more is not."""
    here, common = rails(), 8.0 * 8.0 * 78.0
    told = {volume: run(here, others=[shared(volume)]) for volume in (common, 1.1 * common)}
    assert [[f.code for f in report.findings if f.code in ("F14", "F69")] for report in told.values()] == [
        ["F14"],
        ["F14", "F69"],
    ]


@pytest.mark.parametrize(("wide", "codes"), [(78.0, []), (79.0, ["F58"])])
def test_f58_solid_wood_glued_on_a_sheet(wide: float, codes: list[str]) -> None:
    """White oak from 8 to 11.5 %: 1 mm over 1 / (0.00365 x 3.5) = 78.3 mm."""
    parts = {
        "core": {
            "kind": "sheet",
            "species": "birch plywood",
            "from": [0, 0, 9],
            "to": [800, 0, 9],
            "section": [300, 18],
            "width_toward": "back",
        },
        "band": {
            "kind": "stick",
            "species": "white oak",
            "from": [0, 0, 23],
            "to": [800, 0, 23],
            "section": [wide, 10],
            "width_toward": "back",
            "rings": "flat",
        },
    }
    made = made_of(parts, {"j": {"kind": "face_lamination", "between": [["band", "core"]]}})
    found = sheets.check(Subject(piece=made.piece, works=made.works, moisture=YEAR))
    assert [f.code for f in found] == codes
    if codes:
        assert found[0].numbers["wide_allowed_mm"] == pytest.approx(1.0 / (0.00365 * 3.5))


@pytest.mark.parametrize(("rise", "codes"), [(18.6, []), (18.8, ["F12"])])
def test_f12_a_part_sawn_to_a_curve(rise: float, codes: list[str]) -> None:
    """Over 600 mm one in eight is reached at 300 (sqrt(65) - 8) = 18.68 mm of rise."""
    hollow, crown = (
        Shaping(kind=kind, side=(side, 0), size_mm=rise, start_mm=0.0, end_mm=600.0)
        for kind, side in ((ShapingKind.HOLLOW, -1), (ShapingKind.CROWN, 1))
    )
    bent = part("rail", length=600.0, shaping=(hollow, crown))
    assert [f.code for f in short_grain.check(subject((bent,)))] == codes
    assert short_grain.check(subject((part("rail", length=600.0, shaping=(hollow,)),))) == []


@pytest.mark.parametrize(("foot", "codes"), [(120.0, []), (119.0, ["F12"])])
def test_f12_a_foot_beside_a_cut_out(foot: float, codes: list[str]) -> None:
    """40 mm high it wants 3 x 40 = 120 mm of foot at each end; 119 may stand no higher than 39.7."""
    cut_out = Shaping(
        kind=ShapingKind.CUT_OUT,
        side=(-1, 0),
        size_mm=40.0,
        start_mm=foot,
        end_mm=520.0 - 120.0,
        where="bottom face",
        corner_mm=30.0,
    )
    found = short_grain.check(subject((part("end", length=520.0, shaping=(cut_out,)),)))
    assert [f.code for f in found] == codes
    for told in found:
        assert (told.where, told.numbers["fiber_mm"], told.numbers["wanted_mm"]) == ("end", 119.0, 120.0)
        assert "120 mm long" in told.advice
        assert "40 mm high" in told.advice
