"""The season sheet: the year in the room, the parts that move, and the joints that must let them."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence

from scantling.papers.packet import Fact
from scantling.papers.packet.sections import FreedomRow, MovementRow
from scantling.papers.pages.figures import Figures
from scantling.papers.pictures.year_picture import YearLine, YearLineStyle, YearMark, YearPanel, YearPicture
from scantling.papers.pictures.year_scale import half_months, scale_of, step_of
from scantling.papers.sheets.season_tables import LEAST_CUP_MM, alike_edges, built_in
from scantling.papers.sheets.show import joints_words, names_of, word
from scantling.papers.words.naming import listed, plain_words
from scantling.piece.model import Piece
from scantling.plan.year.seasons import JointTravel, SeasonPart, Seasons, Verdict
from scantling.plan.year.year_edges import EdgeYear
from scantling.plan.year.year_rooms import MovingPlace, YearRooms
from scantling.seasons.air import Month
from scantling.units import Round, leading, show_number
from scantling.wood.ring import rings_in_words

__all__ = ["freedom_rows", "movement_rows", "room_facts", "season_notes", "year_picture"]

_STYLES = (YearLineStyle.FIRM, YearLineStyle.DASHED, YearLineStyle.PLAIN)
_MID_DAYS = (16, 46, 75, 106, 136, 167, 197, 228, 259, 289, 320, 350)


_NAMES = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def _month(month: Month) -> str:
    return _NAMES[list(Month).index(month)]


def _by_month(part: SeasonPart) -> dict[Month, tuple[float, float]]:
    return {m.month: (m.mean_pct, m.width_change_mm) for m in part.months}


def _unlike(parts: Sequence[SeasonPart]) -> list[SeasonPart]:
    chosen: dict[str, SeasonPart] = {}
    for part in parts:
        chosen.setdefault(part.like, part)
    most = max((p.widest_mm - p.narrowest_mm for p in chosen.values()), default=0.0)
    worth = [p for p in chosen.values() if p.widest_mm - p.narrowest_mm >= 0.2 * most]
    return worth[:3]


def year_picture(seasons: Seasons, year: YearRooms, *, figures: Figures) -> YearPicture:
    """The year in bands: air, moisture of the wood, width of what moves most, room at the tightest place.

    Parameters
    ----------
    seasons, year
        Of the plan.
    figures
        How lengths are written.

    Returns
    -------
    YearPicture
        Monthly means joined by straight lines.
    """
    months = list(Month)
    air = {m.month: m for m in seasons.months}
    humidity = [air[m].humidity_pct for m in months]
    parts = _unlike(seasons.parts)
    low, high, ticks = scale_of([*humidity, 0.0], 20.0)
    panels = [
        YearPanel(
            title="Air of the room, relative humidity, %",
            low=low,
            high=high,
            ticks=ticks,
            lines=(YearLine(name="monthly mean", values=half_months(humidity)),),
            height_mm=16.0,
        )
    ]
    emc = [air[m].emc_pct for m in months]
    wood = [[_by_month(p)[m][0] for m in months] for p in parts]
    low, high, ticks = scale_of([*emc, *(v for line in wood for v in line)], 2.0)
    lines = [YearLine(name="thin, bare", values=half_months(emc), style=YearLineStyle.DOTTED)]
    lines += [
        YearLine(name=word(p.part), values=half_months(v), style=s)
        for p, v, s in zip(parts, wood, _STYLES, strict=False)
    ]
    panels.append(
        YearPanel(
            title="Moisture of the wood, %",
            low=low,
            high=high,
            ticks=ticks,
            lines=tuple(lines),
            height_mm=20.0,
        )
    )
    if parts:
        panels.append(_change_panel(parts, figures))
    if year.tightest_of_year is not None:
        panels.append(_room_panel(year.tightest_of_year, figures))
    built = _MID_DAYS[months.index(seasons.built_month)]
    return YearPicture(
        title="The year in the room",
        panels=tuple(panels),
        marks=(YearMark(day=built, text=f"built in {built_in(seasons)}"),),
    )


def _change_panel(parts: Sequence[SeasonPart], figures: Figures) -> YearPanel:
    lead = figures.lead  # one scale, one unit
    per = 25.4 if lead.style.inch else 1.0
    months = list(Month)
    changes = [[_by_month(p)[m][1] / per for m in months] for p in parts]
    flat = [v for line in changes for v in line]
    steps = (0.01, 0.02, 0.05, 0.1, 0.2) if figures.style.inch else (0.5, 1.0, 2.0, 5.0, 10.0)
    low, high, ticks = scale_of([*flat, 0.0], step_of([*flat, 0.0], steps))
    first = changes[0]
    worst = max(range(12), key=lambda i: abs(first[i]))
    return YearPanel(
        title=f"Width against build day, {lead.unit}",
        low=low,
        high=high,
        ticks=ticks,
        lines=tuple(
            YearLine(name=word(p.part), values=half_months(v), style=s)
            for p, v, s in zip(parts, changes, _STYLES, strict=False)
        ),
        spot=YearMark(
            day=_MID_DAYS[worst],
            text=_worst_words(parts[0].part, first[worst] * per, months[worst], figures),
        ),
        height_mm=22.0,
    )


def _room_panel(place: MovingPlace, figures: Figures) -> YearPanel:
    """Room left at the place that comes nearest to binding; below the limit it binds."""
    lead = figures.lead  # one scale, one unit
    per = 25.4 if lead.style.inch else 1.0
    rooms = [mm / per for mm in place.rooms_mm]
    steps = (0.01, 0.02, 0.05, 0.1, 0.2) if figures.style.inch else (0.2, 0.5, 1.0, 2.0, 5.0)
    low, high, ticks = scale_of([*rooms, 0.0], step_of([*rooms, 0.0], steps))
    worst = min(range(12), key=lambda i: rooms[i])
    left = place.rooms_mm[worst]
    words = f"binds by {figures.tenths(-left)}" if left < 0.0 else f"{figures.tenths(left)} left"
    return YearPanel(
        title=f"Tightest: {place.what}, {plain_words(place.part)}, room left, {lead.unit}",
        low=low,
        high=high,
        ticks=ticks,
        lines=(YearLine(name="room left", values=half_months(rooms), style=YearLineStyle.FIRM),),
        limit=0.0 if low < 0.0 else None,
        limit_name="binds",
        limit_from_above=True,
        spot=YearMark(day=_MID_DAYS[worst], text=f"{_month(list(Month)[worst])}: {words}"),
        height_mm=24.0,
    )


def _worst_words(part: str, change_mm: float, month: Month, figures: Figures) -> str:
    return f"{word(part)}, {_month(month)}: {_signed(change_mm, figures, unit=True)}"


def _signed(value_mm: float, figures: Figures, *, unit: bool = False) -> str:
    text = figures.tenths(abs(value_mm), unit=unit)
    if leading(text).split(" ")[0] == "0":
        return text
    return figures.tenths(abs(value_mm), unit=unit, sign="−" if value_mm < 0 else "+")


def room_facts(seasons: Seasons) -> tuple[Fact, ...]:
    """The room at its driest and wettest, and the wood as built.

    Parameters
    ----------
    seasons
        Of the plan.

    Returns
    -------
    tuple of Fact
        For the head of the sheet.
    """
    dry = min(seasons.months, key=lambda m: m.emc_pct)
    wet = max(seasons.months, key=lambda m: m.emc_pct)
    moisture = seasons.moisture

    def fact(label: str, humidity: float, pct: float) -> Fact:
        return Fact(label=label, value=f"{humidity:.0f} % RH", note=f"wood settles at {show_number(pct)} %")

    return (
        fact(f"Driest, {_month(dry.month)}", dry.humidity_pct, moisture.dry_pct),
        Fact(label="Wood as built", value=f"{show_number(moisture.build_pct)} %", note="of ovendry weight"),
        fact(f"Wettest, {_month(wet.month)}", wet.humidity_pct, moisture.wet_pct),
        Fact(
            label="Best moisture to build at",
            value=f"{show_number(seasons.advice.target_mc_pct)} %",
            note=f"shop at {seasons.advice.target_humidity * 100.0:.0f} % RH",
        ),
    )


def movement_rows(seasons: Seasons, piece: Piece, *, figures: Figures) -> tuple[MovementRow, ...]:
    """Wide parts, alike ones in one line.

    Parameters
    ----------
    seasons, piece
        Of the plan.
    figures
        How lengths are written.

    Returns
    -------
    tuple of MovementRow
        The most moved first.
    """
    groups: dict[tuple[str, float, float], list[SeasonPart]] = {}
    for part in seasons.parts:
        groups.setdefault((part.like, round(part.width_mm, 1), round(part.narrowest_mm, 2)), []).append(part)
    rows = []
    for group in groups.values():
        one = group[0]
        rows.append(
            MovementRow(
                part=names_of(p.part for p in group),
                wood=piece.parts[one.part].species,
                cut=rings_in_words([ring for _, ring in piece.parts[one.part].rings_across]),
                driest=_signed(one.narrowest_mm, figures),
                build=figures.bare(one.width_mm),
                wettest=_signed(one.widest_mm, figures),
                year=_swing(one, figures),
            )
        )
    return tuple(rows)


def _swing(part: SeasonPart, figures: Figures) -> str:
    """Width over the year, and between which figures nine boards in ten of the wood lie."""
    near, far = part.widest_near_mm - part.narrowest_near_mm, part.widest_high_mm - part.narrowest_low_mm
    usual, *edges = (figures.tenths(mm) for mm in (part.widest_mm - part.narrowest_mm, near, far))
    return usual if set(edges) == {usual} else f"{usual} ({edges[0]} to {edges[1]})"


def _means(travel: JointTravel, figures: Figures) -> str:
    if travel.spare_mm < -1e-6:
        short = figures.travel(-travel.spare_mm, Round.UP, unit=True)
        return f"BINDS: {short} short when {travel.tight_when}"
    words = f"{figures.travel(travel.spare_mm, Round.DOWN, unit=True)} to spare when {travel.tight_when}"
    if abs(travel.bias_mm) > 0.25:
        way = "toward" if travel.bias_mm > 0 else "away from"
        words += f"; middle {figures.tenths(abs(travel.bias_mm), unit=True)} {way} the fixed line"
    return words


def freedom_rows(seasons: Seasons, *, figures: Figures) -> tuple[FreedomRow, ...]:
    """Places that must move, the tightest first, equal ones of one joint together.

    Parameters
    ----------
    seasons
        Of the plan.
    figures
        How lengths are written.

    Returns
    -------
    tuple of FreedomRow
        One line for each kind of place.
    """
    groups: dict[tuple[object, ...], list[JointTravel]] = {}
    for travel in seasons.joints:
        numbers = (
            travel.shrink_travel_mm,
            travel.swell_travel_mm,
            travel.shrink_room_mm,
            travel.swell_room_mm,
        )
        part = "" if travel.is_glue_line else travel.part  # eight legs' tenons are one line
        key = (part, round(travel.cut_to_mm, 1), *(round(n, 1) for n in numbers))
        groups.setdefault(key, []).append(travel)
    rows, fine = [], figures.fine
    for group in groups.values():
        one = group[0]
        places = list(dict.fromkeys(t.what for t in group))
        rows.append(
            FreedomRow(
                joint=joints_words(t.joint for t in group),
                place=_place_words(places),
                shrink=_of_room(one.shrink_travel_mm, one.shrink_room_mm, figures),
                swell=_of_room(one.swell_travel_mm, one.swell_room_mm, figures),
                cut_to=fine.bare(one.cut_to_mm, Round.UP) if one.cut_to_mm else "",
                middle="" if one.mid_travel_mc_pct is None else f"{one.mid_travel_mc_pct:.1f} %",
                means=_means(one, figures),
            )
        )
    return tuple(rows)


def _place_words(places: Sequence[str]) -> str:
    """Places of a joint that differ in their number, the rest said once: ``tenon 1 and 5 in its mortise``."""
    groups: dict[tuple[str, str], list[str]] = {}
    for place in places:
        before, number, after = re.fullmatch(r"(\D*)(\d*)(.*)", place).groups()  # type: ignore[union-attr]
        groups.setdefault((before, after), []).append(number)
    return ", ".join(f"{before}{listed(numbers)}{after}" for (before, after), numbers in groups.items())


def _of_room(travel_mm: float, room_mm: float, figures: Figures) -> str:
    """What is asked for, rounded up, of the room there is, rounded down."""
    room = "any" if room_mm > 1e4 or math.isinf(room_mm) else figures.travel(room_mm, Round.DOWN)
    return f"{figures.travel(travel_mm, Round.UP)} of {room}"


def season_notes(seasons: Seasons, year: YearRooms, *, figures: Figures) -> tuple[str, ...]:
    """What the tables do not hold: edges of breadboard ends by month, cup, and movement along the grain.

    Parameters
    ----------
    seasons, year
        Of the plan.
    figures
        How lengths are written.
    """
    notes = [f"The room: {line}" for line in seasons.notes]
    notes += [_edge_words(members, one, figures) for members, one in alike_edges(year.edges)]
    notes += [_cup_words(part, figures) for part in _unlike(seasons.parts) if _cups(part)]
    tight = sum(joint.verdict is Verdict.TIGHT for joint in seasons.joints)
    if tight:
        notes.append(
            f"{tight} of these places would bind on a board as lively as one in twenty of its wood: give "
            "them more clearance, or measure a strip of the board dry and damp."
        )
    return tuple(notes)


def _edge_words(members: Sequence[EdgeYear], one: EdgeYear, figures: Figures) -> str:
    edges = " and ".join(edge.edge.value for edge in members)
    months = ", ".join(
        f"{month.value.capitalize()} {_signed(mm, figures)}"
        for month, mm in zip(Month, one.steps_mm, strict=True)
    )
    return (
        f"{word(one.panel).capitalize()}, {edges} edge against the breadboard ends, {figures.unit}, minus "
        f"for standing back: {months}."
    )


def _cups(part: SeasonPart) -> bool:
    return max(abs(part.largest_cup_mm), _ring_cup_mm(part)) >= LEAST_CUP_MM


def _ring_cup_mm(part: SeasonPart) -> float:
    """The larger cup from its rings; none where it is not known. [mm]"""
    rings = part.ring_cup
    return 0.0 if rings is None else max(abs(rings.dry_mm), abs(rings.wet_mm))


def _cup_words(part: SeasonPart, figures: Figures) -> str:
    rings = part.ring_cup
    words = []
    if abs(part.largest_cup_mm) >= LEAST_CUP_MM:
        words.append(
            f"{figures.tenths(abs(part.largest_cup_mm), unit=True)} from one face wetter than the other"
        )
    if rings is not None and _ring_cup_mm(part) >= LEAST_CUP_MM:
        words.append(
            f"each board of {figures.length(rings.strip_mm)} by its rings, "
            f"{_bark(rings.dry_mm, figures)} on the bark side when driest and "
            f"{_bark(rings.wet_mm, figures)} when wettest"
        )
    return f"{word(part.part).capitalize()}, lying free, cups {'; '.join(words)}."


def _bark(value_mm: float, figures: Figures) -> str:
    text = figures.tenths(abs(value_mm))
    return text if leading(text) == "0" else f"{text} {'hollow' if value_mm > 0.0 else 'round'}"
