"""CSV tables: racks of boards, lists of offcuts, as a spreadsheet saves them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path as FilePath
from typing import Any, TypeVar

from pydantic import BaseModel

from scantling.errors import Fault, FileFaults
from scantling.reading.documents import Document, Mark, Path, Plain, shown
from scantling.reading.fields import LENGTH_UNIT
from scantling.reading.limits import MAX_FAULTS, check_text, read_text
from scantling.reading.shapes import shapes_at
from scantling.reading.validating import validate
from scantling.reading.wording import did_you_mean

__all__ = ["Cell", "Row", "Table", "parse_table", "read_table", "validate_rows"]

Model = TypeVar("Model", bound=BaseModel)
MAX_ROWS = 5_000
"""Most rows of a table; a big rack has a few hundred boards. [1]"""
MAX_COLUMNS = 100
"""Most columns of a table. [1]"""
_SEPARATORS = (",", ";", "\t")
_CELL = {
    mark: re.compile(rf'[ \t]*"((?:[^"]|"")*)"[ \t]*(?={mark}|\r|\n|\Z)|([^{mark}\r\n]*)')
    for mark in _SEPARATORS
}
_BLANK = {mark: re.compile(rf"[ \t{mark}]*(?:\r\n|\r|\n|\Z)") for mark in _SEPARATORS}
"""A line with nothing in any cell."""
_LINE_END = re.compile(r"\r\n|\r|\n")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell: its text, trimmed, and where it begins (from 1)."""

    text: str
    line: int
    column: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: the line it begins on, and its cells by column name. Empty cells are left out."""

    line: int
    cells: Mapping[str, Cell]

    def __getitem__(self, name: str) -> str:
        """Text of a cell; empty where it is empty."""
        cell = self.cells.get(name)
        return cell.text if cell else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table, read: column names in order with their cells, and rows."""

    file: str
    header: Mapping[str, Cell]
    rows: tuple[Row, ...]

    def fault(
        self, row: Row, name: str, *, code: str, rule: str, remedy: str = "", value: str | None = None
    ) -> Fault:
        """A fault at a cell, with file, line, column, field and value filled in."""
        cell = row.cells.get(name)
        return Fault(
            code=code,
            field=name,
            value=shown(row[name]) if value is None else value,
            rule=rule,
            remedy=remedy,
            file=self.file,
            line=cell.line if cell else row.line,
            column=cell.column if cell else 1,
        )

    def document(self) -> Document:
        """The table as a document: a list of blocks, one a row, all values text."""
        data: list[Plain] = []
        values: dict[Path, Mark] = {(): Mark(1, 1)}
        for index, row in enumerate(self.rows):
            data.append({name: cell.text for name, cell in row.cells.items()})
            values[(index,)] = Mark(row.line, 1)
            for name, cell in row.cells.items():
                values[(index, name)] = Mark(cell.line, cell.column)
        return Document(file=self.file, data=data, values=values, keys={})


def read_table(path: str | FilePath) -> Table:
    """Read a CSV file.

    Parameters
    ----------
    path
        UTF-8 text, at most 1 MB, separated by commas, semicolons or tabs, with a header row. Lines
        that begin with ``#`` and empty lines are passed over.

    Raises
    ------
    FileFaults
        Those of :func:`parse_table`, and ``file_missing``, ``file_is_folder``, ``file_unreadable``.
    """
    return parse_table(read_text(path), file=str(path))


def parse_table(text: str, *, file: str) -> Table:
    r"""Read CSV text.

    Raises
    ------
    FileFaults
        ``file_too_big``, ``not_text``, ``file_empty``, ``no_header``, ``column_without_name``,
        ``duplicate_column``, ``too_many_columns``, ``too_many_rows``, ``cells_beyond_header``,
        ``quote_not_closed``.

    References
    ----------
    .. [1] Y. Shafranovich, *Common Format and MIME Type for Comma-Separated Values (CSV) Files*,
       RFC 4180, 2005; the other separators are common practice of spreadsheets.

    Examples
    --------
    >>> table = parse_table("board; width\nA1; 7 1/2 in\n", file="rack.csv")
    >>> table.rows[0]["width"], table.rows[0].line
    ('7 1/2 in', 2)
    """
    text = check_text(text, file=file)
    faults: list[Fault] = []
    records = _records(text, file, faults)
    if not records:
        nowhere = Cell(text="", line=1, column=1)
        faults.append(_fault(file, nowhere, "no_header", "must begin with column names"))
        raise FileFaults(faults)
    header = _header(records[0], file, faults)
    rows = tuple(_row(record, list(header), file, faults) for record in records[1:])
    if faults:
        raise FileFaults(sorted(faults, key=lambda fault: (fault.line, fault.column))[:MAX_FAULTS])
    return Table(file=file, header=header, rows=rows)


def validate_rows(
    table: Table, model: type[Model], *, length_unit: str = "mm", context: Mapping[str, Any] | None = None
) -> tuple[Model, ...]:
    """Make one model of each row; every fault of the table at once.

    An unknown or missing column is told once, at the header.

    Parameters
    ----------
    table
        What was read.
    model
        Model of one row.
    length_unit
        Unit of lengths without one.
    context
        Passed to validators.

    Raises
    ------
    FileFaults
        ``unknown_field``, ``column_missing``, and the codes of :func:`validate`.
    """
    allowed = shapes_at(model, {}, ())[0].fields
    faults = [
        _fault(
            table.file,
            cell,
            "unknown_field",
            f"is not a known column; known: {', '.join(allowed)}",
            remedy=did_you_mean(name, allowed, otherwise="Delete it or correct its name."),
        )
        for name, cell in table.header.items()
        if name not in allowed
    ]
    required = [info.alias or name for name, info in model.model_fields.items() if info.is_required()]
    absent = [name for name in required if name not in table.header]
    top = next(iter(table.header.values()))
    faults.extend(
        Fault(
            code="column_missing",
            field=name,
            value="no such column",
            rule="must be a column of the table",
            remedy="Add it to the first row.",
            file=table.file,
            line=top.line,
            column=1,
        )
        for name in absent
    )
    skip = {name for name in table.header if name not in allowed}
    made: list[Model] = []
    whole = table.document()
    for index in range(len(table.rows)):
        try:
            made.append(_one(whole, index, model, skip, {LENGTH_UNIT: length_unit, **(context or {})}))
        except FileFaults as error:
            faults.extend(fault for fault in error.faults if fault.field not in absent)
        if len(faults) > MAX_FAULTS:
            break
    if faults:
        raise FileFaults(sorted(faults, key=lambda fault: (fault.line, fault.column))[:MAX_FAULTS])
    return tuple(made)


def _one(whole: Document, index: int, model: type[Model], skip: set[str], context: dict[str, Any]) -> Model:
    cells = whole.get((index,))
    assert isinstance(cells, dict)  # a table's document is a list of blocks
    data: dict[str, Plain] = {name: text for name, text in cells.items() if name not in skip}
    start = whole.values[(index,)]
    values: dict[Path, Mark] = {(): start}
    values.update({(name,): whole.values[(index, name)] for name in data})
    return validate(Document(file=whole.file, data=data, values=values, keys={}), model, context=context)


def _records(text: str, file: str, faults: list[Fault]) -> list[list[Cell]]:
    """Cells of every row that is neither empty nor a comment."""
    pattern: re.Pattern[str] | None = None
    mark = ","
    records: list[list[Cell]] = []
    at, line = 0, 1
    while at < len(text):
        if text[at] == "#" or text[at] in "\r\n":
            end = _LINE_END.search(text, at)
            at, line = (end.end() if end else len(text)), line + 1
            continue
        if pattern is None:
            mark = _separator(text, at)
            pattern = _CELL[mark]
        blank = _BLANK[mark].match(text, at)
        if blank:
            at, line = blank.end(), line + 1
            continue
        cells, at, line = _record(text, at, line, pattern=pattern, mark=mark)
        _check_quotes(cells, file, faults)
        if any(cell.text for cell in cells):
            records.append(cells)
        if len(records) > MAX_ROWS + 1:
            faults.append(
                _fault(file, cells[0], "too_many_rows", f"must have at most {MAX_ROWS} rows", value="more")
            )
            break
    return records


def _record(
    text: str, at: int, line: int, *, pattern: re.Pattern[str], mark: str
) -> tuple[list[Cell], int, int]:
    cells: list[Cell] = []
    begin = text.rfind("\n", 0, at) + 1
    while True:
        match = pattern.match(text, at)
        assert match is not None  # the second alternative matches anything, also nothing
        quoted = match[1] is not None
        raw = match[1].replace('""', '"') if quoted else match[2]
        lead = 1 + match[0].index('"') if quoted else len(raw) - len(raw.lstrip())
        cells.append(Cell(text=raw.strip(), line=line, column=at - begin + lead + 1))
        breaks = list(_LINE_END.finditer(match[0]))
        if breaks:
            line += len(breaks)
            begin = at + breaks[-1].end()
        at = match.end()
        if at < len(text) and text[at] == mark:
            at += 1
            continue
        end = _LINE_END.match(text, at)
        return (cells, end.end(), line + 1) if end else (cells, len(text), line)


def _separator(text: str, at: int) -> str:
    """The separator that the header row uses most."""
    end = _LINE_END.search(text, at)
    head = re.sub(r'"[^"]*"', "", text[at : end.start() if end else len(text)])
    return max(_SEPARATORS, key=lambda mark: (head.count(mark), -_SEPARATORS.index(mark)))


def _check_quotes(cells: list[Cell], file: str, faults: list[Fault]) -> None:
    for cell in cells:
        if cell.text.startswith('"') and len(faults) < MAX_FAULTS:
            faults.append(
                _fault(
                    file,
                    cell,
                    "quote_not_closed",
                    "must close the quote it opens, at the end of the cell",
                    remedy='Write a quote inside a quoted cell twice: "2\' 4-1/2""".',
                )
            )


def _header(record: list[Cell], file: str, faults: list[Fault]) -> dict[str, Cell]:
    if len(record) > MAX_COLUMNS:
        faults.append(
            _fault(
                file,
                record[MAX_COLUMNS],
                "too_many_columns",
                f"must have at most {MAX_COLUMNS} columns",
                value=str(len(record)),
            )
        )
        raise FileFaults(faults)
    while record and not record[-1].text:
        record = record[:-1]
    header: dict[str, Cell] = {}
    for number, cell in enumerate(record, start=1):
        if not cell.text:
            rule = f"column {number} must have a name"
            faults.append(_fault(file, cell, "column_without_name", rule, remedy="Name it."))
        elif cell.text in header:
            rule = "must be the name of one column"
            faults.append(_fault(file, cell, "duplicate_column", rule, remedy="Rename one of the two."))
        else:
            header[cell.text] = cell
            continue
        header[f"?{number}"] = cell
    return header


def _row(record: list[Cell], names: list[str], file: str, faults: list[Fault]) -> Row:
    beyond = [cell for cell in record[len(names) :] if cell.text]
    if beyond and len(faults) < MAX_FAULTS:
        faults.append(
            _fault(
                file,
                beyond[0],
                "cells_beyond_header",
                f"must have {len(names)} cells, one for each column name; this row has {len(record)}",
                remedy="A comma (or what else parts the columns) inside a cell ends it: put such a text in "
                "quotes.",
            )
        )
    cells = {name: cell for name, cell in zip(names, record, strict=False) if cell.text}
    return Row(line=record[0].line, cells=cells)


def _fault(
    file: str, cell: Cell, code: str, rule: str, *, remedy: str = "", value: str | None = None
) -> Fault:
    found = shown(cell.text) if value is None else value
    return Fault(
        code=code,
        field="file" if code in ("no_header", "too_many_rows", "too_many_columns") else found,
        value=found,
        rule=rule,
        remedy=remedy,
        file=file,
        line=cell.line,
        column=cell.column,
    )
