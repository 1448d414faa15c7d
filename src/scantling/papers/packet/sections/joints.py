"""Marking-out sheets, part by part as seen on the face in hand, and the loose parts the joints take."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from scantling.papers.drawing import Sheet as Drawing
from scantling.papers.marking.joint_section import ACROSS, JointSection, draw_sections
from scantling.papers.marking.part_sheet import PartDrawing, draw_part
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
from scantling.papers.packet.set_height import heading_height_mm, points_height_mm, table_height_mm

__all__ = [
    "ConnectorRow",
    "JointSheet",
    "MarkRow",
    "connectors_section",
    "joints_section",
    "sections_section",
]


_UNITS = {"mm": "millimeters", "in": "inches"}
_LEAD_MM, _APART_MM = 30.0, 7.0
"""Title of the chapter; air over the heading of a sheet that stands under another. [mm]"""
_UNDER_HEAD_MM, _GAP_MM, _UNDER_TABLE_MM = 3.0, 4.0, 5.0
"""Air under a sheet's heading, under a drawing and between points, and under a list. [mm]"""
_SPARE_MM = 3.0
"""Room for a line of a list that breaks sooner than reckoned. [mm]"""
_LEAST_SHARE = 0.5
"""Share of a page below which no drawing is put under another list: it would be drawn too small. [1]"""
_BEFORE = {1: "The list to the sheet before", 2: "The list to its drawing, two sheets before"}
"""What stands behind the title of a list alone."""
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


def _words_mm(sheet: JointSheet, *, columns: tuple[Column, ...], room_mm: float) -> float:
    """Height of the list and the words of a sheet. [mm]"""
    listed = _listed(sheet, columns)
    tables = [table_height_mm(each, room_mm=room_mm) for each in listed if isinstance(each, Table)]
    lists = [points_height_mm(each, room_mm=room_mm) for each in listed if isinstance(each, Bullets)]
    air = _UNDER_TABLE_MM + _GAP_MM * (len(lists) - 1) if lists else 0.0
    return sum(tables) + air + sum(lists)


def _several_places(sheet: JointSheet) -> bool:
    return any(", " in mark.from_end for mark in sheet.marks)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    """A sheet as drawn, or its list alone where both do not go on one page, and how much of a page it takes.

    Parameters
    ----------
    drawing
        None for a list whose drawing is on the page before.
    listed
        Whether the list stands under the drawing; else it is what comes next.
    tall_mm
        Height. [mm]
    before
        How many sheets before a list alone its drawing is.
    """

    sheet: JointSheet
    drawing: Drawing | None
    listed: bool = True
    tall_mm: float
    before: int = 1


def _placed(
    sheet: JointSheet, *, columns: tuple[Column, ...], paper: Paper, first: bool
) -> Iterator[_Placed]:
    width, height = paper.text_mm
    words = _words_mm(sheet, columns=columns, room_mm=width)
    headed = _UNDER_HEAD_MM + heading_height_mm(Heading(text=sheet.title, note=sheet.parts), room_mm=width)
    whole = height - _SPARE_MM - (_LEAD_MM if first else 0.0)
    drawing = draw_part(sheet.drawing, room_mm=width, height_mm=whole - headed - _GAP_MM - words)
    tall = headed + drawing.height_mm + _GAP_MM + words
    if tall <= whole:
        yield _Placed(sheet=sheet, drawing=drawing, tall_mm=tall)
        return
    drawing = draw_part(sheet.drawing, room_mm=width, height_mm=whole - headed)
    yield _Placed(sheet=sheet, drawing=drawing, listed=False, tall_mm=whole)
    yield _Placed(sheet=sheet, drawing=None, tall_mm=headed + words)


def _pages(sheets: Iterable[_Placed], *, paper: Paper) -> Iterator[list[_Placed]]:
    """Sheets page by page; room that is left goes to one of the next few that fits it.

    Under a list alone it goes else to the next drawing alone, where that fits; or that drawing goes before
    it, and both lists share the page behind.
    """
    height_mm = paper.text_mm[1]
    waiting = list(sheets)
    used = _LEAD_MM
    while waiting:
        page = [waiting.pop(0)]
        used += page[0].tall_mm
        while page[0].listed and (
            fitting := _fitting(waiting[:_AHEAD], room_mm=height_mm - _SPARE_MM - used - _APART_MM)
        ):
            waiting.remove(fitting)
            page.append(fitting)
            used += _APART_MM + fitting.tall_mm
        room = height_mm - _SPARE_MM - used - _APART_MM
        if page[-1].listed and waiting and (under := _under(waiting[0], room_mm=room, paper=paper)):
            waiting.pop(0)
            page.append(under)
        elif page[-1].drawing is None and _both_lists(waiting, room_mm=room):
            drawing, listed = waiting.pop(0), waiting.pop(0)
            yield [drawing]
            page = [*page[:-1], replace(page[-1], before=2), listed]
        yield page
        used = 0.0


def _both_lists(waiting: Sequence[_Placed], *, room_mm: float) -> bool:
    """Whether what comes next is a drawing alone whose list goes under the one before it. [mm]"""
    return len(waiting) > 1 and not waiting[0].listed and waiting[1].tall_mm <= room_mm


def _under(placed: _Placed, *, room_mm: float, paper: Paper) -> _Placed | None:
    """A drawing whose list comes next, drawn into the rest of a page; None where that is too little. [mm]"""
    if placed.listed or room_mm < _LEAST_SHARE * paper.text_mm[1]:
        return None
    sheet, width = placed.sheet, paper.text_mm[0]
    headed = _UNDER_HEAD_MM + heading_height_mm(Heading(text=sheet.title, note=sheet.parts), room_mm=width)
    drawing = draw_part(sheet.drawing, room_mm=width, height_mm=room_mm - headed)
    tall = headed + drawing.height_mm
    return replace(placed, drawing=drawing, tall_mm=tall) if tall <= room_mm else None


def _fitting(sheets: Iterable[_Placed], *, room_mm: float) -> _Placed | None:
    """The first that goes into the room with its drawing and its list. [mm]"""
    whole = (one for one in sheets if one.listed and one.drawing)
    return next((one for one in whole if one.tall_mm <= room_mm), None)


def _listed(sheet: JointSheet, columns: tuple[Column, ...]) -> tuple[Table | Bullets, ...]:
    """The list of a sheet, where anything is to be marked, and its words."""
    rows = tuple(
        Row(cells=(m.tag, m.what, m.face, m.from_end, m.from_face, m.size, m.depth, m.fit, m.setup))
        for m in sheet.marks
    )
    table = Table(columns=_columns_of(sheet, columns), rows=rows, ticks=True, small=True)
    listed = (table,) if rows else ()
    points = (_setup_words(sheet.setups) if sheet.setups else (), sheet.steps)
    return (*listed, *(Bullets(points=each) for each in points if each))


def _blocks(placed: _Placed, columns: tuple[Column, ...]) -> Iterator[Block]:
    sheet = placed.sheet
    if placed.drawing is None:
        yield Heading(text=sheet.title, note=_BEFORE[placed.before])
    else:
        yield Heading(text=sheet.title, note=sheet.parts)
        yield Figure(sheet=placed.drawing)
    if placed.listed:
        yield from _listed(sheet, columns)


def _columns_of(sheet: JointSheet, columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """The list's columns; the places of a row of holes go on in a second line, so that words keep room."""
    if not _several_places(sheet):
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
    placed = [
        one
        for i, sheet in enumerate(sheets)
        for one in _placed(sheet, columns=columns, paper=paper, first=i == 0)
    ]
    blocks: list[Block] = []
    for number, page in enumerate(_pages(placed, paper=paper)):
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
