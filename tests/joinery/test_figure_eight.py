"""Figure-eight clips: how far they swing, in closed form and by turning them, and what that is good for."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.figure_eight import swing_deg, swing_reach_mm
from scantling.wood.moisture import MoistureRange
from tests.joinery.bench import Made, made_of
from tests.joinery.judging import found
from tests.joinery.samples import Options

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.0, wet_pct=11.0)


def clipped(*, across: bool, top_width: float = 700.0, **options: Any) -> Made:
    """A flat-sawn cherry top on a rail along its grain, 300 mm from the middle, or on one across it."""
    begin, end = ([0, -320, 55], [0, 320, 55]) if across else ([-500, -300, 55], [500, -300, 55])
    face = "right" if across else "back"
    base: Options = {"species": "black cherry", "rings": "flat"}
    rail = {**base, "kind": "stick", "from": begin, "to": end, "section": [90, 22], "width_toward": "top"}
    top = {
        **base,
        "kind": "panel",
        "from": [-600, 0, 112],
        "to": [600, 0, 112],
        "section": [top_width, 24],
        "width_toward": "back",
    }
    joint = {"kind": "figure_eight", "between": [[f"rail.{face}", "top"]], "inset": 20, "count": 3, **options}
    return made_of({"rail": rail, "top": top}, {"j": joint}, moisture=YEAR)


@pytest.mark.parametrize(("ring", "waist", "behind"), [(20, 9, 5), (20, 9, 0), (16, 7, 6), (25, 12, 9)])
def test_the_swing_ends_where_the_waist_meets_the_corner(ring: float, waist: float, behind: float) -> None:
    """Turned by that angle, the side of the waist passes through the corner of the recess."""
    turn = math.radians(swing_deg(ring_mm=ring, waist_mm=waist, from_face_mm=behind))
    assert turn > 0.0
    corner = (behind, math.sqrt((ring / 2.0) ** 2 - behind**2))  # from the pivot: out of the face, along it
    across = -math.sin(turn) * corner[0] + math.cos(turn) * corner[1]
    assert across == pytest.approx(waist / 2.0)


def test_no_swing_where_the_recess_is_shut_or_the_waist_fills_it() -> None:
    """A middle as far in as the radius leaves no opening."""
    assert swing_deg(ring_mm=20.0, waist_mm=9.0, from_face_mm=10.0) == 0.0
    assert swing_deg(ring_mm=20.0, waist_mm=20.0, from_face_mm=0.0) == 0.0


def test_the_reach_of_a_swing_is_what_the_play_of_its_screws_takes_up() -> None:
    """At 4.61 mm aside, 21 mm between the screws have become 21.5: the half millimeter of play."""
    reach = swing_reach_mm(centers_mm=21.0, play_mm=0.5, largest_deg=33.0, square=True)
    assert math.hypot(21.0, reach) - 21.0 == pytest.approx(0.5)


def test_a_narrow_recess_stops_it_first() -> None:
    """Five degrees of 21 mm are 1.83 mm."""
    reach = swing_reach_mm(centers_mm=21.0, play_mm=0.5, largest_deg=5.0, square=True)
    assert reach == pytest.approx(21.0 * math.sin(math.radians(5.0)))


def test_in_line_with_the_movement_there_is_only_the_play() -> None:
    """A clip on a rail along the grain points the way the top goes: it cannot swing."""
    for across, room in ((True, 4.61), (False, 0.5)):
        for freedom in clipped(across=across).works[0].freedoms:
            assert freedom.swell_room_mm == pytest.approx(room, abs=0.005)


def test_across_the_grain_it_serves_and_along_it_the_rule_speaks() -> None:
    """300 mm from the middle 2.23 mm are wanted: 4.61 will do, half a millimeter will not (F08)."""
    assert found(clipped(across=True), "F08", moisture=YEAR) == []
    told = found(clipped(across=False), "F08", moisture=YEAR)
    assert told[0].numbers["swell_travel_mm"] == pytest.approx(300 * 0.00248 * 3.0)
    assert "cannot swing" in told[0].message


@pytest.mark.parametrize(("over_mm", "codes"), [(-1e-4, ["F08"]), (1e-4, [])])
def test_the_play_decides_at_the_limit(over_mm: float, codes: list[str]) -> None:
    """sqrt(21^2 + 2.232^2) - 21 = 0.11828 mm of play is what 2.232 mm of swing takes."""
    made = clipped(across=True, play=0.11828 + over_mm)
    assert math.hypot(21.0, 300 * 0.00248 * 3.0) - 21.0 == pytest.approx(0.11828, abs=1e-5)
    assert [f.code for f in found(made, "F08", moisture=YEAR)][:1] == codes


def test_two_screws_a_clip() -> None:
    """Three clips, six screws, one recess each."""
    clip, screw = clipped(across=True).works[0].connectors
    assert (clip.count, screw.count) == (3, 6)
    assert clip.size_mm == pytest.approx((3.0, 20.0, 41.0))


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ({"from_face": 10}, "20.0 mm of 20.0 mm"),
        ({"ring": 36, "centers": 38}, "23.0 mm of 22.0 mm"),
        ({"waist": 20}, "20.0 mm of 20.0 mm"),
        ({"screw": [4.5, 28]}, "25.0 mm of 24.0 mm"),
        ({"screw": [4.5, 3]}, "3.0 mm of 3.0 mm"),
    ],
)
def test_a_clip_that_does_not_fit_is_refused(options: dict[str, Any], words: str) -> None:
    """Each with its figures."""
    with pytest.raises(FileFaults) as caught:
        clipped(across=True, **options)
    fault = caught.value.faults[0]
    assert (fault.code, words in fault.value) == ("clip_does_not_fit", True), fault.value
