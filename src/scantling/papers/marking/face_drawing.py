"""Drawing one face: its outline, the joints on it, the pencil marks and the angles of its ends."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from scantling.papers.drawing import (
    Anchor,
    Fill,
    Hatch,
    Item,
    Line,
    Polygon,
    Segments,
    Side,
    Span,
    Stroke,
    Text,
    View,
    Weight,
    backing,
    draw_face_mark,
    draw_grain_arrow,
    draw_stack,
    text_box,
)
from scantling.papers.marking.angle_figures import draw_end_angles
from scantling.papers.marking.clearance import boxes_of
from scantling.papers.marking.face_view import FaceMark, FaceView, mark_outline
from scantling.papers.marking.note_drawing import draw_shape_notes
from scantling.papers.marking.sight_drawing import draw_sights

__all__ = ["draw_face", "spans_above", "spans_across", "spans_below", "spans_start", "unique_spans"]

_HATCH_MM = 2.2
"""Between the lines of a section. [mm on paper]"""
_END_MM = 1.2
"""Room between a letter and the end of the face, which may lean. [mm]"""
_UNDER_MM = 3.2
"""From the lower edge of a face to the foot of a letter under it. [mm]"""


def unique_spans(spans: Iterable[Span]) -> list[Span]:
    """Each distance once."""
    seen: dict[tuple[int, int, str], Span] = {}
    for span in spans:
        seen.setdefault((round(span.low * 20), round(span.high * 20), span.text), span)
    return list(seen.values())


def spans_above(view: FaceView, place: View) -> list[Span]:
    """Rows above: from the ends to the joints."""
    ends = (place.at(place.box.left, 0.0)[0], place.at(place.box.right, 0.0)[0])
    return unique_spans(
        Span(low=ends[int(m.from_far)], high=place.at(m.x_mm, 0.0)[0], text=m.from_end)
        for m in view.marks
        if m.from_end and not m.stepped
    )


def spans_below(view: FaceView, place: View) -> list[Span]:
    """Rows below: along the part."""
    return unique_spans(
        Span(low=place.at(d.low_mm, 0.0)[0], high=place.at(d.high_mm, 0.0)[0], text=d.text)
        for d in view.lengths
    )


def spans_across(view: FaceView, place: View) -> list[Span]:
    """Rows at the right: from the reference edge, and across."""
    edges = (place.at(0.0, place.box.low)[1], place.at(0.0, place.box.high)[1])
    spans = [
        Span(low=edges[int(m.from_top)], high=place.at(0.0, m.y_mm)[1], text=m.from_edge)
        for m in view.marks
        if m.from_edge
    ]
    spans += [
        Span(low=place.at(0.0, d.low_mm)[1], high=place.at(0.0, d.high_mm)[1], text=d.text)
        for d in view.widths
    ]
    return unique_spans(spans)


def spans_start(view: FaceView, place: View) -> list[Span]:
    """Rows at the left: across, at the reference end."""
    return [
        Span(low=place.at(0.0, d.low_mm)[1], high=place.at(0.0, d.high_mm)[1], text=d.text)
        for d in view.start_widths
    ]


def _marks(view: FaceView, place: View, ends: tuple[float, float]) -> list[Item]:
    items: list[Item] = []
    tags: list[Item] = []
    beneath = draw_stack(spans_below(view, place), side=Side.BELOW, edge_mm=place.bottom)
    for mark in view.marks:
        points = tuple(place.at(x, y) for x, y in mark_outline(mark))
        fill = Fill.NONE if mark.hidden else Fill.SHADE
        items.append(Polygon(points, Stroke.HIDDEN if mark.hidden else Stroke.VISIBLE, fill))
        cx, cy = place.at(mark.x_mm, mark.y_mm)
        reach = mark.width_mm / place.per / 2.0 + 1.4
        items.append(Line((cx, cy - reach), (cx, cy + reach), Stroke.FINE))
        long_half = max(abs(x - cx) for x, _ in points)
        items.append(Line((cx - long_half - 1.4, cy), (cx + long_half + 1.4, cy), Stroke.FINE))
        tag = _tag(mark.tag, (cx, cy), long_half, place=place, taken=[*tags, *beneath], ends=ends)
        tags += [backing(tag, margin_mm=0.2), tag]
    return [*items, *draw_sights(view, place), *tags]


def _tag(
    letter: str,
    at: tuple[float, float],
    long_half: float,
    *,
    place: View,
    taken: Sequence[Item],
    ends: tuple[float, float],
) -> Text:
    """The letter of a mark: beside its center line if that is free, else farther off or in its middle.

    Under a face that is drawn too low for letters it stands clear of the edge and of what is measured there.
    """
    cx, cy = at
    options = [
        Text((cx + way * (long_half + 1.0), cy + down), letter, 3.0, anchor, weight=Weight.BOLD)
        for down in (-0.9, 3.1, -5.0, 7.0)
        for way, anchor in ((1.0, Anchor.START), (-1.0, Anchor.END))
    ]
    options += [
        Text((cx + aside, cy + down), letter, 3.0, anchor, weight=Weight.BOLD)
        for aside, anchor, down in (
            (1.0, Anchor.START, -0.7),
            (1.0, Anchor.START, 2.8),
            (0.0, Anchor.MIDDLE, -4.0),
            (0.0, Anchor.MIDDLE, 6.0),
        )
    ]
    under = place.bottom + _UNDER_MM
    options += [
        Text((cx + aside, under), letter, 3.0, anchor, weight=Weight.BOLD)
        for aside, anchor in (
            (long_half + 1.0, Anchor.START),
            (-long_half - 1.0, Anchor.END),
            (1.0, Anchor.START),
            (-1.0, Anchor.END),
            (-6.0, Anchor.END),
        )
    ]
    boxes = [text_box(item) for item in taken if isinstance(item, Text)]
    ruled = list(boxes_of(item for item in taken if isinstance(item, Line)))

    def faults(tag: Text) -> int:
        left, top, right, bottom = text_box(tag)
        below = top > place.bottom
        kept = [*boxes, *ruled] if below else boxes
        crowded = any(left < r and x < right and top < d and u < bottom for x, u, r, d in kept)
        past = right > ends[1] - _END_MM or left < ends[0] + _END_MM
        if below:
            return 6 * crowded + 4 * past
        over = 2 * (top < place.top + 0.4) + (bottom > place.bottom - 0.1)  # sizes stand over the face
        return 6 * crowded + 4 * past + over

    return min(options, key=faults)


def _pencil(view: FaceView, place: View) -> list[Item]:
    """Grain arrow and face mark, in the middle stretch of the face that carries no joint."""
    height = place.bottom - place.top
    items: list[Item] = []
    free, stretch = _free_middle(view, place)
    if height > 4.0 and not view.cut:
        long = min(24.0, (place.right - place.left) / 5.0, max(8.0, stretch - 14.0))
        at = free - 2.0 + long / 2.0
        top, bottom = _edges_at(view, place, at)
        items += draw_grain_arrow((at, (top + bottom) / 2.0), long)
    if view.mark is not FaceMark.NONE:
        size = min(6.0, max(3.0, height * 0.7))
        top, bottom = _edges_at(view, place, free - 8.0)
        foot = top + size + 0.4 if view.mark_at_top else bottom - 0.4
        items += draw_face_mark((free - 8.0, foot), size, edge=view.mark is FaceMark.EDGE)
    return items


def _edges_at(view: FaceView, place: View, x: float) -> tuple[float, float]:
    """Upper and lower edge of a face at a place along it, arched or not. [mm on paper]"""
    points = [place.at(*point) for point in view.outline]
    found = []
    for (x0, y0), (x1, y1) in pairwise((*points, points[0])):
        if min(x0, x1) <= x <= max(x0, x1) and abs(x1 - x0) > 1e-9:
            found.append(y0 + (y1 - y0) * (x - x0) / (x1 - x0))
    return (min(found), max(found)) if found else (place.top, place.bottom)


def _free_middle(view: FaceView, place: View) -> tuple[float, float]:
    """Middle of the widest stretch between marks, and how wide it is. [mm on paper]"""
    taken = sorted(
        (
            place.at(m.x_mm - m.length_mm / 2.0, 0.0)[0] - 2.0,
            place.at(m.x_mm + m.length_mm / 2.0, 0.0)[0] + 6.0,
        )
        for m in view.marks
        if m.length_mm < 0.5 * place.box.width
    )
    edges, reach = [], place.left
    for low, high in taken:
        edges.append((low - reach, (low + reach) / 2.0))
        reach = max(reach, high)
    edges.append((place.right - reach, (place.right + reach) / 2.0))
    width, middle = max(edges)
    return middle, width


def draw_face(
    view: FaceView,
    place: View,
    *,
    pencil: bool = True,
    beside: Sequence[Item] | None = None,
    ends: tuple[float, float] | None = None,
) -> list[Item]:
    """A face in its place, without its rows of sizes.

    Parameters
    ----------
    view, place
        The face and where it is drawn.
    pencil
        Whether it shows grain and pencil mark.
    beside
        What is drawn around it, for the figures of its angles to keep clear of; None keeps them on the face.
    ends
        From where to where on paper letters may stand, where only a stretch is shown. [mm]
    """
    outline = tuple(place.at(x, y) for x, y in view.outline)
    items: list[Item] = [Polygon(outline, Stroke.OUTLINE, Fill.PAPER)]
    if view.cut:
        items.append(Hatch(outline, _HATCH_MM))
    for lines, stroke in (
        (view.hidden, Stroke.HIDDEN),
        (view.visible, Stroke.VISIBLE),
        (view.fine, Stroke.FINE),
        (view.center, Stroke.CENTER),
    ):
        if lines:
            items.append(Segments(tuple((place.at(*a), place.at(*b)) for a, b in lines), stroke))
    drawn = [
        *(_pencil(view, place) if pencil else ()),
        *_marks(view, place, ends or (place.left, place.right)),
    ]
    taken = [*drawn, *(beside or ())]
    angles = draw_end_angles(view, place, taken=taken, beyond=beside is not None)
    seen = [item for item in items if isinstance(item, Segments)]
    notes = draw_shape_notes(view, place, taken=[*seen, *taken, *angles])
    return [*items, *drawn, *angles, *notes]
