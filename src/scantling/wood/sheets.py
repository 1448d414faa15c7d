"""Sheet materials: what they are called and what they weigh. They hardly move with the seasons."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from scantling.errors import InputError
from scantling.reading import did_you_mean

__all__ = ["Sheet", "SheetSize", "all_sheets", "find_sheet", "is_sheet", "usual_sizes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet material.

    Parameters
    ----------
    name, also
        What it is called, and its other names.
    density_kg_m3
        As sold. [kg/m3]
    grain
        Whether its faces have a grain, so that parts lie along it.
    source
        Where the density comes from.
    """

    name: str
    also: tuple[str, ...]
    density_kg_m3: float
    grain: bool
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetSize:
    """A size in which a material is usually sold (common practice), along the grain and across it. [mm]"""

    length_mm: float
    width_mm: float


@cache
def all_sheets() -> tuple[Sheet, ...]:
    """Every sheet material known."""
    text = (files("scantling.wood") / "data" / "sheets.toml").read_text(encoding="utf-8")
    return tuple(
        Sheet(
            name=row["name"],
            also=tuple(row["also"]),
            density_kg_m3=row["density_kg_m3"],
            grain=row["grain"],
            source=row["source"],
        )
        for row in tomllib.loads(text)["sheet"]
    )


def is_sheet(name: str) -> bool:
    """Whether a name is that of a sheet material."""
    wanted = name.strip().casefold()
    return any(
        wanted in (sheet.name.casefold(), *(other.casefold() for other in sheet.also))
        for sheet in all_sheets()
    )


def find_sheet(name: str) -> Sheet:
    """A sheet material by any of its names.

    Raises
    ------
    InputError
        ``unknown_sheet``, with the nearest names.
    """
    wanted = name.strip().casefold()
    for sheet in all_sheets():
        if wanted in (sheet.name.casefold(), *(other.casefold() for other in sheet.also)):
            return sheet
    known = [sheet.name for sheet in all_sheets()]
    raise InputError(
        code="unknown_sheet",
        field="species",
        value=name,
        rule=f"must be one of {', '.join(known)}",
        remedy=did_you_mean(name, known, otherwise="For solid wood use another kind of part."),
    )


@cache
def usual_sizes(material: str, system: str) -> tuple[SheetSize, ...]:
    """Sizes in which a material is usually sold, largest first.

    Parameters
    ----------
    material
        Its full name.
    system
        The trade's: ``inch`` or ``metric``.
    """
    text = (files("scantling.wood") / "data" / "sheet_sizes.toml").read_text(encoding="utf-8")
    sizes = [
        SheetSize(length_mm=float(row["length_mm"]), width_mm=float(row["width_mm"]))
        for row in tomllib.loads(text)["size"]
        if material in row["materials"] and row["system"] in (system, "both")
    ]
    return tuple(sorted(sizes, key=lambda s: s.length_mm * s.width_mm, reverse=True))
