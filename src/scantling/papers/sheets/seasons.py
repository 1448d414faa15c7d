"""The seasons sheet: what moves, by how much, and whether every joint lets it."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.papers.sheets.model import Align, Block, Column, Facts, Sheet, Table, Words
from scantling.papers.sheets.pictures import year_drawing
from scantling.papers.sheets.season_tables import (
    built_in,
    cup_table,
    edges_table,
    joints_table,
    parts_table,
    signed,
)
from scantling.papers.sheets.show import Show, label_of, word
from scantling.plan.result import Plan
from scantling.plan.year.seasons import Verdict
from scantling.seasons.air import Month
from scantling.units import show_number

__all__ = ["seasons_sheet"]

_R = Align.RIGHT


def seasons_sheet(plan: Plan) -> Sheet:
    """The year of every wide part, and of every joint that must let it move."""
    show, year = Show.of(plan), plan.seasons
    m = year.moisture
    blocks: list[Block] = [
        Facts(
            title="Moisture of the wood",
            items=(
                (f"When built, {built_in(year)}", f"{m.build_pct:.1f} %"),
                ("Driest month", f"{m.dry_pct:.1f} %"),
                ("Wettest month", f"{m.wet_pct:.1f} %"),
            ),
        ),
        year_drawing(plan),
        parts_table(year.parts, show),
    ]
    cups = cup_table(year.parts, show)
    if cups is not None:
        blocks.append(cups)
    if plan.year.edges:
        blocks.append(edges_table(plan.year.edges, show))
    if year.joints:
        blocks.append(joints_table(year.joints, show))
    blocks.append(_months_table(plan, show))
    known = tuple(line for line in (year.about, *year.notes) if line)
    if known:
        blocks.append(Words(title="How the room is known", lines=known))
    blocks.append(Words(title="When to build", lines=_advice(plan)))
    verdict = _verdict([joint.verdict for joint in year.joints])
    widest = year.parts[0] if year.parts else None
    moves = ""
    if widest is not None:
        swing = widest.widest_mm - widest.narrowest_mm
        moves = f"{word(widest.part).capitalize()} moves {show.gap(swing, unit=True)} over the year. "
    return Sheet(id="seasons", title="Seasons", lead=f"{year.room}. {moves}{verdict}", blocks=tuple(blocks))


def _verdict(verdicts: Sequence[Verdict]) -> str:
    binds, tight = (sum(one is wanted for one in verdicts) for wanted in (Verdict.BINDS, Verdict.TIGHT))
    if binds:
        return f"{binds} place{'s bind' if binds > 1 else ' binds'}: see below."
    words = "Every joint has the room it needs."
    if tight:
        words += f" {tight} place{'s are' if tight > 1 else ' is'} tight: see below."
    return words


def _months_table(plan: Plan, show: Show) -> Table:
    widest = plan.seasons.parts[0] if plan.seasons.parts else None
    rows = []
    for k, month in enumerate(plan.seasons.months):
        own = widest.months[k] if widest is not None else None
        rows.append(
            (
                month.month.value.capitalize(),
                show.temperature(month.temperature_c),
                f"{month.humidity_pct:.0f} %",
                f"{month.emc_pct:.1f} %",
                f"{own.mean_pct:.1f} %" if own else "",
                signed(show, own.width_change_mm) if own else "",
            )
        )
    name = label_of(widest.part) if widest else "—"
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
    if plan.seasons.built_month_assumed:
        lines.append(
            "The shop's file names no month of milling under its climate: "
            f"{plan.seasons.built_month.full_name} is assumed. "
            "It decides where the first year begins, and no slot."
        )
    return tuple(lines)
