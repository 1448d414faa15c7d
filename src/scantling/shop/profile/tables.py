"""The tables this package ships, read once."""

from __future__ import annotations

import csv
from functools import cache
from importlib import resources

__all__ = ["table"]


@cache
def table(name: str) -> tuple[dict[str, str], ...]:
    """Rows of a shipped CSV; lines that begin with ``#`` are notes on where the numbers come from.

    Parameters
    ----------
    name
        File name without ``.csv``.
    """
    text = resources.files("scantling.shop").joinpath("data", f"{name}.csv").read_text(encoding="utf-8")
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    return tuple(csv.DictReader(lines))
