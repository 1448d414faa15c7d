"""The pages that explain the seasons say what the program computes."""

from __future__ import annotations

import re

import numpy as np
import pytest

from scantling.seasons.air import Month
from scantling.seasons.room_file import find_room, typical_rooms
from scantling.seasons.year import Built, WoodPart, part_years
from scantling.wood.coefficients import coefficient_at
from scantling.wood.cup import cup_from_rings_mm, cup_from_tilt_mm
from scantling.wood.diffusivity import transverse_diffusivity_siau_mm2_s
from scantling.wood.moisture import emc_pct
from scantling.wood.moisture_exclusion import BARE, find_exclusion
from scantling.wood.species import find_species
from season_pictures import DRAWN, PICTURES
from tests.repo.sources import ROOT

PAGE, DETAIL = (
    (ROOT / "docs" / name).read_text(encoding="utf-8") for name in ("seasons.md", "seasons-in-detail.md")
)
VARNISH = find_exclusion("film varnish", coats=3)
OIL = find_exclusion("tung oil", coats=3)
SHELLAC = find_exclusion("shellac", coats=2)
ROWS = [
    ("3 mm, bare", 3.0, BARE, BARE),
    ("22 mm, bare", 22.0, BARE, BARE),
    ("22 mm, tung oil, 3 coats", 22.0, OIL, OIL),
    ("22 mm, shellac, 2 coats", 22.0, SHELLAC, SHELLAC),
    ("22 mm, film varnish, 3 coats", 22.0, VARNISH, VARNISH),
    ("22 mm, film varnish above, bare below", 22.0, VARNISH, BARE),
    ("45 mm, tung oil, 3 coats", 45.0, OIL, OIL),
]


@pytest.mark.parametrize(("name", "thickness", "front", "back"), ROWS)
def test_the_table_of_finishes_is_computed(name: str, thickness: float, front: object, back: object) -> None:
    """Each row of the table, as the program gives it today."""
    part = WoodPart(
        name=name,
        species=find_species("cherry"),
        width_mm=600.0,
        thickness_mm=thickness,
        front=front,  # type: ignore[arg-type]
        back=back,  # type: ignore[arg-type]
    )
    [year] = part_years([part], find_room("dry-winter-house"), built=Built(mc_pct=7.7, month=Month.OCT))
    row = (
        f"| {name} | {year.moisture.dry_pct:.1f} to {year.moisture.wet_pct:.1f} "
        f"| {year.widest.change_mm - year.narrowest.change_mm:.1f} "
        f"| {year.lag_days:.0f} days | {abs(year.largest_cup_mm):.1f} |"
    )
    assert row in PAGE


def test_the_ladder_of_moisture_is_computed() -> None:
    """The twelve figures under the twelve humidities."""
    ladder = " | ".join(f"{emc_pct(20.0, percent / 100.0):.2f}" for percent in range(20, 80, 5))
    assert f"| moisture, % | {ladder} |" in PAGE


@pytest.mark.parametrize(
    ("words", "value"),
    [
        ("400 × 0.00248 × 1.5 = **1.49 mm**", 400 * 0.00248 * 1.5),
        ("400 × 0.00248 × 3 = **2.98 mm**", 400 * 0.00248 * 3),
        ("6 + 1.87 + 3.75 + 2 × 0.5 play = **12.6 mm**", 6 + 1.25 * 400 * 4.5 / (3000 / 7.1 - 30 + 7.5) + 1),
        ("(3.75 − 1.87) / 2 = **0.94 mm**", 1.25 * 400 * 0.75 / (3000 / 7.1 - 30 + 7.5)),
        ("900 × 0.00248 × 4.5 = **10.0 mm**", 900 * 0.00248 * 4.5),
        ("8.20 × 1.07 / 1.11 = **7.905 kg**", 8.20 * 1.07 / 1.11),
    ],
)
def test_the_sums_by_hand_are_right(words: str, value: float) -> None:
    """Each printed sum stands on the page and comes to what it says, to its last digit."""
    assert words in re.sub(r"\s+", " ", PAGE)
    said = re.search(r"\*\*([\d.]+)", words)
    assert said is not None
    digits = len(said[1].partition(".")[2])
    assert float(said[1]) == pytest.approx(value, abs=0.51 * 10.0**-digits)


@pytest.mark.parametrize("name", list(typical_rooms()))
def test_every_typical_room_is_named(name: str) -> None:
    """A room that comes with the program is told."""
    assert f"`{name}`" in DETAIL


@pytest.mark.parametrize("kind", ["range", "months", "moisture", "log", "climate"])
def test_every_kind_of_air_is_explained_and_has_an_example(kind: str) -> None:
    """In detail, and in a file of the examples, or among the typical rooms."""
    assert f"| `{kind}` |" in DETAIL
    texts = [path.read_text(encoding="utf-8") for path in (ROOT / "examples" / "rooms").glob("*.yaml")]
    assert any(f"kind: {kind}\n" in text for text in (*texts, *typical_rooms().values()))


@pytest.mark.parametrize("name", DRAWN)
def test_each_picture_is_of_today(name: str) -> None:
    """It is on the page; drawn again it says the same words in the same order, figures included."""
    kept, drawn = (PICTURES / f"{name}.svg").read_text(encoding="utf-8"), DRAWN[name]()
    words = re.compile(r"<text[^>]*>([^<]*)<")
    assert f"(pictures/{name}.svg)" in PAGE
    assert len(words.findall(kept)) > 4
    assert words.findall(kept) == words.findall(drawn)


def test_the_page_is_two_pages_long() -> None:
    """About 450 words to a page with pictures; tables count for half of their words."""
    lines = PAGE.splitlines()
    words = sum(len(line.split()) * (0.5 if line.startswith("|") else 1.0) for line in lines)
    assert words <= 1100
    assert PAGE.count("![") == len(DRAWN)


def test_the_figures_of_cup_are_computed() -> None:
    """Red oak of 250 by 20 mm, 100 mm from the pith: four points drier, and one point from face to face."""
    oak = find_species("red oak")
    across, radial = coefficient_at(oak, 0.0), coefficient_at(oak, 90.0)
    rings = cup_from_rings_mm(
        250.0, pith_distance_mm=100.0, tangential_strain=-4 * across, radial_strain=-4 * radial
    )
    tilt = cup_from_tilt_mm(250.0, thickness_mm=20.0, coefficient=across, tilt_pct=1.0)
    page = re.sub(r"\s+", " ", PAGE)
    assert f"bark side by **{rings:.2f} mm**" in page
    assert f"bends it by **{tilt:.2f} mm**" in page
    half = cup_from_rings_mm(
        125.0, pith_distance_mm=100.0, tangential_strain=-4 * across, radial_strain=-4 * radial
    )
    assert half / rings == pytest.approx(0.31, abs=0.02)  # strips half as wide cup a third of that


def test_the_rise_of_the_speed_of_moisture_is_the_formulas() -> None:
    """3.6 times from 2.5 to 18 %, as told beside the eight measured in aspen."""
    wet, dry = (
        transverse_diffusivity_siau_mm2_s(np.array([0.38]), mc_pct=np.array([mc]), temperature_c=43.3)[0]
        for mc in (18.0, 2.5)
    )
    assert f"rises {wet / dry:.1f} times" in re.sub(r"\s+", " ", DETAIL)
