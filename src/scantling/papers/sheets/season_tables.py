"""Tables of the seasons sheet: widths, cup, the edges of breadboard ends, places that must be free."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.papers.sheets.model import Align, Column, Table, Tone
from scantling.papers.sheets.show import Show, names_of, word
from scantling.papers.words.naming import label_of
from scantling.plan.year.season_parts import PITH_MM
from scantling.plan.year.seasons import JointTravel, SeasonPart, Seasons, Verdict
from scantling.plan.year.year_edges import EdgeYear
from scantling.seasons.air import Month
from scantling.units import Round, show_number

__all__ = [
    "LEAST_CUP_MM",
    "alike_edges",
    "built_in",
    "cup_table",
    "edges_table",
    "joints_table",
    "parts_table",
    "signed",
]

_R = Align.RIGHT
_TONES = {Verdict.BINDS: Tone.BAD, Verdict.TIGHT: Tone.WARN, Verdict.FREE: Tone.GOOD}
LEAST_CUP_MM = 0.1
"""Less cup than this is not listed. [mm]"""


def built_in(seasons: Seasons) -> str:
    """The month in which the wood is milled, and that it is assumed where the shop's file does not say."""
    return f"{seasons.built_month.full_name}{', assumed' if seasons.built_month_assumed else ''}"


def parts_table(parts: tuple[SeasonPart, ...], show: Show) -> Table:
    """Widths of the parts, parts alike in one line."""
    groups: dict[tuple[object, ...], list[SeasonPart]] = {}
    for part in parts:
        groups.setdefault((part.like, round(part.width_mm, 3)), []).append(part)
    rows = tuple(_part_row(members, show) for members in groups.values())
    long = max(parts, key=lambda part: abs(part.length_change_mm), default=None)
    along = (
        f" Along the grain wood hardly moves: {word(long.part)} by about "
        f"{show.gap(abs(long.length_change_mm), Round.UP, unit=True)} over the year, left out of every joint."
        if long is not None
        else ""
    )
    unlike = any(len(part.strip_widths_mm) > 1 for part in parts)
    mixed = " A panel of unlike strips moves by each one's rings and its width as sawn." if unlike else ""
    outside = "".join(f" {note[0].upper()}{note[1:]}." for note in sorted({p.note for p in parts if p.note}))
    return Table(
        title="Width of the parts",
        columns=(
            Column(title="Part"),
            Column(title="Rings"),
            Column(title=f"Width {show.unit}", align=_R),
            Column(title="Driest", align=_R),
            Column(title="Wettest", align=_R),
            Column(title="Days to follow the air", align=_R),
            Column(title="Share of the room's swing it makes", align=_R),
        ),
        rows=rows,
        parts=tuple(tuple(p.part for p in members) for members in groups.values()),
        note="Change since the day of building, if the wood came to rest with the driest and "
        "the wettest month; in brackets between which figures nine boards in ten of the wood lie. Joints are "
        "laid out for the first figure and the whole swing, which is on the safe side: "
        f"thickness and finish slow the real swing to the share shown.{mixed}{outside}{along}",
    )


def _part_row(members: list[SeasonPart], show: Show) -> tuple[str, ...]:
    one = members[0]
    return (
        names_of(p.part for p in members),
        one.rings,
        show.length(one.width_mm),
        _banded(show, one.narrowest_mm, (one.narrowest_near_mm, one.narrowest_low_mm)),
        _banded(show, one.widest_mm, (one.widest_near_mm, one.widest_high_mm)),
        f"{one.lag_days:.0f}",
        f"{100 * one.swing_share:.0f} %",
    )


def signed(show: Show, mm: float) -> str:
    """A change with its sign; nothing before what shows as naught."""
    figure = show.gap(abs(mm))
    if figure == show.gap(0.0):
        return figure
    return show.gap(abs(mm), sign="+" if mm > 0.0 else "−")


def _banded(show: Show, mm: float, band_mm: tuple[float, float]) -> str:
    if show.gap(abs(mm)) == show.gap(0.0):
        return show.gap(0.0)
    near, far = (show.gap(abs(edge)) for edge in band_mm)
    return f"{signed(show, mm)} ({near} to {far})"


def cup_table(parts: Sequence[SeasonPart], show: Show) -> Table | None:
    """Cup of wide parts from both causes; None where none is worth a line."""
    worth: dict[tuple[object, ...], list[SeasonPart]] = {}
    for part in parts:
        rings = (0.0, 0.0, 0.0)
        if part.ring_cup is not None:
            rings = (part.ring_cup.dry_mm, part.ring_cup.wet_mm, part.ring_cup.strip_mm)
        if max(abs(part.largest_cup_mm), abs(rings[0]), abs(rings[1])) >= LEAST_CUP_MM:
            key = (part.like, round(part.largest_cup_mm, 2), *(round(size, 2) for size in rings))
            worth.setdefault(key, []).append(part)
    if not worth:
        return None
    return Table(
        title="Cup of wide parts, lying free",
        columns=(
            Column(title="Part"),
            Column(title="One face wetter", align=_R),
            Column(title=f"Board or strip {show.unit}", align=_R),
            Column(title="From its rings, driest", align=_R),
            Column(title="Wettest", align=_R),
            Column(title="All strips bark up", align=_R),
        ),
        rows=tuple(_cup_row(members, show) for members in worth.values()),
        parts=tuple(tuple(p.part for p in members) for members in worth.values()),
        note="Middle against the edges. One face wetter: the most of any day, from a finish that differs on "
        "the two faces; finish both alike and it is gone. From its rings: the bark side of a flat-sawn board "
        "goes hollow when it dries and round when it takes up water, "
        f"here with the pith {show.length(PITH_MM, unit=True)} off; all strips bark side up, the panel bends "
        "as one board would. Clips, battens and frames hold most of it flat.",
    )


def _cup_row(members: list[SeasonPart], show: Show) -> tuple[str, ...]:
    one = members[0]
    rings = one.ring_cup
    wet = show.gap(abs(one.largest_cup_mm), Round.UP) if abs(one.largest_cup_mm) >= 0.05 else show.gap(0.0)
    if rings is None:
        return (names_of(p.part for p in members), wet, "—", "not published", "not published", "—")
    same = abs(rings.strip_mm - one.width_mm) < 1.0
    return (
        names_of(p.part for p in members),
        wet,
        show.length(rings.strip_mm),
        _bark(show, rings.dry_mm),
        _bark(show, rings.wet_mm),
        "—" if same else show.gap(abs(rings.alike_mm)),
    )


def _bark(show: Show, mm: float) -> str:
    figure = show.gap(abs(mm))
    if figure == show.gap(0.0):
        return figure
    return f"{figure} {'hollow' if mm > 0.0 else 'round'}"


def alike_edges(edges: Sequence[EdgeYear]) -> list[tuple[list[EdgeYear], EdgeYear]]:
    """Edges that step alike, together with the first of them."""
    groups: dict[tuple[object, ...], list[EdgeYear]] = {}
    for edge in edges:
        groups.setdefault((edge.panel, *(round(mm, 2) for mm in edge.steps_mm)), []).append(edge)
    return [(members, members[0]) for members in groups.values()]


def edges_table(edges: Sequence[EdgeYear], show: Show) -> Table:
    """The edges of panels against their breadboard ends, month by month."""
    grouped = alike_edges(edges)
    shown = [one for _, one in grouped]
    return Table(
        title=f"Edges against the breadboard ends, {show.unit}",
        columns=(
            Column(title="Month"),
            *(Column(title=_edge_name(members, one), align=_R) for members, one in grouped),
        ),
        rows=(
            *(
                (month.value.capitalize(), *(signed(show, one.steps_mm[month.number]) for one in shown))
                for month in Month
            ),
            ("Driest", *(signed(show, one.driest_mm) for one in shown)),
            ("Wettest", *(signed(show, one.wettest_mm) for one in shown)),
        ),
        parts=tuple(tuple(one.panel for one in shown) for _ in range(len(Month) + 2)),
        note="− the edge stands back from the ends, + it stands out; in the middle of the month, late and "
        f"damped, and at most if the wood came to rest. {_flush(grouped)}",
    )


def _edge_name(members: Sequence[EdgeYear], one: EdgeYear) -> str:
    return f"{label_of(one.panel)}, {' and '.join(edge.edge.value for edge in members)}"


def _flush(grouped: list[tuple[list[EdgeYear], EdgeYear]]) -> str:
    months = [month for month in Month if any(month in one.flush_months for _, one in grouped)]
    if len(months) == len(Month):
        return "Flush to the fingertip all year."
    named = ", ".join(month.full_name for month in months)
    return f"Flush to the fingertip in {named}." if months else "Flush to the fingertip in no month's middle."


def joints_table(joints: Sequence[JointTravel], show: Show) -> Table:
    """Every kind of place with what it needs, has and how it fares."""
    groups: dict[tuple[str, str, int, float], list[JointTravel]] = {}
    for j in joints:
        kind = " ".join(word for word in j.what.split() if not word.isdigit())
        key = (j.joint.partition(".")[0], kind, round(j.from_fixed_mm), round(j.cut_to_mm, 2))
        groups.setdefault(key, []).append(j)
    ordered = {key: min(members, key=lambda m: m.spare_mm) for key, members in groups.items()}
    return Table(
        title="Places that must be free to move",
        columns=(
            Column(title="Place"),
            Column(title=f"From the fixed line {show.unit}", align=_R),
            Column(title="Needs, drying / wetting", align=_R),
            Column(title="Has", align=_R),
            Column(title="Left (lively board)", align=_R),
            Column(title="Cut to"),
            Column(title="In its middle at", align=_R),
            Column(title="Verdict"),
        ),
        rows=tuple(_joint_row(key, j, len(groups[key]), show) for key, j in ordered.items()),
        tones=tuple(_TONES[j.verdict] for j in ordered.values()),
        parts=tuple((j.part,) for j in ordered.values()),
        note="Left: on the nearer side, in the season it is nearer; in brackets for a board as lively as "
        "one in twenty of its wood: tight, where that one would bind. More clearance at the joint "
        "frees it. Of a glue line across the grain: how wide it is, and the slip that glue and wood take.",
    )


def _joint_row(key: tuple[str, str, int, float], j: JointTravel, count: int, show: Show) -> tuple[str, ...]:
    cut = show.gap(j.cut_to_mm, Round.UP) if j.cut_to_mm else "—"
    return (
        f"{word(key[0])}: {key[1]} ({count})",
        show.length(j.from_fixed_mm),
        f"{show.travel(j.shrink_travel_mm, Round.UP)} / {show.travel(j.swell_travel_mm, Round.UP)}",
        f"{show.travel(j.shrink_room_mm, Round.DOWN)} / {show.travel(j.swell_room_mm, Round.DOWN)}",
        f"{_left(show, j.spare_mm)} ({_left(show, j.far_spare_mm)})",
        cut + _bias(show, j.bias_mm),
        "—" if j.mid_travel_mc_pct is None else f"{show_number(j.mid_travel_mc_pct, digits=1)} %",
        j.verdict.value,
    )


def _left(show: Show, mm: float) -> str:
    if mm < 0.0:
        return show.travel(-mm, Round.UP, sign="−")
    return show.travel(mm, Round.DOWN)


def _bias(show: Show, mm: float) -> str:
    """How far a slot's center stands from its pin, and which way."""
    if abs(mm) < 0.05:
        return ""
    return f", center {show.gap(abs(mm))} {'toward' if mm > 0 else 'away from'} the fixed line"
