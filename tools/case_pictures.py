"""Pictures of a pin in its slot, a panel in its groove and a board that cups, to the program's figures."""

from __future__ import annotations

import math

from scantling.papers.drawing import (
    Anchor,
    Arc,
    Circle,
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
    to_svg,
)
from scantling.wood.coefficients import coefficient_at
from scantling.wood.cup import cup_from_rings_mm, cup_from_tilt_mm
from scantling.wood.species import find_species
from season_cases import YEAR, breadboard_slot, panel_edge

__all__ = ["cup_of_a_board", "panel_in_its_groove", "pin_in_its_slot"]

WIDTH_MM = 180.0
_COLUMN_MM = 58.0
_FIRST_MM = 33.0
_STATES = (
    ("Driest", YEAR.dry_pct),
    ("As built", YEAR.build_pct),
    ("Wettest", YEAR.wet_pct),
)


def _centers() -> tuple[float, float, float]:
    return (_FIRST_MM, _FIRST_MM + _COLUMN_MM, _FIRST_MM + 2.0 * _COLUMN_MM)


def _heads() -> list[Item]:
    return [
        Text((x, 6.0), f"{name}, wood at {pct:g} %", 3.6, Anchor.MIDDLE, weight=Weight.BOLD)
        for x, (name, pct) in zip(_centers(), _STATES, strict=True)
    ]


def _slot(left: float, right: float, y: float, radius: float) -> list[Item]:
    low, high = left + radius, right - radius
    return [
        Line((low, y - radius), (high, y - radius), Stroke.OUTLINE),
        Line((low, y + radius), (high, y + radius), Stroke.OUTLINE),
        Arc((low, y), radius, 90.0, 270.0, Stroke.OUTLINE),
        Arc((high, y), radius, -90.0, 90.0, Stroke.OUTLINE),
    ]


def pin_in_its_slot() -> str:
    """A pin of 6 mm, 400 mm from the fixed one, in the slot of its tenon, in three seasons. As SVG."""
    slot, scale, y = breadboard_slot(), 3.6, 24.0
    items = _heads()
    shifts = (-slot.shrink_travel_mm, 0.0, slot.swell_travel_mm)
    for x, shift in zip(_centers(), shifts, strict=True):
        middle = x + scale * (shift - slot.bias_mm)
        left, right = middle - scale * slot.cut_to_mm / 2.0, middle + scale * slot.cut_to_mm / 2.0
        items += _slot(left, right, y, 3.0 * scale)
        items.append(Circle((x, y), 3.0 * scale - 0.25, Stroke.VISIBLE, Fill.SHADE))
        items.append(Line((x, y - 13.5), (x, y + 13.5), Stroke.CENTER))
        items.append(Line((middle, y - 13.5), (middle, y + 13.5), Stroke.FINE))
        rooms = ((x - 3.0 * scale - left) / scale, (right - x - 3.0 * scale) / scale)
        for at, room in zip((left, right), rooms, strict=True):
            items.append(Text((at, y + 17.0), f"{room:.1f}", 3.0, Anchor.MIDDLE))
    items.append(Text((4.0, 50.0), "← to the fixed pin, 400 mm", 3.2))
    words = (
        f"slot {slot.cut_to_mm:.1f} mm long, its middle {slot.bias_mm:.2f} mm nearer to the fixed pin; "
        "below, the room in mm"
    )
    items.append(Text((WIDTH_MM - 4.0, 50.0), words, 3.2, Anchor.END))
    title = "A pin in its slot, driest, as built and wettest"
    return to_svg(Sheet(width_mm=WIDTH_MM, height_mm=54.0, items=tuple(items), title=title))


def panel_in_its_groove() -> str:
    """The edge of a panel in a stile, in three seasons. As SVG."""
    edge, scale, y = panel_edge(), 1.8, 31.0
    inside, half, stile = 8.0, 11.0 * scale, 15.0 * scale
    items = _heads()
    for x, moved in zip(_centers(), (-edge.shrink_travel_mm, 0.0, edge.swell_travel_mm), strict=True):
        mouth = x - 8.0
        depth, tongue = mouth + scale * edge.cut_to_mm, mouth + scale * (inside + moved)
        lip = 5.2 * scale
        outline: tuple[Point, ...] = (
            (mouth, y - half),
            (mouth + stile, y - half),
            (mouth + stile, y + half),
            (mouth, y + half),
            (mouth, y + lip),
            (depth, y + lip),
            (depth, y - lip),
            (mouth, y - lip),
        )
        items += [Hatch(outline, 2.0), Polygon(outline, Stroke.OUTLINE)]
        left, low, high = mouth - 14.0, y - lip + 0.4, y + lip - 0.4
        body = ((left, low), (tongue, low), (tongue, high), (left, high))
        items.append(Polygon(body, Stroke.VISIBLE, Fill.SHADE))
        held, behind = inside + moved, edge.cut_to_mm - inside - moved
        words = f"{held:.1f} mm hold, {behind:.1f} behind"
        items.append(Text((x + 4.0, y + half + 6.0), words, 3.2, Anchor.MIDDLE))
    title = "A panel in its groove, driest, as built and wettest"
    return to_svg(Sheet(width_mm=WIDTH_MM, height_mm=66.0, items=tuple(items), title=title))


_BOARD_MM, _THICK_MM, _PITH_MM, _SHOWN, _LARGER = 250.0, 20.0, 100.0, 0.28, 12.0


def _board(x: float, y: float, cup_mm: float) -> list[Item]:
    """The end of a board whose middle stands ``cup_mm`` below its edges, drawn larger; its rings with it."""

    def place(across: float, up: float) -> Point:
        sag = cup_mm * _LARGER * ((across / (_BOARD_MM / 2.0)) ** 2 - 1.0)
        return (x + across * _SHOWN, y - (up + sag) * _SHOWN)

    steps = [(k / 30.0 - 0.5) * _BOARD_MM for k in range(31)]
    rim = [place(a, 0.0) for a in steps] + [place(a, -_THICK_MM) for a in reversed(steps)]
    items: list[Item] = [Polygon(tuple(rim), Stroke.OUTLINE, Fill.PAPER)]
    for ring in range(82, 165, 7):
        points = []
        for a in (k / 60.0 * _BOARD_MM for k in range(-30, 31)):
            up = math.sqrt(max(ring**2 - a**2, 0.0)) - _PITH_MM
            if -_THICK_MM <= up <= 0.0:
                points.append(place(a, up))
            elif len(points) > 1:
                items.append(Polyline(tuple(points), Stroke.FINE))
                points = []
            else:
                points = []
        if len(points) > 1:
            items.append(Polyline(tuple(points), Stroke.FINE))
    return items


def cup_of_a_board() -> str:
    """A flat-sawn red oak board 250 wide: cupped by its rings, and by a face that is wetter. As SVG."""
    oak = find_species("red oak")
    tangential, radial = coefficient_at(oak, 0.0), coefficient_at(oak, 90.0)
    rings = cup_from_rings_mm(
        _BOARD_MM,
        pith_distance_mm=_PITH_MM,
        tangential_strain=-4.0 * tangential,
        radial_strain=-4.0 * radial,
    )
    tilt = cup_from_tilt_mm(_BOARD_MM, thickness_mm=_THICK_MM, coefficient=tangential, tilt_pct=1.0)
    items: list[Item] = []
    sides = (
        (46.0, rings, "Its rings: four points drier", f"hollow on the bark side by {rings:.2f} mm"),
        (134.0, tilt, "A bare underside: one point wetter below", f"hollow above by {tilt:.2f} mm"),
    )
    for x, cup, head, words in sides:
        items.append(Text((x, 6.0), head, 3.6, Anchor.MIDDLE, weight=Weight.BOLD))
        items += _board(x, 18.0, cup)
        items.append(Text((x, 33.0), words, 3.2, Anchor.MIDDLE))
    items.append(Text((WIDTH_MM / 2.0, 39.0), f"cup drawn {_LARGER:g} times larger", 2.8, Anchor.MIDDLE))
    title = "A board that cups by its rings, and one that cups by a wetter face"
    return to_svg(Sheet(width_mm=WIDTH_MM, height_mm=42.0, items=tuple(items), title=title))
