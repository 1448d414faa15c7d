"""Reading the tables of this package's ``data`` folder: one number, one source."""

from __future__ import annotations

import csv
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

from scantling.wood.provenance import Confidence, HowKnown, Provenance

__all__ = ["citation", "exclusion_rows", "finish_names", "names", "values"]

Row = dict[str, str]


def _text(name: str) -> str:
    return (files("scantling.wood") / "data" / name).read_text(encoding="utf-8")


def _rows(name: str) -> Iterator[Row]:
    lines = (line for line in _text(name).splitlines() if not line.startswith("#"))
    return iter(csv.DictReader(lines))


@cache
def _citations() -> dict[str, str]:
    return {key: entry["citation"] for key, entry in tomllib.loads(_text("sources.toml")).items()}


def citation(key: str) -> str:
    """Full citation of a source by the key the rows use."""
    return _citations()[key]


def names() -> list[Row]:
    """Rows of ``species.csv``: name, botanical, kind, origin, other_names."""
    return list(_rows("species.csv"))


def values() -> dict[str, dict[str, tuple[float, Provenance]]]:
    """Every number of ``species_values.csv``, by species and quantity, with its provenance."""
    table: dict[str, dict[str, tuple[float, Provenance]]] = defaultdict(dict)
    for row in _rows("species_values.csv"):
        table[row["species"]][row["quantity"]] = (float(row["value"]), _source(row))
    return table


def _source(row: Row) -> Provenance:
    return Provenance(
        source=citation(row["source"]),
        table=row["table"],
        row=row.get("row", ""),
        printed=row.get("printed", ""),
        how=HowKnown(row["provenance"]),
        confidence=Confidence(row["confidence"]),
        note=row["note"],
    )


def exclusion_rows() -> list[tuple[Row, Provenance]]:
    """Rows of ``moisture_exclusion.csv``, with their provenance."""
    return [(row, _source(row)) for row in _rows("moisture_exclusion.csv")]


@cache
def finish_names() -> dict[str, tuple[str, bool]]:
    """Trade name of a finish to its published row, and whether that row only stands in."""
    named = tomllib.loads(_text("finish_names.toml"))["names"]
    return {name: (entry["row"], entry["estimate"]) for name, entry in named.items()}
