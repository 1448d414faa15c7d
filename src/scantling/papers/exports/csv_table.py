"""Comma-separated tables (RFC 4180), safe to open in a spreadsheet."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping, Sequence

__all__ = ["Cell", "csv_bytes"]

Cell = str | float | int | bool | None

_FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the beginning of a formula."""


def csv_bytes(columns: Sequence[str], rows: Iterable[Mapping[str, Cell]]) -> bytes:
    """A table as UTF-8 text with a heading.

    Parameters
    ----------
    columns
        Headings, the unit in the name, in order.
    rows
        Cells by heading; a missing one is left empty.

    Returns
    -------
    bytes
        Numbers to a millionth. A text that a spreadsheet would run as a formula gets an apostrophe before.
    """
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(columns)
    for row in rows:
        table.writerow([_shown(row.get(column)) for column in columns])
    return text.getvalue().encode()


def _shown(cell: Cell) -> str:
    if cell is None:
        return ""
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, str):
        return f"'{cell}" if cell.startswith(_FORMULA) else cell
    return f"{round(cell, 6) + 0.0:.6f}".rstrip("0").rstrip(".")
