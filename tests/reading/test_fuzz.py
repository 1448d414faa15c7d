"""Whatever is in a file, reading it gives a model or faults, in bounded time, and nothing else."""

from __future__ import annotations

import time
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import FileFaults
from scantling.reading import (
    Document,
    FileModel,
    LengthMm,
    parse_document,
    parse_table,
    validate,
    validate_rows,
)
from scantling.reading.limits import MAX_FAULTS
from scantling.reading.parsing import read_document
from scantling.reading.tables import read_table
from tests.reading.samples import GOOD, Piece


class Board(FileModel):
    """A board of a rack."""

    board: str
    width: LengthMm
    knots: int = 0


RACK = 'board,width,knots\nA1,7 1/2 in,2\n"B, 2",190,0\n'
MARKS = (*"-?:|>{}[]'\"#\t\0\n", "- ", ": ", "&a ", "*a", "!!x ", "---\n", "-1", "0", "1e999", "x")
NOISE = st.sampled_from(MARKS) | st.text(max_size=4)


def check_faults(error: FileFaults, lines: int) -> None:
    """Each fault says what, where and what is allowed, and there are not too many."""
    assert 1 <= len(error.faults) <= MAX_FAULTS + 1
    for fault in error.faults:
        assert fault.code
        assert fault.rule
        assert fault.value
        assert fault.field
        assert 0 <= fault.line <= lines + 1
        assert "\n" not in str(fault)
        assert len(str(fault)) < 600


def read_all(text: str) -> None:
    """Read a text as a piece."""
    try:
        document = parse_document(text, file="f.yaml")
        assert isinstance(document, Document)
        validate(document, Piece)
    except FileFaults as error:
        check_faults(error, len(text.splitlines()))


@given(st.binary(max_size=300))
def test_arbitrary_bytes_give_a_document_or_faults(tmp_path_factory: Any, raw: bytes) -> None:
    """A file of any bytes reads, as YAML and as a table, or is refused with faults."""
    path: Path = tmp_path_factory.getbasetemp() / "bytes.yaml"
    path.write_bytes(raw)
    for read in (read_document, read_table):
        try:
            read(path)
        except FileFaults as error:
            check_faults(error, len(raw) + 1)


@given(st.text(max_size=200))
def test_arbitrary_text_gives_a_model_or_faults(text: str) -> None:
    """Any text reads or is refused with faults."""
    read_all(text)


@given(st.lists(NOISE, max_size=40).map("".join))
def test_scraps_of_yaml_give_a_model_or_faults(text: str) -> None:
    """Marks that mean something to YAML, in any order."""
    read_all(text)


@given(st.integers(0, len(GOOD)), st.integers(0, 30), NOISE)
def test_a_good_file_spoilt_anywhere_gives_a_model_or_faults(at: int, cut: int, noise: str) -> None:
    """Cutting a piece out of a good file and putting noise in its place."""
    read_all(GOOD[:at] + noise + GOOD[at + cut :])


@given(st.integers(0, len(RACK)), st.integers(0, 12), NOISE)
def test_a_good_table_spoilt_anywhere_gives_rows_or_faults(at: int, cut: int, noise: str) -> None:
    """The same for a table."""
    text = RACK[:at] + noise + RACK[at + cut :]
    try:
        rows = validate_rows(parse_table(text, file="f.csv"), Board)
        assert all(row.width == row.width for row in rows)
    except FileFaults as error:
        check_faults(error, len(text.splitlines()))


PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-999, 999) | st.text("abc \n'\"#:-", max_size=6),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text("abc", min_size=1), inner, max_size=3)
    ),
    max_leaves=8,
)


@given(PLAIN)
def test_data_of_any_shape_gives_a_model_or_faults(data: object) -> None:
    """Whatever stands where a part should, the model answers with faults."""
    try:
        validate(Document(file="f", data={"name": "x", "parts": data}, values={}, keys={}), Piece)  # type: ignore[dict-item]
    except FileFaults as error:
        check_faults(error, 1)


@pytest.mark.parametrize(
    "text",
    [
        "[" * 900_000,
        "{" * 900_000,
        "- " * 450_000,
        "-\n" * 450_000,
        "? " * 450_000,
        ":" * 900_000,
        '"' + "a" * 900_000,
        "a: |\n" + " b\n" * 290_000,
        "a: 1\n" * 180_000,
        "".join(f"- &a{n} x\n" for n in range(70_000)),
        "--- a\n" * 140_000,
        "".join(f"k{n}: v\n" for n in range(90_000)),
        "".join(" " * n + "a:\n" for n in range(1300)),
        "a: " + '"\\x41' * 140_000,
    ],
    ids=range(14),
)
def test_no_file_within_the_size_limit_takes_long(text: str) -> None:
    """The worst files of up to 1 MB known to us are read or refused in 4 s (1 s here; slow machines too)."""
    begin = time.process_time()
    for read in (parse_document, parse_table):
        try:
            read(text, file="f")
        except FileFaults as error:
            check_faults(error, text.count("\n") + 1)
    assert time.process_time() - begin < 4.0
