"""Line weights, patterns and tints of every drawing, made to survive a printer that has only black."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["INK_COLORS", "STROKES", "Fill", "Stroke", "StrokeStyle"]


class Stroke(StrEnum):
    """What a line stands for; its weight and pattern follow."""

    OUTLINE = "outline"
    VISIBLE = "visible"
    HIDDEN = "hidden"
    CENTER = "center"
    DIMENSION = "dimension"
    FINE = "fine"
    GRAIN = "grain"
    CUT = "cut"
    NONE = "none"


class Fill(StrEnum):
    """What an area is filled with."""

    NONE = "none"
    PAPER = "paper"
    TINT = "tint"
    SHADE = "shade"
    INK = "ink"


@dataclass(frozen=True, slots=True, kw_only=True)
class StrokeStyle:
    """How a kind of line is drawn.

    Parameters
    ----------
    weight_mm
        Width of the line. [mm]
    dash_mm
        Lengths drawn and left out, in turn; empty for an unbroken line. [mm]
    ink
        Name of its color.
    """

    weight_mm: float
    dash_mm: tuple[float, ...] = ()
    ink: str = "ink"


STROKES: dict[Stroke, StrokeStyle] = {
    Stroke.OUTLINE: StrokeStyle(weight_mm=0.5),
    Stroke.VISIBLE: StrokeStyle(weight_mm=0.3),
    Stroke.HIDDEN: StrokeStyle(weight_mm=0.2, dash_mm=(1.6, 0.8)),
    Stroke.CENTER: StrokeStyle(weight_mm=0.15, dash_mm=(4.0, 0.9, 0.6, 0.9)),
    Stroke.DIMENSION: StrokeStyle(weight_mm=0.15),
    Stroke.FINE: StrokeStyle(weight_mm=0.12),
    Stroke.GRAIN: StrokeStyle(weight_mm=0.12, ink="grain"),
    Stroke.CUT: StrokeStyle(weight_mm=0.45, dash_mm=(2.4, 1.0)),
}
"""Two thick weights and three thin ones, thick to thin about 2 to 1, as ISO 128 asks."""

INK_COLORS: dict[str, str] = {
    "ink": "#000000",
    "paper": "#ffffff",
    "tint": "#f1f1f1",
    "shade": "#d9d9d9",
    "soft": "#4d4d4d",
    "grain": "#b4b4b4",
}
"""Colors on paper, grays only. A page may give its own by setting ``--sheet-<name>``."""
