"""Small direct questions: a wood, a room."""

from __future__ import annotations

import argparse
import json

from scantling.units import show_number

__all__ = ["room", "rooms", "wood", "woods"]

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


def woods(options: argparse.Namespace) -> int:
    """Print the names of the woods: the maker's own, then the published ones."""
    from scantling.wood.species import all_species, woods_of_own

    listed = [*woods_of_own(), *sorted(all_species(), key=lambda wood: wood.name)]
    if options.json:
        print(json.dumps([{"name": w.name, "botanical": w.botanical} for w in listed], indent=1))
        return 0
    for each in listed:
        print(f"{each.name:32} {each.botanical}")
    return 0


def rooms(options: argparse.Namespace) -> int:
    """Print the typical rooms, or the heated houses of the towns of the table, one a line."""
    from scantling.seasons.places import places
    from scantling.seasons.room_file import find_room, typical_rooms

    names = [place.name for place in places()] if options.towns else typical_rooms()
    listed = {name: find_room(name) for name in names}
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
    inch = options.units == "in"
    print(found.name)
    print(f"  {'month':<8}{'air':>8}{'humidity':>10}{'wood settles at':>18}")
    for month, air, content in year:
        humidity = f"{air.relative_humidity * 100.0:.0f} %"
        degrees = f"{air.temperature_c * 1.8 + 32.0:.0f} °F" if inch else f"{air.temperature_c:.1f} °C"
        print(f"  {month.value:<8}{degrees:>8}{humidity:>10}{content:>16.1f} %")
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
