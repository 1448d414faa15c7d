"""Sheets of the making: gluing, finish, and the order of work."""

from __future__ import annotations

from math import ceil

from scantling.papers.sheets.model import Align, Block, Caution, Column, Facts, Sheet, Table, Tone, Words
from scantling.papers.sheets.pictures import order_drawings
from scantling.papers.sheets.show import Show, label_of, names_of, word
from scantling.papers.words.clamping_words import caul_line, from_words
from scantling.papers.words.counting import count_of
from scantling.papers.words.order_rows import OrderRow, likes_of, order_rows
from scantling.papers.words.sawing_words import ends_words
from scantling.plan.making.finishing import Finishing
from scantling.plan.result import Plan
from scantling.plan.steps.step import CURED, GLUE_UP
from scantling.shop.gluing.glueup import GlueUp, GlueUpKind
from scantling.shop.operations.cautions import cautions_for

__all__ = ["finish_sheet", "gluing_sheet", "order_sheet"]

_R = Align.RIGHT


def gluing_sheet(plan: Plan) -> Sheet:
    """Every glue-up with clamps, minutes, wedges and corner blocks."""
    show = Show.of(plan)
    blocks: list[Block] = [_stages_table(plan, show)]
    wedges = [(stage, wedge) for stage in plan.gluing.stages for wedge in stage.wedges]
    if wedges:
        blocks.append(
            Table(
                title="Wedges under the clamp pads",
                columns=(
                    Column(title="Joint"),
                    Column(title="Angle", align=_R),
                    Column(title="Cut", align=_R),
                    Column(title="Out of"),
                    Column(title="Why"),
                ),
                rows=tuple(
                    (
                        label_of(wedge.joint),
                        show.angle(wedge.angle_deg),
                        str(wedge.count),
                        from_words(wedge, show.long).removeprefix("from "),
                        "or the clamp slips" if wedge.needed else "spares the face, keeps the clamp in line",
                    )
                    for _, wedge in wedges
                ),
                parts=tuple(stage.parts for stage, _ in wedges),
                note="Saw a pair off one block, turned over between; hold them with double-sided tape.",
            )
        )
    cauls = [(stage, caul) for stage in plan.gluing.stages for caul in stage.cauls]
    blocks += [
        Words(
            title=f"On the corners: {word(stage.name)}",
            lines=(caul_line(caul, angle=show.angle, length=show.long),),
        )
        for stage, caul in cauls
    ]
    blocks += [
        Words(title=f"Before: {word(stage.name)}", lines=tuple(map(word, stage.prepare)))
        for stage in plan.gluing.stages
        if stage.prepare
    ]
    blocks.append(Caution(lines=cautions_for("glue", "clamps")))
    wet = [stage for stage in plan.gluing.stages if stage.kind is not GlueUpKind.DRY]
    worst = max((stage.time.total_min for stage in wet), default=0.0)
    return Sheet(
        id="gluing",
        title="Glue-ups",
        lead=f"{count_of(plan.gluing.count, 'glue-up')}, {show.grams(plan.gluing.glue_g)} of glue; "
        f"the longest takes {worst:.0f} minutes.",
        blocks=tuple(blocks),
    )


def _stages_table(plan: Plan, show: Show) -> Table:
    rows, tones, parts = [], [], []
    for number, stage in plan.gluing.numbered:
        rows.append((str(number) if number else "dry", *_stage_cells(stage, show)))
        clamps = stage.clamps
        short = clamps is not None and (
            clamps.too_short or clamps.count > clamps.owned or clamps.settable > 0
        )
        late = stage.kind is not GlueUpKind.DRY and not stage.time.in_time
        tones.append(
            Tone.BAD if late or (clamps and clamps.too_short) else (Tone.WARN if short else Tone.PLAIN)
        )
        parts.append((stage.part,) if stage.part else stage.parts)
    return Table(
        title="In order",
        columns=(
            Column(title="No.", align=_R),
            Column(title="What"),
            Column(title="Glue", align=_R),
            Column(title="Minutes of those allowed", align=_R),
            Column(title="Clamps, owned", align=_R),
            Column(title=f"Opening {show.unit}", align=_R),
            Column(title="In clamps", align=_R),
            Column(title="Cured after", align=_R),
        ),
        rows=tuple(rows),
        tones=tuple(tones),
        parts=tuple(parts),
    )


def _stage_cells(stage: GlueUp, show: Show) -> tuple[str, ...]:
    if stage.kind is GlueUpKind.DRY:
        return (f"{label_of(stage.name)} (no glue)", "—", "—", "—", "—", "—", "—")
    clamps = stage.clamps
    in_time = f", time for {clamps.settable}" if clamps and clamps.settable else ""
    return (
        label_of(stage.name),
        show.grams(stage.glue_g),
        f"{stage.time.total_min:.1f} of {stage.time.allowed_min:.1f}",
        f"{clamps.count} ({clamps.owned}){in_time}{' bands' if clamps.band else ''}" if clamps else "—",
        f"{show.length(clamps.reach_mm)}{' round' if clamps.band else ''}" if clamps else "—",
        show.minutes(stage.clamp_min) if clamps else "—",
        show.minutes(stage.cure_min),
    )


_UNSEEN = (
    "No part says under `show` which of its faces are seen: nothing is sanded here, and neither the hours "
    "nor the price count it. Write `show: all`, or the faces, at the parts that are seen."
)
"""What stands in place of the sanding of nothing."""


def _sanding_words(finishing: Finishing, show: Show) -> str:
    areas, sanding = finishing.areas, finishing.sanding
    if areas.shown_m2 <= 0.0:
        return _UNSEEN
    grits = ", then ".join(str(step.grit) for step in sanding.steps)
    return (
        f"Grits {grits}: {sanding.minutes:.0f} minutes for {show.area(areas.shown_m2)} that show; "
        f"{show.area(areas.slow_m2)} of it are ends, narrow faces and round sticks and take twice as long. "
        "By hand, the last grit along the grain and every edge broken: "
        f"{finishing.by_hand_min:.0f} minutes."
    )


def finish_sheet(plan: Plan) -> Sheet:
    """Areas, grits, coats and hours."""
    show, finishing = Show.of(plan), plan.finishing
    coats = finishing.coats
    blocks: list[Block] = [
        Facts(
            title="The finish",
            items=(
                ("Area", show.area(finishing.areas.finished_m2)),
                ("Coats", str(coats.shown_coats)),
                ("Light use, from the first coat", f"{finishing.drying.light_use_days} days"),
                ("Full use, from the first coat", f"{finishing.drying.full_use_days} days"),
            ),
        ),
        Words(title="Sanding", lines=(_sanding_words(finishing, show), *finishing.drying.notes)),
        _coats_table(finishing, show),
        _areas_table(finishing, show),
    ]
    if finishing.before_assembly:
        names = names_of(finishing.before_assembly)
        line = f"Sand these now, for no tool reaches their corners later: {names}."
        blocks.append(Words(title="Before assembly", lines=(line,)))
    blocks.append(Caution(lines=finishing.cautions))
    return Sheet(
        id="finish",
        title="Finish",
        lead=f"{finishing.system.capitalize()}, {count_of(coats.shown_coats, 'coat')}, "
        f"{ceil(finishing.drying.recoat_h)} hours apart. The product's label goes before these figures.",
        blocks=tuple(blocks),
    )


def _coats_table(finishing: Finishing, show: Show) -> Table:
    coats = finishing.coats
    tins = " + ".join(show.liters(tin) for tin in coats.tins_l)
    return Table(
        title="Coats",
        columns=(
            Column(title="Coat", align=_R),
            Column(title="After", align=_R),
            Column(title="Finish", align=_R),
        ),
        rows=tuple(
            (str(coat.number), f"{coat.at_h:.0f} h", show.liters(coats.per_coat_l[k]))
            for k, coat in enumerate(finishing.drying.coats)
        ),
        note=f"{show.liters(coats.total_l)} with what stays in tin and brush: {tins}.",
    )


def _areas_table(finishing: Finishing, show: Show) -> Table:
    digits = 2 if show.style.inch else 3
    groups: dict[tuple[str, ...], list[str]] = {}
    for p in finishing.areas.parts:
        figures = (p.shown_mm2, p.hidden_mm2, p.masked_mm2)
        key = tuple(show.area(mm2 * 1e-6, digits=digits, unit=False) for mm2 in figures)
        groups.setdefault(key, []).append(p.part)
    return Table(
        title="Area by part, of each",
        columns=(
            Column(title="Part"),
            Column(title=f"Shows {show.area_unit}", align=_R),
            Column(title=f"Hidden {show.area_unit}", align=_R),
            Column(title=f"Kept bare for glue {show.area_unit}", align=_R),
        ),
        rows=tuple((names_of(names), *figures) for figures, names in groups.items()),
        parts=tuple(tuple(names) for names in groups.values()),
    )


def order_sheet(plan: Plan) -> Sheet:
    """What is done when, and what dries meanwhile."""
    show, order = Show.of(plan), plan.order
    table = order.timetable
    entries = {entry.task: entry for entry in table.entries}
    sawn = {setup.title: f"{ends_words(setup, show.ends)}. See the saw sheet." for setup in plan.setups}
    rows, parts = [], []
    for number, row in enumerate(order_rows(order, likes_of(plan.parts)), start=1):
        begin_min = min(entries[step.title].start_min for step in row.steps)
        rows.append(
            (
                str(number),
                word(row.title),
                f"day {begin_min // 1440 + 1}",
                show.minutes(row.hands_on_min) if row.hands_on_min else "—",
                _wait(row, show),
                sawn[row.title] if row.title in sawn else _sentences(row.details),
            )
        )
        parts.append(row.parts)
    phases = tuple((word(phase), f"{hours:.1f} h") for phase, hours in order.hours_by_phase.items())
    blocks: list[Block] = [
        Facts(
            title="Time",
            items=(
                ("Hands on", f"{order.hours:.0f} h"),
                ("From first to last day", f"{table.last_day} days, weekends counted"),
                ("No order takes less than", f"{table.bound_day} days"),
            ),
        ),
        Facts(title="Hours by phase", items=phases),
        *order_drawings(plan),
        Table(
            title="Steps",
            columns=(
                Column(title="No.", align=_R),
                Column(title="Step"),
                Column(title="Begins", align=_R),
                Column(title="Hands on", align=_R),
                Column(title="Then dries or rests", align=_R),
                Column(title="How"),
            ),
            rows=tuple(rows),
            parts=tuple(parts),
        ),
        _days_table(plan),
        Words(
            title="Happens only once: photograph it",
            lines=tuple(word(shot) for shot in order.shots),
        ),
    ]
    return Sheet(
        id="order",
        title="Order of work",
        lead=f"{order.hours:.0f} hours of work over {table.last_day} days; drying time "
        "is used for other work.",
        blocks=tuple(blocks),
    )


def _wait(row: OrderRow, show: Show) -> str:
    """How long it dries or rests; of a glue-up, how much of that in clamps."""
    if not row.waits_min:
        return "—"
    whole = show.minutes(sum(row.waits_min))
    return whole if len(row.waits_min) == 1 else f"{whole}, {show.minutes(row.waits_min[0])} in clamps"


def _sentences(details: tuple[str, ...]) -> str:
    """Details of a step as sentences, whether or not each ends as one."""
    return " ".join(f"{_capital(word(line)).rstrip('.')}." for line in details)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _dries(task: str) -> str:
    """What dries or rests: a glue-up in clamps and its cure after are one thing that waits."""
    return _capital(word(task.removesuffix(CURED).removeprefix(GLUE_UP)))


def _days_table(plan: Plan) -> Table:
    rows = []
    for day in plan.order.timetable.days:
        if not day.work:
            continue
        hours = sum(block.until_min - block.from_min for block in day.work) / 60.0
        rows.append(
            (
                f"{day.number} ({day.weekday[:3]})",
                f"{hours:.1f} h",
                "; ".join(dict.fromkeys(word(block.task) for block in day.work)),
                "; ".join(dict.fromkeys(_dries(task) for task in day.drying)) or "—",
            )
        )
    return Table(
        title="What is done each day",
        columns=(
            Column(title="Day"),
            Column(title="Work", align=_R),
            Column(title="What"),
            Column(title="Drying"),
        ),
        rows=tuple(rows),
    )
