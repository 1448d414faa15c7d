"""One part on the bench: its worked faces whole, then larger where the joints lie."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

from scantling.papers.drawing import (
    Item,
    Sheet,
    Side,
    Text,
    View,
    Weight,
    bounds,
    draw_stack,
    fit_scale,
    needs_room_mm,
    stack_depth_mm,
    text_box,
    text_width_mm,
    wrapped,
)
from scantling.papers.marking.face_detail import detail_rows, details_of, measured_in
from scantling.papers.marking.face_drawing import (
    draw_face,
    spans_above,
    spans_across,
    spans_below,
    spans_start,
)
from scantling.papers.marking.face_view import FaceView
from scantling.papers.marking.note_drawing import notes_band_mm
from scantling.papers.words.naming import plain_words

__all__ = ["PartDrawing", "draw_part"]

_HEAD, _GAP = 7.0, 6.0
_LINE, _BESIDE = 4.4, 42.0
"""From line to line of a title, and room left behind it for the scale. [mm]"""
_TALLEST_MM = ((90.0, 56.0), (80.0, 46.0), (65.0, 38.0), (50.0, 30.0), (40.0, 24.0), (30.0, 0.0))
"""Heights a whole face and a detail may take, tried until all fits. [mm]"""
_TRIED = (*product(_TALLEST_MM[:3], (1,)), *product(_TALLEST_MM[:3], (2,)), *product(_TALLEST_MM[3:], (1, 2)))
"""With one row for each view as long as it costs little, then beside each other: ends and sections at a scale
that lets them, faces where they are small enough, their titles in two lines."""
_SHARING_MM = 150.0
"""Ends and sections up to this wide may share a row at a smaller scale; faces along a part do not. [mm]"""
_PLAIN = 0.5
"""Height of a face on which nothing is marked, which shows but how the part lies, over that of others. [1]"""
_PAST, _BETWEEN = 8.0, 8.0
"""What figures stand out past the rows at the right, and room between faces beside each other. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartDrawing:
    """All faces of one part that are worked."""

    name: str
    views: tuple[FaceView, ...]


def _left(part: PartDrawing) -> float:
    return 13.0 if any(view.start_widths for view in part.views) else 2.0


def _whole(
    view: FaceView, *, x: float, y: float, left: float, per: float, room_mm: float
) -> tuple[list[Item], float]:
    """A whole face with its rows of sizes, from its left upper corner, and its lower edge. [mm]"""
    box = bounds(view.outline)
    probe = View(corner=(x + left, 0.0), box=box, per=per)
    lines = _title_lines(view, room_mm=room_mm)
    y += _LINE * (len(lines) - 1)
    over, under = notes_band_mm(view)
    top = y + _HEAD + over + max(stack_depth_mm(spans_above(view, probe)), _spill(view, probe), 1.0)
    place = View(corner=(x + left, top + box.height / per), box=box, per=per)
    title_width = text_width_mm(lines[-1], 3.6, weight=Weight.BOLD)
    rows = [
        *draw_stack(
            [replace(span, foot=place.top) for span in spans_above(view, place)],
            side=Side.ABOVE,
            edge_mm=place.top - over,
        ),
        *draw_stack(
            [replace(span, foot=place.bottom) for span in spans_below(view, place)],
            side=Side.BELOW,
            edge_mm=place.bottom + under,
        ),
    ]
    beside: list[Item] = [
        *(
            Text((x, y + 4.0 - _LINE * back), line, 3.6, weight=Weight.BOLD)
            for back, line in enumerate(reversed(lines))
        ),
        Text((x + title_width + 3.0, y + 4.0), _at_scale(view, per), 3.0, soft=True),
        *rows,
        *draw_stack(
            spans_across(view, place), side=Side.RIGHT, edge_mm=place.right + _past(rows, view, place)
        ),
        *draw_stack(spans_start(view, place), side=Side.LEFT, edge_mm=place.left),
    ]
    items = [*draw_face(view, place, beside=beside), *beside]
    return items, place.bottom + under + max(stack_depth_mm(spans_below(view, place)), 2.0)


def _title_lines(view: FaceView, *, room_mm: float) -> Sequence[str]:
    return wrapped(view.title, 3.6, room_mm=room_mm - _BESIDE, weight=Weight.BOLD)


def _at_scale(view: FaceView, per: float) -> str:
    ends = f", {view.left_name} at the left" if view.left_name else ""
    return f"1:{per:g}{ends}"


def _drawn_mm(view: FaceView, *, left: float, per: float) -> float:
    """What a whole face and its sizes take across the paper, without its title. [mm]"""
    box = bounds(view.outline)
    place = View(corner=(left, 0.0), box=box, per=per)
    return left + box.width / per + stack_depth_mm(spans_across(view, place), upright=True) + _PAST


def _wide_mm(view: FaceView, *, left: float, per: float, room_mm: float) -> float:
    """What a whole face takes across the paper; all of its room where its title takes two lines. [mm]"""
    drawn = _drawn_mm(view, left=left, per=per)
    if len(_title_lines(view, room_mm=room_mm)) > 1:
        return max(drawn, room_mm)
    title = text_width_mm(view.title, 3.6, weight=Weight.BOLD) + 3.0
    return max(drawn, title + text_width_mm(_at_scale(view, per), 3.0))


def _in_rows(wide_mm: Sequence[float], *, room_mm: float) -> list[list[int]]:
    """Places of what stands beside each other, in their order, each row as full as it will be. [mm]"""
    rows: list[list[int]] = []
    used = room_mm
    for at, wide in enumerate(wide_mm):
        if used + _BETWEEN + wide > room_mm:
            rows.append([])
            used = -_BETWEEN
        rows[-1].append(at)
        used += _BETWEEN + wide
    return rows


def _past(rows: Sequence[Item], view: FaceView, place: View) -> float:
    """How far the rows across stand off, where a figure over the face stands past its end. [mm]"""
    if not _spill(view, place):
        return 0.0
    reach = max((text_box(item)[2] for item in rows if isinstance(item, Text)), default=place.right)
    return max(0.0, reach - place.right - 3.0)


def _spill(view: FaceView, place: View) -> float:
    """How far figures across the part stand out above it. [mm]"""
    spans = (*spans_across(view, place), *spans_start(view, place))
    over = [
        needs_room_mm(s.text) + 2.0 - (min(s.low, s.high) - place.top)
        for s in spans
        if abs(s.high - s.low) < needs_room_mm(s.text)
    ]
    return max(over, default=0.0)


def _scale(view: FaceView, *, room_mm: float, left: float, tallest_mm: float) -> float:
    box = bounds(view.outline)
    per = 1.0
    for _ in range(3):  # the rows at the right take room that depends on the scale
        place = View(corner=(0.0, 0.0), box=box, per=per)
        aside = left + stack_depth_mm(spans_across(view, place), upright=True) + 8.0
        per = fit_scale([(box.width, room_mm - aside), (box.height, tallest_mm)])
    return per


def _is_plain(view: FaceView) -> bool:
    told = (view.marks, view.angles, view.notes, view.fine, view.center, view.visible, view.hidden)
    return bool(view.left_name) and not view.cut and not any(told)


def _sharing(views: Sequence[FaceView]) -> list[bool]:
    """Which views have one of their kind next to them to share a row with."""
    small = [not view.left_name and bounds(view.outline).width <= _SHARING_MM for view in views]
    beside = zip([False, *small[:-1]], [*small[1:], False], strict=True)
    return [own and any(others) for own, others in zip(small, beside, strict=True)]


def _without_details(view: FaceView) -> FaceView:
    """A face without what its details tell: the joints' own sizes."""
    marks = tuple(
        replace(m, from_edge="", from_end="" if measured_in(view, m) else m.from_end)
        for m in view.marks
        if not m.hidden
    )
    return replace(view, marks=marks, widths=(), angles=())


def _faces(
    part: PartDrawing, *, room_mm: float, whole_mm: float, tallest_mm: float, columns: int
) -> tuple[list[Item], float]:
    """All faces whole, then the details of all, and the lower edge. [mm]"""
    left = _left(part)
    narrow_mm = (room_mm - _BETWEEN * (columns - 1)) / columns
    scales = [
        _scale(
            view,
            room_mm=narrow_mm if shares else room_mm,
            left=left,
            tallest_mm=whole_mm * (_PLAIN if _is_plain(view) else 1.0),
        )
        for view, shares in zip(part.views, _sharing(part.views), strict=True)
    ]
    worth = min(scales, default=1.0)
    detailed = [v for v in part.views if details_of(v)]
    if detailed:
        worth = min(per for view, per in zip(part.views, scales, strict=True) if view in detailed)
    drawn, _ = detail_rows(detailed, room_mm=room_mm, top=0.0, worth=worth, tallest_mm=tallest_mm)
    shown = [_without_details(view) if drawn and view in detailed else view for view in part.views]
    pairs = list(zip(shown, scales, strict=True))
    rooms = [
        narrow_mm if _drawn_mm(view, left=left, per=per) <= narrow_mm else room_mm for view, per in pairs
    ]
    wide = [
        _wide_mm(view, left=left, per=per, room_mm=room)
        for (view, per), room in zip(pairs, rooms, strict=True)
    ]
    items: list[Item] = []
    y = 0.0
    for row in _in_rows(wide, room_mm=room_mm):
        x, lowest = 0.0, y
        for at in row:
            view, per = pairs[at]
            whole, low = _whole(view, x=x, y=y, left=left, per=per, room_mm=rooms[at])
            items += whole
            x, lowest = x + wide[at] + _BETWEEN, max(lowest, low)
        y = lowest + _GAP
    if drawn:
        drawn, y = detail_rows(detailed, room_mm=room_mm, top=y, worth=worth, tallest_mm=tallest_mm)
        items += drawn
        y += _GAP
    return items, y


def draw_part(part: PartDrawing, *, room_mm: float, height_mm: float = 215.0) -> Sheet:
    """Draw a part's faces under one another at round scales, then their details.

    Parameters
    ----------
    part
        The faces.
    room_mm
        Width of the drawing. [mm]
    height_mm
        Height it should take; drawings shrink until it does. [mm]

    Returns
    -------
    Sheet
        As high as it needs to be.
    """
    items: list[Item] = []
    y = 0.0
    for (whole, detail), columns in _TRIED:
        items, y = _faces(part, room_mm=room_mm, whole_mm=whole, tallest_mm=detail, columns=columns)
        if y <= height_mm:
            break
    return Sheet(width_mm=room_mm, height_mm=y, items=tuple(items), title=plain_words(part.name))
