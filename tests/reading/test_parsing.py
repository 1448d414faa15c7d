"""Form of a YAML file: plain data with positions, or all its faults with line and column."""

from __future__ import annotations

from pathlib import Path

import pytest
from pydantic import create_model

from scantling.errors import FileFaults
from scantling.reading import MAX_DEPTH, FileModel, parse_document, parse_on, read_document, validate
from tests.reading.samples import faults_of, said


def test_numbers_are_numbers_and_anything_a_maker_writes_stays_text() -> None:
    """Only decimal numbers, truth words and nothing are converted; all else is text."""
    text = """
whole: 730
part: 7/8
mixed: 28 3/4 in
feet: 2' 4-1/2"
exponent: 1.5e2
negative: -4
dotted: .5
quoted: "730"
leading: 010
hex: 0x10
clock: 1:30
day: 2026-11-25
yes: no
infinite: .inf
huge: 12345678901234567890
overflow: 1e999
empty:
truth: true
"""
    data = parse_document(text, file="a.yaml").data
    assert data == {
        "whole": 730,
        "part": "7/8",
        "mixed": "28 3/4 in",
        "feet": "2' 4-1/2\"",
        "exponent": 150.0,
        "negative": -4,
        "dotted": 0.5,
        "quoted": "730",
        "leading": 10,
        "hex": "0x10",
        "clock": "1:30",
        "day": "2026-11-25",
        "yes": "no",
        "infinite": ".inf",
        "huge": "12345678901234567890",
        "overflow": "1e999",
        "empty": None,
        "truth": True,
    }


def test_every_key_and_value_has_its_line_and_column() -> None:
    """Positions count from 1, in characters, also after letters outside ASCII."""
    document = parse_document("é: ½ in\nparts:\n  - leg: {a: 1, b: 22}\n  - x\n", file="a.yaml")
    assert document.position(("é",)) == (1, 4)
    assert document.position(("parts", 0, "leg", "b")) == (3, 20)
    assert document.key_position(("parts", 0, "leg", "b")) == (3, 17)
    assert document.position(("parts", 1)) == (4, 5)
    assert document.position(("parts", 0, "leg", "missing", "deeper")) == (3, 5)
    assert document.get(("parts", 0, "leg", "b")) == 22
    assert document.get(("parts", 7, "leg")) is None


@pytest.mark.parametrize(
    ("text", "code", "line", "column"),
    [
        ("a: b: c\n", "yaml_form", 1, 5),
        ("a: 1\n  b: 2\n", "yaml_form", 2, 4),
        ("a: [1, 2\nb: 3\n", "yaml_form", 2, 2),
        ("a: {b: 1\nc\n", "yaml_form", 3, 1),
        ("- a\nb: 2\n", "yaml_form", 2, 1),
        ("x: 1\na: 'open\n", "yaml_form", 2, 4),
        ("a: 'x' y\n", "yaml_form", 1, 8),
        ("a: @x\n", "yaml_form", 1, 4),
        ("a:\n\tb: 1\n", "tab_indent", 2, 1),
        ("a: 1\nb: &x 2\n", "alias_not_allowed", 2, 4),
        ("a: *x\n", "alias_not_allowed", 1, 4),
        ("a: !!python/object:os.system x\n", "tag_not_allowed", 1, 4),
        ("a: !int 3\n", "tag_not_allowed", 1, 4),
        ("a: 1\n---\nb: 2\n", "several_documents", 2, 1),
        ("1: x\n", "key_not_text", 1, 1),
        ("true: x\n", "key_not_text", 1, 1),
        ("? [a, b]\n: x\n", "key_not_text", 1, 3),
        ("a: 1\nb: 2\na: 3\n", "duplicate_key", 3, 1),
        ("a:\n  b: \0\n", "not_text", 2, 6),
        ("a: \ud800\n", "not_text", 1, 4),
        ('a: "b\\0"\n', "not_text", 1, 4),
        ('a: 1\n"b\\x07": 2\n', "not_text", 2, 1),
        ('a: [x, "\\ufffe"]\n', "not_text", 1, 8),
        ("", "file_empty", 0, 0),
        (" \n\n", "file_empty", 0, 0),
        ("# only a comment\n", "file_empty", 1, 1),
        ("---\n...\n", "file_empty", 1, 1),
        ("[" * (MAX_DEPTH + 2) + "]" * (MAX_DEPTH + 2), "too_deep", 1, MAX_DEPTH + 1),
        ("[" * 100_000, "yaml_form", 1, 1001),
        ("a: [" + "x," * 120_000 + "]", "too_many_values", 1, 200_001),
        ("x" * 1_000_001, "file_too_big", 0, 0),
    ],
)
def test_a_fault_of_form_names_its_code_and_place(text: str, code: str, line: int, column: int) -> None:
    """Each way to spoil a file gives its own code at the place it stands."""
    [fault] = faults_of(lambda: parse_document(text, file="a.yaml"))
    assert (fault.code, fault.file, fault.line, fault.column) == (code, "a.yaml", line, column)
    assert fault.rule
    assert fault.value


def test_all_faults_come_at_once_in_the_order_of_the_file() -> None:
    """Duplicate keys, aliases, tags and a broken last line are told together."""
    text = "a: 1\na: 2\nb: *x\nc: !t 3\n? {k: v}\n: 4\nd: e: f\n"
    faults = faults_of(lambda: parse_document(text, file="a.yaml"))
    assert [said(fault)[:2] for fault in faults] == [
        ("duplicate_key", 2),
        ("alias_not_allowed", 3),
        ("tag_not_allowed", 4),
        ("key_not_text", 5),
        ("yaml_form", 7),
    ]


def test_a_duplicate_key_names_the_line_of_the_first() -> None:
    """The second one is the fault, and the first one's line stands in the rule."""
    text = "parts:\n  leg: {a: 1}\n  top: 2\n  leg: 3\n"
    [fault] = faults_of(lambda: parse_document(text, file="a.yaml"))
    assert str(fault) == (
        "a.yaml:4:3: parts.leg: must be given once; it is already on line 2, got it again. "
        "Delete or rename one of the two."
    )


def test_a_bomb_of_aliases_is_refused_before_it_unfolds() -> None:
    """Nine levels of nine aliases are nine faults, not a billion values."""
    pairs = zip("abcdefgh", "bcdefghi", strict=True)
    lines = ["a: &a [x, x]"] + [f"{after}: &{after} [*{before}, *{before}]" for before, after in pairs]
    faults = faults_of(lambda: parse_document("\n".join(lines), file="bomb.yaml"))
    assert {fault.code for fault in faults} == {"alias_not_allowed"}
    assert len(faults) == 9 + 16


def test_a_file_that_cannot_be_read_says_why(tmp_path: Path) -> None:
    """Missing, a folder, a device, binary, empty: one fault each, naming the file."""
    folder = tmp_path
    (folder / "binary.yaml").write_bytes(b"name: ok\nbin: \x89PNG\xff\xfe")
    (folder / "empty.yaml").write_bytes(b"")
    (folder / "nul.yaml").write_bytes(b"name: a\x00b")
    found = {}
    for name in ("missing.yaml", "", "binary.yaml", "empty.yaml", "nul.yaml", "a\0b"):
        [fault] = faults_of(lambda name=name: read_document(f"{folder}/{name}"))  # type: ignore[misc]
        assert fault.file == f"{folder}/{name}"
        found[name] = said(fault)[:3]
    assert found == {
        "missing.yaml": ("file_missing", 0, 0),
        "": ("file_is_folder", 0, 0),
        "binary.yaml": ("not_text", 2, 6),
        "empty.yaml": ("file_empty", 0, 0),
        "nul.yaml": ("not_text", 1, 8),
        "a\0b": ("file_missing", 0, 0),
    }
    [device] = faults_of(lambda: read_document("/dev/null"))
    assert device.code == "file_unreadable"


def test_fifty_megabytes_are_refused_from_the_size_alone(tmp_path: Path) -> None:
    """The file is sparse and never read; the fault names its size and the limit."""
    path = tmp_path / "big.yaml"
    with path.open("wb") as stream:
        stream.truncate(50_000_000)
    [fault] = faults_of(lambda: read_document(path))
    assert (fault.code, fault.value, fault.rule) == ("file_too_big", "50.0 MB", "must be at most 1 MB")


def test_a_byte_order_mark_and_foreign_line_ends_are_no_fault(tmp_path: Path) -> None:
    """Files saved by other systems read the same, lines counted right."""
    path = tmp_path / "a.yaml"
    path.write_bytes("a: 1\r\nb: 2\r\n".encode("utf-8-sig"))
    document = read_document(path)
    assert document.data == {"a": 1, "b": 2}
    assert document.position(("b",)) == (2, 4)


def test_a_fault_of_form_does_not_hide_those_of_the_content() -> None:
    """What is only a consequence of it is not told: a value that was refused is not said to be missing."""
    shape = create_model("Shape", __base__=FileModel, a=(int, ...), b=(int, ...), c=(int, ...))
    with pytest.raises(FileFaults) as caught:
        validate(parse_on("a: *x\nb: many\nb: 2\nc: 3\n7: 1\n", file="f.yaml"), shape)
    assert [(fault.code, fault.line) for fault in caught.value.faults] == [
        ("alias_not_allowed", 1),
        ("wrong_type", 2),
        ("duplicate_key", 3),
        ("key_not_text", 5),
    ]
