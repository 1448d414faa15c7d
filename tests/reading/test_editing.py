"""A file changed in one place: everything else stays, and what would change more is refused."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import FileFaults, InputError
from scantling.reading import parse_document
from scantling.reading.editing import added, added_entry, changed, removed, written

__all__: list[str] = []

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.yaml"))
TEXT = """\
# A stool.
parts:
  leg:            # turned
    section: [leg, leg]  # square
    length: 400 mm

    copies:
      leg_2: {mirror: [left-right]}
  seat:
    length: 300 mm
joints:
  # where they meet
  a: {kind: notch}
finish: oil
"""


def test_one_value_is_changed_and_every_comment_stays() -> None:
    """Only the characters of the value are others."""
    made = changed(TEXT, ("parts", "leg", "section"), "[leg, 2 * leg]")
    assert made == TEXT.replace("[leg, leg]", "[leg, 2 * leg]")
    assert changed(TEXT, ("finish",), "film varnish") == TEXT.replace("oil", "film varnish")


def test_a_field_is_added_under_its_block_as_its_neighbors_stand() -> None:
    """With their indentation, before what follows; a block that is not there yet is begun."""
    assert "  a: {kind: notch}\n  b: {kind: halving}\nfinish" in added(
        TEXT, ("joints",), "b", "{kind: halving}"
    )
    copied = added(TEXT, ("parts", "leg", "copies"), "leg_3", "{move: [0, 9, 0]}")
    assert "      leg_2: {mirror: [left-right]}\n      leg_3: {move: [0, 9, 0]}\n  seat" in copied
    begun = added(TEXT, ("parts", "seat", "copies"), "seat_2", "{move: [0, 9, 0]}")
    assert "    length: 300 mm\n    copies:\n      seat_2: {move: [0, 9, 0]}\njoints" in begun


def test_an_entry_is_removed_with_its_lines() -> None:
    """And nothing beside it."""
    gone = removed(TEXT, ("parts", "leg"))
    assert "turned" not in gone
    assert parse_document(gone, file="x").data == {
        "parts": {"seat": {"length": "300 mm"}},
        "joints": {"a": {"kind": "notch"}},
        "finish": "oil",
    }


CLOSED = """\
parts:
  seat:
    length: 300 mm
    # glued in last

    # and sanded first
  # parts to come
finish: oil
"""


def test_a_comment_at_the_end_of_an_entry_stays_with_it() -> None:
    """What is indented deeper than the names of the block is the entry's, and goes with it."""
    made = added_entry(CLOSED, ("parts",), "leg", [("length", "1 mm")])
    assert made == CLOSED.replace("  # parts to come", "  leg:\n    length: 1 mm\n  # parts to come")
    copied = added(CLOSED, ("parts", "seat", "copies"), "leg", "{move: [1, 0, 0]}")
    assert "first\n  # parts to come" in copied
    twice = added_entry(made, ("parts",), "arm", [("length", "2 mm")])
    gone = removed(twice, ("parts", "seat"))
    assert gone.startswith("parts:\n  leg:\n    length: 1 mm\n  arm:\n    length: 2 mm\n  # parts to come\n")


def test_lines_end_as_those_of_the_file_do() -> None:
    """A file of CRLF lines stays one."""
    text = TEXT.replace("\n", "\r\n")
    for made in (
        added_entry(text, ("parts",), "arm", [("length", "1 mm"), ("section", "[1, 2]")]),
        added(text, ("parts", "seat", "copies"), "seat_2", "{move: [0, 9, 0]}"),
        removed(text, ("parts", "leg", "copies")),
        changed(text, ("parts", "leg", "length"), "401 mm"),
    ):
        assert made.count("\n") == made.count("\r\n") > 0
    assert len(added(text, ("joints",), "b", "{kind: notch}")) == len(text) + len("  b: {kind: notch}\r\n")


@pytest.mark.parametrize(
    ("text", "path", "told"),
    [
        ("parts: {a: {kind: stick}}\n", ("parts",), "parts"),
        ("parts:\n  a: {kind: stick}\n", ("parts", "a", "copies"), "parts.a"),
        ("parts:\n  a:\n    copies: {}\n", ("parts", "a", "copies"), "parts.a.copies"),
    ],
    ids=["the block", "the entry it would begin in", "an empty block"],
)
def test_what_is_in_braces_is_not_said_to_be_missing(text: str, path: tuple[str, ...], told: str) -> None:
    """It is there: what can be done about it is said."""
    with pytest.raises(InputError) as refused:
        added(text, path, "b", "{kind: panel}")
    fault = refused.value.fault
    assert (fault.code, fault.field) == ("in_braces", told)
    assert "Text" in fault.remedy


@pytest.mark.parametrize(
    ("work", "code"),
    [
        (lambda: changed(TEXT, ("parts", "arm", "length"), "1 mm"), "no_such_field"),
        (lambda: changed(TEXT, ("parts", "leg", "length"), "1 mm\nseat: 2"), "not_one_line"),
        (lambda: changed(TEXT, ("parts", "leg", "length"), " "), "not_one_line"),
        (lambda: changed(TEXT, ("parts", "leg", "section"), "[leg"), "not_a_value"),
        (lambda: added(TEXT, ("joints",), "a", "{kind: notch}"), "name_twice"),
        (lambda: added(TEXT, ("joints",), "b: 1, c", "2"), "not_a_value"),
        (lambda: added(TEXT, ("parts", "arm", "copies"), "b", "2"), "no_such_field"),
        (lambda: removed(TEXT, ("parts", "arm")), "no_such_field"),
    ],
    ids=[
        "no such part",
        "two lines",
        "nothing",
        "an open bracket",
        "a name twice",
        "a name that is more",
        "below nothing",
        "gone already",
    ],
)
def test_what_would_change_more_is_refused(work: object, code: str) -> None:
    """Nothing else of the file may read otherwise."""
    assert callable(work)
    with pytest.raises((InputError, FileFaults)) as refused:
        work()
    if isinstance(refused.value, InputError):
        assert refused.value.code == code
    else:
        assert code == "not_a_value"  # the text cannot be read at all


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_last_field_of_each_example_part_can_be_written_as_it_is(path: Path) -> None:
    """Changed to what it says already, the file is the same to the last character."""
    text = path.read_text(encoding="utf-8")
    data = parse_document(text, file=path.name).data
    assert isinstance(data, dict)
    for block in ("parts", "joints"):
        entries = data[block]
        assert isinstance(entries, dict)
        fields = written(text, (block, list(entries)[-1]))
        assert fields
        for field in fields[-2:]:
            assert changed(text, field.path, field.text) == text


@given(value=st.text(alphabet="ab1 :#,[]{}'\"-\n&*!|>%@`", max_size=12))
def test_no_value_changes_anything_but_its_own_field(value: str) -> None:
    """Whatever is typed, the rest of the file reads the same or the change is refused."""
    path = ("parts", "leg", "length")
    try:
        made = changed(TEXT, path, value)
    except (InputError, FileFaults):
        return  # told, and nothing changed
    old, new = parse_document(TEXT, file="x").data, parse_document(made, file="x").data
    assert isinstance(old, dict)
    assert isinstance(new, dict)
    assert {k: v for k, v in old.items() if k != "parts"} == {k: v for k, v in new.items() if k != "parts"}
    assert old["parts"]["seat"] == new["parts"]["seat"]  # type: ignore[call-overload, index]
