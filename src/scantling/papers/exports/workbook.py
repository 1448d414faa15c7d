"""The tables of a piece as one workbook for a spreadsheet, numbers as numbers, nothing that is run."""

from __future__ import annotations

import io
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from itertools import product
from typing import Any

from scantling.papers.exports.csv_table import Cell

__all__ = ["WorkbookTable", "workbook_bytes"]

_WIDEST = 40
"""Characters past which a column is wide enough. [1]"""
_MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""Written for the time it was made, so that equal tables give equal bytes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkbookTable:
    """One table.

    Parameters
    ----------
    title
        Of its leaf, at most 31 characters.
    columns
        Headings, the unit in the name.
    rows
        Cells by heading; a missing one is left empty.
    """

    title: str
    columns: Sequence[str]
    rows: tuple[Mapping[str, Cell], ...]


def workbook_bytes(tables: Iterable[WorkbookTable], *, title: str) -> bytes:
    """Tables as leaves of one workbook (Office Open XML, ISO/IEC 29500).

    Parameters
    ----------
    tables
        In order.
    title
        Of the piece.

    Returns
    -------
    bytes
        Texts are written as texts, whatever they begin with; the heading stays in sight and filters.
    """
    import xlsxwriter

    made = io.BytesIO()
    book = xlsxwriter.Workbook(
        made, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    book.set_properties({"title": title, "created": _MADE.replace(tzinfo=None)})
    head = book.add_format({"bold": True, "bottom": 1, "text_wrap": True, "valign": "top"})
    number = book.add_format({"num_format": "0.##"})
    for table in tables:
        leaf = book.add_worksheet(table.title)
        leaf.freeze_panes(1, 1)
        for column, name in enumerate(table.columns):
            leaf.write_string(0, column, name, head)
            shown = [len(str(row.get(name) or "")) for row in table.rows]
            leaf.set_column(column, column, min(_WIDEST, max([9, *shown]) + 2))
        for at, column in product(range(len(table.rows)), range(len(table.columns))):
            _write(leaf, (at + 1, column), table.rows[at].get(table.columns[column]), number)
        if table.rows and table.columns:
            leaf.autofilter(0, 0, len(table.rows), len(table.columns) - 1)
    book.close()
    return made.getvalue()


def _write(leaf: Any, at: tuple[int, int], cell: Cell, number: Any) -> None:
    """One cell; a text stays a text."""
    if isinstance(cell, bool):
        leaf.write_string(*at, "yes" if cell else "no")
    elif isinstance(cell, str):
        leaf.write_string(*at, cell)
    elif cell is not None:
        leaf.write_number(*at, round(cell, 6) + 0.0, number)
