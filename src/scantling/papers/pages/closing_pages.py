"""Buying list, cost, loose parts, findings, sources and templates."""

from __future__ import annotations

from collections.abc import Iterable

from scantling.joinery.work import ConnectorKind
from scantling.papers.marking.face_detail import Detail, details_of
from scantling.papers.marking.face_view import FaceView
from scantling.papers.packet import Fact
from scantling.papers.packet.sections import BuyRow, ConnectorRow, CostLine, FindingRow, SourceRow
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import MarkedPart
from scantling.papers.sheets.show import joints_words, label_of, place_words, word
from scantling.papers.templates.template import Template, face_template
from scantling.papers.words.asking_words import (
    ask_amount,
    average_amount,
    one_board_words,
    why_so_much,
    wood_words,
)
from scantling.plan.making.hardware import HardwareLine, number_to_get
from scantling.plan.pricing import Pricing
from scantling.plan.result import Plan
from scantling.plan.timber.sheets_to_buy import BoughtSheets
from scantling.shop.operations.cautions import cautions
from scantling.stock.boards.board import PriceBasis
from scantling.units import Round, show_number
from scantling.wood.provenance import HowKnown
from scantling.wood.species import find_species

__all__ = [
    "buy_notes",
    "buy_rows",
    "caution_rows",
    "connector_rows",
    "cost_facts",
    "cost_lines",
    "finding_rows",
    "source_rows",
    "templates_of",
]

_TALLEST_MM, _LONGEST_MM = 170.0, 160.0
"""Larger stretches do not fit one sheet and are measured out instead. [mm]"""


def _size(line: HardwareLine, figures: Figures) -> str:
    if not line.size_mm:
        return ""
    down = Round.DOWN if line.kind is ConnectorKind.LOOSE_TENON else Round.NEAREST
    return figures.fine.sizes(*line.size_mm, direction=down, unit=True)


def connector_rows(lines: Iterable[HardwareLine], *, figures: Figures) -> tuple[ConnectorRow, ...]:
    """Loose tenons, pins, clips and screws.

    Parameters
    ----------
    lines
        Of the plan.
    figures
        How lengths are written.

    Returns
    -------
    tuple of ConnectorRow
        One line for each size.
    """
    fine = figures.fine
    rows = []
    for line in lines:
        drill = ""
        if len(line.drill_mm) > 1:
            drill = f"Ø{fine.bare(line.drill_mm[0])}, {fine.length(line.drill_mm[1])} deep"
        elif line.drill_mm:
            drill = f"Ø{fine.length(line.drill_mm[0])}"
        made = "made here" if line.made_here else "bought"
        note = f"{made}; {line.note}" if line.note else made
        rows.append(
            ConnectorRow(
                kind=line.kind.value,
                count=line.needed,
                size=_size(line, figures),
                drill=drill,
                where=joints_words(line.joints),
                note=f"{note}; get {number_to_get(line)}",
            )
        )
    return tuple(rows)


def buy_rows(plan: Plan, *, figures: Figures) -> tuple[BuyRow, ...]:
    """Everything to buy.

    Parameters
    ----------
    plan
        The plan.
    figures
        How figures are written.

    Returns
    -------
    tuple of BuyRow
        Wood, hardware, glue and finish, in groups.
    """
    return (*_wood_rows(plan, figures), *_hardware_rows(plan, figures), *_surface_rows(plan, figures))


def _wood_rows(plan: Plan, figures: Figures) -> list[BuyRow]:
    rows = []
    on_sheets = plan.timber.on_sheets
    cut = [
        (x.board, "Boards from the rack") for x in (plan.timber.layout.boards if plan.timber.layout else ())
    ]
    cut += [(x.board, "Sheets from the rack") for x in (on_sheets.layout.boards if on_sheets else ())]
    for board, group in cut:
        size = figures.sizes(board.length_mm, board.width_mm, unit=True)
        text = ""
        if board.price is not None:
            whole = board.price.basis is PriceBasis.BOARD
            text = figures.money(board.price.amount) + ("" if whole else f" a {board.price.basis.value}")
        what = f"{board.name}, {board.species}"
        rows.append(BuyRow(group=group, what=what, amount=size, price=text))
    for need in plan.timber.ask_for:
        size = figures.sizes(need.longest_mm, need.widest_mm, direction=Round.UP, unit=True)
        inch = figures.style.inch
        average = f"; {average_amount(need, inch=inch)} on average" if need.chance_short is not None else ""
        note = f"boards at least {size}{average}"
        what = f"{wood_words(need)}, {show_number(need.quarters)}/4"
        rows.append(BuyRow(group="Wood to buy", what=what, amount=ask_amount(need, inch=inch), note=note))
    return rows + _sheets_to_buy(plan.timber.sheets_to_buy, figures)


def buy_notes(plan: Plan) -> tuple[str, ...]:
    """Why so much wood is asked for, each reason once, and where one short board would do."""
    why = dict.fromkeys(why_so_much(w) for w in plan.timber.ask_for)
    smaller = (words for w in plan.timber.ask_for if (words := one_board_words(w)))
    return (*(f"Wood: {each}." for each in why), *(f"{words[0].upper()}{words[1:]}." for words in smaller))


def _sheets_to_buy(bought: BoughtSheets | None, figures: Figures) -> list[BuyRow]:
    """Sheets of the sizes sold, then the parts none of them holds."""
    if bought is None:
        return []
    rows = [
        BuyRow(
            group="Sheets to buy",
            what=f"{p.material} {figures.length(p.thickness_mm)}",
            amount=f"{p.count} of {figures.sizes(p.length_mm, p.width_mm, unit=True)}",
            note=f"for {', '.join(word(part) for part in dict.fromkeys(p.parts))}",
        )
        for p in bought.purchases
    ]
    rows += [
        BuyRow(
            group="Sheets to buy",
            what=f"{s.material} {figures.length(s.thickness_mm)}, for {word(s.part)}",
            amount=figures.sizes(s.length_mm, s.width_mm, direction=Round.UP, unit=True),
            note="larger than the sheets sold",
        )
        for s in bought.too_large
    ]
    return rows


def _hardware_rows(plan: Plan, figures: Figures) -> list[BuyRow]:
    return [
        BuyRow(
            group="Made here, from offcuts" if line.made_here else "Hardware",
            what=", ".join(filter(None, (line.kind.value, _size(line, figures)))),
            amount=number_to_get(line),
        )
        for line in sorted(plan.hardware, key=lambda x: x.made_here)
    ]


def _surface_rows(plan: Plan, figures: Figures) -> list[BuyRow]:
    group = "Glue, abrasive and finish"
    coats = plan.finishing.coats
    tins = " + ".join(figures.liters(t) for t in coats.tins_l)
    return [
        BuyRow(group=group, what="glue", amount=figures.grams(plan.gluing.glue_g)),
        *(
            BuyRow(group=group, what=f"discs, grit {s.grit}", amount=str(s.discs))
            for s in plan.finishing.sanding.steps
        ),
        BuyRow(
            group=group,
            what=plan.finishing.system,
            amount=figures.liters(coats.total_l),
            note=f"tins: {tins}" if tins else "",
        ),
    ]


def cost_lines(pricing: Pricing, *, figures: Figures) -> tuple[CostLine, ...]:
    """The bill, with its sums.

    Parameters
    ----------
    pricing
        Of the plan.
    figures
        How money is written.

    Returns
    -------
    tuple of CostLine
        In the order of the bill.
    """
    quote = pricing.quote
    lines = [CostLine(what=x.what, reckoned=x.reckoned, amount=figures.money(x.amount)) for x in quote.lines]
    margin = f"margin {show_number(quote.margin_pct)} % of the price"
    lines += [
        CostLine(what="Cost", reckoned="all of the above", amount=figures.money(quote.cost), total=True),
        CostLine(what="Left to the shop", reckoned=margin, amount=figures.money(quote.margin)),
        CostLine(
            what="Price",
            reckoned="cost over one less the margin",
            amount=figures.money(quote.price),
            total=True,
        ),
    ]
    if pricing.tax_pct:
        lines.append(
            CostLine(
                what="With tax",
                reckoned=f"{show_number(pricing.tax_pct)} %",
                amount=figures.money(pricing.with_tax),
                total=True,
            )
        )
    return tuple(lines)


def cost_facts(pricing: Pricing, *, figures: Figures) -> tuple[Fact, ...]:
    """Price, cost, hours, and the trap of mark-up.

    Parameters
    ----------
    pricing
        Of the plan.
    figures
        How money is written.

    Returns
    -------
    tuple of Fact
        For the head of the sheet.
    """
    quote = pricing.quote
    return (
        Fact(
            label="Price",
            value=figures.money(quote.price),
            note=f"{pricing.currency}{', without what has no price' if pricing.unpriced else ''}",
        ),
        Fact(label="Cost", value=figures.money(quote.cost), note=pricing.currency),
        Fact(label="Hours in the price", value=show_number(quote.hours), note=_countings(pricing)),
        Fact(
            label=f"As a mark-up of {show_number(quote.margin_pct)} %",
            value=figures.money(quote.price_if_markup),
            note=f"{figures.money(quote.price - quote.price_if_markup)} short",
        ),
    )


def _countings(pricing: Pricing) -> str:
    """Both countings of the hours: the price stands on the greater."""
    second = pricing.second_opinion
    return (
        f"the greater of two countings: by steps {show_number(pricing.steps_h)}, by operation "
        f"{show_number(second.likely_h)} ({second.low_h:.0f} to {second.high_h:.0f})"
    )


def finding_rows(plan: Plan) -> tuple[FindingRow, ...]:
    """What the rules found, as they said it."""
    return tuple(
        FindingRow(
            code=f.code,
            severity=f.severity,
            where=place_words(f.where),
            message=label_of(f.message),
            advice=label_of(f.advice),
            source=f.source,
        )
        for f in plan.findings
    )


_GENERAL = (
    SourceRow(
        figure="moisture wood settles at in air",
        value="",
        source="Hailwood and Horrobin's equation, coefficients of the Wood Handbook, FPL-GTR-190, eq. 4-5",
        standing=HowKnown.READ.words,
    ),
    SourceRow(
        figure="movement outside 6 to 14 % moisture",
        value="",
        source="full shrinkage, Wood Handbook, FPL-GTR-190, eq. 13-3",
        standing=HowKnown.READ_SECONDARY.words,
    ),
    SourceRow(
        figure="minutes of each kind of work",
        value="",
        source="orders of magnitude for one careful person; hold them against your own record",
        standing=HowKnown.MEMORY.words,
    ),
    SourceRow(
        figure="turning stiffness of a joint, for the sway",
        value="",
        source="an order of magnitude",
        standing=HowKnown.MEMORY.words,
    ),
)


def _valued(key: str, value: float, figures: Figures) -> str:
    """A property of a wood with its unit."""
    if key in ("cr_per_pct", "ct_per_pct"):
        return f"{100.0 * value:.3f} % of the width for each % of moisture"
    if key == "tangential_pct":
        return f"{value:g} %"
    if key.endswith("_mpa"):
        return figures.stress(value)
    return f"{value:g}"


def source_rows(plan: Plan, *, figures: Figures) -> tuple[SourceRow, ...]:
    """Where the figures of this plan come from.

    Parameters
    ----------
    plan
        The plan.
    figures
        How values are written.

    Returns
    -------
    tuple of SourceRow
        Movement and weight of each wood, yield, finish, prices, rules.
    """
    named = {
        "cr_per_pct": "radial movement",
        "ct_per_pct": "tangential movement",
        "tangential_pct": "shrinkage green to dry, tangential",
        "specific_gravity_12": "specific gravity",
        "moe_mpa": "stiffness",
        "mor_mpa": "bending strength",
    }
    rows = list(_GENERAL)
    for name in dict.fromkeys(p.species for p in plan.parts if p.kind.value != "sheet"):
        species = find_species(name)
        for key, words in named.items():
            value, known = getattr(species, key), species.sources.get(key)
            if value is None or known is None:
                continue
            place = known.source + (f", table {known.table}" if known.table else "")
            rows.append(
                SourceRow(
                    figure=f"{name}, {words}",
                    value=_valued(key, value, figures),
                    source=place,
                    standing=known.how.words,
                    cited=known.source,
                )
            )
    rows += [
        SourceRow(figure="allowance for waste", value=f"{need.allowance_pct:.0f} %", source=need.reason)
        for need in plan.timber.to_buy[:1]
    ]
    if plan.finishing.source:
        rows.append(SourceRow(figure=plan.finishing.system, value="", source=plan.finishing.source))
    told: set[str] = set()
    for line in plan.pricing.quote.lines:
        if line.source and line.source not in told:
            told.add(line.source)
            rows.append(SourceRow(figure=f"price of {line.what}", value="", source=line.source))
    for finding in plan.findings:
        if finding.source and finding.code not in told:
            told.add(finding.code)
            rows.append(SourceRow(figure=f"rule {finding.code}", value="", source=finding.source))
    return tuple(rows)


def caution_rows() -> tuple[tuple[str, str], ...]:
    """Every operation's usual caution, and whom to ask."""
    return tuple(
        (c.operation.capitalize(), c.text + (f" Ask: {c.defer_to}." if c.defer_to else ""))
        for c in cautions().values()
    )


def templates_of(groups: Iterable[MarkedPart], *, figures: Figures) -> tuple[Template, ...]:
    """Full-size templates of the ends that carry joints, as far as they fit a sheet.

    Parameters
    ----------
    groups
        Parts marked out alike.
    figures
        How lengths are written.

    Returns
    -------
    tuple of Template
        One for each stretch with joints.
    """
    return tuple(
        _template(group, view, low=detail.low_mm - 2.0, high=detail.high_mm + 2.0, figures=figures)
        for group in groups
        for view in group.views
        for detail in details_of(view)
        if _at_an_end(view, detail)
        and detail.high_mm - detail.low_mm < _LONGEST_MM
        and max(y for _, y in view.outline) < _TALLEST_MM
    )


def _at_an_end(view: FaceView, detail: Detail) -> bool:
    """Whether a stretch holds an end to lay the template to; elsewhere a rule does better."""
    low, high = min(x for x, _ in view.outline), max(x for x, _ in view.outline)
    return bool(view.left_name) and (detail.low_mm <= low + 0.01 or detail.high_mm >= high - 0.01)


def _template(group: MarkedPart, view: FaceView, *, low: float, high: float, figures: Figures) -> Template:
    first = group.parts[0]
    tags = ", ".join(m.tag for m in view.marks if low <= m.x_mm <= high)
    ends = f"{figures.bare(max(low, 0.0))} to {figures.length(min(high, first.length_mm))}"
    return face_template(
        view,
        name=f"{word(first.name)}: {tags}",
        note=f"{ends} from the {view.left_name}, which lies to the left",
        from_mm=low,
        to_mm=high,
    )
