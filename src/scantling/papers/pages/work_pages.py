"""Glue-ups, finish and order of work, from the plan's stages and steps."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from math import ceil

from scantling.papers.packet import Fact, Step
from scantling.papers.packet.sections import CoatRow, GlueStage
from scantling.papers.pages.figures import Figures
from scantling.papers.pictures.timetable_picture import Bar, BarKind, TimetablePicture, TimetableRow
from scantling.papers.sheets.show import names_of, word
from scantling.papers.words.clamping_words import caul_line, wedge_line
from scantling.papers.words.order_rows import OrderRow, order_rows
from scantling.plan.making.finishing import Finishing
from scantling.plan.making.gluing import Gluing
from scantling.plan.steps.joint_steps import CUT, FIT
from scantling.plan.steps.order import Order
from scantling.schedule.timetable import Timetable
from scantling.shop.gluing.glueup import GlueUp, GlueUpKind, Wedge

__all__ = [
    "area_rows",
    "coat_rows",
    "finish_facts",
    "glue_stages",
    "order_facts",
    "order_steps",
    "timetables",
]

_DAY_MIN = 1440.0
_ON_A_SHEET = (CUT, FIT)
_WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
_SPARE = "with what stays in tin and brush"
"""What the amount of a finish holds beside its coats."""


def _sentence(text: str) -> str:
    """Words as a sentence, part names without underscores."""
    plain = word(text).strip()
    plain = plain[:1].upper() + plain[1:]
    return plain if plain.endswith((".", "!", "?")) else f"{plain}."


def _stage_facts(stage: GlueUp, figures: Figures) -> tuple[Fact, ...]:
    if stage.kind is GlueUpKind.DRY:
        return ()
    clamps = stage.clamps
    facts = [
        Fact(label="Glue line", value=figures.area(stage.area_mm2), note=stage.glue),
        Fact(label="Glue to pour", value=figures.grams(stage.glue_g)),
    ]
    if clamps is not None:
        round_it = f"{figures.length(clamps.reach_mm)} round" if clamps.band else ""
        owned = f"{round_it or f'opening {figures.length(clamps.reach_mm)}'}; you own {clamps.owned}"
        owned += f"; time for {clamps.settable}" if clamps.settable else ""
        facts.append(Fact(label="Bands" if clamps.band else "Clamps", value=str(clamps.count), note=owned))
    time = stage.time
    facts.append(
        Fact(
            label="Minutes",
            value=f"{time.total_min:.1f} of {time.allowed_min:.1f}",
            note=f"first bead to last {'clamp' if clamps else 'joint'}"
            if time.in_time
            else "TOO LONG: split the stage",
        )
    )
    return tuple(facts)


def _wedges(stage: GlueUp, figures: Figures) -> tuple[str, ...]:
    groups: dict[tuple[str, bool, str], list[Wedge]] = {}
    for wedge in stage.wedges:
        groups.setdefault((figures.angle(wedge.angle_deg), wedge.needed, wedge.offcut), []).append(wedge)
    lines = [
        wedge_line(sum(one.count for one in wedges), wedges[0], angle=figures.angle, length=figures.length)
        for wedges in groups.values()
    ]
    lines += [caul_line(caul, angle=figures.angle, length=figures.length) for caul in stage.cauls]
    return tuple(lines)


def glue_stages(
    gluing: Gluing, *, figures: Figures, likes: Mapping[str, str] | None = None
) -> tuple[GlueStage, ...]:
    """Every stage, equal ones of parts alike in one.

    Parameters
    ----------
    gluing
        Of the plan.
    likes
        Entry of each part, by which parts are alike; left out, only panels of one entry are.
    figures
        How figures are written.

    Returns
    -------
    tuple of GlueStage
        With what comes before, during and after; each caution where it is first wanted.
    """
    groups: dict[tuple[object, ...], list[tuple[int, GlueUp]]] = {}
    for number, stage in gluing.numbered:
        groups.setdefault(_alike(stage, likes or {}), []).append((number, stage))
    told: set[str] = set()
    found = []
    for group in groups.values():
        fresh = tuple(c for c in group[0][1].cautions if c not in told)
        told.update(fresh)
        found.append(_stage(group, fresh, figures))
    return tuple(found)


def _alike(stage: GlueUp, likes: Mapping[str, str]) -> tuple[object, ...]:
    """Equal for stages of parts alike, glued, clamped and closed alike."""
    bodies = tuple(tuple(sorted(likes.get(name, name) for name in body)) for body in stage.bodies)
    if stage.kind is GlueUpKind.DRY or not (stage.like or likes):
        return (stage.name,)
    clamps = stage.clamps
    pressed = (clamps.count, round(clamps.reach_mm)) if clamps else ()
    count = (len(stage.joints), len(stage.dry_joints), len(stage.after))
    part = (stage.like, len(stage.bodies)) if stage.like else sorted(bodies)
    return (repr(part), stage.kind, round(stage.area_mm2), pressed, count)


def _numbers(numbers: list[int]) -> str:
    """Numbers of the glue-ups told together, as on the other faces; empty where they go together dry."""
    if not numbers:
        return ""
    run = len(numbers) > 2 and numbers[-1] - numbers[0] == len(numbers) - 1
    return f"{numbers[0]} to {numbers[-1]}" if run else ", ".join(map(str, numbers))


def _stage(group: list[tuple[int, GlueUp]], cautions: tuple[str, ...], figures: Figures) -> GlueStage:
    one = group[0][1]
    title = word(one.name) if len(group) == 1 else f"{word(one.name)}, and {len(group) - 1} alike"
    after = dict.fromkeys(name for _, stage in group for name in stage.after)
    before = [f"First: {', '.join(word(a) for a in after)}."] if after else []
    before += [*(_sentence(p) for p in one.prepare), *_wedges(one, figures)]
    joints = [f"Close {word(j)}." for j in one.joints]
    if joints and len(group) > 1:
        joints[0] += " (So for each of them.)"
    if one.dry_joints:
        if one.kind is GlueUpKind.DRY:
            joints.append(f"Without glue: {_dry_words(one.dry_joints)}.")
        else:  # a panel or a loose board goes in while its frame is still open
            left = len(one.joints) - one.open_joints
            which = "those that follow are" if left > 1 else "the last is"
            put = f"Before {which} closed, put in dry: {_dry_words(one.dry_joints)}."
            joints.insert(one.open_joints, put)
    rest = ""
    if one.kind is not GlueUpKind.DRY:
        clamped, cured = figures.minutes(one.clamp_min), figures.minutes(one.cure_min)
        pressed = f"{clamped} in clamps" if one.clamps is not None else "no clamps"
        rest = f"{pressed}; {cured} before it is worked."
    return GlueStage(
        numbers=_numbers([number for number, _ in group if number]),
        title=title[:1].upper() + title[1:],
        parts=names_of(dict.fromkeys(p for _, stage in group for p in stage.parts))
        if len(group) > 1 and len(one.parts) < 9
        else "",
        facts=_stage_facts(one, figures),
        before=tuple(before),
        steps=tuple(joints),
        rest=rest,
        caution=" ".join(cautions),
    )


def _dry_words(joints: Sequence[str]) -> str:
    """Joints without glue, those that lead to one part together: ``bottom board 1 to 8, to front``."""
    pairs = [tuple(_without_end(name) for name in word(joint).split(" to ", 1)) for joint in joints]
    ways: dict[str, list[str]] = {}
    beside: dict[str, None] = {}
    for pair in pairs:
        if len({one.rstrip("0123456789") for one in pair}) < len(pair):  # the next of a row
            beside |= dict.fromkeys(pair)
        else:
            ways.setdefault(pair[1] if len(pair) > 1 else "", []).append(pair[0])
    groups: dict[tuple[str, ...], list[str]] = {}
    for other, parts in ways.items():
        groups.setdefault(tuple(dict.fromkeys(parts)), []).append(other)
    told = []
    for inner, others in groups.items():
        where = " and ".join(filter(None, others))
        comma = "," if len(inner) > 1 else ""
        told.append(f"{_inner_words(inner)}{comma} to {where}" if where else _inner_words(inner))
    if beside:
        told.append(f"{_inner_words(beside)}, to each other")
    return "; ".join(told)


def _without_end(name: str) -> str:
    """A part without the end that is joined: what goes in goes in whole."""
    return name.partition(" (")[0]


def _inner_words(parts: Iterable[str]) -> str:
    names = re.split("; |, ", names_of(part.replace(" ", "_") for part in parts))
    return ", ".join(f"{name[:1].lower()}{name[1:]}" for name in names)


def finish_facts(finishing: Finishing, *, figures: Figures) -> tuple[Fact, ...]:
    """Finish, amount, areas, and when it may be used.

    Parameters
    ----------
    finishing
        Of the plan.
    figures
        How figures are written.

    Returns
    -------
    tuple of Fact
        For the head of the sheet.
    """
    coats, drying = finishing.coats, finishing.drying
    tins = " + ".join(figures.liters(t) for t in coats.tins_l)
    seen = f"{coats.shown_coats} coats"
    if coats.hidden_coats != coats.shown_coats:
        seen += f" where it is seen, {coats.hidden_coats} elsewhere"
    return (
        Fact(label="Finish", value=finishing.system, note=seen),
        Fact(
            label="Amount",
            value=figures.liters(coats.total_l),
            note=f"{_SPARE}; tins: {tins}" if tins else _SPARE,
        ),
        Fact(
            label="Seen",
            value=figures.area(finishing.areas.shown_m2 * 1e6),
            note="" if finishing.areas.shown_m2 else "no part says what shows of it: none is sanded",
        ),
        Fact(
            label="Light use",
            value=f"{drying.light_use_days} days",
            note=f"from the first coat; full use {drying.full_use_days} days",
        ),
    )


def coat_rows(finishing: Finishing, *, figures: Figures) -> tuple[CoatRow, ...]:
    """Grits, then coats, in order.

    Parameters
    ----------
    finishing
        Of the plan.
    figures
        How figures are written.

    Returns
    -------
    tuple of CoatRow
        With amounts and waits.
    """
    rows = [
        CoatRow(
            what=f"grit {s.grit}",
            amount=f"{s.discs} disc{'s' if s.discs != 1 else ''}",
            work=figures.minutes(s.minutes),
            wait="",
        )
        for s in finishing.sanding.steps
        if s.discs
    ]
    if rows:
        hand = figures.minutes(finishing.by_hand_min)
        rows.append(CoatRow(what="last grit by hand, edges broken", amount="", work=hand, wait=""))
    recoat = f"{ceil(finishing.drying.recoat_h)} h"
    last = len(finishing.coats.per_coat_l) - 1
    rows += [
        CoatRow(
            what=f"coat {i + 1}, {finishing.system}{', rubbed down first' if i else ''}",
            amount=figures.liters(liters),
            work=figures.minutes(finishing.coats_min[i]),
            wait=recoat if i < last else f"{finishing.drying.last_wait_days} days to light use",
        )
        for i, liters in enumerate(finishing.coats.per_coat_l)
    ]
    return tuple(rows)


def area_rows(finishing: Finishing, *, figures: Figures) -> tuple[tuple[str, str], ...]:
    """Areas to finish, equal ones in one line.

    Parameters
    ----------
    finishing
        Of the plan.
    figures
        How areas are written.

    Returns
    -------
    tuple
        Parts and the area of each.
    """
    groups: dict[str, list[str]] = {}
    for area in finishing.areas.parts:
        groups.setdefault(figures.area(area.shown_mm2 + area.hidden_mm2), []).append(area.part)
    return tuple(
        (names_of(names), text if len(names) == 1 else f"{text} each") for text, names in groups.items()
    )


def order_facts(order: Order, likes: Mapping[str, str], *, figures: Figures) -> tuple[Fact, ...]:
    """Hours, days and how good the order is.

    Parameters
    ----------
    order
        Of the plan.
    likes
        Entry of each part, by which parts are alike.
    figures
        How times are written.

    Returns
    -------
    tuple of Fact
        For the head of the sheet.
    """
    table = order.timetable
    return (
        Fact(label="Hands-on", value=figures.minutes(order.hours * 60.0)),
        Fact(
            label="From first to last day",
            value=f"{table.last_day} days",
            note="weekends counted",
        ),
        Fact(
            label="No order is faster than",
            value=f"{table.bound_day} days",
            note="proven",
        ),
        Fact(label="Steps", value=str(len(order_rows(order, likes)))),
    )


def _wait(row: OrderRow, figures: Figures) -> str:
    return f"then {figures.minutes(sum(row.waits_min))}" if row.waits_min else ""


def _words(row: OrderRow, *, sawn: Mapping[str, str], told_elsewhere: bool) -> str:
    text = " ".join(_sentence(line) for line in row.details)
    if row.title in sawn:
        text = sawn[row.title]
    elif told_elsewhere and row.title.startswith(_ON_A_SHEET):
        text = "How: at the end of Marking out."
    return f"{text} Happens once: photograph it.".strip() if row.steps[0].once else text


def order_steps(
    order: Order,
    likes: Mapping[str, str],
    *,
    figures: Figures,
    sawn: Mapping[str, str],
    told_elsewhere: bool = False,
) -> tuple[Step, ...]:
    """Every step with its time, wait and caution; a caution is printed where it is first wanted.

    Parameters
    ----------
    order
        Of the plan.
    likes
        Entry of each part, by which parts are alike.
    figures
        How times are written.
    sawn
        What is sawn at each set-up of the saw, by the title of its step; how, is on its card.
    told_elsewhere
        Whether the sheets of marking out tell how the joints are cut.

    Returns
    -------
    tuple of Step
        In the order they are begun.
    """
    told: set[str] = set()
    steps = []
    for row in order_rows(order, likes):
        fresh = [c for c in row.steps[0].cautions if c not in told]
        told.update(fresh)
        steps.append(
            Step(
                title=_sentence(row.title).rstrip("."),
                text=word(_words(row, sawn=sawn, told_elsewhere=told_elsewhere)),
                time=figures.minutes(row.hands_on_min) if row.hands_on_min else "",
                wait=_wait(row, figures),
                caution=" ".join(fresh),
            )
        )
    return tuple(steps)


def _hours(table: Timetable) -> tuple[float, float]:
    """When work begins and ends on any day. [min]"""
    blocks = [block for day in table.days for block in day.work]
    opens = min((b.from_min for b in blocks), default=540)
    closes = max((b.until_min for b in blocks), default=opens + 480)
    return float(opens), float(max(closes, opens + 240))


def _drawn_d(minute: float, hours: tuple[float, float]) -> float:
    """Days from the start, the working hours drawn wide and the night narrow. [d]"""
    day, rest = divmod(minute, _DAY_MIN)
    opens, closes = hours
    if rest <= opens:
        return day + 0.08 * rest / opens
    if rest <= closes:
        return day + 0.08 + 0.84 * (rest - opens) / (closes - opens)
    return day + 0.92 + 0.08 * (rest - closes) / (_DAY_MIN - closes)


def _bars(table: Timetable) -> dict[str, list[Bar]]:
    bars: dict[str, list[Bar]] = {}
    hours = _hours(table)

    def put(task: str, kind: BarKind, low: float, high: float) -> None:
        bar = Bar(kind=kind, start_d=_drawn_d(low, hours), end_d=_drawn_d(high, hours))
        bars.setdefault(task, []).append(bar)

    for day in table.days:
        for block in day.work:
            at = (day.number - 1) * _DAY_MIN
            put(block.task, BarKind.WORK, at + block.from_min, at + block.until_min)
    for entry in table.entries:
        if entry.dry_min > entry.end_min:
            put(entry.task, BarKind.WAIT, entry.end_min, entry.dry_min)
    return bars


def _day_names(table: Timetable) -> tuple[list[str], list[int]]:
    known = {day.number: day.weekday for day in table.days}
    first = 0
    for number, name in known.items():
        first = (_WEEKDAYS.index(name) - (number - 1)) % 7
        break
    last = max([table.last_day, *known])
    names = [_WEEKDAYS[(first + i) % 7] for i in range(last)]
    working = {day.number for day in table.days if day.work}
    free = [i for i, name in enumerate(names) if name in _WEEKDAYS[5:] and i + 1 not in working]
    return [f"{name[:2]} {i + 1}" for i, name in enumerate(names)], free


def timetables(
    order: Order, likes: Mapping[str, str], *, figures: Figures, rows_most: int = 37
) -> tuple[TimetablePicture, ...]:
    """The order of work by day, in as many pictures as its steps need.

    Parameters
    ----------
    order
        Of the plan.
    likes
        Entry of each part, by which parts are alike.
    figures
        How times are written.
    rows_most
        Steps of one picture: as many as a page takes beneath the head of the chapter.

    Returns
    -------
    tuple of TimetablePicture
        Numbers are those of :func:`order_steps`.
    """
    bars = _bars(order.timetable)
    days, free = _day_names(order.timetable)
    rows = [
        TimetableRow(
            number=str(i + 1),
            name=word(row.title),
            bars=tuple(bar for step in (*row.steps, *row.cures) for bar in bars.get(step.title, ())),
            hours=figures.minutes(row.hands_on_min) if row.hands_on_min else "",
        )
        for i, row in enumerate(order_rows(order, likes))
    ]
    return tuple(
        TimetablePicture(rows=tuple(rows[i : i + rows_most]), days=tuple(days), free=tuple(free))
        for i in range(0, len(rows), rows_most)
    )
