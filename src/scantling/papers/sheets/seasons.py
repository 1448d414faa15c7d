"""The seasons sheet: what moves, by how much, and whether every joint lets it."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.papers.sheets.model import Align, Block, Column, Facts, Sheet, Table, Tone, Words
from scantling.papers.sheets.pictures import year_drawing
from scantling.papers.sheets.show import Show, names_of, word
from scantling.plan.result import Plan
from scantling.plan.seasons import JointTravel, SeasonPart
from scantling.seasons.air import Month
from scantling.units import Round, show_number

__all__ = ["seasons_sheet"]

_R = Align.RIGHT
_TIGHT_MM = 0.3
"""Less room than this is shown as tight. [mm]"""


def seasons_sheet(plan: Plan) -> Sheet:
    """The year of every wide part, and of every joint that must let it move."""
    show, year = Show.of(plan), plan.seasons
    m = year.moisture
    blocks: list[Block] = [
        Facts(
            title="Moisture of the wood",
            items=(
                ("When built", f"{m.build_pct:.1f} %"),
                ("Driest month", f"{m.dry_pct:.1f} %"),
                ("Wettest month", f"{m.wet_pct:.1f} %"),
            ),
        ),
        year_drawing(plan),
        _parts_table(year.parts, show),
    ]
    if year.joints:
        blocks.append(_joints_table(year.joints, show))
    blocks.append(_months_table(plan, show))
    blocks.append(Words(title="When to build", lines=_advice(plan)))
    binding = sum(1 for joint in year.joints if joint.spare_mm < -1e-6)
    verdict = "Every joint has the room it needs." if not binding else f"{binding} places bind: see below."
    widest = year.parts[0] if year.parts else None
    moves = ""
    if widest is not None:
        swing = widest.widest_mm - widest.narrowest_mm
        moves = f"{word(widest.part).capitalize()} moves {show.gap(swing, unit=True)} over the year. "
    return Sheet(id="seasons", title="Seasons", lead=f"{year.room}. {moves}{verdict}", blocks=tuple(blocks))


def _parts_table(parts: tuple[SeasonPart, ...], show: Show) -> Table:
    groups: dict[tuple[object, ...], list[SeasonPart]] = {}
    for part in parts:
        groups.setdefault((part.like, round(part.width_mm, 3)), []).append(part)
    rows = tuple(
        (
            names_of(p.part for p in members),
            show.length(members[0].width_mm),
            _signed(show, members[0].narrowest_mm, members[0].narrowest_low_mm),
            _signed(show, members[0].widest_mm, members[0].widest_high_mm),
            f"{members[0].lag_days:.0f}",
            f"{100 * members[0].swing_share:.0f} %",
            show.gap(abs(members[0].largest_cup_mm)),
        )
        for members in groups.values()
    )
    return Table(
        title="Width of the parts",
        columns=(
            Column(title="Part"),
            Column(title=f"Width {show.unit}", align=_R),
            Column(title="Driest (at most)", align=_R),
            Column(title="Wettest (at most)", align=_R),
            Column(title="Days to follow the air", align=_R),
            Column(title="Share of the room's swing it makes", align=_R),
            Column(title="Cup if free", align=_R),
        ),
        rows=rows,
        parts=tuple(tuple(p.part for p in members) for members in groups.values()),
        note="Change since the day of building, if the wood came to rest with the driest and "
        "the wettest month; in "
        "brackets the far end of what the species does. Joints are laid out for that, which "
        "is on the safe side: "
        "thickness and finish slow the real swing to the share shown.",
    )


def _signed(show: Show, mm: float, far_mm: float) -> str:
    sign = "+" if mm > 0.05 else ("−" if mm < -0.05 else "")
    return f"{sign}{show.gap(abs(mm))} ({show.gap(abs(far_mm))})"


def _joints_table(joints: tuple[JointTravel, ...], show: Show) -> Table:
    groups: dict[tuple[str, str, int, float], list[JointTravel]] = {}
    for j in joints:
        kind = "".join(c for c in j.what if not c.isdigit()).strip()
        key = (j.joint.partition(".")[0], kind, round(j.from_fixed_mm), round(j.cut_to_mm, 2))
        groups.setdefault(key, []).append(j)
    rows, tones, parts = [], [], []
    for (like, kind, _, _), members in groups.items():
        j = members[0]
        rows.append(
            (
                f"{word(like)}: {kind} ({len(members)})",
                show.length(j.from_fixed_mm),
                f"{show.gap(j.shrink_travel_mm, Round.UP)} / {show.gap(j.swell_travel_mm, Round.UP)}",
                f"{show.gap(j.shrink_room_mm, Round.DOWN)} / {show.gap(j.swell_room_mm, Round.DOWN)}",
                show.gap(j.cut_to_mm, Round.UP) if j.cut_to_mm else "—",
                _bias(show, j.bias_mm),
                "binds" if j.spare_mm < -1e-6 else ("tight" if j.spare_mm < _TIGHT_MM else "free"),
            )
        )
        tones.append(Tone.BAD if j.spare_mm < -1e-6 else (Tone.WARN if j.spare_mm < _TIGHT_MM else Tone.GOOD))
        parts.append((j.part,))
    return Table(
        title="Places that must be free to move",
        columns=(
            Column(title="Place"),
            Column(title=f"From the fixed line {show.unit}", align=_R),
            Column(title="Needs, drying / wetting", align=_R),
            Column(title="Has", align=_R),
            Column(title="Cut to", align=_R),
            Column(title="Center off by", align=_R),
            Column(title="Verdict"),
        ),
        rows=tuple(rows),
        tones=tuple(tones),
        parts=tuple(parts),
    )


def _bias(show: Show, mm: float) -> str:
    """How far a slot's center stands from its pin, and which way."""
    if abs(mm) < 0.05:
        return "—"
    return f"{show.gap(abs(mm))} {'toward' if mm > 0 else 'away from'} the fixed line"


def _months_table(plan: Plan, show: Show) -> Table:
    widest = plan.seasons.parts[0] if plan.seasons.parts else None
    rows = []
    for k, month in enumerate(plan.seasons.months):
        own = widest.months[k] if widest is not None else None
        rows.append(
            (
                month.month.value.capitalize(),
                f"{month.temperature_c:.0f} °C",
                f"{month.humidity_pct:.0f} %",
                f"{month.emc_pct:.1f} %",
                f"{own.mean_pct:.1f} %" if own else "",
                show.gap(own.width_change_mm) if own else "",
            )
        )
    name = word(widest.part) if widest else "—"
    return Table(
        title="The year in the room",
        columns=(
            Column(title="Month"),
            Column(title="Air", align=_R),
            Column(title="Humidity", align=_R),
            Column(title="Wood comes to rest at", align=_R),
            Column(title=f"{name} is at", align=_R),
            Column(title=f"Its width changes {show.unit}", align=_R),
        ),
        rows=tuple(rows),
    )


def _when(months: Sequence[Month]) -> str:
    """Months as a maker says them: all year, or runs of them, which may go over the new year."""
    year = list(Month)
    if len(set(months)) == len(year):
        return "all year"
    runs = []
    for k, first in enumerate(year):
        if first in months and year[k - 1] not in months:
            after = [year[(k + n) % 12] for n in range(12)]
            runs.append(after[: next(n for n, month in enumerate(after) if month not in months)])
    return f"in {', '.join(map(_run, runs))}"


def _run(months: Sequence[Month]) -> str:
    names = [month.value.capitalize() for month in months]
    return f"{names[0]} to {names[-1]}" if len(names) > 2 else ", ".join(names)


def _advice(plan: Plan) -> tuple[str, ...]:
    advice = plan.seasons.advice
    lines = [
        f"Halfway between its driest and wettest the wood holds {advice.target_mc_pct:.1f} %: "
        "that is a shop at "
        f"{100 * advice.target_humidity:.0f} % humidity and 20 °C."
    ]
    if advice.good_months:
        lines.append(f"Your shop's own air is near that {_when(advice.good_months)}.")
    else:
        way = "wetter" if advice.miss_pct > 0 else "drier"
        lines.append(
            f"Your shop holds wood {show_number(abs(advice.miss_pct), digits=1)} points {way} "
            "than that all year: the "
            "slots are set off center for it."
        )
    return tuple(lines)
