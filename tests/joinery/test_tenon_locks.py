"""Through tenons, wedges in their ends, and pins that draw a joint shut."""

from __future__ import annotations

import math
from typing import Any

import pytest

from scantling.errors import FileFaults
from scantling.joinery.tenon_locks import FLARE_MM, KERF_MM
from scantling.joinery.work import ConnectorKind, MarkKind
from tests.joinery.bench import YEAR, Made, made_of
from tests.joinery.judging import found_codes
from tests.joinery.samples import POST, RAIL, Options


def rail(copy: Options | None = None, **options: Any) -> Made:
    """A rail of 90 x 24 on a post of 48, an 8 mm tenon of 78; or the joint between copies of both."""
    tail = "_copy" if copy else ""
    parts = {"a": RAIL, "b": POST}
    if copy:
        parts = {name: {**block, "copies": {f"{name}_copy": copy}} for name, block in parts.items()}
    joint = {"kind": "mortise_tenon", "between": [[f"a{tail}.end", f"b{tail}"]], **options}
    return made_of(parts, {"j": joint})


def codes(**options: Any) -> list[str]:
    """Codes of the faults of a joint that cannot be made."""
    with pytest.raises(FileFaults) as caught:
        rail(**options)
    return [fault.code for fault in caught.value.faults]


def test_without_a_length_the_tenon_goes_through() -> None:
    """48 long and 3 proud; the mortise takes 48 x 78 x 8 out of the post and nothing more."""
    made = rail(proud=3)
    assert made.removed_mm3("b") == pytest.approx(48 * 78 * 8, rel=1e-6)
    assert made.removed_mm3("a") == pytest.approx(51 * (90 * 24 - 78 * 8), rel=1e-6)
    assert made.in_the_way("a", "b") == ()
    mortise = next(mark for mark in made.works[0].marks if mark.kind is MarkKind.MORTISE)
    assert mortise.depth_mm == pytest.approx(48)


def test_wedges_have_kerfs_and_the_mortise_is_flared_for_them() -> None:
    """Two kerfs of 1.5 x 8, seven tenths deep; both ends of the mortise slant out by 2 mm over 48."""
    plain, wedged = rail(), rail(wedges=2)
    kerfs = 2 * KERF_MM * 8 * 0.7 * 48
    flares = 2 * FLARE_MM * 48 / 2 * 8
    assert wedged.removed_mm3("a") - plain.removed_mm3("a") == pytest.approx(kerfs, rel=1e-6)
    assert wedged.removed_mm3("b") - plain.removed_mm3("b") == pytest.approx(flares, rel=1e-6)
    wedges = wedged.works[0].connectors[0]
    assert (wedges.kind, wedges.count, wedges.size_mm[1]) == (ConnectorKind.WEDGE, 2, 8.0)


def test_wedges_in_a_blind_tenon_are_refused() -> None:
    """They could only be driven by the bottom of the mortise."""
    assert codes(length=30, wedges=2) == ["wedge_blind"]


def test_pins_go_through_the_cheeks_and_stop_in_the_wood_behind() -> None:
    """Two of 6 mm: 20 to the tenon, 8 through it, 0.6 of the 20 behind: 40 deep; 12 mm from the mouth."""
    plain, pinned = rail(length=30), rail(length=30, pin=6, pins=2)
    hole = math.pi / 4 * 36
    pins = pinned.works[0].connectors[0]
    assert pins.size_mm == pytest.approx((6.0, 40.0))
    assert pinned.removed_mm3("a") - plain.removed_mm3("a") == pytest.approx(2 * hole * 8, rel=1e-6)
    assert pinned.removed_mm3("b") - plain.removed_mm3("b") == pytest.approx(2 * hole * (40 - 8), rel=1e-6)
    holes = [mark for mark in pinned.works[0].marks if mark.kind is MarkKind.HOLE]
    assert {round(mark.from_face_mm, 6) for mark in holes} == {12.0}


def test_a_drawn_pin_is_bored_nearer_to_the_shoulder_in_the_tenon() -> None:
    """1.5 mm: the holes of rail and post are that far apart along the rail."""
    work = rail(length=40, pin=8, draw=1.5).works[0]
    made = rail(length=40, pin=8, draw=1.5)
    at = {
        cut.part: made.piece.parts[cut.part].frame.point(cut.tool.frame.origin)[0]  # type: ignore[union-attr]
        for cut in work.cuts
        if cut.what == "pin hole"
    }
    assert at["b"] - at["a"] == pytest.approx(1.5)
    assert at["b"] == pytest.approx(400 + 16)
    assert any("1.5 mm nearer the shoulder" in step for step in work.steps)


def test_a_pin_that_leaves_no_wood_is_refused() -> None:
    """At the shoulder, at the end, drawn by its half, or too many in the width."""
    assert codes(length=40, pin=8, pin_from_shoulder=4) == ["pin_off_tenon"]
    assert codes(length=40, pin=8, pin_from_shoulder=37) == ["pin_off_tenon"]
    assert codes(length=40, pin=5, draw=2.5) == ["pin_off_tenon"]
    assert codes(length=40, pin=12, pins=4) == ["pin_off_tenon"]


def test_a_pin_too_near_the_end_of_the_tenon_is_found() -> None:
    """F19: 10 mm behind an 8 mm pin, where 1.5 to 2 diameters and more are wanted."""
    assert "F19" in found_codes(rail(length=26, pin=8, pin_from_shoulder=16), moisture=YEAR)
    assert "F19" not in found_codes(rail(length=45, pin=6, pin_from_shoulder=15), moisture=YEAR)


@pytest.mark.parametrize("mirror", [["left-right"], ["front-back"]])
def test_mirrored_joints_are_locked_alike(mirror: list[str]) -> None:
    """The twin loses the same wood."""
    options = {"wedges": 2, "pin": 6, "draw": 1}
    one, twin = rail(**options), rail({"mirror": mirror, "turn": 20}, **options)
    for name in ("a", "b"):
        assert twin.removed_mm3(f"{name}_copy") == pytest.approx(one.removed_mm3(name), rel=1e-6)
