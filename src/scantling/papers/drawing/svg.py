"""A drawing as SVG: classes and variables for a page that may be dark, plain colors for the packet."""

from __future__ import annotations

import math
from enum import StrEnum
from functools import lru_cache
from html import escape

from scantling.papers.drawing.hatching import hatch_lines
from scantling.papers.drawing.ink import INK_COLORS, STROKES, Fill, Stroke
from scantling.papers.drawing.items import (
    Arc,
    Circle,
    Hatch,
    Item,
    Line,
    Point,
    Polygon,
    Polyline,
    Segments,
    Sheet,
    Text,
    Weight,
    Window,
)
from scantling.papers.drawing.lettering import runs_of

__all__ = ["Inking", "to_svg"]

_FONT = "Barlow, 'Barlow Semi Condensed', 'Arial Narrow', sans-serif"


class Inking(StrEnum):
    """Where the picture is going."""

    PAGE = "page"
    PAPER = "paper"


def _n(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _path(points: tuple[Point, ...]) -> str:
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points)


def _stroke(kind: Stroke, inking: Inking) -> str:
    if kind is Stroke.NONE:
        return 'stroke="none"'
    if inking is Inking.PAGE:
        return f'class="s-{kind.value}"'
    style = STROKES[kind]
    dash = f' stroke-dasharray="{" ".join(_n(d) for d in style.dash_mm)}"' if style.dash_mm else ""
    return f'stroke="{INK_COLORS[style.ink]}" stroke-width="{_n(style.weight_mm)}"{dash}'


def _fill(kind: Fill, inking: Inking) -> str:
    if kind is Fill.NONE:
        return 'fill="none"'
    if inking is Inking.PAGE:
        return f'style="fill:var(--sheet-{kind.value},{INK_COLORS[kind.value]})"'
    return f'fill="{INK_COLORS[kind.value]}"'


def _arc(item: Arc) -> str:
    (cx, cy), r = item.center, item.radius_mm
    a, b = math.radians(item.from_deg), math.radians(item.to_deg)
    large = int(abs(item.to_deg - item.from_deg) > 180.0)
    sweep = int(item.to_deg > item.from_deg)
    start = f"{_n(cx + r * math.cos(a))} {_n(cy + r * math.sin(a))}"
    return f"M{start}A{_n(r)} {_n(r)} 0 {large} {sweep} {_n(cx + r * math.cos(b))} {_n(cy + r * math.sin(b))}"


def _text(item: Text, inking: Inking) -> str:
    x, y = item.at
    turn = f' transform="rotate({_n(item.turn_deg)} {_n(x)} {_n(y)})"' if item.turn_deg else ""
    weight = ' font-weight="600"' if item.weight is Weight.BOLD else ""
    name = "soft" if item.soft else "ink"
    color = (
        f'style="fill:var(--sheet-{name},{INK_COLORS[name]})"'
        if inking is Inking.PAGE
        else f'fill="{INK_COLORS[name]}"'
    )
    body, level = [], 0.0
    for run in runs_of(item.text):
        shift = (level - run.lift) * item.size_mm
        level = run.lift
        size = f' font-size="{_n(run.scale * item.size_mm)}"' if run.scale != 1.0 else ""
        move = f' dy="{_n(shift)}"' if shift else ""
        text = escape(run.text)
        body.append(f"<tspan{move}{size}>{text}</tspan>" if move or size else text)
    anchor = f' text-anchor="{item.anchor.value}"' if item.anchor.value != "start" else ""
    return (
        f'<text x="{_n(x)}" y="{_n(y)}" font-size="{_n(item.size_mm)}"{anchor}{weight}{turn} {color}>'
        f"{''.join(body)}</text>"
    )


@lru_cache(maxsize=4096)
def _shape(item: Item, inking: Inking) -> str:
    match item:
        case Line():
            return f'<path d="{_path((item.start, item.end))}" {_stroke(item.stroke, inking)}/>'
        case Segments():
            return f'<path d="{"".join(_path(line) for line in item.lines)}" {_stroke(item.stroke, inking)}/>'
        case Polyline():
            return f'<path d="{_path(item.points)}" {_stroke(item.stroke, inking)}/>'
        case Polygon():
            ink = f"{_fill(item.fill, inking)} {_stroke(item.stroke, inking)}"
            return f'<path d="{_path(item.points)}Z" {ink}/>'
        case Hatch():
            return _shape(hatch_lines(item), inking)
        case Circle():
            ink = f"{_fill(item.fill, inking)} {_stroke(item.stroke, inking)}"
            cx, cy = item.center
            return f'<circle cx="{_n(cx)}" cy="{_n(cy)}" r="{_n(item.radius_mm)}" {ink}/>'
        case Arc():
            return f'<path d="{_arc(item)}" {_stroke(item.stroke, inking)}/>'
        case Text():
            return _text(item, inking)
        case Window():
            return _window(item, inking)


def _window(item: Window, inking: Inking) -> str:
    left, top, right, bottom = item.opening
    name = "w" + "-".join(_n(v).replace(".", "_") for v in (*item.opening, *item.shift))
    opening = f'<rect x="{_n(left)}" y="{_n(top)}" width="{_n(right - left)}" height="{_n(bottom - top)}"/>'
    body = "".join(_shape(inner, inking) for inner in item.items)
    shift = f'<g transform="translate({_n(item.shift[0])} {_n(item.shift[1])})">{body}</g>'
    return f'<clipPath id="{name}">{opening}</clipPath><g clip-path="url(#{name})">{shift}</g>'


def _page_style() -> str:
    rules = []
    for kind, style in STROKES.items():
        dash = f";stroke-dasharray:{' '.join(_n(d) for d in style.dash_mm)}" if style.dash_mm else ""
        rules.append(
            f".sheet .s-{kind.value}{{stroke:var(--sheet-{style.ink},{INK_COLORS[style.ink]});"
            f"stroke-width:{_n(style.weight_mm)}{dash}}}"
        )
    return f"<style>{''.join(rules)}</style>"


def to_svg(sheet: Sheet, *, inking: Inking = Inking.PAPER) -> str:
    """Write a drawing as SVG; the same drawing gives the same characters.

    Parameters
    ----------
    sheet
        The drawing.
    inking
        ``PAPER`` writes colors and weights on every line; ``PAGE`` writes classes, and colors from the
        variables ``--sheet-ink``, ``--sheet-paper``, ``--sheet-tint``, ``--sheet-shade``, ``--sheet-soft``,
        ``--sheet-grain``.

    Returns
    -------
    str
        One ``svg`` element whose user unit is a millimeter.
    """
    w, h = _n(sheet.width_mm), _n(sheet.height_mm)
    size = f'width="{w}mm" height="{h}mm"' if inking is Inking.PAPER else 'class="sheet" role="img"'
    title = f"<title>{escape(sheet.title)}</title>" if sheet.title else ""
    style = _page_style() if inking is Inking.PAGE else ""
    body = "".join(_shape(item, inking) for item in sheet.items)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {w} {h}" fill="none" '
        f'stroke-linecap="round" stroke-linejoin="round" font-family="{_FONT}" font-stretch="semi-condensed">'
        f"{title}{style}{body}</svg>"
    )
