"""The cases worked by hand on the page about seasons are what the joints compute."""

from __future__ import annotations

from functools import cache

import pytest

from scantling.joinery.mid_travel import mid_travel_mc_pct
from scantling.joinery.panel_groove import Held
from scantling.joinery.work import Freedom
from scantling.wood.moisture import MoistureRange
from tests.joinery.test_movement import breadboard, slots
from tests.joinery.test_opening_fit import fitted
from tests.joinery.test_panel_groove import edges, framed
from tests.repo.sources import ROOT


@cache
def page() -> str:
    """The page, and what it leaves to the one with the details."""
    names = ("seasons.md", "seasons-in-detail.md")
    return "\n".join((ROOT / "docs" / name).read_text(encoding="utf-8") for name in names)


def test_the_breadboard_end() -> None:
    """1.49 mm in, 2.98 out, a slot of 12.6 mm, its middle 0.94 nearer to the fixed pin."""
    [slot, _] = slots(breadboard())
    for words in (
        f"**{slot.shrink_travel_mm:.2f} mm** toward the middle",
        f"**{slot.swell_travel_mm:.2f} mm** away from it",
        f"**{slot.cut_to_mm:.1f} mm** long",
        f"**{slot.bias_mm:.2f} mm**\n  nearer to the fixed pin",
    ):
        assert words in page()


def test_the_panel_pinned_and_loose() -> None:
    """1.41 mm to leave, 0.71 lost, 9.9 deep, 7.29 held; loose only 4.7."""
    pinned, loose = (edges(framed(held=held.value))["back"] for held in (Held.MIDDLE, Held.LOOSE))
    held, least = (f.shrink_room_mm - f.shrink_travel_mm for f in (pinned, loose))
    for words in (
        f"leave **{pinned.swell_travel_mm:.2f} mm** on each side",
        f"each side uncovers **{pinned.shrink_travel_mm:.2f} mm**",
        f"= **{pinned.cut_to_mm:.1f} mm** deep, and {held:.2f} mm still hold",
        f"= **{least:.1f} mm**: one pin is worth {held - least:.1f} mm",
    ):
        assert words in page()


@pytest.mark.parametrize(
    ("species", "rings", "words"),
    [
        (
            "sugar maple",
            "flat",
            "= {swell:.2f} mm, all of it upward. With 1 mm left: build the gap **{gap:.1f} mm**",
        ),
        ("black cherry", "quarter", "= {swell:.2f} mm: **{gap:.1f} mm** will do"),
    ],
)
def test_the_drawer_front(species: str, rings: str, words: str) -> None:
    """3.8 mm for flat maple, 2.0 for quarter cherry."""
    [freedom] = fitted(species, rings=rings).works[0].freedoms
    assert words.format(swell=freedom.swell_travel_mm, gap=freedom.cut_to_mm) in page()


def test_the_joint_that_leans() -> None:
    """3 mm to shrink and 1 to grow: in its middle at 6.5 %."""
    year = MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)
    leaning = Freedom(
        part="top",
        what="pin slot 1",
        at=(0.0, 0.0, 0.0),
        from_fixed_mm=400.0,
        shrink_travel_mm=400 * 0.00248 * 1.5,
        swell_travel_mm=400 * 0.00248 * 3.0,
        shrink_room_mm=3.0,
        swell_room_mm=1.0,
    )
    assert f"**{mid_travel_mc_pct(leaning, year):.1f} %**" in page()
