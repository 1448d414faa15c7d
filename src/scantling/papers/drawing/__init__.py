"""The drawing model: lines, lettering and dimensions in millimeters on paper, and their SVG."""

from scantling.papers.drawing.callout import (
    draw_balloon,
    draw_face_mark,
    draw_grain_arrow,
)
from scantling.papers.drawing.dimension import (
    AngleDimension,
    DimensionAxis,
    LinearDimension,
    draw_angle,
    draw_dimension,
    needs_room_mm,
)
from scantling.papers.drawing.ink import Fill, Stroke
from scantling.papers.drawing.items import (
    Anchor,
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
from scantling.papers.drawing.lettering import backing, text_box, text_width_mm, wrapped
from scantling.papers.drawing.simplifying import simplified
from scantling.papers.drawing.stacking import Side, Span, draw_stack, stack_depth_mm
from scantling.papers.drawing.svg import Inking, to_svg
from scantling.papers.drawing.view import STANDARD_SCALES, Box, View, bounds, fit_scale

__all__ = [
    "STANDARD_SCALES",
    "Anchor",
    "AngleDimension",
    "Arc",
    "Box",
    "Circle",
    "DimensionAxis",
    "Fill",
    "Hatch",
    "Inking",
    "Item",
    "Line",
    "LinearDimension",
    "Point",
    "Polygon",
    "Polyline",
    "Segments",
    "Sheet",
    "Side",
    "Span",
    "Stroke",
    "Text",
    "View",
    "Weight",
    "Window",
    "backing",
    "bounds",
    "draw_angle",
    "draw_balloon",
    "draw_dimension",
    "draw_face_mark",
    "draw_grain_arrow",
    "draw_stack",
    "fit_scale",
    "needs_room_mm",
    "simplified",
    "stack_depth_mm",
    "text_box",
    "text_width_mm",
    "to_svg",
    "wrapped",
]
