"""Reading the printed tables that lie beside the checks."""

from __future__ import annotations

import csv
from pathlib import Path

__all__ = ["printed_rows"]


def printed_rows(folder: str, name: str) -> list[dict[str, str]]:
    """Rows of a table below ``tests/published``, comment lines left out."""
    text = (Path(__file__).parent / folder / name).read_text(encoding="utf-8")
    return list(csv.DictReader(line for line in text.splitlines() if not line.startswith("#")))
