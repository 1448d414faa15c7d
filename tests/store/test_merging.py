"""Two changes of one text come together where they do not touch, and are told where they do."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.store.merging import Clash, merge_lines, merge_texts

LINES = st.lists(st.sampled_from("abcd"), max_size=8)


@pytest.mark.parametrize(
    ("old", "theirs", "yours", "merged"),
    [
        ("a b c d", "A b c d", "a b c D", "A b c D"),
        ("a b c d", "b c d", "a b c", "b c"),
        ("a b c d", "a x b c d", "a b c y d", "a x b c y d"),
        ("a b c d", "a X c d", "a X c d", "a X c d"),
        ("a b c", "a b c", "a b c z", "a b c z"),
        ("", "", "x", "x"),
        ("a b c d e", "a B c d E", "A b c D E", None),
        ("a b c d e", "a b c d", "e2 a b c d e", "e2 a b c d"),
    ],
)
def test_worked_merges(old: str, theirs: str, yours: str, merged: str | None) -> None:
    """Lines taken out, put in and changed; alike on both sides; side by side, which clashes."""
    found = merge_lines(old.split(), theirs.split(), yours.split())
    assert (found if isinstance(found, list) else None) == (None if merged is None else merged.split())


def test_a_clash_tells_all_three_sides() -> None:
    """With the line where it begins; several are told at once."""
    found = merge_texts("1\n2\n3\n4\n5\n", "1\nB\n3\n4\nE\n", "1\nb\n3\n4\n5\n6\n")
    assert found.text is None
    assert found.clashes == (
        Clash(line=2, old=("2\n",), theirs=("B\n",), yours=("b\n",)),
        Clash(line=5, old=("5\n",), theirs=("E\n",), yours=("5\n", "6\n")),
    )


@given(old=LINES, new=LINES)
def test_a_change_of_one_side_is_taken_as_it_is(old: list[str], new: list[str]) -> None:
    """Whichever side it is, and where both made it."""
    assert merge_lines(old, new, old) == new
    assert merge_lines(old, old, new) == new
    assert merge_lines(old, new, new) == new


@given(old=LINES, theirs=LINES, yours=LINES)
def test_it_does_not_matter_who_saved_first(old: list[str], theirs: list[str], yours: list[str]) -> None:
    """The merge of the two is the same either way round, and so are the places where they clash."""
    one, other = merge_lines(old, theirs, yours), merge_lines(old, yours, theirs)
    if isinstance(one, list):
        assert one == other
    else:
        assert isinstance(other, tuple)
        assert [(c.line, c.old, c.theirs, c.yours) for c in one] == [
            (c.line, c.old, c.yours, c.theirs) for c in other
        ]


@given(head=LINES, tail=LINES, head2=LINES, tail2=LINES)
def test_changes_with_a_line_between_never_clash(
    head: list[str], tail: list[str], head2: list[str], tail2: list[str]
) -> None:
    """What is before a line that stays and what is after it are changed independently."""
    merged = merge_lines([*head, "=", *tail], [*head2, "=", *tail], [*head, "=", *tail2])
    assert merged == [*head2, "=", *tail2]
