"""Shapes of a part on its sheet: arrises taken off, arches, cut-outs and turned lengths, with their sizes.

What shows in profile is told there: rise and radius of an arc, height and corners of a cut-out, the diameter
of what is turned. An arris taken off shows on a face only as a line; it is told in a section across the part,
where its corner is seen.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from scantling.papers.drawing import Box, Point
from scantling.papers.marking.face_view import Distance, FaceView, ShapeNote
from scantling.papers.pages.figures import Figures
from scantling.piece.geometry import Vec
from scantling.piece.model import End, Part
from scantling.piece.shaping import ARCHED, HOLLOWED, Shaping, ShapingKind, arc_radius_mm

__all__ = ["profile_axes", "section_views", "shaped_end", "shaped_view", "stopped_faces"]

_ARRISES = frozenset({ShapingKind.CHAMFER, ShapingKind.ROUND_OVER})
_THROUGH = ARCHED | {ShapingKind.CUT_OUT}
"""What is carried through the part from one face."""
_CHORD_MM = 6.0
"""Length of the straight pieces an arc is drawn of. [mm]"""
_TURNS = 96
_SAME_MM = 1e-6
_BEYOND_MM = 4.0
"""How far the axis of what is turned is drawn past it. [mm]"""


def profile_axes(part: Part) -> tuple[int, ...]:
    """Axes of the faces in which arcs and turned lengths show in profile: 1 is width, 2 is thickness."""
    found: dict[int, None] = {}
    for shaping in part.shaping:
        if shaping.kind in _THROUGH:
            found[2 if shaping.side[0] else 1] = None
        elif shaping.kind is ShapingKind.TURNED and not found:
            found[2] = None
    return tuple(found)


def stopped_faces(part: Part) -> tuple[tuple[tuple[int, int], tuple[int, int]], ...]:
    """Of each arris taken off only part of the way, the two faces it stops on: axis and sign of each."""
    return tuple(
        ((2, shaping.side[1]), (1, shaping.side[0]))
        for shaping in part.shaping
        if shaping.kind in _ARRISES and _inside(part, shaping)
    )


def shaped_view(view: FaceView, part: Part, *, axis: int, sign: int, up: Vec, figures: Figures) -> FaceView:
    """A long face with what is shaped on it, drawn on its straight square outline.

    Parameters
    ----------
    view
        The face, the start at the left.
    part
        The part.
    axis, sign
        Which face: 1 is width, 2 is thickness, and which of the two.
    up
        What is up on the drawing, in u, v, w.
    figures
        How lengths are written.
    """
    for shaping in part.shaping:
        if shaping.kind in _ARRISES:
            if shaping.side[axis - 1] != sign:
                continue
            view = _with_arris(view, part, shaping, up=up)
        elif shaping.kind is ShapingKind.TURNED:
            view = _with_turned(view, part, shaping, high=_high(part, axis), figures=figures)
        elif shaping.side[axis - 1] == 0:
            view = _with_arc(view, part, shaping, up=up, high=_high(part, axis), figures=figures)
        elif shaping.side[axis - 1] == sign and shaping.kind is not ShapingKind.CROWN:
            view = _across(view, part, shaping, high=_high(part, axis))
        else:
            continue
        view = _with_lengths(view, part, shaping, figures)
    return view


def _high(part: Part, axis: int) -> float:
    return part.thickness_mm if axis == 1 else part.width_mm


def _reach(part: Part, shaping: Shaping) -> tuple[float, float]:
    """From where to where along the drawing. [mm]"""
    return shaping.start_mm - part.start_mm, shaping.end_mm - part.start_mm


def _inside(part: Part, shaping: Shaping) -> list[float]:
    """Where it begins and ends within the part, its ends left out. [mm]"""
    return [x for x in _reach(part, shaping) if 0.05 < x < part.length_mm - 0.05]


def _with_lengths(view: FaceView, part: Part, shaping: Shaping, figures: Figures) -> FaceView:
    """From the ends to where it begins and ends; and how long it is."""
    start, end = _reach(part, shaping)
    inside = _inside(part, shaping)
    if not inside:
        return view
    stretches = [(0.0, start), (start, end), (end, part.length_mm)]
    found = list(view.lengths)
    for low, high in stretches:
        same = any(abs(d.low_mm - low) < 0.05 and abs(d.high_mm - high) < 0.05 for d in found)
        if high - low > 0.05 and not same:
            found.append(Distance(low_mm=low, high_mm=high, text=figures.bare(high - low)))
    return replace(view, lengths=tuple(found))


def _with_arris(view: FaceView, part: Part, shaping: Shaping, *, up: Vec) -> FaceView:
    """The line where it meets the face, and its ends where it stops short."""
    start, end = _reach(part, shaping)
    across = 1 if up[1] else 2
    high = part.width_mm if across == 1 else part.thickness_mm
    top = shaping.side[across - 1] * up[across] > 0
    edge, line = (high, high - shaping.size_mm) if top else (0.0, shaping.size_mm)
    drawn = (((start, line), (end, line)), *(((x, line), (x, edge)) for x in _inside(part, shaping)))
    if shaping.kind is ShapingKind.CHAMFER:
        return replace(view, visible=(*view.visible, *drawn))
    return replace(view, fine=(*view.fine, drawn[0]), visible=(*view.visible, *drawn[1:]))


def _across(view: FaceView, part: Part, shaping: Shaping, *, high: float) -> FaceView:
    lines = tuple(((x, 0.0), (x, high)) for x in _inside(part, shaping))
    return replace(view, visible=(*view.visible, *lines))


def _with_turned(view: FaceView, part: Part, shaping: Shaping, *, high: float, figures: Figures) -> FaceView:
    """Its two sides, the shoulders of the square, its axis, and its diameter."""
    start, end = _reach(part, shaping)
    low, top = (high - shaping.size_mm) / 2.0, (high + shaping.size_mm) / 2.0
    outline = _narrowed(
        view.outline, start, end, lows=[(start, low), (end, low)], highs=[(start, top), (end, top)]
    )
    shoulders = tuple(((x, low), (x, top)) for x in _inside(part, shaping))
    axis = ((start - _BEYOND_MM, high / 2.0), (end + _BEYOND_MM, high / 2.0))
    note = ShapeNote(
        x_mm=start + 0.4 * (end - start), y_mm=top, text=f"Ø{figures.fine.bare(shaping.size_mm)}"
    )
    return replace(
        view,
        outline=outline,
        visible=(*view.visible, *shoulders),
        center=(*view.center, axis),
        notes=(*view.notes, note),
    )


def _with_arc(
    view: FaceView, part: Part, shaping: Shaping, *, up: Vec, high: float, figures: Figures
) -> FaceView:
    """Its profile, its rise or depth and its radius; the chord is a length below."""
    start, end = _reach(part, shaping)
    across = 1 if up[1] else 2
    top = shaping.side[across - 1] * up[across] > 0
    arc = _profile(start, end, shaping)
    if top:
        curve = [(x, high - off) for x, off in arc]
        outline = _narrowed(view.outline, start, end, highs=curve)
    else:
        curve = list(arc)
        outline = _narrowed(view.outline, start, end, lows=curve)
    text = _profile_words(end - start, shaping, figures)
    x, y = _between(curve[(len(curve) - 1) // 2], curve[len(curve) // 2])
    return replace(view, outline=outline, notes=(*view.notes, ShapeNote(x_mm=x, y_mm=y, text=text)))


def _profile_words(chord: float, shaping: Shaping, figures: Figures) -> str:
    size = figures.fine.bare(shaping.size_mm)
    if shaping.kind is ShapingKind.CUT_OUT:
        corners = f", R{figures.fine.bare(shaping.corner_mm)}" if shaping.corner_mm else ""
        return f"{size} high{corners}"
    what = "depth" if shaping.kind is ShapingKind.SCOOP else "rise"
    return f"{what} {size}, R{figures.bare(arc_radius_mm(chord, shaping.size_mm))}"


def _profile(start: float, end: float, shaping: Shaping) -> list[Point]:
    """Along, and how far under the straight face."""
    kind = shaping.kind
    return (_opening if kind is ShapingKind.CUT_OUT else _arc)(start, end, shaping)


def _opening(start: float, end: float, shaping: Shaping) -> list[Point]:
    """Along, and how far under the straight face, of a cut-out: up, round, along, round and down."""
    high, radius = shaping.size_mm, shaping.corner_mm
    steps = _TURNS // 4 if radius else 0
    turns = [math.pi / 2.0 * i / max(steps, 1) for i in range(steps + 1)]
    left = [(start + radius * (1.0 - math.cos(t)), high - radius * (1.0 - math.sin(t))) for t in turns]
    right = [(start + end - x, y) for x, y in reversed(left)]
    return [(start, 0.0), *left, *right, (end, 0.0)]


def _arc(start: float, end: float, shaping: Shaping) -> list[Point]:
    """Along, and how far under the straight face: most in the middle of a hollow, at the ends of a crown."""
    chord, rise = end - start, shaping.size_mm
    radius, middle = arc_radius_mm(chord, rise), (start + end) / 2.0
    count = max(12, 2 * math.ceil(chord / _CHORD_MM / 2.0))
    found = []
    for i in range(count + 1):
        x = start + chord * i / count
        height = math.sqrt(max(radius**2 - (x - middle) ** 2, 0.0)) - (radius - rise)
        found.append((x, height if shaping.kind in HOLLOWED else rise - height))
    return found


def _narrowed(
    outline: Sequence[Point],
    start: float,
    end: float,
    *,
    lows: Sequence[Point] = (),
    highs: Sequence[Point] = (),
) -> tuple[Point, ...]:
    """An outline with its lower or its upper side replaced between two places along it."""
    xs = sorted({x for x, _ in outline} | {start, end})

    def side(replaced: Sequence[Point], *, upper: bool) -> list[Point]:
        line: list[Point] = []
        for x in xs:
            ys = _heights(outline, x)
            line.append((x, max(ys) if upper else min(ys)))
        if not replaced:
            return line
        before = [p for p in line if p[0] <= start + _SAME_MM] if start > xs[0] + _SAME_MM else []
        after = [p for p in line if p[0] >= end - _SAME_MM] if end < xs[-1] - _SAME_MM else []
        return [*before, *replaced, *after]

    under, over = side(lows, upper=False), side(highs, upper=True)
    points = [*under, *reversed(over)]
    return tuple(p for i, p in enumerate(points) if math.dist(p, points[i - 1]) > _SAME_MM)


def _heights(outline: Sequence[Point], x: float) -> list[float]:
    """Where an upright line crosses an outline. [mm]"""
    found = []
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if min(x0, x1) - _SAME_MM <= x <= max(x0, x1) + _SAME_MM:
            if abs(x1 - x0) < 1e-9:
                found += [y0, y1]
            else:
                found.append(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    return found


def section_views(part: Part, *, start: str, figures: Figures) -> tuple[FaceView, ...]:
    """Sections across a part wherever other arrises are taken off: width to the right, thickness up.

    Parameters
    ----------
    part
        The part.
    start
        Name of the end it is measured from.
    figures
        How lengths are written.
    """
    arrises = [s for s in part.shaping if s.kind in _ARRISES]
    places: dict[tuple[Shaping, ...], float] = {}
    for shaping in arrises:
        x = (shaping.start_mm + shaping.end_mm) / 2.0
        places.setdefault(tuple(s for s in arrises if s.start_mm < x < s.end_mm), x)
    whole = [found for found in places if not any(set(found) < set(other) for other in places)]
    cut = [(found, places[found], figures.length(places[found] - part.start_mm)) for found in whole]
    return tuple(
        _section(part, found, f"{far} from the {start}", at_mm=at, figures=figures) for found, at, far in cut
    )


def _section(
    part: Part, shapings: Sequence[Shaping], place: str, *, at_mm: float, figures: Figures
) -> FaceView:
    box = _box_at(part, at_mm)
    told: dict[tuple[ShapingKind, float], list[ShapeNote]] = {}
    for shaping in shapings:
        off = _corner(shaping, _square_corner(box, shaping.side), shaping.side)
        x, y = off[len(off) // 2] if len(off) > 2 else _between(off[0], off[1])
        note = ShapeNote(x_mm=x, y_mm=y, text=_corner_words(shaping, figures))
        told.setdefault((shaping.kind, shaping.size_mm), []).append(note)
    return FaceView(
        title=f"Section, {place}",
        outline=_outline_across(box, shapings),
        notes=tuple(_counted(notes) for notes in told.values()),
        lengths=(Distance(low_mm=box.left, high_mm=box.right, text=figures.bare(box.width)),),
        widths=(Distance(low_mm=box.low, high_mm=box.high, text=figures.bare(box.height)),),
        cut=True,
    )


def _box_at(part: Part, at_mm: float | None) -> Box:
    """The section before its arrises are taken off, arches taken out of it; None is outside of them. [mm]"""
    low, high = [0.0, 0.0], [part.width_mm, part.thickness_mm]
    for shaping in part.shaping if at_mm is not None else ():
        if at_mm is None or shaping.kind not in _THROUGH or not shaping.start_mm <= at_mm <= shaping.end_mm:
            continue
        axis = 0 if shaping.side[0] else 1
        arc = _profile(shaping.start_mm, shaping.end_mm, shaping)
        off = min(arc, key=lambda point: abs(point[0] - at_mm))[1]
        if shaping.side[axis] > 0:
            high[axis] -= off
        else:
            low[axis] += off
    return Box(low[0], low[1], high[0], high[1])


def shaped_end(part: Part, end: End, *, hand: float) -> tuple[Point, ...]:
    """Outline of an end: arrises off and turned where they reach it, the width to the right.

    Parameters
    ----------
    part, end
        The part and which end.
    hand
        Negative where the width runs to the left as the end is looked at.
    """
    edge = part.start_mm if end is End.START else part.end_mm
    there = [s for s in part.shaping if abs((s.start_mm if end is End.START else s.end_mm) - edge) < 0.05]
    turned = next((s for s in there if s.kind is ShapingKind.TURNED), None)
    if turned is not None:
        half, (cx, cy) = turned.size_mm / 2.0, (part.width_mm / 2.0, part.thickness_mm / 2.0)
        turns = (math.tau * i / _TURNS for i in range(_TURNS))
        return tuple((cx + half * math.cos(t), cy + half * math.sin(t)) for t in turns)
    outline = _outline_across(_box_at(part, None), [s for s in there if s.kind in _ARRISES])
    return outline if hand > 0.0 else tuple((part.width_mm - x, y) for x, y in reversed(outline))


def _outline_across(box: Box, shapings: Iterable[Shaping]) -> tuple[Point, ...]:
    by_side = {s.side: s for s in shapings}
    points: list[Point] = []
    for side in ((-1, -1), (1, -1), (1, 1), (-1, 1)):  # anticlockwise from the lower left corner
        shaping, corner = by_side.get(side), _square_corner(box, side)
        points += [corner] if shaping is None else _corner(shaping, corner, side)
    return tuple(points)


def _square_corner(box: Box, side: tuple[int, int]) -> Point:
    return (box.right if side[0] > 0 else box.left, box.high if side[1] > 0 else box.low)


def _corner(shaping: Shaping, corner: Point, side: tuple[int, int]) -> list[Point]:
    """The corner as it is after, anticlockwise."""
    size, (v, w) = shaping.size_mm, side
    level, upright = (corner[0] - v * size, corner[1]), (corner[0], corner[1] - w * size)
    first, last = (upright, level) if v * w > 0 else (level, upright)
    if shaping.kind is ShapingKind.CHAMFER:
        return [first, last]
    center = (corner[0] - v * size, corner[1] - w * size)
    a, b = (math.atan2(p[1] - center[1], p[0] - center[0]) for p in (first, last))
    b += math.tau if b < a else 0.0
    steps = _TURNS // 4
    turns = (a + (b - a) * i / steps for i in range(steps + 1))
    return [(center[0] + size * math.cos(t), center[1] + size * math.sin(t)) for t in turns]


def _between(one: Point, other: Point) -> Point:
    return ((one[0] + other[0]) / 2.0, (one[1] + other[1]) / 2.0)


def _corner_words(shaping: Shaping, figures: Figures) -> str:
    size = figures.fine.bare(shaping.size_mm)
    return f"{size} × 45°" if shaping.kind is ShapingKind.CHAMFER else f"R{size}"


def _counted(notes: Iterable[ShapeNote]) -> ShapeNote:
    """One note for arrises alike, at the one farthest to the right, of two the upper."""
    alike = list(notes)
    first = max(alike, key=lambda note: (round(note.x_mm, 3), note.y_mm))
    return replace(first, text=f"{first.text} on {len(alike)} arrises") if len(alike) > 1 else first
