"""Marking-out sheets, part by part as seen on the face in hand, and the loose parts the joints take."""

from __future__ import annotations

from dataclasses import dataclass

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
)
from scantling.papers.part_sheet import PartDrawing, draw_part

__all__ = ["ConnectorRow", "JointSheet", "MarkRow", "connectors_section", "joints_section"]


_UNITS = {"mm": "millimeters", "in": "inches"}


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


def _room_mm(sheet: JointSheet, *, first: bool, page_mm: float) -> float:
    """Height left for the drawing when the list and the words are to stand on the same page. [mm]"""
    lines = sum(5.6 * -(-len(text) // 88) for text in (*sheet.steps, *(words for _, words in sheet.setups)))
    rows = sum(6.4 if len(mark.what) < 34 else 10.2 for mark in sheet.marks)
    return page_mm - (68.0 if first else 36.0) - rows - lines


def joints_section(sheets: tuple[JointSheet, ...], *, unit: str, paper: Paper) -> Section:
    """Marking out, one part after another.

    Parameters
    ----------
    sheets
        Parts with joints.
    unit
        Unit of the sizes.
    paper
        Paper to print on.

    Returns
    -------
    Section
        The sheets.
    """
    width, height = paper.text_mm
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
    blocks: list[Block] = []
    for i, sheet in enumerate(sheets):
        if i:
            blocks.append(NewPage())
        rows = tuple(
            Row(cells=(m.tag, m.what, m.face, m.from_end, m.from_face, m.size, m.depth, m.fit, m.setup))
            for m in sheet.marks
        )
        blocks += [
            Heading(text=sheet.title, note=sheet.parts),
            Figure(
                sheet=draw_part(
                    sheet.drawing, room_mm=width, height_mm=_room_mm(sheet, first=i == 0, page_mm=height)
                )
            ),
            Table(columns=columns, rows=rows, ticks=True, small=True),
        ]
        if sheet.setups:
            words = tuple(f"{code}: {setup}." for code, setup in sheet.setups)
            blocks.append(Bullets(points=words))
        if sheet.steps:
            blocks.append(Bullets(points=sheet.steps))
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
        Column(title="Kind", share=1.2, strong=True),
        Column(title="Qty", align=Align.RIGHT),
        Column(title="Size", share=1.3),
        Column(title="Drill", share=1.0),
        Column(title="For", share=1.5),
        Column(title="Note", share=1.2),
    )
    lines = tuple(Row(cells=(r.kind, str(r.count), r.size, r.drill, r.where, r.note)) for r in rows)
    blocks: list[Block] = [Table(columns=columns, rows=lines, ticks=True)]
    blocks += [Paragraph(text=note) for note in notes]
    return Section(
        title="Loose parts",
        lead="To have in hand before the first mortise is cut.",
        blocks=tuple(blocks),
    )
