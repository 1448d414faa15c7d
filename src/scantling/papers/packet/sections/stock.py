"""Sheets for the rough wood: what to cut, from which board, in how many layers and strips."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from scantling.papers.boards import BoardPicture, board_scale, draw_board
from scantling.papers.drawing import Sheet
from scantling.papers.packet.blocks import (
    Align,
    Block,
    Bullets,
    Caution,
    Column,
    Fact,
    Facts,
    Figure,
    Heading,
    Paper,
    Paragraph,
    Row,
    Section,
    Table,
    Together,
)
from scantling.papers.words.chalk_list import CHALK_NOTE, ChalkStand

__all__ = [
    "LayerRow",
    "RoughRow",
    "StripRow",
    "asking_section",
    "boards_section",
    "chalk_section",
    "layers_section",
    "rough_section",
    "sheets_section",
]


MOST_TOGETHER = 16
"""Rows and notes that are kept on one page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoughRow:
    """One blank of the rough list; sizes as shown, without unit."""

    name: str
    count: int
    stock: str
    rough_length: str
    rough_width: str
    rough_thickness: str
    milled_width: str
    milled_thickness: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerRow:
    """A part glued up through its thickness."""

    part: str
    count: int
    layers: str
    stock: str
    layer_thickness: str
    glued_thickness: str
    finished: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class StripRow:
    """A panel glued up across its width."""

    part: str
    strips: str
    widths: str
    stages: str
    trim: str
    note: str = ""


def rough_section(rows: tuple[RoughRow, ...], *, unit: str, allowances: tuple[str, ...]) -> Section:
    """The rough list and why the wood is left on.

    Parameters
    ----------
    rows
        Blanks.
    unit
        Unit of the sizes.
    allowances
        One sentence for each allowance in force.

    Returns
    -------
    Section
        The sheet.
    """
    columns = (
        Column(title="Blank", share=2.0, strong=True),
        Column(title="Qty", align=Align.RIGHT),
        Column(title="Stock", share=0.8),
        Column(title=f"Rough length, {unit}", align=Align.RIGHT),
        Column(title="Rough width", align=Align.RIGHT),
        Column(title="Rough thick", align=Align.RIGHT),
        Column(title="Mill width to", align=Align.RIGHT),
        Column(title="Mill thick to", align=Align.RIGHT),
    )
    lines: list[Row] = []
    for r in rows:
        name = f"{r.name}, {r.note}" if r.note else r.name
        cells = (r.rough_length, r.rough_width, r.rough_thickness, r.milled_width, r.milled_thickness)
        lines.append(Row(cells=(name, str(r.count), r.stock, *cells)))
    blocks: tuple[Block, ...] = (Table(columns=columns, rows=tuple(lines), ticks=True),)
    if allowances:
        blocks = (*blocks, Heading(text="What is left on, and for what"), Bullets(points=allowances))
    return Section(
        title="Rough list",
        lead="Blanks to cut from the boards, with this shop's allowances in them.",
        blocks=blocks,
    )


def boards_section(
    boards: tuple[BoardPicture, ...],
    *,
    paper: Paper,
    facts: tuple[Fact, ...] = (),
    missing: tuple[str, ...] = (),
    matching: tuple[str, ...] = (),
    bench: tuple[str, ...] = (),
) -> Section:
    """Boards as pictures to chalk from.

    Parameters
    ----------
    boards
        Boards that are cut.
    paper
        Paper to print on.
    facts
        Boards, waste, price, bound.
    missing
        Blanks no board had room for.
    matching
        What parts that belong together ask for, a sentence each.
    bench
        What is cut already and decided at the bench, a sentence each.

    Returns
    -------
    Section
        The sheet.
    """
    width = paper.text_mm[0]
    scale = board_scale(boards, room_mm=width)
    blocks: list[Block] = []
    if facts:
        blocks.append(Facts(facts=facts, columns=4))
    if missing:
        blocks.append(
            Caution(title="Not enough wood", text="No board had room for: " + ", ".join(missing) + ".")
        )
    for title, points in (("From the bench", bench), ("Matching", matching)):
        if points:
            blocks.append(Together(blocks=(Heading(text=title), Bullets(points=points))))
    blocks += [Figure(sheet=draw_board(board, room_mm=width, scale=scale)) for board in boards]
    lead = (
        f"Chalk names and lines from these pictures, drawn with {scale.note}. Figures under a board run "
        "from its left end, a figure on a rip from the straightened edge under it; rings number the cuts of "
        "the chalk list. Grain is drawn where the rack names the rings, elsewhere a few straight lines."
    )
    return Section(title="Boards", lead=lead, blocks=tuple(blocks))


def chalk_section(stands: tuple[ChalkStand, ...], *, unit: str) -> Section:
    """Every cut of the rough stage in order.

    Parameters
    ----------
    stands
        One stand at a saw after the other.
    unit
        Unit of the settings.
    """
    columns = (
        Column(title="Board", strong=True),
        Column(title="Cut", strong=True),
        Column(title="Piece", share=1.0),
        Column(title=f"Stop or fence, {unit}", align=Align.RIGHT),
        Column(title="Leaves", share=1.6),
    )
    rows: list[Row] = []
    for stand in stands:
        rows.append(Row(cells=(stand.title,), band=True))
        before = ""
        for row in stand.rows:
            name = row.board if row.board != before else ""
            before = row.board
            rows.append(Row(cells=(name, row.order, row.piece, row.setting, row.leaves)))
    return Section(
        title="Chalk list",
        lead="All cuts from the rack to rough blanks, one stand at a saw after the other, board by board.",
        blocks=(
            Table(columns=columns, rows=tuple(rows), ticks=True, small=True),
            Paragraph(text=CHALK_NOTE),
        ),
    )


def sheets_section(
    sheets: tuple[BoardPicture, ...], *, paper: Paper, missing: tuple[str, ...] = (), to_buy: str = ""
) -> Section:
    """Sheets of plywood and the like as pictures to chalk from.

    Parameters
    ----------
    sheets
        Sheets that are cut.
    paper
        Paper to print on.
    missing
        Parts no sheet had room for.
    to_buy
        What is said of the sheets still to be bought.

    Returns
    -------
    Section
        The sheet of paper.
    """
    drawn = boards_section(sheets, paper=paper)
    told: list[Block] = []
    if missing:
        told.append(Caution(title="Not enough sheets", text=f"No sheet had room for: {', '.join(missing)}."))
    if to_buy:
        told.append(Paragraph(text=f"Sheets called 'new' are to be bought: {to_buy}"))
    lead = (
        "Chalk names and lines from these pictures; the grain of the face runs along them. Figures under a "
        "sheet run from its left end, a figure on a rip from the straightened edge under it; rings number "
        "the cuts of the chalk list."
    )
    return replace(drawn, title="Sheets", lead=lead, blocks=(*told, *drawn.blocks))


def asking_section(pictures: tuple[Sheet, ...], points: tuple[str, ...]) -> Section:
    """How much wood to ask for, where there is no rack.

    Parameters
    ----------
    pictures
        Curves, one a wood and thickness.
    points
        What they say and assume, a sentence each.
    """
    figures = tuple(Figure(sheet=picture) for picture in pictures)
    return Section(
        title="How much to ask for",
        lead="The farther right, the surer. Boards come as they come: no amount is certain.",
        blocks=(*figures, Bullets(points=points)),
        runs_on=True,
    )


def layers_section(layers: tuple[LayerRow, ...], strips: tuple[StripRow, ...], *, unit: str) -> Section:
    """Laminations and strips.

    Parameters
    ----------
    layers
        Parts of several layers.
    strips
        Panels of several strips.
    unit
        Unit of the sizes.

    Returns
    -------
    Section
        The sheet.
    """
    blocks: list[Block] = []
    if layers:
        columns = (
            Column(title="Part", share=1.2, strong=True),
            Column(title="Qty", align=Align.RIGHT),
            Column(title="Layers", align=Align.RIGHT),
            Column(title="From"),
            Column(title=f"Mill each to, {unit}", align=Align.RIGHT),
            Column(title="Glued up", align=Align.RIGHT),
            Column(title="Finished", align=Align.RIGHT),
        )
        rows = tuple(
            Row(
                cells=(
                    r.part,
                    str(r.count),
                    r.layers,
                    r.stock,
                    r.layer_thickness,
                    r.glued_thickness,
                    r.finished,
                )
            )
            for r in layers
        )
        table = Table(columns=columns, rows=rows)
        blocks += _with_remarks("Layers through the thickness", table, ((r.part, r.note) for r in layers))
    if strips:
        strip_columns = (
            Column(title="Panel", share=1.0, strong=True),
            Column(title="Strips", align=Align.RIGHT),
            Column(title=f"Widths once jointed, {unit}", share=1.4),
            Column(title="Glue-up", share=1.2),
            Column(title="Trim", align=Align.RIGHT),
        )
        rows = tuple(Row(cells=(r.part, r.strips, r.widths, r.stages, r.trim)) for r in strips)
        table = Table(columns=strip_columns, rows=rows)
        blocks += _with_remarks("Strips across the width", table, ((r.part, r.note) for r in strips))
    return Section(
        title="Layers and strips",
        lead="What is glued up before it becomes a part.",
        blocks=tuple(blocks),
        runs_on=True,
    )


def _with_remarks(title: str, table: Table, notes: Iterable[tuple[str, str]]) -> list[Block]:
    """A table with its notes under it: a sentence in a narrow column makes rows that do not fit a page.

    Parts with the same note share a point. A short table stays on one page with all its notes.
    """
    said: dict[str, list[str]] = {}
    for part, note in notes:
        if note:
            said.setdefault(note, []).append(part)
    points = tuple(f"{', '.join(parts)}: {note}" for note, parts in said.items())
    blocks: list[Block] = [Heading(text=title), table]
    if points:
        blocks.append(Bullets(points=points))
    return [Together(blocks=tuple(blocks))] if len(table.rows) + len(points) <= MOST_TOGETHER else blocks
