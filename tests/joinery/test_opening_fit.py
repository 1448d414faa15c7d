"""Drawers and doors in their openings: the gap to build, by hand, and the rules at their limits.

Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), table 13-5: sugar maple 0.00353 a percent
for flat-sawn faces, black cherry 0.00126 for quarter-sawn ones.
"""

from __future__ import annotations

from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.work import HalfSpace
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=7.0, dry_pct=6.0, wet_pct=11.0)


def fitted(
    species: str = "sugar maple", *, rings: str = "flat", drawn: float = 0.0, face: str = "a.top", **more: Any
) -> Made:
    """A drawer front 200 high under a rail, drawn with a gap; the damp season brings four points."""
    base = {"kind": "stick", "species": species, "width_toward": "top"}
    front: Options = {**base, "from": [0, 0, 100], "to": [400, 0, 100], "section": [200, 20], "rings": rings}
    rail: Options = {**base, "from": [-50, 0, 220 + drawn], "to": [450, 0, 220 + drawn], "section": [40, 20]}
    joint = {"kind": "opening_fit", "between": [[face, "b"]], **more}
    return made_of({"a": front, "b": rail}, {"j": joint}, moisture=YEAR)


@pytest.mark.parametrize(
    ("species", "rings", "swell", "gap"),
    [("sugar maple", "flat", 2.82, 3.8), ("black cherry", "quarter", 1.01, 2.0)],
)
def test_the_gap_over_a_front_of_200(species: str, rings: str, swell: float, gap: float) -> None:
    """Four points: flat maple grows 2.82 mm and wants 3.8 mm, quarter cherry 1.01 and 2.0."""
    [freedom] = fitted(species, rings=rings).works[0].freedoms
    assert freedom.swell_travel_mm == pytest.approx(swell, abs=0.005)
    assert freedom.cut_to_mm == pytest.approx(gap, abs=0.03)
    assert freedom.swell_room_mm - freedom.swell_travel_mm == pytest.approx(1.0)


def test_the_gap_is_planed_off_the_front() -> None:
    """Drawn tight, 3.82 mm come off its upper edge; drawn 2 mm clear, 1.82; drawn 6 mm clear, none."""
    for drawn, planed in ((0.0, 3.824), (2.0, 1.824), (6.0, 0.0)):
        made = fitted(drawn=drawn)
        assert made.removed_mm3("a") == pytest.approx(planed * 400 * 20, rel=1e-6)
        assert sum(isinstance(cut.tool, HalfSpace) for cut in made.works[0].cuts) == (1 if planed else 0)
        assert [mark.depth_mm for mark in made.works[0].marks] == pytest.approx([planed] if planed else [])
    assert fitted(drawn=6.0).works[0].freedoms[0].cut_to_mm == pytest.approx(6.0)


def test_kept_at_its_middle_half_of_it_shows_at_each_side() -> None:
    """1.41 of 2.82 mm."""
    [freedom] = fitted(kept_at="middle").works[0].freedoms
    assert freedom.swell_travel_mm == pytest.approx(100 * 0.00353 * 4.0)


def test_of_a_framed_door_only_the_stiles_move_the_gap() -> None:
    """Two stiles of 60: 120 mm of wood across the grain, 1.69 mm; none where it is kept."""
    [freedom] = fitted(moving=120).works[0].freedoms
    assert freedom.swell_travel_mm == pytest.approx(120 * 0.00353 * 4.0)
    assert fitted(moving=0).works[0].freedoms == ()


def test_along_the_grain_nothing_moves() -> None:
    """A front's end against a divider keeps the least gap all year."""
    base = {"kind": "stick", "species": "sugar maple", "width_toward": "top"}
    front = {**base, "from": [0, 0, 100], "to": [400, 0, 100], "section": [200, 20]}
    post = {**base, "width_toward": "back", "from": [411, 0, 0], "to": [411, 0, 300], "section": [40, 22]}
    joint = {"kind": "opening_fit", "between": [["a.right", "b"]]}
    made = made_of({"a": front, "b": post}, {"j": joint}, moisture=YEAR)
    assert made.works[0].freedoms == ()
    assert made.removed_mm3("a") == pytest.approx(1.0 * 200 * 20)


@pytest.mark.parametrize(("gap", "codes"), [(3.82, ["F49"]), (3.83, [])])
def test_a_gap_too_small_for_the_year(gap: float, codes: list[str]) -> None:
    """F49 at 3.82 where 2.824 and 1 are wanted; not at 3.83."""
    told = found(fitted(gap=gap), "F49", moisture=YEAR)
    assert [f.code for f in told] == codes
    if codes:
        assert told[0].numbers["gap_wanted_mm"] == pytest.approx(3.824)
        assert "3.8 mm wide" in told[0].advice


@pytest.mark.parametrize(
    ("rings", "advice"),
    [
        ("flat", "or use quarter-sawn sugar maple, which moves 47 % as much."),
        ("60 deg", "or use quarter-sawn sugar maple, which moves 78 % as much."),
        ("80 deg", "mm wide."),
        ("quarter", "mm wide."),
    ],
)
def test_quarter_sawn_wood_is_advised_where_it_would_help(rings: str, advice: str) -> None:
    """0.00165 over 0.00353; over 0.00353 / 4 + 0.00165 x 3 / 4 = 0.00212 at 60 deg; nothing if it is so."""
    told = found(fitted(gap=1.5, rings=rings), "F49", moisture=YEAR)
    assert told[0].advice.endswith(advice)


@pytest.mark.parametrize(("widest", "codes"), [(4.52, ["F71"]), (4.54, [])])
def test_a_gap_that_gapes_when_dry(widest: float, codes: list[str]) -> None:
    """3.824 built and 0.706 more in the driest season: 4.53 mm."""
    told = found(fitted(widest=widest), "F71", moisture=YEAR)
    assert [f.code for f in told] == codes
    if codes:
        assert told[0].numbers["open_mm"] == pytest.approx(3.824 + 200 * 0.00353)


@pytest.mark.parametrize(("width", "codes"), [(376, ["F49"]), (375, [])])
def test_a_wide_drawer_jams(width: float, codes: list[str]) -> None:
    """Guided over 150 mm, dry wood at 0.4: 375 mm wide runs, 376 jams."""
    told = found(fitted(guided=150, drawer_width=width), "F49", moisture=YEAR)
    assert [f.code for f in told] == codes
    if codes:
        assert told[0].numbers["guided_wanted_mm"] == pytest.approx(150.4)


def test_wax_is_advised_where_it_is_enough() -> None:
    """720 mm at 0.25 want 180 mm of guide: advised and enough at 190, neither at 170."""
    [told] = found(fitted(guided=190, drawer_width=720), "F49", moisture=YEAR)
    assert told.advice.startswith("Wax its runners")
    assert "it then wants 180 mm" in told.advice
    assert "98 mm sooner" in told.advice
    assert found(fitted(guided=190, drawer_width=720, waxed=True), "F49", moisture=YEAR) == []
    [short] = found(fitted(guided=170, drawer_width=720), "F49", moisture=YEAR)
    assert short.advice.startswith("Stop it 118 mm sooner")
    assert found(fitted(guided=170, drawer_width=720, waxed=True), "F49", moisture=YEAR)


@pytest.mark.parametrize(("long", "words"), [(300.0, "Stop it 210 mm sooner"), (239.0, "It is 259 mm deep")])
def test_a_stop_is_advised_only_where_the_drawer_is_as_deep(long: float, words: str) -> None:
    """720 mm wide wants 288 mm of guide when dry: no stop keeps so much of a drawer 259 mm deep in."""
    base = {"kind": "stick", "species": "sugar maple", "width_toward": "top"}
    front: Options = {**base, "from": [0, 0, 100], "to": [720, 0, 100], "section": [200, 20]}
    rail: Options = {**base, "from": [-50, 0, 222], "to": [770, 0, 222], "section": [40, 20]}
    side: Options = {**base, "from": [6, 10, 100], "to": [6, 10 + long, 100], "section": [200, 12]}
    joints: dict[str, Options] = {
        "j": {"kind": "opening_fit", "between": [["a.top", "b"]], "guided": 78, "drawer_width": 720},
        "corner": {"kind": "dovetail", "between": [["side.start", "a"]], "lap": 5},
    }
    [told] = found(
        made_of({"a": front, "b": rail, "side": side}, joints, moisture=YEAR), "F49", moisture=YEAR
    )
    assert words in told.advice
    assert ("sooner" in told.advice) is (long == 300.0)


@pytest.mark.parametrize(
    ("more", "code", "words"),
    [
        ({"face": "a"}, "no_gap_between", "a and b"),
        ({"drawn": -5.0}, "no_gap_between", "which pass through each other"),
        ({"drawn": 80.0}, "no_gap_between", "a.top and b"),
        ({"gap": 25}, "planed_away", "25.0 mm to be planed off a"),
    ],
)
def test_what_is_no_fit_is_refused(more: dict[str, Any], code: str, words: str) -> None:
    """A face left out, parts in each other or far apart, half the part planed away."""
    with pytest.raises(FileFaults) as caught:
        fitted(**more)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == (code, True)
