"""Places: a town is found by its name, and a house there lives in believable air."""

from __future__ import annotations

import pytest

from scantling.errors import FileFaults, InputError
from scantling.reading import parse_document
from scantling.seasons.places import Place, find_place, places
from scantling.seasons.room import Room
from scantling.seasons.room_file import find_room, room_from_document


def _read(text: str) -> Room:
    return room_from_document(parse_document(text, file="room.yaml"))


@pytest.mark.parametrize("place", places(), ids=lambda place: place.name)
def test_a_heated_house_is_drier_than_its_winter_and_never_absurd(place: Place) -> None:
    """In its coldest month the house holds wood drier than outdoors; no month leaves 3 to 15 %."""
    room = find_room(place.name)
    coldest = place.outdoors.temperature_c.index(min(place.outdoors.temperature_c))
    assert room.year.emc_pct[coldest] < place.outdoors.emc_pct[coldest] + 0.3
    assert 3.0 < min(room.year.emc_pct) < max(room.year.emc_pct) < 15.0
    assert "estimate" in room.about


@pytest.mark.parametrize(
    ("region", "towns", "low", "high"),
    [
        ("most areas", ["Chicago, IL", "Denver, CO", "New York, NY", "St. Louis, MO"], 6.0, 10.0),
        ("dry southwest", ["Phoenix, AZ", "Las Vegas, NV", "Albuquerque, NM", "El Paso, TX"], 4.0, 9.0),
        ("damp coast", ["Mobile, AL", "New Orleans, LA", "Charleston, SC", "Miami, FL"], 8.0, 13.0),
    ],
)
def test_yearly_means_lie_in_the_recommended_ranges(
    region: str, towns: list[str], low: float, high: float
) -> None:
    """The mean of the year indoors lies where the Wood Handbook, Table 13-2 (from memory), has interiors."""
    for town in towns:
        mean = sum(find_room(town).year.emc_pct) / 12.0
        assert low <= mean <= high, (region, town, mean)


@pytest.mark.parametrize(
    ("written", "name"),
    [("denver", "Denver, CO"), ("Portland OR", "Portland, OR"), ("st louis", "St. Louis, MO")],
)
def test_a_town_is_found_by_its_name(written: str, name: str) -> None:
    """With or without its state, in any case."""
    assert find_place(written).name == name


@pytest.mark.parametrize(
    ("written", "near"),
    [("Portland", "Portland, ME; Portland, OR"), ("Dever", "Denver, CO"), ("Xyz", "by month")],
)
def test_a_town_not_found_names_the_way_out(written: str, near: str) -> None:
    """Two towns of one name, a misspelt one, and one far away."""
    with pytest.raises(InputError, match=near) as caught:
        find_place(written)
    assert (caught.value.code, caught.value.value) == ("unknown_place", written)


def test_a_room_file_may_name_a_place() -> None:
    """The house is the maker's, the weather the place's."""
    room = _read("room: Den\nair: {kind: climate, place: 'Denver, CO', house: {humidify_to: 40 %}}\n")
    assert min(room.year.relative_humidity) == pytest.approx(0.40)


@pytest.mark.parametrize(
    ("air", "code"),
    [("{kind: climate}", "one_of_two"), ("{kind: climate, place: 'Dever'}", "unknown_place")],
)
def test_a_climate_of_nowhere_is_told(air: str, code: str) -> None:
    """Neither place nor months, and a town misspelt."""
    with pytest.raises(FileFaults) as caught:
        _read(f"room: Den\nair: {air}\n")
    assert [(fault.line, fault.code) for fault in caught.value.faults] == [(2, code)]
