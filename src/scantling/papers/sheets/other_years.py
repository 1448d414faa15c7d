"""Sheets of other years: a room's year with each joint's least room and month, and when to build."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.papers.drawing.svg import Inking, to_svg
from scantling.papers.pictures.year_picture import (
    YearLine,
    YearLineStyle,
    YearMark,
    YearPanel,
    YearPicture,
    draw_year,
)
from scantling.papers.pictures.year_scale import half_months, scale_of, step_of
from scantling.papers.sheets.model import Align, Block, Column, Facts, Picture, Sheet, Table, Tone, Words
from scantling.papers.sheets.show import Show, label_of, word
from scantling.plan.build_months import BuildDay, BuildMonths
from scantling.plan.result import Plan
from scantling.plan.year.other_years import PlaceYear
from scantling.units import Round, show_number

__all__ = ["build_sheet", "places_sheet", "room_words"]

_R = Align.RIGHT
_ROOM_MM = 178.0
_MID_DAYS = (16, 46, 75, 106, 136, 167, 197, 228, 259, 289, 320, 350)


def room_words(places: Sequence[PlaceYear], plan: Plan) -> str:
    """How the piece fares in a room, in a sentence."""
    show = Show.of(plan)
    moving = [one for one in places if one.moves]
    if not moving:
        return "Nothing in it moves enough to bind."
    bound = [one for one in moving if one.least_mm < 0.0]
    least = moving[0]
    where = f"{least.place.what}, between {word(least.place.part)} and {word(least.place.holder)}"
    if not bound:
        left = show.gap(least.least_mm, Round.DOWN, unit=True)
        return f"Nothing binds. Tightest: {where}, with {left} left in {least.month.full_name}."
    count = f"{len(bound)} place{'s bind' if len(bound) > 1 else ' binds'}"
    by = show.gap(-least.least_mm, Round.UP, unit=True)
    return f"{count} with the joints as they are cut. Worst: {where}, by {by}, near {least.month.full_name}."


def places_sheet(places: Sequence[PlaceYear], plan: Plan) -> Sheet:
    """Each kind of place with the room it keeps at its worst and the month, the tightest first.

    Parameters
    ----------
    places
        From :func:`scantling.plan.other_room.plan_room_year`.
    plan
        In whose units figures are shown.
    """
    show = Show.of(plan)
    groups: dict[tuple[str, str, str, int, int], list[PlaceYear]] = {}
    for one in places:
        if one.moves:
            kind = " ".join(each for each in one.place.what.split() if not each.isdigit())
            # alike to a tenth of a millimeter in room, and of one kind
            key = (one.place.joint.partition(".")[0], kind, one.place.part)
            groups.setdefault((*key, round(10 * one.least_mm), one.month.number), []).append(one)
    rows = [(key, members[0], len(members)) for key, members in groups.items()]
    table = Table(
        title="Room each joint keeps",
        columns=(
            Column(title="Joint"),
            Column(title="Least room", align=_R),
            Column(title="Month"),
            Column(title="When the wood is"),
            Column(title="Moves in the year", align=_R),
        ),
        rows=tuple(
            (
                f"{word(key[0])}: {key[1]}{f' ({count})' if count > 1 else ''}",
                _left(show, one.least_mm),
                one.month.full_name,
                "driest" if one.when_dry else "wettest",
                show.gap(max(one.place.moved_mm) - min(one.place.moved_mm), Round.UP),
            )
            for key, one, count in rows
        ),
        tones=tuple(Tone.BAD if one.least_mm < 0.0 else Tone.PLAIN for _, one, _ in rows),
        parts=tuple((one.place.part,) for _, one, _ in rows),
        note=f"In {_unit(show)}; at the worst of three years from the day of building, for the usual board "
        "of the wood. Minus: it binds by so much. The month is that of a settled year.",
    )
    return Sheet(id="places", title="Joints", lead="The tightest first.", blocks=(table,))


def build_sheet(found: BuildMonths, plan: Plan) -> Sheet:
    """When to build: the months, the moistures, what else they change.

    Parameters
    ----------
    found
        From :func:`scantling.plan.build_months.plan_build_months`.
    plan
        Of the piece; its advice on the moisture halfway is told too.
    """
    show, advice = Show.of(plan), plan.seasons.advice
    best, worst = found.day(found.best), found.day(found.worst)
    blocks: list[Block] = []
    if not found.same_air:
        blocks.append(
            Facts(
                title="",
                items=(
                    ("Best month", best.month.full_name),
                    ("Its wood", f"{best.mc_pct:.1f} %"),
                    ("Worst month", worst.month.full_name),
                    ("Its wood", f"{worst.mc_pct:.1f} %"),
                ),
            )
        )
        blocks.append(_months_picture(found, plan, show))
        blocks.append(_table("By month of building", found.months, plan, show, best=found))
    blocks.append(_table("By moisture of the wood on that day", found.moistures, plan, show))
    lines = [
        f"Halfway between the room's driest and wettest the wood holds {advice.target_mc_pct:.1f} %: built "
        "at that, it goes about as far both ways.",
        "As now cut: the joints as this plan has them. Cut for it: set Month of milling and Moisture "
        "measured in the wood in the shop's climate, and slots, gaps and grooves are set for that day.",
    ]
    if found.same_air:
        lines.insert(
            0,
            f"The shop's air is given as one figure for the year, so its wood is at {best.mc_pct:.1f} % in "
            "every month and the month matters little. Give the driest and the most humid of its year in the "
            "shop's climate to see which month is best.",
        )
    blocks.append(Words(title="What it means", lines=tuple(lines)))
    return Sheet(id="when", title="When to build", lead=_lead(found, best, worst, show), blocks=tuple(blocks))


def _lead(found: BuildMonths, best: BuildDay, worst: BuildDay, show: Show) -> str:
    if found.same_air:
        return "The moisture of the wood decides, not the month."
    if not best.part:
        return "Nothing in it moves enough to choose a month by."
    part = label_of(best.part)
    return (
        f"{best.month.full_name} is best, planned for it: {part.lower()} then gets {_ways(best, show)} than "
        f"built. {worst.month.full_name} is worst: {_ways(worst, show)}."
    )


def _ways(day: BuildDay, show: Show) -> str:
    narrower, wider = (show.gap(mm, Round.UP, unit=True) for mm in (day.narrower_mm, day.wider_mm))
    return f"{narrower} narrower and {wider} wider"


def _table(
    title: str, days: Sequence[BuildDay], plan: Plan, show: Show, *, best: BuildMonths | None = None
) -> Table:
    part = word(days[0].part).capitalize() if days and days[0].part else "Widest part"
    marks = {} if best is None else {best.best: "best", best.worst: "worst"}
    at_hand = plan.seasons.moisture.build_pct
    nearest = min(days, key=lambda day: abs(day.mc_pct - at_hand)) if best is None and days else None

    def name(day: BuildDay) -> str:
        if best is None:
            return f"{day.mc_pct:.0f} %{' (nearest to the plan)' if day is nearest else ''}"
        return f"{day.month.full_name}{f' ({marks[day.month]})' if day.month in marks else ''}"

    def cells(day: BuildDay) -> tuple[str, ...]:
        wood = () if best is None else (f"{day.mc_pct:.1f} %",)
        narrower, wider = (show.gap(mm, Round.UP) for mm in (day.narrower_mm, day.wider_mm))
        return (name(day), *wood, _room(show, day.as_cut), _room(show, day.cut_for_it), narrower, wider)

    wood = () if best is None else (Column(title="Wood at", align=_R),)
    return Table(
        title=title,
        columns=(
            Column(title="Month" if best is not None else "Wood at"),
            *wood,
            Column(title="Least room as now cut", align=_R),
            Column(title="Cut for it", align=_R),
            Column(title=f"{part} narrower", align=_R),
            Column(title="Wider", align=_R),
        ),
        rows=tuple(cells(day) for day in days),
        tones=tuple(_tone(day) for day in days),
        note=f"In {_unit(show)}, at the tightest joint and at its worst in the three years that follow. "
        "Minus: it binds by so much. Tinted: as now cut it would bind; plan it anew for that day, or build "
        "on another.",
    )


def _unit(show: Show) -> str:
    return "inches" if show.unit == "in" else show.unit


def _tone(day: BuildDay) -> Tone:
    if _binds(day.cut_for_it):
        return Tone.BAD
    return Tone.WARN if _binds(day.as_cut) else Tone.PLAIN


def _binds(place: PlaceYear | None) -> bool:
    return place is not None and place.least_mm < 0.0


def _room(show: Show, place: PlaceYear | None) -> str:
    return "—" if place is None else _left(show, place.least_mm)


def _left(show: Show, mm: float) -> str:
    return f"−{show.gap(-mm, Round.UP)}" if mm < 0.0 else show.gap(mm, Round.DOWN)


def _months_picture(found: BuildMonths, plan: Plan, show: Show) -> Picture:
    """Room at the tightest joint over the month of building, cut either way; below naught it binds."""
    per = 25.4 if plan.units == "in" else 1.0

    def rooms(days: Sequence[PlaceYear | None]) -> tuple[float, ...]:
        return tuple(0.0 if one is None else one.least_mm / per for one in days)

    as_cut = rooms([day.as_cut for day in found.months])
    anew = rooms([day.cut_for_it for day in found.months])
    both = [*as_cut, *anew, 0.0]
    steps = (0.01, 0.02, 0.05, 0.1, 0.2) if plan.units == "in" else (0.2, 0.5, 1.0, 2.0, 5.0)
    low, high, ticks = scale_of(both, step_of(both, steps))
    panel = YearPanel(
        title=f"Least room at the tightest joint, {show.unit}, over the month of building",
        low=low,
        high=high,
        ticks=ticks,
        lines=(
            YearLine(name="as now cut", values=half_months(as_cut), style=YearLineStyle.FIRM),
            YearLine(name="cut for it", values=half_months(anew), style=YearLineStyle.DASHED),
        ),
        limit=0.0 if low < 0.0 else None,
        limit_name="binds",
        limit_from_above=True,
        height_mm=34.0,
    )
    marks = tuple(
        YearMark(day=_MID_DAYS[month.number], text=text)
        for month, text in ((found.best, "best"), (found.worst, "worst"))
    )
    drawn = draw_year(YearPicture(title="When to build", panels=(panel,), marks=marks), room_mm=_ROOM_MM)
    words = (
        f"Least room over the month of building: {show_number(as_cut[found.best.number], digits=2)} in "
        f"{found.best.full_name} and {show_number(as_cut[found.worst.number], digits=2)} in "
        f"{found.worst.full_name} as now cut."
    )
    return Picture(title="", svg=to_svg(drawn, inking=Inking.PAGE), words=words)
