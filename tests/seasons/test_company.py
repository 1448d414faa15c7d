"""Parts followed together: a part's figures do not turn on its company."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.seasons import year
from scantling.seasons.air import Air, Month, year_between
from scantling.seasons.room import Room
from scantling.seasons.year import Built, PartYear, WoodPart, part_years
from scantling.wood.moisture_exclusion import BARE, find_exclusion
from scantling.wood.species import find_species

__all__: list[str] = []

ROOM = Room(
    name="House",
    year=year_between(
        Air(temperature_c=19.0, relative_humidity=0.30), Air(temperature_c=23.0, relative_humidity=0.65)
    ),
)
FINISHES = st.sampled_from([BARE, find_exclusion("film varnish", coats=3)])
SPECIES = st.sampled_from([find_species(name) for name in ("cherry", "white oak", "eastern white pine")])
AS_IF_ALONE = 1e-12
"""Sums in another order, over a thousand steps. [1]"""
PARTS = st.builds(
    WoodPart,
    name=st.just("part"),
    species=SPECIES,
    width_mm=st.floats(20.0, 900.0),
    thickness_mm=st.floats(3.0, 80.0),
    ring_angle_deg=st.floats(0.0, 90.0),
    front=FINISHES,
    back=FINISHES,
)


def followed(parts: Sequence[WoodPart], built: Built) -> tuple[PartYear, ...]:
    """Years of parts none of which was followed before."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(year, "_FOLLOWED", year._Followed())
        return part_years(parts, ROOM, built=built)


def figures(value: object) -> Iterator[float]:
    """Every figure found for a part, in its order."""
    if isinstance(value, float):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from figures(each)
    elif is_dataclass(value) and not isinstance(value, WoodPart):
        for each in fields(value):
            yield from figures(getattr(value, each.name))


@given(
    parts=st.lists(PARTS, min_size=2, max_size=6),
    mc_pct=st.floats(5.0, 15.0),
    month=st.sampled_from(list(Month)),
)
@settings(max_examples=25)
def test_a_part_has_the_year_it_has_alone(parts: list[WoodPart], mc_pct: float, month: Month) -> None:
    """Whatever is followed with it, thick or thin, varnished or bare, of another wood, before it or after."""
    built = Built(mc_pct=mc_pct, month=month)
    for part, beside in zip(parts, followed(parts, built), strict=True):
        [alone] = followed([part], built)
        found = list(figures(alone))
        assert len(found) > 200
        assert list(figures(beside)) == pytest.approx(found, rel=AS_IF_ALONE, abs=AS_IF_ALONE)


def test_what_was_followed_before_is_as_if_it_were_now() -> None:
    """Two of three at hand from other company: the third, and those two, are as alone."""
    built = Built(mc_pct=8.0)
    cherry = find_species("cherry")
    thin, thick, thicker = (
        WoodPart(name="part", species=cherry, width_mm=300.0, thickness_mm=mm) for mm in (8.0, 22.0, 60.0)
    )
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(year, "_FOLLOWED", year._Followed())
        part_years([thicker, thin], ROOM, built=built)
        together = part_years([thin, thick, thicker], ROOM, built=built)
    for part, beside in zip((thin, thick, thicker), together, strict=True):
        [alone] = followed([part], built)
        assert list(figures(beside)) == pytest.approx(list(figures(alone)), rel=AS_IF_ALONE, abs=AS_IF_ALONE)
