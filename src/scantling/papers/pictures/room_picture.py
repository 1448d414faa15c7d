"""The year of a room by itself: its air, and the moisture wood comes to rest at in it."""

from __future__ import annotations

from scantling.papers.drawing.svg import Inking, to_svg
from scantling.papers.pictures.year_picture import YearLine, YearLineStyle, YearPanel, YearPicture, draw_year
from scantling.papers.pictures.year_scale import half_months, scale_of, step_of
from scantling.papers.sheets.model import Picture
from scantling.seasons.air import Month
from scantling.seasons.room import Room

__all__ = ["room_drawing"]

ROOM_MM = 178.0
"""Width the drawing is made for; the page scales it. [mm]"""


def room_drawing(room: Room, *, inch: bool) -> Picture:
    """The room's year as a drawing with its words.

    Parameters
    ----------
    room
        The room.
    inch
        Whether degrees are Fahrenheit.
    """
    humidity = [100.0 * air.relative_humidity for air in room.year.months]
    degrees = [air.temperature_c * 1.8 + 32.0 if inch else air.temperature_c for air in room.year.months]
    wood = list(room.year.emc_pct)
    panels = (
        _panel(
            f"Air, °{'F' if inch else 'C'}", degrees, step_of(degrees, (2.0, 5.0, 10.0, 20.0)), height_mm=14.0
        ),
        _panel("Relative humidity, %", humidity, 20.0, height_mm=16.0),
        _panel("Wood comes to rest at, %", wood, 2.0, height_mm=24.0),
    )
    dry, wet = room.driest, room.wettest
    words = (
        f"Driest in {dry.full_name}: wood at {wood[dry.number]:.1f} %. "
        f"Wettest in {wet.full_name}: {wood[wet.number]:.1f} %."
    )
    drawing = draw_year(YearPicture(title=f"The year of {room.name}", panels=panels), room_mm=ROOM_MM)
    return Picture(title="", svg=to_svg(drawing, inking=Inking.PAGE), words=words)


def _panel(title: str, values: list[float], step: float, *, height_mm: float) -> YearPanel:
    """One band; humidity from nothing up, wood in a firm line."""
    assert len(values) == len(Month), "a value a month"
    percent, wood = title.endswith("%"), title.startswith("Wood")
    low, high, ticks = scale_of([*values, 0.0] if percent and not wood else values, step)
    line = YearLine(
        name="thin, bare wood" if wood else "monthly mean",
        values=half_months(values),
        style=YearLineStyle.FIRM if wood else YearLineStyle.PLAIN,
    )
    return YearPanel(title=title, low=low, high=high, ticks=ticks, lines=(line,), height_mm=height_mm)
