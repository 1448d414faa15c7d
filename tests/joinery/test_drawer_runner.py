"""Runners on a solid side, side-hung drawers and bought slides, by hand and at their limits.

Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), table 13-5: white oak 0.00365 a percent
for flat-sawn faces.
"""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.work import ConnectorKind, Slot
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found
from tests.joinery.lively import lively_mm
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=11.5)
OAK = {"kind": "stick", "species": "white oak", "rings": "flat"}


def runner_on_side(*, stands_in: float = 0.0, ends: float = 190.0, **options: Any) -> Made:
    """A runner 40 x 20 from y = -190 on, on a side 400 wide whose rear edge is at y = 200."""
    x = -20 + stands_in
    parts = {
        "runner": {
            **OAK,
            "width_toward": "right",
            "from": [x, -190, 100],
            "to": [x, ends, 100],
            "section": [40, 20],
        },
        "side": {**OAK, "width_toward": "back", "from": [10, 0, 0], "to": [10, 0, 300], "section": [400, 20]},
    }
    base = {"kind": "drawer_runner", "between": [["runner", "side"]], "counterbore": 20, "screw": [4, 30]}
    return made_of(parts, {"j": {**base, **options}}, moisture=YEAR)


def test_slots_are_as_long_as_the_side_moves_there() -> None:
    """Screws 30 and 350 mm behind the front: 0.16 and 0.38, 1.92 and 4.47 mm; slots for a lively side."""
    work = runner_on_side().works[0]
    assert [round(f.from_fixed_mm, 6) for f in work.freedoms] == [30.0, 350.0]
    shrink = [y * 0.00365 * 1.5 for y in (30.0, 350.0)]
    swell = [y * 0.00365 * 3.5 for y in (30.0, 350.0)]
    assert [f.shrink_travel_mm for f in work.freedoms] == pytest.approx(shrink)
    assert [f.swell_travel_mm for f in work.freedoms] == pytest.approx(swell)
    dry, wet = ([lively(y, change) for y in (30.0, 350.0)] for change in (1.5, 3.5))
    assert wet == pytest.approx([0.4977, 5.8065], abs=1e-4)
    assert [f.cut_to_mm for f in work.freedoms] == pytest.approx(
        [5.0 + a + b for a, b in zip(dry, wet, strict=True)]
    )
    assert [f.shrink_room_mm for f in work.freedoms] == pytest.approx([a + 0.5 for a in dry])
    assert [f.swell_room_mm for f in work.freedoms] == pytest.approx([b + 0.5 for b in wet])


def lively(y_mm: float, change_pct: float) -> float:
    """Of white oak built at 8 %."""
    return lively_mm(y_mm, change_pct, per_pct=0.00365, shrinkage_pct=10.5, build_pct=8.0)


def test_a_slot_reaches_back_as_the_side_swells() -> None:
    """The screw rides with the side, mostly backward here: the slot's middle is half the difference back."""
    made = runner_on_side()
    slots = [c.tool for c in made.works[0].cuts if c.what == "screw slot" and isinstance(c.tool, Slot)]
    frame = made.piece.parts["runner"].frame
    places = sorted(frame.point(slot.frame.origin)[1] for slot in slots)
    assert places == pytest.approx([-190 + y + lively(y, 2.0) / 2.0 for y in (30.0, 350.0)])


def test_on_a_side_whose_grain_runs_alike_holes_are_plain() -> None:
    """A rail behind the runner does not move along it: no slots, no freedom."""
    parts = {
        "runner": {
            **OAK,
            "width_toward": "right",
            "from": [-20, -190, 100],
            "to": [-20, 190, 100],
            "section": [40, 20],
        },
        "side": {
            **OAK,
            "width_toward": "top",
            "from": [10, -200, 100],
            "to": [10, 200, 100],
            "section": [90, 20],
        },
    }
    joint = {"kind": "drawer_runner", "between": [["runner", "side"]], "counterbore": 20, "screw": [4, 30]}
    work = made_of(parts, {"j": joint}, moisture=YEAR).works[0]
    assert work.freedoms == ()
    assert [round(mark.length_mm, 6) for mark in work.marks] == [4.0, 4.0]


@pytest.mark.parametrize(("glued", "codes"), [(75, []), (76, ["F50"])])
def test_glue_across_the_side(glued: float, codes: list[str]) -> None:
    """F50 past 75 mm, and not F01 besides; the area is what is glued of the height and both walls."""
    made = runner_on_side(stands_in=5, glued=glued)
    assert [f.code for f in found(made, "F50", moisture=YEAR)] == codes
    assert found(made, "F01", moisture=YEAR) == []
    [face] = made.works[0].glue
    assert face.area_mm2 == pytest.approx(glued * (20 + 2 * 5))


def test_short_slots_hold_the_side() -> None:
    """The screw at 350 wants 4 + 1.92 + 4.47 = 10.39 mm; with 7 it holds the side, with 10.4 it does not."""
    [told] = found(runner_on_side(slot=7), "F50", moisture=YEAR)
    assert "350 mm behind the front" in told.message
    assert told.advice == "Make the slot 10.4 mm long."
    assert found(runner_on_side(slot=10.3), "F50", moisture=YEAR)
    assert found(runner_on_side(slot=10.4), "F50", moisture=YEAR) == []


@pytest.mark.parametrize(("ends", "codes"), [(187.8, []), (188.0, ["F50"])])
def test_the_back_comes_forward_as_the_side_dries(ends: float, codes: list[str]) -> None:
    """The back 10 mm in from the rear edge is at 190; 380 mm of side shrink 2.08 mm toward the front."""
    told = found(runner_on_side(ends=ends, back=10), "F50", moisture=YEAR)
    assert [f.code for f in told] == codes
    if codes:
        assert told[0].numbers["shrink_travel_mm"] == pytest.approx(380 * 0.00365 * 1.5)


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        ({"counterbore": 40}, "deeper_than_part", "40.0 mm in 40.0 mm"),
        ({"screw": [4, 20]}, "screw_too_short", "20.0 mm through 20.0 mm"),
        ({"screw": [4, 41]}, "screw_too_long", "21.0 mm into 20.0 mm of side"),
        ({"stands_in": 19.995}, "deeper_than_part", "20.0 mm deep in 20.0 mm of side"),
    ],
)
def test_runners_that_cannot_be_fixed_are_refused(options: Options, code: str, words: str) -> None:
    """Each with the figures."""
    with pytest.raises(FileFaults) as caught:
        runner_on_side(**options)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == (code, True)


def hung_drawer(*, stands_in: float = 4.0, species: str = "white oak", **options: Any) -> Made:
    """A drawer's side 12 thick and 400 long; a runner 20 high from 20 mm behind its front."""
    parts = {
        "drawer": {
            **OAK,
            "width_toward": "top",
            "from": [0, -200, 100],
            "to": [0, 200, 100],
            "section": [120, 12],
        },
        "runner": {
            **OAK,
            "species": species,
            "width_toward": "top",
            "from": [-14 + stands_in, -180, 100],
            "to": [-14 + stands_in, 190, 100],
            "section": [20, 16],
        },
    }
    joint = {"kind": "drawer_groove", "between": [["drawer", "runner"]], **options}
    return made_of(parts, {"j": joint}, moisture=YEAR)


def test_a_side_hung_groove_has_room_for_the_damp_runner() -> None:
    """20 mm grow 0.26: the groove is 20.76 high, 4.5 deep, 380 long from the runner's front end out."""
    made = hung_drawer()
    high = 20 + 20 * 0.00365 * 3.5 + 0.5
    assert made.removed_mm3("drawer") == pytest.approx(380 * 4.5 * high, rel=1e-6)
    assert made.works[0].marks[0].width_mm == pytest.approx(high)
    assert made.works[0].leaves == (0.0, -1.0, 0.0)
    assert made.in_the_way("drawer", "runner", moved=(0, -250, 0)) == ()
    assert made.in_the_way("drawer", "runner", moved=(0, 15, 0)) != ()


@pytest.mark.parametrize(("height", "codes"), [(20.26, []), (20.25, ["F49"])])
def test_a_groove_that_closes_on_its_runner(height: float, codes: list[str]) -> None:
    """20 x 0.00365 x 3.5 = 0.2555 mm."""
    assert [f.code for f in found(hung_drawer(height=height), "F49", moisture=YEAR)] == codes


@pytest.mark.parametrize(
    ("options", "code"), [({"stands_in": 0.0}, "runner_beside_drawer"), ({"room": 4.5}, "deeper_than_part")]
)
def test_side_hung_drawers_that_cannot_be_made_are_refused(options: Options, code: str) -> None:
    """A runner that only touches the side, and a groove that leaves less than 4 mm of it."""
    with pytest.raises(FileFaults) as caught:
        hung_drawer(**options)
    assert caught.value.faults[0].code == code


def slid(*, gap: float = 12.7, long: float = 420.0, **options: Any) -> Made:
    """A drawer's side 12 thick beside a case 20 thick."""
    parts = {
        "drawer": {
            **OAK,
            "width_toward": "top",
            "from": [0, 0, 100],
            "to": [0, long, 100],
            "section": [120, 12],
        },
        "case": {
            **OAK,
            "width_toward": "top",
            "from": [16 + gap, 0, 100],
            "to": [16 + gap, 500, 100],
            "section": [300, 20],
        },
    }
    joint = {"kind": "drawer_slide", "between": [["drawer.right", "case"]], **options}
    return made_of(parts, {"j": joint}, moisture=YEAR)


def test_a_slide_is_bought_in_the_next_length_down() -> None:
    """400 for a side of 420; one a side with three screws in each member, holes on its middle line."""
    work = slid().works[0]
    slide, screw = work.connectors
    assert (slide.kind, slide.count, slide.size_mm) == (ConnectorKind.DRAWER_SLIDE, 1, (12.7, 45.0, 400.0))
    assert screw.count == 6
    mine = [mark for mark in work.marks if mark.part == "drawer"]
    assert sorted((mark.end.value, round(mark.from_end_mm, 6)) for mark in mine) == [
        ("end", 55.0),
        ("start", 35.0),
        ("start", 200.0),
    ]
    assert [mark.from_face_mm for mark in mine] == pytest.approx([60.0] * 3)
    assert slid().removed_mm3("case") == pytest.approx(3 * math.pi / 4 * 2.205**2 * 10, rel=1e-6)


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        ({"gap": 12.0}, "slide_too_thick", "12.0 mm for a slide of 12.7 mm"),
        ({"gap": 13.6}, "slide_too_thin", "13.6 mm for a slide of 12.7 mm"),
        ({"length": 450}, "slide_over_drawer", "450 mm on a side 420.0 mm long"),
        ({"long": 240.0}, "slide_over_drawer", "250 mm on a side 240.0 mm long"),
        ({"screw": [3.5, 12]}, "screw_too_long", "12.0 mm into 12.0 mm of drawer"),
    ],
)
def test_slides_that_do_not_fit_are_refused(options: Options, code: str, words: str) -> None:
    """The room it wants and the room there is; 13.5 mm is still taken."""
    assert slid(gap=13.5).works
    with pytest.raises(FileFaults) as caught:
        slid(**options)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == (code, True)
