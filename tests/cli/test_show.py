"""Tables in a terminal: sentences have room to be read."""

from __future__ import annotations

from scantling.cli.show import sheet_text
from scantling.papers.sheets.model import Column, Sheet, Table

__all__: list[str] = []

WHAT = "The jaws must open 67 5/8 in, cauls and margin included; the longest clamp opens 50 in."
WAY = "A clamp of 67 5/8 in is wanted. Borrow one, join two head to head, or glue up in parts."


def _sheet(*, where: str, groups: tuple[str, ...] = ()) -> Sheet:
    titles = ("Rule", "Severity", "Where", "What", "A way out", "Rule from")
    row = ("F29", "stop", where, WHAT, WAY, "Published tables of clamps, and common practice of three shops.")
    columns = tuple(Column(title=title) for title in titles)
    table = Table(title="Found", columns=columns, rows=(row, row), groups=groups)
    return Sheet(id="faults", title="Findings", lead="", blocks=(table,))


def test_sentences_that_crowd_each_other_are_set_under_their_row() -> None:
    """At 110 columns what and way out have lines of their own; the row keeps rule, severity, place."""
    lines = sheet_text(
        _sheet(where="Stretcher left + middle stretcher + stretcher right"), width=110
    ).splitlines()
    assert f"      What: {WHAT}" in lines
    assert f"      A way out: {WAY}" in lines
    assert any(line.startswith("F29") and line.endswith("stretcher right") for line in lines)
    assert max(map(len, lines)) <= 110


def test_no_line_of_a_terminal_ends_inside_a_size() -> None:
    """At every width a terminal is printed at, 67 5/8 in stands in one line each time."""
    for width in range(72, 161):
        assert sheet_text(_sheet(where="Top"), width=width).count("67 5/8 in") == 4


def test_a_group_is_told_once_over_its_rows() -> None:
    """Rows of one group stand under one line with its name."""
    lines = sheet_text(_sheet(where="Top", groups=("Each piece", "Each piece")), width=160).splitlines()
    assert lines.count("Each piece:") == 1
