"""CSV tables: cells with their lines, whatever the spreadsheet that saved them."""

from __future__ import annotations

from pathlib import Path

import pytest
from pydantic import Field

from scantling.reading import FileModel, LengthMm, parse_table, read_table, validate_rows
from tests.reading.samples import faults_of, said

RACK = '# boards of the rack\nboard,width,price\n A1 , 7 1/2 in,42\n\n"B, 2","2\' 4-1/2""",\n'


class Board(FileModel):
    """A board of a rack."""

    board: str
    width: LengthMm = Field(gt=0)
    price: float = 0.0


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_the_separator_and_line_ends_do_not_matter(mark: str, end: str) -> None:
    """Names are trimmed, comments and empty lines passed over, quotes undone, lines counted."""
    table = parse_table(RACK.replace(",", mark).replace("\n", end), file="rack.csv")
    assert list(table.header) == ["board", "width", "price"]
    assert [(row["board"], row["width"], row["price"], row.line) for row in table.rows] == [
        ("A1", "7 1/2 in", "42", 3),
        (f"B{mark} 2" if mark != "\t" else "B\t 2", "2' 4-1/2\"", "", 5),
    ]


def test_rows_become_models_and_a_bare_length_takes_the_unit_named() -> None:
    """Empty cells are absent fields and take their default."""
    boards = validate_rows(parse_table(RACK, file="rack.csv"), Board)
    assert [(b.board, b.width, b.price) for b in boards] == [("A1", 190.5, 42.0), ("B, 2", 723.9, 0.0)]
    [plain] = validate_rows(parse_table("board,width\nA,7.5\n", file="r.csv"), Board, length_unit="in")
    assert plain.width == 190.5


def test_every_fault_of_a_table_comes_at_once_with_its_cell() -> None:
    """An unknown column is told once, not once a row; cells by line and column."""
    text = "board,widht,price,width\nA,1,x,9\nB,2,3,-1 in\nC,2,3,nine\n"
    faults = faults_of(lambda: validate_rows(parse_table(text, file="rack.csv"), Board))
    assert [said(fault) for fault in faults] == [
        ("unknown_field", 1, 7, "widht", "widht"),
        ("wrong_type", 2, 5, "price", "x"),
        ("out_of_range", 3, 7, "width", "-1 in"),
        ("not_a_length", 4, 7, "width", "nine"),
    ]
    assert faults[0].remedy == "Did you mean width?"


def test_a_missing_column_is_told_once_and_a_missing_cell_by_row() -> None:
    """No width column is one fault; an empty cell under it is one on its row."""
    [missing] = faults_of(lambda: validate_rows(parse_table("board\nA\nB\n", file="r.csv"), Board))
    assert said(missing) == ("column_missing", 1, 1, "width", "no such column")
    [cell] = faults_of(lambda: validate_rows(parse_table("board,width\nA,1\nB,\n", file="r.csv"), Board))
    assert said(cell) == ("field_missing", 3, 1, "width", "nothing")


@pytest.mark.parametrize(
    ("text", "code", "line", "column"),
    [
        ("", "file_empty", 0, 0),
        ("# nothing\n", "no_header", 1, 1),
        ("a,b\n1,2,3\n", "cells_beyond_header", 2, 5),
        ("a,,b\n1,2,3\n", "column_without_name", 1, 3),
        ("a,b,a\n1,2,3\n", "duplicate_column", 1, 5),
        ('a,b\n1,"2\n', "quote_not_closed", 2, 3),
        ("a\n" + "1\n" * 5001, "too_many_rows", 5002, 1),
        (",".join("abcdefghijk") * 20 + "\n1\n", "too_many_columns", 1, 210),
        ("a,b\n1,\x01\n", "not_text", 2, 3),
    ],
)
def test_a_spoilt_table_names_its_code_and_place(text: str, code: str, line: int, column: int) -> None:
    """Each way to spoil a table gives its own code."""
    faults = faults_of(lambda: parse_table(text, file="r.csv"))
    assert [(fault.code, fault.line, fault.column) for fault in faults] == [(code, line, column)]


def test_a_table_read_from_a_file_is_the_same(tmp_path: Path) -> None:
    """A byte order mark is no part of the first name."""
    path = tmp_path / "rack.csv"
    path.write_bytes(RACK.encode("utf-8-sig"))
    assert read_table(path).rows == parse_table(RACK, file="x").rows


def test_a_fault_of_meaning_is_placed_at_its_cell() -> None:
    """Line, column and value come from the row."""
    table = parse_table(RACK, file="rack.csv")
    fault = table.fault(table.rows[1], "width", code="too_wide", rule="must be at most 400 mm")
    assert said(fault) == ("too_wide", 5, 9, "width", "2' 4-1/2\"")


@pytest.mark.parametrize("mark", [",", ";", "\t"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_lines_of_empty_cells_are_passed_over_and_counted(mark: str, end: str) -> None:
    """A spreadsheet saves rows that were cleared as separators alone; so may the file end."""
    text = "board,width\n,\n , \nA1,7\n,,,\n\n  \nB2,8\n,".replace(",", mark).replace("\n", end)
    assert [(row["board"], row["width"], row.line) for row in parse_table(text, file="r.csv").rows] == [
        ("A1", "7", 4),
        ("B2", "8", 8),
    ]
