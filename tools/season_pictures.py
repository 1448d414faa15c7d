"""Draw the pictures of ``docs/seasons.md`` from the same functions that plan a piece.

Run it from the root of the repository when a model of moisture has changed; a test holds the pictures to it.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np

from case_pictures import cup_of_a_board, panel_in_its_groove, pin_in_its_slot
from scantling.papers.drawing.svg import to_svg
from scantling.papers.pictures.year_picture import (
    YearLine,
    YearLineStyle,
    YearMark,
    YearPanel,
    YearPicture,
    draw_year,
)
from scantling.seasons.air import Month
from scantling.seasons.room_file import find_room
from scantling.seasons.weather import mid_month_day, weather_series
from scantling.seasons.year import Built, PartYear, WoodPart, part_years
from scantling.wood.moisture import emc_pct
from scantling.wood.moisture_exclusion import BARE, find_exclusion
from scantling.wood.movement import movement
from scantling.wood.species import find_species

__all__ = ["DRAWN", "PICTURES", "main", "year_of_a_top"]

PICTURES = Path(__file__).resolve().parent.parent / "docs" / "pictures"
WIDTH_MM = 180.0
BUILT = Built(mc_pct=7.7, month=Month.OCT)


def _values(year: PartYear) -> tuple[float, ...]:
    return tuple(float(v) for v in np.interp(np.arange(0, 366, 5), year.days, year.mean_pct, period=365))


def _width(year: PartYear) -> tuple[float, ...]:
    part = year.part
    return tuple(
        movement(
            part.width_mm, species=part.species, ring_angle_deg=0.0, mc_from_pct=BUILT.mc_pct, mc_to_pct=value
        ).change_mm
        for value in _values(year)
    )


def year_of_a_top() -> str:
    """A cherry top 600 mm wide and 22 thick through a year of a house with dry winters, as SVG."""
    room = find_room("dry-winter-house")
    cherry, varnish = find_species("cherry"), find_exclusion("film varnish", coats=3)
    woods = [
        WoodPart(name=name, species=cherry, width_mm=600.0, thickness_mm=22.0, front=face, back=face)
        for name, face in (("bare", BARE), ("varnished", varnish))
    ]
    bare, varnished = part_years(woods, room, built=BUILT)
    temperature, humidity = weather_series(room.year, first_day=0.0, days=365, steps_per_day=1)
    air = emc_pct(temperature, humidity)
    humidity_line = YearLine(name="air", values=tuple(float(100 * h) for h in humidity[::5]))
    picture = YearPicture(
        title="A cherry top, 600 mm wide, 22 thick",
        panels=(
            YearPanel(
                title="Relative humidity, %", low=20, high=60, ticks=(20, 40, 60), lines=(humidity_line,)
            ),
            YearPanel(
                title="Moisture of the wood, %",
                low=5,
                high=11,
                ticks=(5, 7, 9, 11),
                lines=(
                    YearLine(
                        name="thin veneer",
                        values=tuple(float(value) for value in air[::5]),
                        style=YearLineStyle.DOTTED,
                    ),
                    YearLine(name="bare", values=_values(bare)),
                    YearLine(name="varnished", values=_values(varnished), style=YearLineStyle.DASHED),
                ),
            ),
            YearPanel(
                title="Change of width since it was built, mm",
                low=-4,
                high=4,
                ticks=(-4, -2, 0, 2, 4),
                lines=(
                    YearLine(name="bare", values=_width(bare)),
                    YearLine(name="varnished", values=_width(varnished), style=YearLineStyle.DASHED),
                ),
            ),
        ),
        marks=(YearMark(day=int(mid_month_day(BUILT.month.number)) + 1, text="built"),),
    )
    return to_svg(draw_year(picture, room_mm=WIDTH_MM))


DRAWN = {
    "year_of_a_top": year_of_a_top,
    "pin_in_its_slot": pin_in_its_slot,
    "panel_in_its_groove": panel_in_its_groove,
    "cup_of_a_board": cup_of_a_board,
}
"""Every picture of the page, by the name of its file."""


def main() -> None:
    """Write the pictures."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    for name, draw in DRAWN.items():
        (PICTURES / f"{name}.svg").write_text(draw(), encoding="utf-8")


if __name__ == "__main__":
    main()
