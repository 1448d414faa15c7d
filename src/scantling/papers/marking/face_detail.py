"""The stretches of a long part where its joints lie, drawn larger beside each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.papers.drawing import (
    STANDARD_SCALES,
    Box,
    Item,
    Polyline,
    Side,
    Span,
    Stroke,
    Text,
    View,
    Weight,
    Window,
    bounds,
    draw_stack,
    stack_depth_mm,
    text_box,
    text_width_mm,
)
from scantling.papers.marking.face_drawing import draw_face, spans_above, spans_across, unique_spans
from scantling.papers.marking.face_view import FaceMark, FaceView, MarkedOut, mark_outline

__all__ = ["Detail", "detail_rows", "details_of", "measured_in"]

_MERGE_MM, _AROUND_MM, _TO_END_MM = 80.0, 18.0, 70.0
_SIDE, _HEAD, _BETWEEN = 24.0, 6.0, 4.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Detail:
    """A stretch of a face, along from the reference end. [mm]"""

    low_mm: float
    high_mm: float


def details_of(view: FaceView) -> tuple[Detail, ...]:
    """Where the joints of a long, narrow face lie.

    Parameters
    ----------
    view
        The face.

    Returns
    -------
    tuple of Detail
        From the reference end on; empty where a larger drawing would show nothing more.
    """
    box = bounds(view.outline)
    spans = sorted((b.left, b.right) for b in (bounds(mark_outline(m)) for m in view.marks))
    merged: list[tuple[float, float]] = []
    for low, high in spans:
        if merged and low - merged[-1][1] < _MERGE_MM:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    details = []
    for low, high in merged:
        start = box.left if low - box.left < _TO_END_MM else low - _AROUND_MM
        end = box.right if box.right - high < _TO_END_MM else high + _AROUND_MM
        details.append(Detail(low_mm=start, high_mm=end))
    if any(d.high_mm - d.low_mm > 0.45 * box.width for d in details) or box.height > 0.3 * box.width:
        return ()
    return tuple(details)


def _lengths(view: FaceView, detail: Detail, place: View) -> list[Span]:
    return unique_spans(
        Span(low=place.at(b.left, 0.0)[0], high=place.at(b.right, 0.0)[0], text=mark.length)
        for mark, b in ((m, bounds(mark_outline(m))) for m in view.marks)
        if mark.length and mark.turn_deg == 0.0 and detail.low_mm <= mark.x_mm <= detail.high_mm
    )


def measured_in(view: FaceView, mark: MarkedOut) -> bool:
    """Whether the detail a mark lies in reaches the end the mark is measured from."""
    box = bounds(view.outline)
    detail = next((d for d in details_of(view) if d.low_mm <= mark.x_mm <= d.high_mm), None)
    return detail is not None and _end_seen(mark, detail, box)


def _end_seen(mark: MarkedOut, detail: Detail, box: Box) -> bool:
    return detail.high_mm >= box.right - 0.01 if mark.from_far else detail.low_mm <= box.left + 0.01


def _within(view: FaceView, detail: Detail) -> FaceView:
    """The face with only the joints of the stretch, and distances only from an end that is in it."""
    box = bounds(view.outline)
    marks = []
    for mark in view.marks:
        if not detail.low_mm <= mark.x_mm <= detail.high_mm:
            continue
        marks.append(mark if _end_seen(mark, detail, box) else replace(mark, from_end=""))
    return replace(view, marks=tuple(marks), lengths=(), notes=())


def _broken(x: float, top: float, bottom: float) -> Polyline:
    middle = (top + bottom) / 2.0
    points = (
        (x, top - 2.0),
        (x, middle - 1.4),
        (x - 1.2, middle - 0.5),
        (x + 1.2, middle + 0.5),
        (x, middle + 1.4),
    )
    return Polyline((*points, (x, bottom + 2.0)), Stroke.DIMENSION)


def _title(view: FaceView, detail: Detail) -> str:
    box = bounds(view.outline)
    if detail.low_mm <= box.left + 0.01:
        return view.left_name or "left end"
    return (view.right_name or "right end") if detail.high_mm >= box.right - 0.01 else "between"


def _draw(view: FaceView, detail: Detail, *, left: float, base: float, per: float) -> list[Item]:
    box = bounds(view.outline)
    # the stretch stands at `left`; the rest of the face lies outside the opening
    place = View(corner=(left - (detail.low_mm - box.left) / per, base), box=box, per=per)
    part = _within(view, detail)
    x0, x1 = place.at(detail.low_mm, 0.0)[0], place.at(detail.high_mm, 0.0)[0]
    opening = (
        x0 - (8.0 if detail.low_mm <= box.left + 0.01 else 0.0),
        place.top - 1.0,
        x1 + (8.0 if detail.high_mm >= box.right - 0.01 else 0.0),
        place.bottom + 1.0,
    )
    bare = replace(part, mark=FaceMark.NONE)
    face = draw_face(bare, place, pencil=False, ends=(max(x0, place.left), min(x1, place.right)))
    items: list[Item] = [Window(tuple(face), (0.0, 0.0), opening)]
    if detail.low_mm > box.left + 0.01:
        items.append(_broken(x0, place.top, place.bottom))
    if detail.high_mm < box.right - 0.01:
        items.append(_broken(x1, place.top, place.bottom))
    items += draw_stack(spans_above(part, place), side=Side.ABOVE, edge_mm=place.top)
    items += draw_stack(_lengths(view, detail, place), side=Side.BELOW, edge_mm=place.bottom)
    items += draw_stack(spans_across(part, place), side=Side.RIGHT, edge_mm=x1 + 1.0)
    return items


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    """A detail with the face it is of, and its rows of sizes at the scale chosen."""

    view: FaceView
    detail: Detail
    per: float

    @property
    def wide_mm(self) -> float:
        return (self.detail.high_mm - self.detail.low_mm) / self.per + _SIDE

    @property
    def above_mm(self) -> float:
        """Room for the rows of sizes, and for a size across that is longer than what it tells."""
        part, probe = _within(self.view, self.detail), self._probe
        across = draw_stack(spans_across(part, probe), side=Side.RIGHT, edge_mm=0.0)
        tops = [text_box(item)[1] for item in across if isinstance(item, Text)]
        past = probe.top - min(tops, default=probe.top) + 0.5
        return max(stack_depth_mm(spans_above(part, probe)), past, 2.0)

    @property
    def below_mm(self) -> float:
        return max(stack_depth_mm(_lengths(self.view, self.detail, self._probe)), 2.0)

    @property
    def high_mm(self) -> float:
        return bounds(self.view.outline).height / self.per

    @property
    def _probe(self) -> View:
        return View(corner=(0.0, 0.0), box=bounds(self.view.outline), per=self.per)


def _rows(placed: list[_Placed], room_mm: float) -> list[list[_Placed]]:
    rows: list[list[_Placed]] = [[]]
    used = 0.0
    for one in placed:
        if rows[-1] and used + one.wide_mm > room_mm:
            rows.append([])
            used = 0.0
        rows[-1].append(one)
        used += one.wide_mm + _BETWEEN
    return rows


def detail_rows(
    views: Sequence[FaceView], *, room_mm: float, top: float, worth: float, tallest_mm: float
) -> tuple[list[Item], float]:
    """Draw the details of all faces beside each other, at one scale.

    Parameters
    ----------
    views
        The faces.
    room_mm
        Width for all. [mm]
    top
        Upper edge of the first row. [mm]
    worth
        Scale of the whole faces; details are drawn only where they come out at least 1.6 times as large.
    tallest_mm
        Height a detail may take. [mm]

    Returns
    -------
    tuple
        Items, and the lower edge of the last row. [mm]
    """
    pairs = [(view, detail) for view in views for detail in details_of(view)]
    if not pairs:
        return [], top
    widest = max(d.high_mm - d.low_mm for _, d in pairs)
    tallest = max(bounds(v.outline).height for v, _ in pairs)
    per = next(
        (p for p in STANDARD_SCALES if widest / p + _SIDE <= room_mm and tallest / p <= tallest_mm),
        STANDARD_SCALES[-1],
    )
    if per * 1.6 > worth:
        return [], top
    items: list[Item] = []
    y = top
    for row in _rows([_Placed(view=v, detail=d, per=per) for v, d in pairs], room_mm):
        above, high = max(p.above_mm for p in row), max(p.high_mm for p in row)
        left = 4.0
        for one in row:
            items += _titled(one, left=left, y=y)
            items += _draw(one.view, one.detail, left=left, base=y + _HEAD + above + high, per=per)
            left += one.wide_mm + _BETWEEN
        y += _HEAD + above + high + max(p.below_mm for p in row) + 3.0
    return items, y - 3.0


def _titled(one: _Placed, *, left: float, y: float) -> list[Item]:
    tags = ", ".join(m.tag for m in one.view.marks if one.detail.low_mm <= m.x_mm <= one.detail.high_mm)
    title = f"{tags}, {_title(one.view, one.detail)}"
    width = text_width_mm(title, 3.2, weight=Weight.BOLD)
    return [
        Text((left - 4.0, y + 3.6), title, 3.2, weight=Weight.BOLD),
        Text((left - 1.5 + width, y + 3.6), f"1:{one.per:g}", 3.0, soft=True),
    ]
