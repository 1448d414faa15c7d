"""Colours of woods on the screen."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files

__all__ = ["rgb_of", "tone_of"]


@cache
def _table() -> dict[str, dict[str, str]]:
    text = (files("scantling.web") / "data" / "tones.toml").read_text(encoding="utf-8")
    return tomllib.loads(text)


def tone_of(species: str) -> str:
    """Colour of a species, ``#rrggbb``; that of a plain hardwood where none is listed.

    Examples
    --------
    >>> tone_of("black cherry")
    '#ad7a55'
    """
    table = _table()
    return table["tones"].get(species, table["otherwise"]["hardwood"])


def rgb_of(tone: str) -> tuple[float, float, float]:
    """A colour as red, green and blue. 0..1

    Examples
    --------
    >>> rgb_of("#ff0033")
    (1.0, 0.0, 0.2)
    """
    red, green, blue = (int(tone[at : at + 2], 16) / 255.0 for at in (1, 3, 5))
    return (red, green, blue)
