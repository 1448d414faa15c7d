"""What a page of the packet is built from: figures, tables, facts, steps, cautions; text ready to print."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.papers.drawing import Sheet

__all__ = [
    "Align",
    "Block",
    "Bullets",
    "Caution",
    "Column",
    "Fact",
    "Facts",
    "Figure",
    "Heading",
    "NewPage",
    "PacketData",
    "Paper",
    "Paragraph",
    "Row",
    "Section",
    "Step",
    "Steps",
    "Table",
    "Together",
]


class Paper(StrEnum):
    """Paper to print on."""

    A4 = "a4"
    LETTER = "us-letter"

    @property
    def size_mm(self) -> tuple[float, float]:
        """Width and height (ISO 216; ANSI/ASME Y14.1 size A). [mm]"""
        return (210.0, 297.0) if self is Paper.A4 else (215.9, 279.4)

    @property
    def text_mm(self) -> tuple[float, float]:
        """Room for figures between the margins of a page: width, height. [mm]"""
        width, height = self.size_mm
        return (width - LEFT_MM - RIGHT_MM, height - TOP_MM - BOTTOM_MM)


LEFT_MM = 22.0
"""Left margin, wide enough for a punch. [mm]"""
RIGHT_MM = 15.0
TOP_MM = 16.0
BOTTOM_MM = 19.0


class Align(StrEnum):
    """How a column is set."""

    LEFT = "left"
    RIGHT = "right"
    CENTER = "center"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column of a table.

    Parameters
    ----------
    title
        Over it.
    share
        Share of the width left over; 0 is as wide as its widest cell.
    strong
        Whether its cells are set bold.
    """

    title: str
    align: Align = Align.LEFT
    share: float = 0.0
    strong: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A row; ``band`` makes it a heading over the rows that follow, ``total`` a sum under a firm rule."""

    cells: tuple[str, ...]
    band: bool = False
    total: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table with thin rules.

    Parameters
    ----------
    ticks
        Whether every row begins with a box to tick.
    written
        Whether something is written into it by hand, which asks for higher rows.
    """

    columns: tuple[Column, ...]
    rows: tuple[Row, ...]
    ticks: bool = False
    small: bool = False
    written: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A drawing at its own size, or shrunk to the text width; ``full_page`` prints it 1:1 on bare paper."""

    sheet: Sheet
    caption: str = ""
    full_page: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """One key figure."""

    label: str
    value: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """Key figures side by side."""

    facts: tuple[Fact, ...]
    columns: int = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading within a section."""

    text: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Running text."""

    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Bullets:
    """Short points."""

    points: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """Something that can hurt someone or spoil the work, boxed so that it is not missed."""

    title: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of work.

    Parameters
    ----------
    title
        What is done.
    text
        How, in a sentence or two.
    time
        Hands-on time as shown.
    wait
        What must dry or rest after it, as shown.
    caution
        Empty where there is none.
    """

    title: str
    text: str = ""
    time: str = ""
    wait: str = ""
    caution: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Numbered steps with boxes to tick; ``first`` is the number of the first one."""

    steps: tuple[Step, ...]
    first: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class NewPage:
    """A page break."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """Blocks kept on one page."""

    blocks: tuple[Block, ...]


Block = Table | Figure | Facts | Heading | Paragraph | Bullets | Caution | Steps | NewPage | Together


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One section, beginning on its own page unless ``runs_on``.

    Parameters
    ----------
    title
        In the trade's words.
    lead
        What the sheet is for, in one sentence.
    """

    title: str
    lead: str
    blocks: tuple[Block, ...]
    runs_on: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketData:
    """A whole packet, ready to be set.

    Parameters
    ----------
    title, about
        Of the piece.
    fingerprint
        Short hash of the plan; printed on every sheet, so that sheets of two plans are not mixed.
    notice
        Small print of the cover: what the figures are and whom they defer to.
    picture
        The piece, for the cover.
    """

    title: str
    about: str
    fingerprint: str
    facts: tuple[Fact, ...]
    sections: tuple[Section, ...]
    notice: str
    picture: Sheet | None = None
    made_for: str = ""
    heading: str = "Work packet"
    """Over the title: what these papers are."""
