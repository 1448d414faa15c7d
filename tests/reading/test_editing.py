"""A file changed in one place: everything else stays, and what would change more is refused."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.errors import FileFaults, InputError
from scantling.reading import parse_document
from scantling.reading.editing import added, changed, removed, written

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
