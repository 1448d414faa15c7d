"""The parts sheet: what is made, in which size, from rough to finished."""

from __future__ import annotations

from scantling.papers.sheets.model import Align, Block, Column, Sheet, Table, Words
from scantling.papers.sheets.show import Show, names_of
from scantling.papers.words.built_words import (
    MARK_NOTE,
    built_names,
    built_table,
    is_off,
    sizes_of,
    with_mark,
)
from scantling.papers.words.counting import count_of
from scantling.piece.built import SIZES
from scantling.plan.parts import PlannedPart
from scantling.plan.result import Plan
from scantling.remembering import remembered
from scantling.shop.milling.ledger import MillingLedger, Pass
from scantling.shop.operations.routing import Operation
from scantling.units import LengthStyle

__all__ = ["blank_words", "milling_sheet", "parts_sheet"]

_R = Align.RIGHT


def _groups(plan: Plan) -> list[tuple[list[PlannedPart], MillingLedger]]:
    """Parts with the same entry and sizes, together."""
    ledgers = {ledger.part: ledger for ledger in plan.milling}
    groups: dict[tuple[object, ...], list[PlannedPart]] = {}
    for part in plan.parts:
        key = (part.like, *(round(mm, 3) for mm in sizes_of(part, plan.built)))
        groups.setdefault(key, []).append(part)
    return [(members, ledgers[members[0].name]) for members in groups.values()]


def blank_words(ledger: MillingLedger) -> str:
    """What the rough size of a blank is of, where a part is made of several; strips may differ in width."""
    if ledger.strips:
        return "strips, width of the widest"
    if ledger.gang:
        return "its share of a longer blank"
    if any(one.operation is Operation.RESAW for one in ledger.passes):
        return "resawn in pairs"
    return "layers" if ledger.lamination else ""


def parts_sheet(plan: Plan) -> Sheet:
    """Finished sizes, and the rough blanks they come from."""
    show = Show.of(plan)
    rows, names = [], []
    for members, ledger in _groups(plan):
        part = members[0]
        count = str(len(members)) + (f" ({_hands(members)})" if _hands(members) else "")
        several = f"{ledger.pieces} × " if ledger.pieces > 1 else ""
        rough = f"{several}{show.rough(ledger.rough)}{' (shared)' if ledger.gang else ''}"
        rows.append(
            (
                names_of(p.name for p in members),
                count,
                part.species,
                *(
                    with_mark(show.length(mm), plan.built, (p.name for p in members), size)
                    for size, mm in zip(SIZES, sizes_of(part, plan.built), strict=True)
                ),
                rough,
                ledger.nominal or "sheet",
            )
        )
        names.append(tuple(p.name for p in members))
    table = Table(
        title="Finished and rough sizes",
        columns=(
            Column(title="Part"),
            Column(title="Count"),
            Column(title="Wood"),
            Column(title=f"Length {show.unit}", align=_R),
            Column(title="Width", align=_R),
            Column(title="Thick", align=_R),
            Column(title=f"Rough blank {show.unit}"),
            Column(title="Stock"),
        ),
        rows=tuple(rows),
        parts=tuple(names),
        note=_table_note(plan),
    )
    notes = _notes(plan, show)
    blocks: tuple[Block, ...] = (table, *_built(plan, show))
    if notes:
        blocks = (*blocks, Words(title="To know", lines=notes))
    total = sum(p.mass_kg for p in plan.parts)
    return Sheet(
        id="parts",
        title="Parts",
        lead=f"{count_of(len(plan.parts), 'part')} of {count_of(len(rows), 'kind')}, "
        f"{show.mass(total)} of wood when done.",
        blocks=blocks,
    )


def _built(plan: Plan, show: Show) -> tuple[Block, ...]:
    """What is measured and made, where something is."""
    if plan.built is None:
        return ()
    table = built_table(plan.built, show.gap, unit=show.unit)
    names = built_names(plan.built, lambda mm: show.gap(mm, unit=True))
    words = (Words(title="Measured for all", lines=names),) if names else ()
    return (*((table,) if table is not None else ()), *words)


def _table_note(plan: Plan) -> str:
    """How the table is read."""
    groups = _groups(plan)
    kinds = dict.fromkeys(blank_words(ledger) for _, ledger in groups if ledger.pieces > 1)
    lines = ["Lengths are long point to long point. Rough sizes hold every allowance of this shop."]
    if kinds:
        lines.append(f"More than one of a size: {'; or '.join(kinds)}.")
    if any(ledger.gang for _, ledger in groups):
        lines.append("Shared: its part of a longer blank, milled whole and crosscut later.")
    if plan.built is not None and any(is_off(each) for each in plan.built.sizes):
        lines.append(MARK_NOTE)
    if any(_hands(members) for members, _ in groups):
        lines.append("In brackets: so many as drawn, and so many mirrored.")
    return " ".join(lines)


def _notes(plan: Plan, show: Show) -> tuple[str, ...]:
    """What is to be known of single parts."""
    longer = [p for p in plan.parts if p.length_mm - p.shoulder_mm > 0.05]
    return tuple(
        dict.fromkeys(
            f"{names_of((p.like,))}: {show.length(p.shoulder_mm, unit=True)} between the shoulders, "
            "the rest is tongue, tenon or tail."
            for p in longer
        )
    ) + tuple(dict.fromkeys(f"{names_of((p.like,))}: {p.note}" for p in plan.parts if p.note))


def _hands(members: list[PlannedPart]) -> str:
    """How many are of each hand, where some are mirrored."""
    mirrored = sum(p.mirrored for p in members)
    if not mirrored or mirrored == len(members):
        return ""
    return f"{len(members) - mirrored}+{mirrored}"


def milling_sheet(plan: Plan) -> Sheet:
    """Every pass from the rough board on, once for each kind of part."""
    show = Show.of(plan)
    tables = []
    for members, ledger in _groups(plan):
        rows = _pass_rows(ledger.passes, show.style)
        made = (
            f"{ledger.pieces} {blank_words(ledger)}, each from {ledger.nominal}"
            if ledger.pieces > 1
            else ledger.nominal
        )
        title = f"{names_of(p.name for p in members)}: {show.rough(ledger.rough)} rough, {made or 'sheet'}"
        note = "; ".join(ledger.notes)
        if ledger.strips is not None:
            widths = ", ".join(show.length(w) for w in ledger.strips.widths_mm)
            many = count_of(ledger.strips.count, "strip")
            note = f"{many}, glued widths {widths}. {ledger.strips.reason} {note}"
        if ledger.lamination is not None:
            note = f"{ledger.lamination.reason} {note}"
        tables.append(
            Table(
                title=title,
                columns=(
                    Column(title="Pass"),
                    Column(title="With"),
                    Column(title=f"Takes off L, W, T {show.unit}", align=_R),
                    Column(title="Leaves", align=_R),
                    Column(title="Note"),
                ),
                rows=rows,
                groups=tuple(one.stage.value.capitalize() for one in ledger.passes),
                parts=tuple(tuple(p.name for p in members) for _ in rows),
                note=note.strip(),
            )
        )
    return Sheet(
        id="milling",
        title="Milling",
        lead="What each pass takes and leaves, from the rough board to the finished part.",
        blocks=tuple(tables),
    )


@remembered(limit=1024)
def _pass_rows(passes: tuple[Pass, ...], style: LengthStyle) -> tuple[tuple[str, ...], ...]:
    show = Show.in_style(style)
    return tuple(
        (
            one.operation.value,
            one.machine.value,
            _taken(show, one.removes_length_mm, one.removes_width_mm, one.removes_thickness_mm),
            show.size(one.after),
            one.note,
        )
        for one in passes
    )


def _taken(show: Show, length: float, width: float, thickness: float) -> str:
    if not (length or width or thickness):
        return "—"
    return ", ".join(show.gap(mm) if mm else "–" for mm in (length, width, thickness))
