"""Reading the species tables of this package's ``data`` folder."""

from __future__ import annotations

import csv
import tomllib
from collections import defaultdict
from collections.abc import Iterator
from functools import cache
from importlib.resources import files

from scantling.wood.provenance import Confidence, HowKnown, Provenance

__all__ = ["citation", "names", "values"]

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
        source = Provenance(
            source=citation(row["source"]),
            table=row["table"],
            row=row["row"],
            printed=row["printed"],
            how=HowKnown(row["provenance"]),
            confidence=Confidence(row["confidence"]),
            note=row["note"],
        )
        table[row["species"]][row["quantity"]] = (float(row["value"]), source)
    return table
