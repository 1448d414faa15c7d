"""Sheets for the rough wood: what to cut, from which board, in how many layers and strips."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.papers.board_picture import BoardPicture, board_scale, draw_board
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
    Row,
    Section,
    Table,
    Together,
)

__all__ = [
    "BoardSheet",
    "ChalkRow",
    "LayerRow",
    "RoughRow",
    "StripRow",
    "asking_section",
    "boards_section",
    "layers_section",
    "rough_section",
]


MOST_CUTS = 24
"""The list of a board with more cuts may run over a page."""

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
class ChalkRow:
    """One cut on a board.

    Parameters
    ----------
    where
        Distance and what it is measured from, in words.
    leaves
        Names of the pieces left.
    """

    order: str
    cut: str
    where: str
    leaves: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSheet:
    """One board: its picture and its cuts in order."""

    picture: BoardPicture
    cuts: tuple[ChalkRow, ...]
    used: str = ""


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
    boards: tuple[BoardSheet, ...],
    *,
    paper: Paper,
    facts: tuple[Fact, ...] = (),
    missing: tuple[str, ...] = (),
    matching: tuple[str, ...] = (),
    bench: tuple[str, ...] = (),
) -> Section:
    """Boards as pictures, each with its chalk list.

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
    scale = board_scale((b.picture for b in boards), room_mm=width)
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
    columns = (
        Column(title="Cut", strong=True),
        Column(title="Saw"),
        Column(title="Where", share=1.2),
        Column(title="Leaves", share=1.6),
    )
    for board in boards:
        picture = Figure(sheet=draw_board(board.picture, room_mm=width, scale=scale))
        rows = tuple(Row(cells=(c.order, c.cut, c.where, c.leaves)) for c in board.cuts)
        cuts = Table(columns=columns, rows=rows, ticks=True, small=True)
        blocks += [Together(blocks=(picture, cuts))] if len(rows) < MOST_CUTS else [picture, cuts]
    lead = (
        f"Chalk the names, then cut by the numbers. Drawn with {scale.note}. Figures under a board run "
        "from its own left end; the list measures from the piece left in your hands."
    )
    return Section(title="Boards", lead=lead, blocks=tuple(blocks))


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
