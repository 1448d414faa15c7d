"""A room's file changed as a form changes it."""

from __future__ import annotations

import pytest

from scantling.errors import FileFaults, InputError
from scantling.seasons.air import Month
from scantling.seasons.room_file import typical_rooms
from scantling.seasons.room_text import (
    AirKind,
    air_kind,
    begin_room,
    parse_room,
    room_sections,
    with_air,
    with_figures,
)

STUDY = """\
# The client's, with the stove.
room: Study
air:
  kind: range
  winter: {temperature: 68 F, humidity: 25 %} # measured in January
  summer: {temperature: 24 C, humidity: 55 %}
"""
KINDS = [kind for kind in AirKind if kind is not AirKind.LOG]


def test_a_figure_changed_leaves_the_rest_as_it_was_written() -> None:
    """Comments too; put back, what has a default takes it again."""
    made = with_figures(STUDY, {("air", "winter", "humidity"): "20 %", ("air", "winter_month"): "feb"})
    assert "winter: {temperature: 68 F, humidity: 20 %} # measured in January" in made
    assert parse_room(made).driest is Month.FEB
    assert parse_room(with_figures(made, {("air", "winter_month"): ""})).driest is Month.JAN


@pytest.mark.parametrize("name", typical_rooms())
@pytest.mark.parametrize("kind", [AirKind.MONTHS, AirKind.RANGE, AirKind.MOISTURE])
def test_known_another_way_it_is_the_same_room(name: str, kind: AirKind) -> None:
    """Within the rounding to a degree and a percent its driest and wettest wood stay where they were."""
    text = begin_room(name)
    was, now = parse_room(text), parse_room(with_air(text, kind))
    assert air_kind(with_air(text, kind)) is kind
    assert now.name == was.name
    assert min(now.year.emc_pct) == pytest.approx(min(was.year.emc_pct), abs=0.15)
    assert max(now.year.emc_pct) == pytest.approx(max(was.year.emc_pct), abs=0.15)


def test_a_town_begins_with_a_house_whose_heating_and_damp_can_be_changed() -> None:
    """More water given off makes wood wetter; less heating too."""
    text = begin_room("denver")
    plain = parse_room(text)
    assert plain.name == "House in Denver, CO"
    damp = parse_room(with_figures(text, {("air", "house", "moisture"): "16"}))
    cool = parse_room(with_figures(text, {("air", "house", "heating"): "62 F"}))
    assert min(damp.year.emc_pct) > min(plain.year.emc_pct) + 0.5
    assert min(cool.year.emc_pct) > min(plain.year.emc_pct) + 0.2
    assert air_kind(with_air(STUDY, AirKind.CLIMATE, place="Denver, CO")) is AirKind.CLIMATE
    with pytest.raises(InputError, match="must be one of the places"):
        with_air(STUDY, AirKind.CLIMATE, place="Nowhere")


@pytest.mark.parametrize("kind", KINDS)
def test_every_figure_a_kind_needs_is_on_its_form(kind: AirKind) -> None:
    """What must be given is written; each is told once, with what it is."""
    text = with_air(STUDY, kind, place="Boston, MA")
    settings = [one for section in room_sections(text) for one in section.settings]
    assert len({one.path for one in settings}) == len(settings)
    assert [one.label for one in settings if one.needed and one.written is None] == []
    months = [s.label for s in room_sections(text) if s.label in {m.full_name for m in Month}]
    assert len(months) == (12 if kind is AirKind.MONTHS else 0)


def test_what_is_wrong_is_told_at_its_field() -> None:
    """Both at once, with their lines; a log cannot be kept as a text."""
    made = with_figures(
        STUDY, {("air", "winter", "humidity"): "0.25", ("air", "summer", "temperature"): "warm"}
    )
    with pytest.raises(FileFaults) as refused:
        parse_room(made)
    assert [(fault.field, fault.line) for fault in refused.value.faults] == [
        ("air.winter.humidity", 5),
        ("air.summer.temperature", 6),
    ]
    with pytest.raises(FileFaults, match="file of its own"):
        parse_room("room: x\nair: {kind: log, file: log.csv}")
    with pytest.raises(InputError, match="must be a figure of this room"):
        with_figures(STUDY, {("air", "dry"): "6 %"})
