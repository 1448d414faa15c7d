"""Sheets of the business: money, moving, findings, sources."""

from __future__ import annotations

import re

from scantling.errors import Finding, Remedy, Severity
from scantling.papers.sheets.model import Align, Block, Caution, Column, Facts, Sheet, Table, Tone, Words
from scantling.papers.sheets.show import Show, label_of, names_of, place_words
from scantling.papers.words.asking_words import priced_words
from scantling.papers.words.hours_words import counting_words
from scantling.papers.words.moving_words import alone_words, padding_words, way_words
from scantling.papers.words.severity_words import findings_told, severity_word
from scantling.plan.parts import PlannedPart
from scantling.plan.pricing import Pricing
from scantling.plan.result import Plan
from scantling.plan.standing.moving import Load
from scantling.shop.operations.cautions import cautions_for

__all__ = ["findings_sheet", "money_sheet", "moving_sheet"]

_R = Align.RIGHT
_TONES = {
    Severity.STOP: Tone.BAD,
    Severity.HIGH: Tone.BAD,
    Severity.MEDIUM: Tone.WARN,
    Severity.NOTE: Tone.PLAIN,
}


def money_sheet(plan: Plan) -> Sheet:
    """The bill, the price, and what would upset it."""
    pricing = plan.pricing
    quote, money = pricing.quote, pricing.currency
    rows = tuple(
        (line.kind.value, line.what, line.reckoned, f"{line.amount:,.2f}", line.source)
        for line in quote.lines
    )
    blocks: list[Block] = [
        _in_short(pricing),
        Table(
            title="What it costs",
            columns=(
                Column(title="For"),
                Column(title="What"),
                Column(title="Reckoned"),
                Column(title=money, align=_R),
                Column(title="From"),
            ),
            rows=rows,
            note=priced_words(plan.timber.ask_for),
        ),
        Table(
            title="If it goes otherwise, at this price",
            columns=(
                Column(title="If"),
                Column(title=f"Cost {money}", align=_R),
                Column(title="Left over", align=_R),
            ),
            rows=tuple((s.what, f"{s.cost:,.0f}", f"{s.margin_pct:.1f} %") for s in quote.sensitivity),
        ),
        Words(
            title="Margin and mark-up",
            lines=(
                f"A margin is a share of the price: {quote.margin_pct:.0f} % put on the cost "
                "instead would give "
                f"{quote.price_if_markup:,.0f}, {quote.price - quote.price_if_markup:,.0f} {money} less.",
            ),
        ),
        _hours_table(pricing),
    ]
    lacking = " What has no price is left out of it." if pricing.unpriced else ""
    return Sheet(
        id="money",
        title="Money",
        lead=f"Costs {quote.cost:,.0f}, ask {quote.price:,.0f} {money}.{lacking} An estimate from this "
        "shop's own rates.",
        blocks=tuple(blocks),
    )


def _in_short(pricing: Pricing) -> Facts:
    """Cost, price and hours; beside them what is not in the price."""
    quote, money = pricing.quote, pricing.currency
    return Facts(
        title="In short",
        items=(
            ("Cost", f"{quote.cost:,.0f} {money}"),
            ("Price", f"{quote.price:,.0f} {money}"),
            *((("Not in the price", "; ".join(pricing.unpriced)),) if pricing.unpriced else ()),
            ("Left over", f"{quote.margin:,.0f} {money} ({quote.margin_pct:.0f} %)"),
            ("Hours in the price", f"{quote.hours:.0f}, counted {counting_words(pricing)}"),
        ),
    )


def _hours_table(pricing: Pricing) -> Table:
    """Both countings of the hours with the price each would give, and which is asked and why."""
    second, money = pricing.second_opinion, pricing.currency
    rows = (
        (
            "by steps",
            "each step in the order of work",
            f"{pricing.steps_h:.0f}",
            f"{pricing.steps_price:,.0f}",
        ),
        (
            "by operation",
            f"parts, joints, square meters; nine times in ten between {second.low_h:.0f} and "
            f"{second.high_h:.0f} h",
            f"{second.likely_h:.0f}",
            f"{pricing.second_price:,.0f}",
        ),
    )
    used = counting_words(pricing)
    return Table(
        title="Hours, counted twice",
        columns=(
            Column(title="Counted"),
            Column(title="From"),
            Column(title="Hours", align=_R),
            Column(title=f"Price {money}", align=_R),
        ),
        rows=rows,
        note=f"The price asks the greater, {used}: an offer once signed cannot be raised, and steps leave "
        "out what lies between them (sharpening, sweeping, a second try). Ask the other when your own record "
        "of a like piece says so.",
    )


def _aside(mm: float, ways: tuple[str, str], show: Show) -> str:
    """How far off the middle, to which side: ``2.5 mm to the front``; less than is shown is on neither."""
    if show.length(abs(mm)) == show.length(0.0):
        return f"midway between {ways[1]} and {ways[0]}"
    return f"{show.length(abs(mm), unit=True)} to the {ways[0] if mm >= 0.0 else ways[1]}"


def moving_sheet(plan: Plan) -> Sheet:
    """Weight, balance, lifting, and the way in."""
    show, moving = Show.of(plan), plan.moving
    loads = (moving.whole, *moving.apart)
    table = Table(
        title="What is carried",
        columns=(
            Column(title="Load"),
            Column(title="Weight", align=_R),
            Column(title=f"Box {show.unit}", align=_R),
            Column(title="People", align=_R),
            Column(title="One person alone"),
            Column(title="Way in"),
        ),
        rows=tuple(_load_row(load, show) for load in loads),
        parts=tuple(load.parts for load in loads),
        note="One person's limit by the revised NIOSH lifting equation, for a grip low and a "
        f"forearm out; an estimate. {padding_words(lambda mm: show.length(mm, unit=True))}",
    )
    blocks: list[Block] = [
        Facts(
            title="Weight",
            items=(
                ("Whole", show.mass(moving.mass_kg)),
                ("Balances", f"{show.length(moving.center_mm[2], unit=True)} above the floor"),
                (
                    "Off the middle",
                    f"{_aside(moving.center_mm[0], ('right', 'left'), show)}, "
                    f"{_aside(moving.center_mm[1], ('back', 'front'), show)}",
                ),
            ),
        ),
        table,
    ]
    weights = _weights(plan, show)
    by_part = Table(
        title="Weight by part",
        columns=(
            Column(title="Part"),
            Column(title="Weight of each", align=_R),
            Column(title="Together", align=_R),
        ),
        rows=tuple((names_of(names), each, total) for names, each, total in weights),
        parts=tuple(tuple(names) for names, _, _ in weights),
    )
    blocks += [by_part, Caution(lines=cautions_for("lifting"))]
    route = " and ".join(moving.route)
    reach = "" if not moving.route else f" The way in: {route}."
    return Sheet(
        id="moving",
        title="Moving",
        lead=f"{show.mass(moving.mass_kg)} whole.{reach}",
        blocks=tuple(blocks),
    )


def _weights(plan: Plan, show: Show) -> list[tuple[list[str], str, str]]:
    """Parts of a kind that weigh the same, with the weight of each and of all."""
    groups: dict[tuple[str, str], list[PlannedPart]] = {}
    for part in plan.parts:
        groups.setdefault((part.like, show.mass(part.mass_kg)), []).append(part)
    return [
        ([part.name for part in members], each, show.mass(sum(part.mass_kg for part in members)))
        for (_, each), members in groups.items()
    ]


def _load_row(load: Load, show: Show) -> tuple[str, ...]:
    return (
        label_of(load.name),
        show.mass(load.mass_kg),
        show.by(*load.size_mm),
        str(load.lift.people),
        alone_words(load),
        way_words(load, lambda mm: show.length(mm, unit=True)),
    )


def findings_sheet(plan: Plan) -> Sheet:
    """What the design rules say, worst first."""
    findings = plan.findings
    lead = findings_told(findings) if findings else "The rules that apply found nothing."
    table = Table(
        title="What the rules found",
        columns=(
            Column(title="Rule"),
            Column(title="Severity"),
            Column(title="Where"),
            Column(title="What"),
            Column(title="A way out"),
            Column(title="Rule from"),
        ),
        rows=tuple(_finding_row(finding) for finding in findings),
        tones=tuple(_TONES[finding.severity] for finding in findings),
        parts=tuple(_parts_of(finding, plan) for finding in findings),
    )
    return Sheet(id="faults", title="Findings", lead=lead, blocks=(table,) if findings else ())


def _finding_row(finding: Finding) -> tuple[str, ...]:
    return (
        finding.code,
        severity_word(finding.severity),
        place_words(finding.where),
        label_of(finding.message),
        " ".join([label_of(finding.advice), *(_remedy_words(each) for each in finding.remedies)]).strip(),
        finding.source,
    )


def _remedy_words(remedy: Remedy) -> str:
    """A change of the piece file with the line to write, or of the notes with what to take out.

    The unit stands close to its figure there: the line is what is written, whatever unit is shown.
    """
    if remedy.taken_back:
        return f"{label_of(remedy.words)} (take {remedy.line} out of the notes)."
    line = re.sub(r"(\d) mm\b", r"\1mm", remedy.line)
    return f"{remedy.words} (write {line})."


def _parts_of(finding: Finding, plan: Plan) -> tuple[str, ...]:
    joints = {work.joint: (work.first, work.second) for work in plan.joints}
    names = {part.name for part in plan.parts}
    found: list[str] = []
    for place in finding.where.replace("/", ", ").split(", "):
        if place in names:
            found.append(place)
        found.extend(joints.get(place, ()))
    return tuple(dict.fromkeys(found))
