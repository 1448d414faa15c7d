"""Every drawing of a plan by name: views, the piece apart, worked parts, boards."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.papers.boards import board_scale, draw_board
from scantling.papers.drawing import Sheet
from scantling.papers.drawing.frame import TitleBlock, framed_sheets
from scantling.papers.marking.joint_section import ACROSS, draw_sections
from scantling.papers.marking.part_sheet import draw_part
from scantling.papers.marking.piece_views import draw_picture, draw_views
from scantling.papers.packet import Paper
from scantling.papers.packet.pages import compile_pages
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import joint_sheets, marked_parts
from scantling.papers.pages.part_pages import group_parts, numbers_of
from scantling.papers.pages.section_pages import joint_sections
from scantling.papers.pages.timber_pages import board_pictures
from scantling.papers.pages.view_pages import apart_picture, hung_parts, three_views
from scantling.papers.sheets.show import names_of
from scantling.papers.templates.story_stick import LONGEST_MM, stick_of, stick_templates
from scantling.papers.templates.template_sheets import template_sheets
from scantling.papers.words.joint_naming import words_of
from scantling.piece.model import Piece
from scantling.plan.cache import content_of
from scantling.plan.result import Plan
from scantling.solids.exact import exact_parts
from scantling.solids.explode import explode
from scantling.solids.mesh import PartMesh
from scantling.solids.shape import PartShape

__all__ = ["DrawingSource", "NamedDrawing", "drawings_of", "drawings_pdf", "story_sticks_pdf"]

ROOM_MM = 173.0
"""Width of a drawing; both papers hold it. [mm]"""
_TALLEST_MM = 215.0
_UNIT_NAMES = {False: "millimeters", True: "inches"}


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingSource:
    """What drawings are made from: the plan, its piece, and the parts with their joints cut."""

    plan: Plan
    piece: Piece
    shapes: Mapping[str, PartShape]
    meshes: Mapping[str, PartMesh]


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedDrawing:
    """One drawing.

    Parameters
    ----------
    name
        For a file: ``views``, ``part leg_fl``, ``board C1``.
    title
        Over it.
    """

    name: str
    title: str
    sheet: Sheet


def drawings_of(source: DrawingSource) -> tuple[NamedDrawing, ...]:
    """Every drawing of a plan.

    Parameters
    ----------
    source
        What they are made from.

    Returns
    -------
    tuple of NamedDrawing
        The whole piece first, then parts, then boards; lengths in the unit of the plan.
    """
    figures = Figures(style=source.plan.style, currency=source.plan.pricing.currency)
    with words_of(source.plan):
        return (
            *_whole(source, figures),
            *_sections(source, figures),
            *_parts(source, figures),
            *_boards(source, figures),
        )


def drawings_pdf(source: DrawingSource, *, paper: Paper = Paper.A4) -> bytes:
    """Every drawing on sheets with a border and a title block.

    Parameters
    ----------
    source
        What they are made from.
    paper
        Paper to print on.

    Returns
    -------
    bytes
        PDF; equal plans give equal bytes.
    """
    plan = source.plan
    block = TitleBlock(
        title=plan.title,
        number=f"plan {content_of(plan)[:6]}",
        unit=_unit_words(plan),
        size_mm=paper.size_mm,
    )
    drawings = [(drawing.title, drawing.sheet) for drawing in drawings_of(source)]
    return compile_pages(framed_sheets(drawings, block), title=plan.title)


def _unit_words(plan: Plan) -> str:
    """Units of the figures, the one that leads first."""
    names = [_UNIT_NAMES[style.inch] for style in plan.style.styles]
    return names[0] + "".join(f", the same in {name} in square brackets" for name in names[1:])


def _whole(source: DrawingSource, figures: Figures) -> tuple[NamedDrawing, ...]:
    bodies = exact_parts(source.shapes)
    hung = hung_parts(source.piece, source.meshes, source.plan.joints)
    views = three_views(source.piece, source.shapes, bodies, figures=figures, hung=hung)
    apart = apart_picture(
        source.plan.title,
        source.shapes,
        bodies,
        offsets_mm=explode(source.piece.parts, source.meshes, source.plan.joints).offsets_mm,
        numbers=numbers_of(group_parts(source.plan.parts)),
    )
    return (
        NamedDrawing(
            name="views", title="Views", sheet=draw_views(views, room_mm=ROOM_MM, height_mm=_TALLEST_MM)
        ),
        NamedDrawing(
            name="apart",
            title="Taken apart",
            sheet=draw_picture(apart, room_mm=ROOM_MM, height_mm=_TALLEST_MM),
        ),
    )


def _sections(source: DrawingSource, figures: Figures) -> tuple[NamedDrawing, ...]:
    opened = joint_sections(source.piece, source.plan.joints, source.meshes, figures=figures)
    rows = [opened[i : i + ACROSS] for i in range(0, len(opened), ACROSS)]
    return tuple(
        NamedDrawing(
            name=f"sections {number}",
            title="Sections through joints" if number == 1 else "Sections through joints, continued",
            sheet=draw_sections(row, room_mm=ROOM_MM),
        )
        for number, row in enumerate(rows, start=1)
    )


def story_sticks_pdf(source: DrawingSource, *, paper: Paper = Paper.A4) -> bytes | None:
    """A story stick for each worked long face of each form of part, at 1:1 over several sheets.

    Parameters
    ----------
    source
        What they are made from.
    paper
        Paper to print on.

    Returns
    -------
    bytes or None
        PDF; None where no part has a mark along it.
    """
    plan = source.plan
    figures = Figures(style=plan.style)
    sticks = []
    for group in marked_parts(source.piece, plan.joints, figures=figures):
        names = names_of(twin.part.name for twin in group.twins)
        found = (stick_of(view, name=names) for view in group.views if view.left_name)
        sticks += [stick for stick in found if stick is not None]
    if not sticks:
        return None
    title = f"{plan.title}, plan {content_of(plan)[:6]}: story sticks, lap line over lap line"
    strips = stick_templates(sticks, longest_mm=LONGEST_MM)
    return compile_pages(template_sheets(strips, paper=paper, title=title), title=plan.title)


def _parts(source: DrawingSource, figures: Figures) -> tuple[NamedDrawing, ...]:
    groups = marked_parts(source.piece, source.plan.joints, figures=figures)
    return tuple(
        NamedDrawing(
            name=f"part {sheet.drawing.name}",
            title=sheet.title,
            sheet=draw_part(sheet.drawing, room_mm=ROOM_MM, height_mm=_TALLEST_MM),
        )
        for sheet in joint_sheets(groups, figures=figures)
    )


def _boards(source: DrawingSource, figures: Figures) -> tuple[NamedDrawing, ...]:
    pictures = board_pictures(source.plan, figures=figures)
    scale = board_scale(pictures, room_mm=ROOM_MM)
    return tuple(
        NamedDrawing(
            name=f"board {picture.name}",
            title=f"Board {picture.name}, {scale.note}",
            sheet=draw_board(picture, room_mm=ROOM_MM, scale=scale),
        )
        for picture in pictures
    )
