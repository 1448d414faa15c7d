"""Pace: minutes of hands-on work by kind, to be held against a maker's own record."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from scantling.errors import ModelError

__all__ = ["Rate", "rate"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """Minutes one kind of work takes.

    Parameters
    ----------
    setup, each, per_m, per_m2
        Setting up once; for one piece or cut; for each meter; for each square meter. [min]
    about, source
        What it is, and where the figure comes from.
    """

    about: str
    source: str
    setup: float = 0.0
    each: float = 0.0
    per_m: float = 0.0
    per_m2: float = 0.0

    def minutes(self, *, count: float = 1.0, meters: float = 0.0, m2: float = 0.0) -> float:
        """Minutes for so many pieces, meters, square meters. [min]"""
        return self.setup + self.each * count + self.per_m * meters + self.per_m2 * m2


@cache
def _rates() -> dict[str, Rate]:
    text = (files("scantling.plan") / "data" / "pace.toml").read_text(encoding="utf-8")
    rates = {}
    for name, row in tomllib.loads(text).items():
        each = row.get("each", row.get("minutes", 0.0))
        own = {key: row[key] for key in ("setup", "per_m", "per_m2") if key in row}
        rates[name] = Rate(about=row["about"], source=row["source"], each=each, **own)
    return rates


def rate(name: str) -> Rate:
    """The rate of a kind of work."""
    if name not in _rates():
        raise ModelError(f"no pace for {name}")
    return _rates()[name]
