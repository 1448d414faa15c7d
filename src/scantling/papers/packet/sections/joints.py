"""Marking-out sheets, part by part as seen on the face in hand, and the loose parts the joints take."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from scantling.papers.drawing import Sheet as Drawing
from scantling.papers.joint_section import ACROSS, JointSection, draw_sections
from scantling.papers.packet.blocks import (
    Align,
    Block,
    Bullets,
    Column,
    Figure,
    Heading,
    NewPage,
    Paper,
    Paragraph,
    Row,
    Section,
    Table,
    Together,
)
from scantling.papers.part_sheet import PartDrawing, draw_part

__all__ = [
    "ConnectorRow",
    "JointSheet",
    "MarkRow",
    "connectors_section",
    "joints_section",
    "sections_section",
]


_UNITS = {"mm": "millimeters", "in": "inches"}
_LEAD_MM, _AROUND_MM, _SPARE_MM = 32.0, 36.0, 10.0
"""Title of the chapter; headings and gaps of one sheet; what of them may be air. [mm]"""
_LIST_MM = 3.0
"""Air before a list. [mm]"""
_AHEAD = 4
"""So many sheets are looked through for one that fits the rest of a page: a part stays near its like. [1]"""
_PLACES = 1.1
"""Share of the width for the places of a row of holes. [1]"""
_FEW_SETUPS = 3
"""Up to so many set-ups stand in lines of their own. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkRow:
    """One thing to mark out; lengths as shown, without unit."""

    tag: str
    what: str
    face: str
    from_end: str
    from_face: str
    size: str
    depth: str
    fit: str
    setup: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointSheet:
    """The marking out of one part, or of several that are alike.

    Parameters
    ----------
    title
        The part or the group.
    parts
        The parts it is for, handed ones named.
    drawing
        Its faces.
    steps
        How the joints are cut, in order.
    setups
        Code and words of every set-up in the list.
    """

    title: str
    parts: str
    drawing: PartDrawing
    marks: tuple[MarkRow, ...]
    steps: tuple[str, ...] = ()
    setups: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ConnectorRow:
    """Loose parts of one size."""

    kind: str
    count: int
    size: str
    drill: str
    where: str
    note: str = ""


def _setup_words(setups: tuple[tuple[str, str], ...]) -> tuple[str, ...]:
    if len(setups) <= _FEW_SETUPS:
        return tuple(f"{code}: {setup}." for code, setup in setups)
    return (f"Set-ups: {'; '.join(f'{code} {setup}' for code, setup in setups)}.",)


def _words_mm(sheet: JointSheet) -> float:
    """Height of the list and the words of a sheet. [mm]"""
    lists = (sheet.steps, _setup_words(sheet.setups))
    lines = sum(5.6 * -(-len(text) // 88) for texts in lists for text in texts)
    rows = sum(6.4 if len(mark.what) < 36 else 10.2 for mark in sheet.marks)
    return rows + lines + _LIST_MM * sum(1 for texts in lists if texts)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    """A sheet as drawn, and how much of a page it takes. [mm]"""

    sheet: JointSheet
    drawing: Drawing
    tall_mm: float


def _placed(sheet: JointSheet, *, paper: Paper, first: bool) -> _Placed:
    width, height = paper.text_mm
    around = _AROUND_MM + _words_mm(sheet)
    room = height - around - (_LEAD_MM if first else 0.0)
    drawing = draw_part(sheet.drawing, room_mm=width, height_mm=room)
    return _Placed(sheet=sheet, drawing=drawing, tall_mm=around - _SPARE_MM + drawing.height_mm)


def _pages(sheets: Sequence[_Placed], *, height_mm: float) -> Iterator[list[_Placed]]:
    """Sheets page by page; room that is left goes to one of the next few that fits it.

    A sheet longer than a page leaves the rest of its last page to them as well.
    """
    waiting = list(sheets)
    used = _LEAD_MM
    while waiting:
        page = [waiting.pop(0)]
        used += page[0].tall_mm
        if used > height_mm:  # its list goes on overleaf, under the heads of its columns
            used = used % height_mm + _LIST_MM
        while fitting := next((one for one in waiting[:_AHEAD] if used + one.tall_mm <= height_mm), None):
            waiting.remove(fitting)
            page.append(fitting)
            used += fitting.tall_mm
        yield page
        used = 0.0


def _blocks(placed: _Placed, columns: tuple[Column, ...]) -> Iterator[Block]:
    sheet = placed.sheet
    rows = tuple(
        Row(cells=(m.tag, m.what, m.face, m.from_end, m.from_face, m.size, m.depth, m.fit, m.setup))
        for m in sheet.marks
    )
    yield Heading(text=sheet.title, note=sheet.parts)
    yield Figure(sheet=placed.drawing)
    yield Table(columns=_columns_of(sheet, columns), rows=rows, ticks=True, small=True)
    if sheet.setups:
        yield Bullets(points=_setup_words(sheet.setups))
    if sheet.steps:
        yield Bullets(points=sheet.steps)


def _columns_of(sheet: JointSheet, columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """The list's columns; the places of a row of holes go on in a second line, so that words keep room."""
    if not any(", " in mark.from_end for mark in sheet.marks):
        return columns
    return tuple(
        replace(column, share=_PLACES) if column.title.startswith("From end") else column
        for column in columns
    )


def joints_section(
    sheets: tuple[JointSheet, ...], *, unit: str, paper: Paper, methods: tuple[str, ...] = ()
) -> Section:
    """Marking out, one part after another; a sheet that fits under one before stands there.

    Parameters
    ----------
    sheets
        Parts with joints.
    unit
        Unit of the sizes.
    paper
        Paper to print on.
    methods
        How the joints are cut, where that stands once for all sheets.

    Returns
    -------
    Section
        The sheets.
    """
    height = paper.text_mm[1]
    columns = (
        Column(title="", strong=True),
        Column(title="Joint", share=1.4),
        Column(title="Face", share=0.7),
        Column(title=f"From end, {unit}", align=Align.RIGHT),
        Column(title="From face", align=Align.RIGHT),
        Column(title="Long × wide", align=Align.RIGHT),
        Column(title="Deep", align=Align.RIGHT),
        Column(title="Fit"),
        Column(title="Set-up"),
    )
    placed = [_placed(sheet, paper=paper, first=i == 0) for i, sheet in enumerate(sheets)]
    blocks: list[Block] = []
    for number, page in enumerate(_pages(placed, height_mm=height)):
        if number:
            blocks.append(NewPage())
        blocks += [block for one in page for block in _blocks(one, columns)]
    if methods:
        blocks += [Heading(text="How the joints are cut"), Bullets(points=methods)]
    lead = (
        "Mark out from the end and the face named, as the part stands in the piece. Figures go to "
        f"the middle of each joint, in {_UNITS.get(unit, unit)}."
    )
    return Section(title="Marking out", lead=lead, blocks=tuple(blocks))


def connectors_section(rows: tuple[ConnectorRow, ...], *, notes: tuple[str, ...] = ()) -> Section:
    """Loose tenons, pins, clips and screws.

    Parameters
    ----------
    rows
        One line for each size.
    notes
        Sentences beneath.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="Kind", share=1.0, strong=True),
        Column(title="Qty", align=Align.RIGHT),
        Column(title="Size", share=1.3),
        Column(title="Drill", share=0.8),
        Column(title="For", share=1.1),
        Column(title="Note", share=2.4),
    )
    lines = tuple(Row(cells=(r.kind, str(r.count), r.size, r.drill, r.where, r.note)) for r in rows)
    blocks: list[Block] = [Table(columns=columns, rows=lines, ticks=True)]
    blocks += [Paragraph(text=note) for note in notes]
    return Section(
        title="Loose parts",
        lead="To have in hand before the first mortise is cut.",
        blocks=(Together(blocks=tuple(blocks)),),
        runs_on=True,
    )


def sections_section(sections: tuple[JointSection, ...], *, paper: Paper) -> Section:
    """What hides in the joints.

    Parameters
    ----------
    sections
        At least one.
    paper
        Paper to print on.

    Returns
    -------
    Section
        The sheet.
    """
    return Section(
        title="Sections through joints",
        lead="Cut open where they hide, one of each kind; what is loose in them is not hatched lengthwise.",
        blocks=tuple(
            Figure(sheet=draw_sections(sections[i : i + ACROSS], room_mm=paper.text_mm[0]))
            for i in range(0, len(sections), ACROSS)
        ),
        runs_on=True,
    )
