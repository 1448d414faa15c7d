"""The year as the page shows it: months to slide through, in words, with the stretch of each part."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.papers.sheets.season_tables import alike_edges
from scantling.papers.sheets.show import Show
from scantling.papers.words.naming import label_of, plain_words
from scantling.plan.result import Plan
from scantling.plan.year.year_edges import FELT_MM, EdgeYear
from scantling.plan.year.year_rooms import MovingPlace
from scantling.seasons.air import Month
from scantling.solids.explode import scene_vector_m
from scantling.units import Round
from scantling.web.sent.views import MonthView, PartYearView, YearView

__all__ = ["year_view"]


def year_view(plan: Plan) -> YearView:
    """The day of building and twelve months, January first.

    Parameters
    ----------
    plan
        With its seasons and its year.
    """
    show, rooms = Show.of(plan), plan.year
    built = MonthView(
        label="As built",
        short="Built",
        goes_in=False,
        words=f"The day it was built: wood at {plan.seasons.moisture.build_pct:.1f} %.",
        tight="",
        room="",
        tight_part="",
        tight_at_m=None,
        binds=False,
    )
    return YearView(
        months=(built, *(_month(month, plan, show=show) for month in Month)),
        parts=tuple(
            PartYearView(
                name=part.part, fixed_m=part.fixed_mm / 1000.0, stretches=(0.0, *map(_short, part.stretches))
            )
            for part in rooms.parts
        ),
    )


def _month(month: Month, plan: Plan, *, show: Show) -> MonthView:
    rooms = plan.year
    air = plan.seasons.months[month.number]
    words = f"Air {show.temperature(air.temperature_c)} and {air.humidity_pct:.0f} % humid."
    if rooms.parts:
        most = rooms.parts[0]
        words += f" {_changed(label_of(most.part), most.changes_mm[month.number], show)}"
    words += "".join(f" {_edges(members, one, month, show)}" for members, one in alike_edges(rooms.edges))
    goes_in = month is plan.seasons.built_month
    if goes_in:
        words += (
            f" In this month{' (assumed)' if plan.seasons.built_month_assumed else ''} it goes into its room."
        )
    place = rooms.tightest(month.number)
    room_mm = 0.0 if place is None else place.rooms_mm[month.number]
    return MonthView(
        label=month.full_name,
        short=month.full_name[:3],
        goes_in=goes_in,
        words=words,
        tight="" if place is None else _tight(place, room_mm, show),
        room="" if place is None else _room(room_mm, show),
        tight_part="" if place is None else place.part,
        tight_at_m=None if place is None else scene_vector_m(place.at),
        binds=room_mm < 0.0,
    )


def _changed(name: str, change_mm: float, show: Show) -> str:
    shown = show.gap(abs(change_mm), unit=True)
    if show.gap(abs(change_mm)) == show.gap(0.0):
        return f"{name} is as wide as when it was built."
    return f"{name} is {shown} {'wider' if change_mm > 0.0 else 'narrower'} than when it was built."


def _edges(members: Sequence[EdgeYear], one: EdgeYear, month: Month, show: Show) -> str:
    step = one.steps_mm[month.number]
    edges = f"{' and '.join(edge.edge.value for edge in members)} edge{'s' if len(members) > 1 else ''}"
    stand = "stand" if len(members) > 1 else "stands"
    where = f"{show.gap(abs(step), unit=True)} {'out beyond' if step > 0.0 else 'back from'}"
    at = "flush with" if abs(step) <= FELT_MM else where
    return f"The {edges} of {plain_words(one.panel)} {stand} {at} the breadboard ends."


def _tight(place: MovingPlace, room_mm: float, show: Show) -> str:
    where = f"{place.what}, between {plain_words(place.part)} and {plain_words(place.holder)}"
    return f"Tightest: {where}. {_room(room_mm, show)}."


def _room(room_mm: float, show: Show) -> str:
    if room_mm < 0.0:
        return f"Binds by {show.gap(-room_mm, Round.UP, unit=True)}"
    return f"Room left {show.gap(room_mm, Round.DOWN, unit=True)}"


def _short(stretch: float) -> float:
    return round(stretch, 7)
