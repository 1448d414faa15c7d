"""Sheets: one subject of the plan each, as titled blocks of text, figures and tables, ready to show.

A sheet holds shown words and figures only. The command line prints it, the page lays it out; neither
works anything out.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["Align", "Block", "Caution", "Column", "Facts", "Picture", "Sheet", "Table", "Tone", "Words"]


class Align(StrEnum):
    """How a column is set."""

    LEFT = "left"
    RIGHT = "right"


class Tone(StrEnum):
    """How a row or a fact is to be read."""

    PLAIN = "plain"
    GOOD = "good"
    WARN = "warn"
    BAD = "bad"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table."""

    title: str
    align: Align = Align.LEFT


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table of shown values.

    Parameters
    ----------
    columns
        As many as each row has cells.
    rows
        Shown cells.
    tones
        One a row, or empty.
    groups
        What each row belongs to, told once over the rows that follow each other in it; one a row, or empty.
    parts
        Names of the parts each row is about, so that the page can point at them; one a row, or empty.
    """

    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    tones: tuple[Tone, ...] = ()
    groups: tuple[str, ...] = ()
    parts: tuple[tuple[str, ...], ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Labels with their values, a few of them, large."""

    title: str
    items: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """Paragraphs or a list."""

    title: str
    lines: tuple[str, ...]
    numbered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """A caution, set apart."""

    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing as SVG, with words for those who cannot see it."""

    title: str
    svg: str
    words: str


Block = Table | Facts | Words | Caution | Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One subject.

    Parameters
    ----------
    id
        Stable name (``parts``, ``boards``, ``seasons``...).
    title
        Heading.
    lead
        One or two sentences that say what matters most.
    """

    id: str
    title: str
    lead: str
    blocks: tuple[Block, ...]
