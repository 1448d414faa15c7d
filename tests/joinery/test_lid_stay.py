"""Lids: their straps across the grain, the stay that holds them, and what hurts children, by hand."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults, Severity
from scantling.joinery.lid_stay import stay_lengths_mm
from scantling.joinery.work import ConnectorKind
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, file_text, made
from tests.joinery.judging import found
from tests.joinery.lively import lively_mm
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=11.5)
OAK: Options = {"kind": "panel", "species": "white oak", "rings": "flat"}


def chest(
    *, wide: float = 800.0, stay: Options | None = None, strap: Options | None = None, **brief: Any
) -> Made:
    """A box 400 deep and 300 high of 20 mm boards, its lid 400 by 22 flush at the back."""
    half = wide / 2.0
    ends = {"left": {"mirror": ["left-right"]}}
    parts: Options = {
        "front": {
            **OAK,
            "center": [0, -190, 150],
            "along": "right",
            "length": wide - 40,
            "section": [300, 20],
            "width_toward": "top",
            "copies": {"back": {"mirror": ["front-back"]}},
        },
        "right": {
            **OAK,
            "center": [half - 10, 0, 150],
            "along": "back",
            "length": 400,
            "section": [300, 20],
            "width_toward": "top",
            "copies": ends,
        },
        "lid": {
            **OAK,
            "center": [0, 0, 311],
            "along": "right",
            "length": wide,
            "section": [400, 22],
            "width_toward": "back",
        },
    }
    corner = [[f"{a}.{e}", s] for a in ("front", "back") for e, s in (("start", "left"), ("end", "right"))]
    joints: Options = {
        "corner": {"kind": "dovetail", "between": corner},
        "hinge": {"kind": "strap_hinge", "between": [["lid.bottom", "back.back"]], **(strap or {})},
    }
    if stay is not None:
        joints["stay"] = {"kind": "lid_stay", "between": [["lid", "right.left"]], **stay}
    return made(file_text(parts, joints, **({"brief": brief} if brief else {})), moisture=YEAR)


@pytest.mark.parametrize(
    ("sizes", "shut", "opened"),
    [((60, 120, 220, 90), 200.0, math.hypot(60, 340)), ((100, 50, 220, 180), 130.0, math.hypot(320, 50))],
)
def test_a_stay_is_bought_by_its_length_open_and_shut(
    sizes: tuple[float, float, float, float], shut: float, opened: float
) -> None:
    """160 and 120 make 200; upright 60 and 340; laid right over 320 and 50."""
    back, down, out, opens = sizes
    lengths = stay_lengths_mm(back_mm=back, down_mm=down, out_mm=out, opens_deg=opens)
    assert lengths == pytest.approx((shut, opened))


def test_a_stay_is_screwed_to_lid_and_side() -> None:
    """Two holes each, its middle 60 from the back and 90 down; 220 from the back under the lid."""
    piece = chest(stay={"screw": [3.5, 14]})
    work = next(work for work in piece.works if work.family == "lid_stay")
    stay, screw = work.connectors
    assert (stay.kind, stay.count, stay.size_mm[2]) == (
        ConnectorKind.LID_STAY,
        1,
        pytest.approx(183.576, abs=1e-3),
    )
    assert screw.count == 4
    places = {mark.part: mark for mark in work.marks}
    assert places["right"].from_end_mm == pytest.approx(60)
    assert places["right"].from_face_mm == pytest.approx(90)
    assert places["lid"].from_face_mm == pytest.approx(180)  # 220 of 400 from the back: nearer its front
    with_stay, without = piece.removed_mm3("lid"), chest().removed_mm3("lid")
    assert with_stay - without == pytest.approx(2 * math.pi / 4 * (0.63 * 3.5) ** 2 * 14, rel=1e-6)


@pytest.mark.parametrize(
    ("stay", "code"),
    [
        ({"between": [["lid", "right"]]}, "stay_side_missing"),
        ({"between": [["lid", "right.back"]]}, "stay_side_missing"),
        ({"screw": [3.5, 21]}, "screw_too_long"),
    ],
)
def test_stays_that_cannot_be_fitted_are_refused(stay: Options, code: str) -> None:
    """No face named, a face at the hinges, screws through the side."""
    with pytest.raises(FileFaults) as caught:
        chest(stay=stay)
    assert caught.value.faults[0].code == code


def test_a_strap_lets_the_lid_move() -> None:
    """Half of 400: four screws 25, 75, 125, 175 in; the last 150 from the first: 1.92, 2.49 lively."""
    work = next(work for work in chest().works if work.family == "strap_hinge")
    assert work.connectors[0].size_mm == (3.0, 30.0, 200.0)
    last = next(one for one in work.freedoms if one.what == "screw slot 4 of strap 1")
    assert last.from_fixed_mm == pytest.approx(150.0)
    swell = 150.0 * 0.00365 * 3.5
    assert last.swell_travel_mm == pytest.approx(swell)
    lively = lively_mm(150.0, 3.5, per_pct=0.00365, shrinkage_pct=10.5, build_pct=8.0)
    assert last.cut_to_mm == pytest.approx(4.0 + 2.0 * (lively + 0.5))
    assert found(chest(), "F08", moisture=YEAR) == []


def test_round_holes_hold_the_lid() -> None:
    """Holes of 5 mm for 4 mm screws give half a millimeter where 1.92 are asked: F08."""
    told = found(chest(strap={"slot": 5}), "F08", moisture=YEAR)
    assert told
    assert max(f.numbers["swell_travel_mm"] for f in told) == pytest.approx(150.0 * 0.00365 * 3.5)


def test_the_bed_is_as_deep_as_the_strap_is_thick() -> None:
    """Two beds 30 x 20 x 3, and three pilot holes each in the back."""
    plain = 2 * (30 * 20 * 3 + 3 * math.pi / 4 * (0.63 * 4) ** 2 * 15)
    work = next(work for work in chest().works if work.family == "strap_hinge")
    beds = [mark for mark in work.marks if mark.kind.value == "recess"]
    assert [(mark.length_mm, round(mark.width_mm, 6), mark.depth_mm) for mark in beds] == [
        (30.0, 20.0, 3.0)
    ] * 2
    bare = Made(chest().piece, tuple(w for w in chest().works if w.family != "strap_hinge"))
    assert chest().removed_mm3("back") - bare.removed_mm3("back") == pytest.approx(plain, rel=1e-6)


@pytest.mark.parametrize(
    ("strap", "code"),
    [
        ({"strap": 391}, "strap_over_lid"),
        ({"screw": [4, 26]}, "screw_too_long"),
        ({"inset": 370, "width": 60}, "row_too_close"),
    ],
)
def test_straps_that_do_not_fit_are_refused(strap: Options, code: str) -> None:
    """Longer than the lid, screws through it, straps on each other."""
    with pytest.raises(FileFaults) as caught:
        chest(strap=strap)
    assert caught.value.faults[0].code == code


def severities(piece: Made) -> list[Severity]:
    """Of all that is said of hazards to children."""
    return [f.severity for f in found(piece, "F67", moisture=YEAR)]


def test_a_lid_without_a_stay_falls() -> None:
    """F67 stops it for the lid and for the air; a stay and two holes of 30 mm leave a note to verify."""
    assert severities(chest()) == [Severity.STOP, Severity.STOP]
    assert severities(chest(stay={})) == [Severity.STOP]
    assert severities(chest(stay={}, vents=[2, "30 mm"])) == [Severity.NOTE]


@pytest.mark.parametrize(
    ("vents", "enough"),
    [([1, "40 mm"], False), ([2, "28.7 mm"], False), ([2, "28.8 mm"], True)],
)
def test_holes_for_air(vents: list[Any], enough: bool) -> None:
    """Two of 650 mm2, 28.77 mm across."""
    [severity] = severities(chest(stay={}, vents=vents))
    assert (severity is Severity.NOTE) is enough


@pytest.mark.parametrize(("wide", "told"), [(250.0, 0), (260.0, 1)])
def test_a_small_box_shuts_nobody_in(wide: float, told: int) -> None:
    """250 x 400 x 300 are 30 L, 260 31.2; from 31 L (1.1 cubic feet, ASTM F2598) on it is a chest."""
    assert len(severities(chest(wide=wide, stay={}, strap={"inset": 40}))) == told
