"""The joints sheet: where every mortise, hole and groove goes, and what is loose."""

from __future__ import annotations

from functools import partial

from scantling.joinery.work import JointWork, Mark
from scantling.papers.sheets.model import Align, Block, Caution, Column, Sheet, Table, Words
from scantling.papers.sheets.show import Show, names_of, word
from scantling.papers.words.counting import count_of
from scantling.papers.words.mark_sizes import mark_depth, mark_width, set_up_words, size_rounding
from scantling.papers.words.shoulder_words import shoulder_words
from scantling.papers.words.sight_words import sight_words
from scantling.plan.making.hardware import number_to_get
from scantling.plan.result import Plan
from scantling.shop.operations.cautions import cautions_for
from scantling.shop.operations.routing import Operation
from scantling.units import show_number, with_article

__all__ = ["hardware_sheet", "joints_sheet"]

_R = Align.RIGHT


def joints_sheet(plan: Plan) -> Sheet:
    """Marks part by part, alike parts together, and how each joint is cut."""
    show = Show.of(plan)
    blocks: list[Block] = []
    for parts, marks in _by_alike_parts(plan):
        blocks.append(
            _marks_table(parts, marks, show, works=plan.joints, flush_mm=_left_for_flush(plan, parts[0]))
        )
    told: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for work in plan.joints:
        if work.steps:
            told.setdefault((work.family, work.steps), []).append(work.joint.partition(".")[0])
    families = [family for family, _ in told]
    for (family, steps), names in told.items():
        which = f": {names_of(dict.fromkeys(names))}" if families.count(family) > 1 else ""
        blocks.append(
            Words(
                title=f"Cutting {with_article(word(family))}{which}",
                lines=tuple(map(word, steps)),
                numbered=True,
            )
        )
    blocks.append(Caution(lines=cautions_for("routing", "drilling")))
    count = sum(len(work.marks) for work in plan.joints)
    setups = len({mark.setup for work in plan.joints for mark in work.marks})
    return Sheet(
        id="joints",
        title="Joints",
        lead=f"{count_of(len(plan.joints), 'joint')}, {count_of(count, 'place')} to mark, "
        f"{count_of(setups, 'machine set-up')}. Measure every place of a part from the same end and face.",
        blocks=tuple(blocks),
    )


def _left_for_flush(plan: Plan, part: str) -> float:
    """What is still to come off each end of a part after assembly. [mm]"""
    ledger = next(ledger for ledger in plan.milling if ledger.part == part)
    return sum(one.removes_length_mm for one in ledger.passes if one.operation is Operation.FLUSH_CUT) / 2.0


def _by_alike_parts(plan: Plan) -> list[tuple[list[str], list[tuple[JointWork, Mark]]]]:
    """Marks of each part, parts with the same marks together."""
    own: dict[str, list[tuple[JointWork, Mark]]] = {}
    for work in plan.joints:
        for mark in work.marks:
            own.setdefault(mark.part, []).append((work, mark))
    groups: dict[tuple[object, ...], list[str]] = {}
    like = {part.name: part.like for part in plan.parts}
    for part, marks in own.items():
        key = tuple(
            sorted(
                (
                    m.kind.value,
                    m.on_end,
                    round(m.from_end_mm, 2),
                    round(m.from_face_mm, 2),
                    round(m.length_mm, 2),
                )
                for _, m in marks
            )
        )
        groups.setdefault((like[part], key), []).append(part)
    return [(parts, own[parts[0]]) for parts in groups.values()]


def _marks_table(
    parts: list[str],
    marks: list[tuple[JointWork, Mark]],
    show: Show,
    *,
    works: tuple[JointWork, ...],
    flush_mm: float,
) -> Table:
    places: dict[tuple[str, ...], list[str]] = {}
    joined: dict[tuple[str, ...], dict[str, None]] = {}
    for work, mark in sorted(marks, key=lambda m: (m[1].on_end, m[1].end, m[1].face, m[1].from_end_mm)):
        alike = _mark_words(mark, show)
        places.setdefault(alike, []).append(show.length(mark.from_end_mm))
        joined.setdefault(alike, {parts[0]: None}).update({work.first: None, work.second: None})
    rows: dict[tuple[str, ...], list[str]] = {}
    touched: dict[tuple[str, ...], dict[str, None]] = {}
    for alike, centers in places.items():
        what, where, base, *others = alike
        count = "" if len(centers) == 1 else f" ({len(centers)})"
        row = (f"{what}{count}", f"{', '.join(centers)} from {base}", *others)
        rows.setdefault(row, []).append(where)
        touched.setdefault(row, {}).update(joined[alike])
    mirrored = " (the others alike or mirrored)" if len(parts) > 1 else ""
    longer = ""
    if flush_mm > 0.05:
        longer = (
            " This part is cut flush after assembly: until then add "
            f"{show.length(flush_mm, unit=True)} to every "
            "distance from an end, or measure from the middle."
        )
    beyond = shoulder_words(
        parts[0], works, length=partial(show.length, unit=True), end=partial(show.end, parts[0])
    )
    beyond = f" {beyond}" if beyond else ""
    return Table(
        title=names_of(parts),
        columns=(
            Column(title="What"),
            Column(title="On"),
            Column(title=f"Center along {show.unit}"),
            Column(title="Center across"),
            Column(title="Size", align=_R),
            Column(title="Deep", align=_R),
            Column(title="Set-up"),
        ),
        rows=tuple((what, _both(wheres), *others) for (what, *others), wheres in rows.items()),
        parts=tuple(tuple(names) for names in touched.values()),
        note=f"Faces as {word(parts[0])} stands in the piece{mirrored}. Ends are measured from "
        f"the long point.{longer}{beyond}",
    )


def _both(wheres: list[str]) -> str:
    """Where a mark is; the same on each end of a part is told once."""
    ends = len(wheres) == 2 and all(where.endswith(" end") for where in wheres)
    return "both ends" if ends else " and ".join(wheres)


def _mark_words(mark: Mark, show: Show) -> tuple[str, ...]:
    """All that a row says of a mark but the distance of its center from an end or edge."""
    end = show.end(mark.part, mark.end)
    return (
        f"{mark.kind.value}, {mark.fit.value}",
        end if mark.on_end else f"{word(mark.face)} face",
        f"{word(mark.face)} edge" if mark.on_end else end,
        f"{show.gap(mark.from_face_mm)} from {word(mark.reference_face)}",
        f"{show.gap(mark.length_mm, size_rounding(mark))} × {mark_width(mark, show.style)}",
        mark_depth(mark, show.style),
        "; ".join(text for text in (set_up_words(mark, show.style), sight_words(mark), mark.note) if text),
    )


def hardware_sheet(plan: Plan) -> Sheet:
    """Everything to buy or make, besides boards."""
    show = Show.of(plan)
    rows = tuple(
        (
            line.kind.value,
            number_to_get(line),
            show.gaps(line.size_mm),
            show.gaps(line.drill_mm) or "—",
            "make" if line.made_here else "buy",
            line.note,
        )
        for line in plan.hardware
    )
    table = Table(
        title="Loose parts",
        columns=(
            Column(title="What"),
            Column(title="Get"),
            Column(title=f"Size {show.unit}", align=_R),
            Column(title="Drill, Ø × deep", align=_R),
            Column(title="Make or buy"),
            Column(title="Note"),
        ),
        rows=rows,
        note="To spare is one in ten, one at least; hinges, stays and slides as many as needed. "
        "Have it in hand before you cut for it.",
    )
    bill = Table(
        title="Also to buy",
        columns=(Column(title="What"), Column(title="How much", align=_R), Column(title="Why")),
        rows=tuple(_also(plan, show)),
    )
    return Sheet(
        id="hardware",
        title="To buy and make",
        lead="Everything loose: tenons, pins, clips, screws, glue, finish, abrasives.",
        blocks=(table, bill) if rows else (bill,),
    )


def _also(plan: Plan, show: Show) -> list[tuple[str, str, str]]:
    rows = []
    if plan.gluing.glue_g > 0:
        glue = plan.gluing.stages[0].glue
        rows.append((glue, show.grams(plan.gluing.glue_g), count_of(plan.gluing.count, "glue-up")))
    coats = plan.finishing.coats
    tins = " + ".join(show.liters(tin) for tin in coats.tins_l)
    many = count_of(coats.shown_coats, "coat")
    rows.append((coats.system, tins, f"{show.liters(coats.total_l)} for {many}"))
    rows.extend(
        (f"discs, grit {step.grit}", str(step.discs), show_number(step.minutes, digits=0) + " min of sanding")
        for step in plan.finishing.sanding.steps
        if step.discs
    )
    return rows
