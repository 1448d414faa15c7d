"""Colors of woods on the screen, and of what is loose in the joints."""

from __future__ import annotations

import tomllib
from collections.abc import Iterable
from functools import cache
from importlib.resources import files

from scantling.piece.model import Part

__all__ = ["Color", "colors_of", "loose_color", "rgb_of", "tone_of"]

Color = tuple[float, float, float]
"""Red, green and blue as screens take them (sRGB). 0..1"""


@cache
def _table() -> dict[str, dict[str, str]]:
    text = (files("scantling.solids") / "data" / "tones.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def tone_of(species: str) -> str:
    """Color of a species, ``#rrggbb``; that of a plain hardwood where none is listed.

    Examples
    --------
    >>> tone_of("black cherry")
    '#ad7a55'
    """
    table = _table()
    return table["tones"].get(species, table["otherwise"]["hardwood"])


def rgb_of(tone: str) -> Color:
    """A color as red, green and blue. 0..1

    Examples
    --------
    >>> rgb_of("#ff0033")
    (1.0, 0.0, 0.2)
    """
    red, green, blue = (int(tone[at : at + 2], 16) / 255.0 for at in (1, 3, 5))
    return (red, green, blue)


def colors_of(parts: Iterable[Part]) -> dict[str, Color]:
    """Color of each species of some parts."""
    return {part.species: rgb_of(tone_of(part.species)) for part in parts}


def loose_color(*, metal: bool) -> Color:
    """Color of a loose thing: metal, or light wood that stands out from what it sits in."""
    return rgb_of(_table()["loose"]["metal" if metal else "wood"])
