"""Printing sheets as text that fits a terminal."""

from __future__ import annotations

import shutil
import sys
import textwrap
from collections.abc import Sequence

from scantling.papers.sheets.model import Align, Block, Caution, Facts, Picture, Sheet, Table, Words
from scantling.papers.words.unbroken import NO_BREAK, unbroken

__all__ = ["print_sheets", "sheet_text"]

_LEAST = 8
_GAP = "  "
_INDENT = 6
_SENTENCE, _READABLE, _NARROW = 40, 32, 24
"""Characters from which a cell is a sentence; columns it wants beside others, and alone, at least. [1]"""


def print_sheets(sheets: tuple[Sheet, ...]) -> None:
    """Print sheets, as wide as the terminal is, between 72 and 160 columns."""
    width = max(72, min(160, shutil.get_terminal_size((110, 40)).columns))
    sys.stdout.write("\n\n".join(sheet_text(sheet, width=width) for sheet in sheets) + "\n")


def sheet_text(sheet: Sheet, *, width: int) -> str:
    """One sheet as text.

    Parameters
    ----------
    sheet
        What is shown.
    width
        Columns there are. [1]
    """
    head = [sheet.title.upper(), "=" * min(width, len(sheet.title))]
    lead = textwrap.wrap(sheet.lead, width) if sheet.lead else []
    blocks = ["\n".join(_block(block, width)) for block in sheet.blocks if not isinstance(block, Picture)]
    return "\n\n".join(["\n".join([*head, *lead]), *(block for block in blocks if block)])


def _block(block: Block, width: int) -> list[str]:
    match block:
        case Table():
            return _table(block, width)
        case Facts():
            longest = max((len(label) for label, _ in block.items), default=0)
            return [block.title, *(f"  {label:<{longest}}  {value}" for label, value in block.items)]
        case Words():
            marks = [f"{k}. " if block.numbered else "- " for k in range(1, len(block.lines) + 1)]
            lines = [block.title]
            for mark, line in zip(marks, block.lines, strict=True):
                held = textwrap.wrap(
                    unbroken(line),
                    width - 2,
                    initial_indent="  " + mark,
                    subsequent_indent="  " + " " * len(mark),
                )
                lines += [one.replace(NO_BREAK, " ") for one in held]
            return lines
        case Caution():
            return [
                wrapped
                for line in block.lines
                for wrapped in textwrap.wrap(f"CAUTION: {line}", width, subsequent_indent="         ")
            ]
        case Picture():
            return [f"[{block.title}: {block.words}]"]


def _table(table: Table, width: int) -> list[str]:
    beside, under = _laid(table, width)
    titles = [table.columns[c].title for c in beside]
    kept = [[row[c] for c in beside] for row in table.rows]
    widths = _widths([titles, *kept], width)
    lines = [table.title] if table.title else []
    aligns = [table.columns[c].align for c in beside]
    lines += _row(titles, widths, aligns)
    lines.append(_GAP.join("-" * w for w in widths))
    group = ""
    for r, row in enumerate(table.rows):
        if table.groups and table.groups[r] != group:
            group = table.groups[r]
            lines.append(f"{group}:")
        lines += _row(kept[r], widths, aligns)
        told = [(table.columns[c].title, row[c]) for c in under if row[c]]
        for title, cell in told:
            lines += _wrapped(f"{title}: {cell}", width - _INDENT, indent=" " * _INDENT)
        if told and r + 1 < len(table.rows):
            lines.append("")
    if table.note:
        lines += textwrap.wrap(table.note, width, initial_indent="  ", subsequent_indent="  ")
    return lines


def _laid(table: Table, width: int) -> tuple[list[int], list[int]]:
    """Columns beside each other, and those told under their row.

    Where the columns of sentences would be narrow, only the first of several stays; what comes after it is
    set under the row, over the whole width.
    """
    columns = list(range(len(table.columns)))
    rows = [[column.title for column in table.columns], *table.rows]
    widths = _widths(rows, width)
    wordy = [
        c
        for c in columns[1:]
        if table.columns[c].align is Align.LEFT and max(len(row[c]) for row in rows) > _SENTENCE
    ]
    least = min((widths[c] for c in wordy), default=width)
    if least >= (_READABLE if len(wordy) > 1 else _NARROW):
        return columns, []
    moved = wordy[1:] or wordy
    return [c for c in columns if c not in moved], moved


def _widths(rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """Column widths: as wanted where they fit, else the widest gives way first."""
    wanted = [max(len(row[k]) for row in rows) for k in range(len(rows[0]))]
    room = width - len(_GAP) * (len(wanted) - 1)
    while sum(wanted) > room and max(wanted) > _LEAST:
        wanted[wanted.index(max(wanted))] -= 1
    return wanted


def _row(cells: list[str], widths: list[int], aligns: list[Align]) -> list[str]:
    wrapped = [_wrapped(cell, w) or [""] for cell, w in zip(cells, widths, strict=True)]
    lines = []
    for k in range(max(len(lines_) for lines_ in wrapped)):
        parts = []
        for own, w, align in zip(wrapped, widths, aligns, strict=True):
            text = own[k] if k < len(own) else ""
            parts.append(text.rjust(w) if align is Align.RIGHT else text.ljust(w))
        lines.append(_GAP.join(parts).rstrip())
    return lines


def _wrapped(text: str, width: int, *, indent: str = "") -> list[str]:
    """Lines of a text; none ends inside a size, unless there is no room for the size itself."""
    held = unbroken(text)
    if max(map(len, held.split(" ")), default=0) > width:
        held = text
    lines = textwrap.wrap(held, width, subsequent_indent="  " if indent else "")
    return [indent + line.replace(NO_BREAK, " ") for line in lines]
