"""A rough board as it lies on the trestles: parts chalked on it, flaws, cuts in order, what is left over."""

from __future__ import annotations

import math

from scantling.papers.boards.cuts import (
    RING_MM,
    Tag,
    cut_lines,
    draw_running,
    draw_tag,
    running_depth_mm,
)
from scantling.papers.boards.figure import figure_lines
from scantling.papers.boards.lettering import key_lines, lettered, part_names
from scantling.papers.boards.picture import BoardFlaw, BoardPicture
from scantling.papers.boards.place import LEFT_MM, BoardPlace, BoardScale, board_scale
from scantling.papers.drawing import (
    Anchor,
    Fill,
    Hatch,
    Item,
    Line,
    Point,
    Polygon,
    Polyline,
    Sheet,
    Stroke,
    Text,
    Weight,
    backing,
    draw_grain_arrow,
    simplified,
    text_box,
    text_width_mm,
)

__all__ = ["BoardScale", "board_corner", "board_scale", "draw_board"]

_HEAD = 6.4
_KEY = 3.0
_FLAW = 2.8
_FINEST_MM = 0.05
"""A line of the figure is drawn this near. [mm on paper]"""


def _figure(picture: BoardPicture, place: BoardPlace) -> list[Item]:
    lines = (tuple(place.at(*point) for point in line) for line in figure_lines(picture))
    return [Polyline(simplified(line, within_mm=_FINEST_MM), Stroke.GRAIN) for line in lines]


def _checks(picture: BoardPicture, place: BoardPlace) -> list[Item]:
    """Checks drawn in the ends that are trimmed, as long as what is lost."""
    items: list[Item] = []
    for trim, end, way in ((picture.trims_mm[0], 0.0, 1.0), (picture.trims_mm[1], picture.length_mm, -1.0)):
        width = picture.width_at_mm(end)
        for share, length in ((0.18, 0.7), (0.43, 1.0), (0.71, 0.55), (0.88, 0.9)) if trim > 0.0 else ():
            y = share * width
            start, tip = place.at(end, y), place.at(end + way * trim * length, y)
            items.append(Line(start, tip, Stroke.FINE))
    return items


def _flaws(picture: BoardPicture, place: BoardPlace, cuts: list[Tag]) -> tuple[list[Item], list[Tag]]:
    """Knots and checks, and their names as tags other lettering keeps clear of; a cut may pass under one."""
    items: list[Item] = []
    tags: list[Tag] = []
    for flaw in picture.flaws:
        box = place.box(flaw.x_mm, flaw.y_mm, flaw.length_mm, flaw.width_mm)
        (x0, y0), _, (x1, y1), _ = box
        cx, cy = (x0 + x1) / 2.0, (y0 + y1) / 2.0
        rx, ry = max(0.6, (x1 - x0) / 2.0), max(0.6, (y0 - y1) / 2.0)
        streak = max(rx / ry, ry / rx) > 6.0  # a split or the pith, not a knot
        if streak:
            items += [Polygon(box, Stroke.FINE, Fill.SHADE), Hatch(box, 0.9, -45.0)]
        turns = [2.0 * math.pi * i / 24.0 for i in range(24)]
        for share, fill in () if streak else ((1.0, Fill.SHADE), (0.45, Fill.INK)):
            oval = tuple((cx + share * rx * math.cos(t), cy + share * ry * math.sin(t)) for t in turns)
            items.append(Polygon(oval, Stroke.VISIBLE, fill))
        label = _flaw_name(flaw, picture, place, taken=[*cuts, *tags])
        tags.append(Tag(at=label.at, radius=0.0, order=0, figure=label))
    return items, tags


def _flaw_name(flaw: BoardFlaw, picture: BoardPicture, place: BoardPlace, *, taken: list[Tag]) -> Text:
    """The word beside, over or under a flaw or in its middle: clear of tags, on waste if it can be."""
    box = place.box(flaw.x_mm, flaw.y_mm, flaw.length_mm, flaw.width_mm)
    (left, low), (right, _), (_, high), _ = box
    cx, cy, y = (left + right) / 2.0, (low + high) / 2.0, (low + high) / 2.0 + 0.35 * _FLAW
    options = [
        Text((right + 0.8, y), flaw.kind, _FLAW, Anchor.START),
        Text((left - 0.8, y), flaw.kind, _FLAW, Anchor.END),
        Text((cx, high - 0.8), flaw.kind, _FLAW, Anchor.MIDDLE),
        Text((cx, low + _FLAW), flaw.kind, _FLAW, Anchor.MIDDLE),
        Text((cx, y), flaw.kind, _FLAW, Anchor.MIDDLE),
    ]
    cells = [place.box(o.x_mm, o.y_mm, o.length_mm, o.width_mm) for o in picture.offcuts]
    start, end = place.at(0.0, 0.0)[0], place.at(picture.length_mm, 0.0)[0]

    def faults(option: Text) -> tuple[bool, bool, bool]:
        x0, _, x1, _ = text_box(option)
        crowded = any(tag.covers(text_box(option)) for tag in taken)
        wasted = any(c[0][0] <= x0 and x1 <= c[1][0] and c[2][1] <= cy <= c[0][1] for c in cells)
        return crowded, x0 < start or x1 > end, not wasted

    return min(options, key=faults)


def _offcuts(picture: BoardPicture, place: BoardPlace, tags: list[Tag]) -> list[Item]:
    """What is left: kept pieces with their names, waste hatched closely."""
    items: list[Item] = []
    for offcut in picture.offcuts:
        box = place.box(offcut.x_mm, offcut.y_mm, offcut.length_mm, offcut.width_mm)
        if not offcut.name:
            items.append(Hatch(box, 1.3, 45.0))
        items.append(Polygon(box, Stroke.FINE))
        name, size = offcut.name, offcut.size
        sized = ((f"{name}  {size}",), (name, size)) if size else ()
        options = (*sized, (name,), ("keep", name.removeprefix("keep ")))
        told = (lettered(box, lines, tags, bold=0, sizes=(2.8, 2.5)) for lines in options) if name else ()
        for label in next(filter(None, told), ()):
            items += [backing(label, margin_mm=0.4), label]
    return items


def _running(picture: BoardPicture, place: BoardPlace) -> list[tuple[float, str]]:
    """Where crosscuts are chalked: each distance from the left end once."""
    marks = {cut.running: place.at(cut.x_mm, 0.0)[0] for cut in picture.cuts if cut.crosswise and cut.running}
    return sorted((x, text) for text, x in marks.items())


def _head(picture: BoardPicture, room_mm: float) -> list[Item]:
    name = text_width_mm(picture.name, 4.6, weight=Weight.BOLD)
    return [
        Text((0.0, 4.2), picture.name, 4.6, weight=Weight.BOLD),
        Text((name + 3.0, 4.2), picture.about, 3.4),
        *draw_grain_arrow((room_mm - 10.0, 3.2), 18.0),
    ]


def _stretches(picture: BoardPicture, place: BoardPlace, tags: list[Tag]) -> list[Item]:
    """Names of the pieces the first crosscuts leave, over the board."""
    items: list[Item] = []
    for stretch in picture.stretches:
        x, y = place.at(stretch.x_mm, max(picture.width_mm, picture.far_width_mm))
        tag = Text((x + RING_MM + 1.6, y - 1.2), stretch.name, 2.8, soft=True)
        if not any(t.covers((tag.at[0], y - 3.2, tag.at[0] + 4.0, y - 0.6)) for t in tags):
            items.append(tag)
    return items


def board_corner(picture: BoardPicture, scale: BoardScale) -> Point:
    """Where the lower left corner of a board lies on its drawing. [mm]"""
    tall = max(picture.width_mm, picture.far_width_mm) / scale.across
    head = _HEAD + 3.6 * len(picture.notes)
    bottom = head + 2.0 * RING_MM + 2.0 + tall
    probe = BoardPlace((LEFT_MM, bottom), scale)
    over = min((tag.at[1] - tag.radius for tag in cut_lines(picture, probe)[1]), default=bottom - tall)
    return (LEFT_MM, bottom + max(0.0, head + 0.4 - over))  # rings that stand over others


def draw_board(picture: BoardPicture, *, room_mm: float, scale: BoardScale) -> Sheet:
    """Draw one board.

    Parameters
    ----------
    picture
        The board.
    room_mm
        Width of the drawing. [mm]
    scale
        Scale for all boards of the packet.

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    corner = board_corner(picture, scale)
    bottom, place = corner[1], BoardPlace(corner, scale)
    outline = (
        place.at(0.0, 0.0),
        place.at(picture.length_mm, 0.0),
        place.at(picture.length_mm, picture.far_width_mm),
        place.at(0.0, picture.width_mm),
    )
    lines, tags = cut_lines(picture, place)
    flaws, told = _flaws(picture, place, tags)
    names, key = part_names(picture, place, [*tags, *told])
    marks = _running(picture, place)
    blanks = (place.box(p.x_mm, p.y_mm, p.length_mm, p.width_mm) for p in picture.parts)
    items: list[Item] = [
        *_head(picture, room_mm),
        *(Text((0.0, 8.2 + 3.6 * i), note, 3.0) for i, note in enumerate(picture.notes)),
        Polygon(outline, Stroke.NONE, Fill.TINT),
        *(Polygon(box, Stroke.VISIBLE, Fill.PAPER) for box in blanks),
        *_figure(picture, place),
        *_offcuts(picture, place, [*tags, *told]),
        *_checks(picture, place),
        *flaws,
        Polygon(outline, Stroke.OUTLINE),
        *lines,
        *(
            item
            for name in told
            if name.figure
            for item in (backing(name.figure, margin_mm=0.3), name.figure)
        ),
        *names,
        *_stretches(picture, place, tags),
        *(item for tag in tags for item in draw_tag(tag)),
        *draw_running(marks, zero_mm=LEFT_MM, edge_mm=bottom, limit_mm=room_mm),
    ]
    height = bottom + running_depth_mm(marks, limit_mm=room_mm)
    for line in key_lines(key, room_mm=room_mm - LEFT_MM, size_mm=_KEY):
        height += 4.2
        items.append(Text((LEFT_MM, height - 1.0), line, _KEY))
    return Sheet(width_mm=room_mm, height_mm=height, items=tuple(items), title=f"Board {picture.name}")
