"""A size is never parted at the end of a line."""

from __future__ import annotations

import textwrap

import pytest

from scantling.papers.words.unbroken import NO_BREAK, unbroken

__all__: list[str] = []


@pytest.mark.parametrize(
    ("text", "whole"),
    [
        ("70 7/8 × 35 7/16 × 29 17/32 in over all", "29 17/32 in"),
        ("the jaws must open 1485 mm here", "1485 mm"),
        ("wanted are 37.6 bd ft of it", "37.6 bd ft"),
        ("50 N m on each of 4 joints", "50 N m"),
        ("at 8.3 % and 20 °C", "20 °C"),
    ],
)
def test_no_line_ends_inside_a_size(text: str, whole: str) -> None:
    """Wrapped at any width that takes the size, the size stands in one line."""
    for width in range(len(whole), len(text) + 1):
        lines = [line.replace(NO_BREAK, " ") for line in textwrap.wrap(unbroken(text), width)]
        assert any(whole in line for line in lines), (width, lines)


def test_words_and_counts_may_part() -> None:
    """A count and what it counts may stand in two lines, and nothing is lost."""
    assert unbroken("16 clamps of 7 strips, 5 inside") == "16 clamps of 7 strips, 5 inside"
    assert unbroken("28 3/4 in").replace(NO_BREAK, " ") == "28 3/4 in"
