"""Woods whose dust is known to harm more than others': F65."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from functools import cache
from importlib.resources import files

from scantling.checks.catalogue import finding, rule
from scantling.checks.subject import Subject
from scantling.errors import Finding, InputError
from scantling.piece.model import PartKind
from scantling.wood.species import find_species

__all__ = ["Hazard", "check", "hazard_of"]

Hazard = tuple[float, str, str]
"""Class, what it does, and the source."""


@cache
def _hazards() -> tuple[tuple[str, Hazard], ...]:
    text = (files("scantling.checks") / "data" / "dusts.toml").read_text(encoding="utf-8")
    return tuple(
        (genus, (float(row["class"]), row["does"], row["source"]))
        for row in tomllib.loads(text)["hazard"]
        for genus in row["genera"]
    )


def hazard_of(species: str) -> Hazard | None:
    """The hazard of a wood's dust beyond that of any wood dust; None where none is listed or known.

    Examples
    --------
    >>> hazard_of("white oak")[0], hazard_of("western redcedar")[0], hazard_of("sugar maple")
    (2.0, 3.0, None)
    """
    try:
        botanical = find_species(species).botanical.casefold()
    except InputError:
        return None
    found = [hazard for genus, hazard in _hazards() if botanical.startswith(genus.casefold())]
    return max(found, default=None)


def check(subject: Subject) -> list[Finding]:
    """A finding for each wood of the piece that is on the list."""
    woods = dict.fromkeys(
        part.species for part in subject.piece.parts.values() if part.kind is not PartKind.SHEET
    )
    found = []
    for wood in woods:
        hazard = hazard_of(wood)
        if hazard is None:
            continue
        level, does, source = hazard
        item = finding(
            "F65",
            where=wood,
            message=f"dust of {wood} {does}",
            numbers={"class": level},
            severity=rule("F65").severity_at(level),
        )
        found.append(replace(item, source=f"{source} {item.source}"))
    return found
