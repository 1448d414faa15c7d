"""Small direct questions: a wood, a moisture, a movement."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager

from scantling.errors import FileFaults, InputError, Telling
from scantling.units import Dimension, LengthStyle, parse_length_mm, parse_quantity, show_length, show_number

__all__ = ["emc", "move", "room", "rooms", "wood", "woods"]

_WOOD_ROWS = (
    ("Movement, flat-sawn width", "ct_per_pct", "of the width per 1 % moisture", 5),
    ("Movement, quarter-sawn width", "cr_per_pct", "of the width per 1 % moisture", 5),
    ("Shrinkage green to dry, tangential", "tangential_pct", "%", 1),
    ("Shrinkage green to dry, radial", "radial_pct", "%", 1),
    ("Specific gravity at 12 %", "specific_gravity_12", "", 2),
    ("Specific gravity, green volume", "specific_gravity_green", "", 2),
    ("Stiffness", "moe_mpa", "MPa", 0),
    ("Bending strength", "mor_mpa", "MPa", 0),
    ("Side hardness", "side_hardness_n", "N", 0),
)


@contextmanager
def _as_written(written: Mapping[str, tuple[str, str]]) -> Iterator[None]:
    """Tell what is wrong with an option by its own name and as it was written.

    Parameters
    ----------
    written
        By the name the computation has for it: the option's name, and its text.
    """
    try:
        yield
    except InputError as error:
        if error.field not in written:
            raise
        name, text = written[error.field]
        fault = error.fault
        raise InputError(
            code=fault.code, field=name, value=text, rule=fault.rule, remedy=fault.remedy
        ) from error


def woods(options: argparse.Namespace) -> int:
    """Print the names of the published woods."""
    from scantling.wood.species import all_species

    listed = sorted(all_species(), key=lambda wood: wood.name)
    if options.json:
        print(json.dumps([{"name": w.name, "botanical": w.botanical} for w in listed], indent=1))
        return 0
    for each in listed:
        print(f"{each.name:32} {each.botanical}")
    return 0


def rooms(options: argparse.Namespace) -> int:
    """Print the typical rooms, one a line."""
    from scantling.seasons.room_file import find_room, typical_rooms

    listed = {name: find_room(name) for name in typical_rooms()}
    if options.json:
        print(
            json.dumps([{"name": n, "title": r.name, "about": r.about} for n, r in listed.items()], indent=1)
        )
        return 0
    for name, each in listed.items():
        dry, wet = min(each.year.emc_pct), max(each.year.emc_pct)
        print(f"{name:26} {each.name}: wood between {dry:.1f} and {wet:.1f} %")
    return 0


def room(options: argparse.Namespace) -> int:
    """Print one room's year, month by month."""
    from scantling.seasons.air import Month
    from scantling.seasons.room_file import find_room

    found = find_room(options.room)
    year = list(zip(Month, found.year.months, found.year.emc_pct, strict=True))
    if options.json:
        months = {
            month.value: {
                "temperature_c": air.temperature_c,
                "relative_humidity": air.relative_humidity,
                "emc_pct": content,
            }
            for month, air, content in year
        }
        print(json.dumps({"title": found.name, "about": found.about, "months": months}, indent=1))
        return 0
    print(found.name)
    print(f"  {'month':<8}{'air':>8}{'humidity':>10}{'wood settles at':>18}")
    for month, air, content in year:
        humidity = f"{air.relative_humidity * 100.0:.0f} %"
        print(f"  {month.value:<8}{air.temperature_c:>5.1f} °C{humidity:>10}{content:>16.1f} %")
    for note in (found.about, *found.notes):
        if note:
            print(f"  {note}")
    return 0


def wood(options: argparse.Namespace) -> int:
    """Print what is published of a wood."""
    from dataclasses import asdict

    from scantling.wood.species import find_species

    species = find_species(options.name)
    if options.json:
        print(json.dumps(asdict(species), indent=1, default=str))
        return 0
    print(f"{species.name} ({species.botanical})")
    cited: list[str] = []
    for label, field, unit, digits in _WOOD_ROWS:
        value, source = getattr(species, field), species.source(field)
        if value is None or source is None:
            print(f"  {label:<36}not published")
            continue
        if source.source not in cited:
            cited.append(source.source)
        figure = f"{show_number(value, digits=digits)} {unit}".strip()
        table = f"Table {source.table}, " if source.table else ""
        estimate = ", an estimate" if source.is_estimate else ""
        print(
            f"  {label:<36}{figure:<40}[{cited.index(source.source) + 1}] {table}{source.how.words}{estimate}"
        )
    for number, citation in enumerate(cited, start=1):
        print(f"  [{number}] {citation}")
    return 0


def _temperature(text: str) -> float:
    """A temperature the equation holds for. [degC]"""
    from scantling.wood.moisture import emc_pct

    temperature = parse_quantity(text, Dimension.TEMPERATURE, field="temperature")
    with _as_written({"temperature_c": ("temperature", text)}):
        emc_pct(temperature, 0.5)
    return temperature


def _humidity(text: str) -> float:
    """A relative humidity. [%]"""
    humidity = parse_quantity(text, Dimension.PERCENT, default_unit="%", field="humidity")
    if not 1.0 <= humidity <= 100.0:
        raise InputError(
            code="not_a_humidity",
            field="humidity",
            value=text,
            rule="must lie in 1..100 %",
            remedy="Write 45 % for a relative humidity of 0.45.",
        )
    return humidity


def emc(options: argparse.Namespace) -> int:
    """Print the moisture content wood settles at."""
    from scantling.wood.moisture import emc_pct

    telling = Telling()
    temperature = telling.tried(lambda: _temperature(options.temperature))
    humidity = telling.tried(lambda: _humidity(options.humidity))
    if temperature is None or humidity is None:
        raise FileFaults(telling.faults)
    content = emc_pct(temperature, humidity / 100.0)
    print(f"{content:.1f} % at {show_number(temperature)} °C and {show_number(humidity)} % humidity")
    print(
        "  Hailwood and Horrobin's equation with the coefficients of the Wood Handbook, FPL-GTR-190, eq. 4-5"
    )
    return 0


def _width(text: str) -> float:
    """A width. [mm]"""
    from scantling.wood.movement import check_width

    width = parse_length_mm(text, field="width")
    with _as_written({"width": ("width", text)}):
        check_width("width", width)
    return width


def _moisture(name: str, text: str) -> float:
    """A moisture content at which wood moves. [%]"""
    from scantling.wood.movement import check_moisture

    moisture = parse_quantity(text, Dimension.PERCENT, default_unit="%", field=name)
    with _as_written({name: (name, text)}):
        check_moisture(name, moisture)
    return moisture


def move(options: argparse.Namespace) -> int:
    """Print how far a width moves."""
    from scantling.wood.movement import movement
    from scantling.wood.ring import Ring
    from scantling.wood.species import find_species

    telling = Telling()
    species = telling.tried(lambda: find_species(options.wood))
    width = telling.tried(lambda: _width(options.width))
    start = telling.tried(lambda: _moisture("from", options.start))
    end = telling.tried(lambda: _moisture("to", options.end))
    if species is None or width is None or start is None or end is None:
        raise FileFaults(telling.faults)
    moved = movement(
        width,
        species=species,
        ring_angle_deg=Ring(options.rings).ring_angle_deg,
        mc_from_pct=start,
        mc_to_pct=end,
    )
    inch, mm = LengthStyle(inch=True, denominator=64), LengthStyle(step_mm=0.1)
    word = "wider" if moved.change_mm > 0 else "narrower"
    print(
        f"{species.name}, {options.rings}-sawn, {show_length(width, mm)} ({show_length(width, inch)}): "
        f"{show_length(abs(moved.change_mm), mm)} "
        f"({show_length(abs(moved.change_mm), inch)}) {word}; between {show_length(abs(moved.low_mm), mm)} "
        f"and {show_length(abs(moved.high_mm), mm)} with the spread of the species"
    )
    print(
        f"  by {moved.method.value}; Wood Handbook, FPL-GTR-190, ch. 13"
        + (f"; {moved.note}" if moved.note else "")
    )
    return 0
