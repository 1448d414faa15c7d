"""The climate outdoors of places by name: estimates, for want of a figure of the maker's own."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from scantling.errors import InputError
from scantling.seasons.air import Air, AirYear, Month
from scantling.wood.moisture import relative_humidity_for_emc

__all__ = ["Place", "find_place", "places"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place and its year outdoors.

    Parameters
    ----------
    name
        Town and state (``Denver, CO``).
    altitude_m
        Height above the sea. [m]
    outdoors
        Mean air of each month.
    """

    name: str
    altitude_m: float
    outdoors: AirYear


SOURCE = (
    "Wood Handbook, FPL-GTR-190 (2010), Table 13-1 (from memory, about ±0.3 % moisture), and temperatures "
    "from memory (about ±1.5 degC): an estimate"
)


def _air(row: dict[str, str], month: Month) -> Air:
    temperature = float(row[f"temperature_{month.value}"])
    humidity = relative_humidity_for_emc(temperature, float(row[f"emc_{month.value}"]))
    return Air(temperature_c=temperature, relative_humidity=humidity)


@cache
def places() -> tuple[Place, ...]:
    """Every place of the table.

    References
    ----------
    .. [1] W. T. Simpson, *Equilibrium Moisture Content of Wood in Outdoor Locations in the United States
       and Worldwide*, FPL-RN-0268, 1998; *Wood Handbook*, FPL-GTR-190, Table 13-1 (from memory).
    """
    text = (files("scantling.seasons") / "data" / "places.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return tuple(
        Place(
            name=row["place"],
            altitude_m=float(row["altitude_m"]),
            outdoors=AirYear(months=tuple(_air(row, month) for month in Month)),
        )
        for row in rows
    )


def _key(name: str) -> str:
    return " ".join(re.findall(r"[^\W_]+", name.casefold()))


def find_place(name: str) -> Place:
    """A place by its town, with the state where a name is not enough.

    Raises
    ------
    InputError
        ``unknown_place``, naming near ones.

    Examples
    --------
    >>> find_place("denver").name
    'Denver, CO'
    """
    key = _key(name)
    exact = [place for place in places() if _key(place.name) == key]
    found = exact or [place for place in places() if _key(place.name.rpartition(",")[0]) == key]
    if len(found) == 1:
        return found[0]
    near = found or _near(key)
    raise InputError(
        code="unknown_place",
        field="place",
        value=name[:80],
        rule="must be one of the places of the table, with its state where two share a name",
        remedy=f"Write one of: {'; '.join(place.name for place in near)}."
        if near
        else f"It is not among the {len(places())} towns: take one of like winters, or give the climate "
        "outdoors by month.",
    )


def _near(key: str) -> list[Place]:
    from difflib import get_close_matches  # only on the way to an error

    by_key = {_key(place.name.rpartition(",")[0]): place for place in places()}
    return [by_key[match] for match in get_close_matches(key[:80], list(by_key), n=5, cutoff=0.6)]
