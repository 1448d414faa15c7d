"""Battens dovetailed across a panel: stopped ends, glue in the middle, and what cannot be made."""

from __future__ import annotations

from typing import Any

import pytest

from tests.joinery.bench import Made, made_of
from tests.joinery.samples import SAMPLES
from tests.joinery.test_impossible import faults_of, sample_text


def made(short_mm: float = 0.0, **options: Any) -> Made:
    """The sample's batten, its far end so much inside the panel."""
    sample = SAMPLES["sliding_batten"]
    batten = {**sample.parts["a"], "from": [300, -150 + short_mm, 27]}
    given = {**sample.asked("back"), **options}
    joint = {"kind": "sliding_batten", "between": [["a", "b"]], **given}
    return made_of({**sample.parts, "a": batten}, {"j": joint})


def test_a_stopped_channel_has_room_for_the_panel_to_shrink_past_the_batten() -> None:
    """130 mm from the middle, white oak, 1.5 points: 0.71 mm, and 1 mm; the channel is that much longer."""
    [work] = made(20.0).works
    [freedom] = work.freedoms
    shrink = 130.0 * 0.00365 * 1.5
    assert freedom.shrink_travel_mm == pytest.approx(shrink)
    assert freedom.shrink_room_mm == pytest.approx(shrink + 1.0)
    assert not freedom.binds
    wanted = (280.0 + shrink + 1.0) * 8.0 * (40.1 - 8.0 / 6.0)
    assert made(20.0).removed_mm3("b") == pytest.approx(wanted, rel=1e-6)


def test_a_channel_right_through_stops_nothing() -> None:
    """Nothing to judge; the batten slides in from the edge named."""
    [work] = made().works
    assert work.freedoms == ()
    assert work.leaves == pytest.approx((0.0, 1.0, 0.0))


@pytest.mark.parametrize(("glued", "area"), [(50, 50.0 * (40.0 + 16.0)), (0, 0.0)])
def test_only_the_middle_is_glued(glued: float, area: float) -> None:
    """50 mm of bottom and both sides; or dry."""
    [work] = made(glued=glued).works
    assert sum(face.area_mm2 for face in work.glue) == pytest.approx(area)
    assert work.dry is (glued == 0)


def test_the_batten_moves_along_its_channel_and_no_other_way() -> None:
    """Lifted 2 mm off the face it meets the channel's sides."""
    piece = made()
    assert piece.in_the_way("a", "b", moved=(0.0, 30.0, 0.0)) == ()
    assert piece.in_the_way("a", "b", moved=(0.0, 0.0, 2.0)) != ()


@pytest.mark.parametrize("edge", ["left", "top"])
def test_an_edge_the_batten_does_not_run_to_is_refused(edge: str) -> None:
    """The fault names it."""
    [fault] = faults_of(sample_text("sliding_batten", enters_at=edge))
    assert (fault.code, fault.value) == ("batten_not_across", f"{edge} is no edge that a runs to")


@pytest.mark.parametrize(
    ("batten", "code", "value"),
    [
        ({"section": [5, 30]}, "neck_too_thin", "2.3 mm left of 5.0 mm at the face"),
        ({"from": [300, -150, 10], "to": [300, 150, 10]}, "batten_not_across", "a comes to both faces of b"),
        ({"from": [150, 0, 27], "to": [450, 0, 27], "width_toward": "back"}, "batten_not_across", ""),
    ],
)
def test_a_batten_that_does_not_fit_is_refused(batten: dict[str, Any], code: str, value: str) -> None:
    """Half of it must be left at the face; it stands in one face, across the grain."""
    part = {**SAMPLES["sliding_batten"].parts["a"], **batten}
    [fault] = faults_of(sample_text("sliding_batten", {"a": part}))
    assert fault.code == code
    assert fault.value == (value or "a does not lie flat across b")


def test_a_batten_half_left_at_the_face_is_made() -> None:
    """5.4 mm wide, 2.67 mm flared away: half of it and a hair is left."""
    part = {**SAMPLES["sliding_batten"].parts["a"], "section": [5.4, 30]}
    assert made_of(
        {**SAMPLES["sliding_batten"].parts, "a": part},
        {"j": {"kind": "sliding_batten", "between": [["a", "b"]], "enters_at": "back"}},
    ).works
