"""The whole packet of a plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from scantling.papers.marking.piece_views import draw_picture
from scantling.papers.packet import Fact, PacketData, Paper, Section
from scantling.papers.packet.sections import (
    apart_section,
    asking_section,
    boards_section,
    buying_section,
    chalk_section,
    connectors_section,
    cost_section,
    findings_section,
    finish_section,
    glue_section,
    joints_section,
    layers_section,
    moving_section,
    order_section,
    parts_section,
    rough_section,
    saw_section,
    seasons_section,
    sections_section,
    sheets_section,
    sources_section,
    templates_section,
    views_section,
    year_figure,
)
from scantling.papers.pages import closing_pages as closing
from scantling.papers.pages import season_pages as season
from scantling.papers.pages import timber_pages as timber
from scantling.papers.pages import work_pages as work
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import joint_sheets, marked_parts, shared_methods
from scantling.papers.pages.moving_pages import load_rows
from scantling.papers.pages.part_faces import end_name
from scantling.papers.pages.part_pages import group_parts, numbers_of, part_rows
from scantling.papers.pages.saw_pages import rip_rows, setup_cards, square_rows
from scantling.papers.pages.section_pages import joint_sections
from scantling.papers.pages.strength_pages import strength_sheet_of
from scantling.papers.pages.view_pages import apart_picture, hung_parts, piece_picture, three_views
from scantling.papers.pictures.shortfall_picture import draw_shortfall
from scantling.papers.sheets.matching import matching_lines
from scantling.papers.sheets.sheet_buying import buying_words
from scantling.papers.sheets.shortfall import shortfall_lines, shortfall_picture
from scantling.papers.sheets.show import Show, names_of, place_words, word
from scantling.papers.sheets.timber import bench_lines
from scantling.papers.templates.arc_template import arc_templates
from scantling.papers.words.asking_words import priced_words
from scantling.papers.words.chalk_list import boards_to_cut, chalk_stands
from scantling.papers.words.hours_words import standing_words
from scantling.papers.words.joint_naming import looks_of, words_of
from scantling.papers.words.moving_words import padding_words
from scantling.papers.words.naming import label_of
from scantling.papers.words.order_rows import likes_of
from scantling.papers.words.sawing_words import BY_HAND, all_by_hand, ends_words
from scantling.papers.words.sentence_units import in_style
from scantling.papers.words.severity_words import serious_told
from scantling.piece.model import End, Piece
from scantling.plan.cache import content_of
from scantling.plan.result import Plan
from scantling.shop.operations.cautions import cautions_for
from scantling.solids.exact import ExactPart, exact_parts
from scantling.solids.explode import explode
from scantling.solids.mesh import PartMesh
from scantling.solids.shape import PartShape
from scantling.units import LengthStyle, show_number

__all__ = ["PacketSource", "packet_of"]

_FEW_LOOSE = 4
"""Up to so many lines of loose parts wait until the templates are over, and share a page there. [1]"""
_NOTICE = (
    "Figures are estimates computed from published data and common practice; the last sheets say from which. "
    "Angles and sizes hold for the plan named at the foot of every sheet: do not mix sheets of two plans."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PacketSource:
    """What a packet is made from.

    Parameters
    ----------
    plan, piece
        The plan and its piece.
    shapes, meshes
        Parts with their joints cut, and their solids.
    bodies
        Their exact bodies where they are at hand; None has them built.
    """

    plan: Plan
    piece: Piece
    shapes: Mapping[str, PartShape]
    meshes: Mapping[str, PartMesh]
    bodies: Mapping[str, ExactPart] | None = None


def packet_of(
    source: PacketSource, *, paper: Paper, style: LengthStyle | None = None, prices: bool = True
) -> PacketData:
    """Every sheet of a plan.

    Parameters
    ----------
    source
        The plan and its solids.
    paper
        Paper to print on.
    style
        How lengths are shown; None takes the unit of the piece.
    prices
        Whether the cost sheet is in it; a packet for publishing leaves it out.

    Returns
    -------
    PacketData
        For :func:`scantling.papers.packet.compile_packet`.
    """
    with words_of(source.plan):
        shown = style or source.plan.style
        packet = _packet(source, paper=paper, style=shown, prices=prices)
    return in_style(packet, shown)


def _packet(source: PacketSource, *, paper: Paper, style: LengthStyle, prices: bool) -> PacketData:
    plan = source.plan
    figures = Figures(style=style, currency=plan.pricing.currency)
    bodies = exact_parts(source.shapes) if source.bodies is None else source.bodies
    mark = content_of(plan)[:6]
    sections = (
        *_piece_sheets(source, bodies, figures=figures, paper=paper),
        *_wood_sheets(plan, figures=figures, paper=paper),
        *_joint_sheets(source, mark, figures=figures, paper=paper),
        *_time_sheets(source, figures=figures, paper=paper),
        *_closing_sheets(plan, figures=figures, prices=prices),
    )
    width, height = paper.text_mm
    picture = piece_picture(plan.title, source.shapes, bodies)
    return PacketData(
        title=plan.title,
        about=plan.about.strip(),
        made_for=f"Shop: {plan.shop}. Room: {plan.room}.",
        fingerprint=mark,
        facts=_cover_facts(plan, figures, prices=prices),
        sections=sections,
        notice=_NOTICE,
        picture=draw_picture(picture, room_mm=width, height_mm=height - 168.0),
    )


def _cover_facts(plan: Plan, figures: Figures, *, prices: bool) -> tuple[Fact, ...]:
    whole = plan.moving.whole
    size = figures.sizes(*whole.size_mm)
    limit = f"one person should lift at most {figures.mass(whole.lift.weight_limit_kg)}"
    worst = plan.findings[0] if plan.findings else None
    facts = [
        Fact(label="Overall", value=size, note=f"{figures.unit}, length, depth, height"),
        Fact(label="Weight", value=figures.mass(plan.moving.mass_kg), note=limit),
        Fact(label="Rough wood", value=figures.timber(plan.timber.net_m3), note="without waste"),
        Fact(
            label="Work",
            value=f"{show_number(plan.order.hours, digits=0)} h",
            note=_work_note(plan, prices=prices),
        ),
    ]
    if plan.seasons.parts:
        most = plan.seasons.parts[0]
        facts.append(
            Fact(
                label=f"Moves most: {word(most.part)}",
                value=figures.tenths(most.widest_mm - most.narrowest_mm, unit=True),
                note="in width, over the year",
            )
        )
    least = plan.seasons.least_to_spare
    if least is not None:
        facts.append(
            Fact(
                label="Least room to move",
                value=figures.tenths(least.spare_mm, unit=True),
                note=f"{word(least.joint)}, {least.what}",
            )
        )
    errors = len(plan.errors)
    stops = serious_told(plan.findings).partition("(")[2].replace(")", "; ")
    facts.append(
        Fact(
            label="Findings",
            value=f"{errors} serious" if errors else f"{len(plan.findings)} to read",
            note=f"{stops}{worst.code}: {place_words(worst.where)}" if worst else "",
        )
    )
    if prices:
        price = figures.money(plan.pricing.quote.price)
        lacking = "not all priced" if plan.pricing.unpriced else ""
        told = (plan.pricing.currency, standing_words(plan.pricing), lacking)
        facts.append(Fact(label="Price", value=price, note=", ".join(each for each in told if each)))
    return tuple(facts)


def _work_note(plan: Plan, *, prices: bool) -> str:
    """Over how many days; how the hours are counted where the price beside them stands on others."""
    days = f"over {plan.order.timetable.last_day} days"
    return f"{days}; counted by steps" if prices and standing_words(plan.pricing) else days


def _piece_sheets(
    source: PacketSource, bodies: Mapping[str, ExactPart], *, figures: Figures, paper: Paper
) -> tuple[Section, ...]:
    plan, piece = source.plan, source.piece
    groups = group_parts(plan.parts, plan.built)
    offsets = explode(piece.parts, source.meshes, plan.joints).offsets_mm
    hung = hung_parts(piece, source.meshes, plan.joints)
    views = three_views(piece, source.shapes, bodies, figures=figures, hung=hung)
    apart = apart_picture(plan.title, source.shapes, bodies, offsets_mm=offsets, numbers=numbers_of(groups))
    return (
        parts_section(part_rows(groups, figures=figures, built=plan.built), unit=figures.unit),
        views_section(views, unit=figures.unit, paper=paper),
        apart_section(apart, tuple((g.number, g.names) for g in groups), paper=paper),
    )


def _wood_sheets(plan: Plan, *, figures: Figures, paper: Paper) -> tuple[Section, ...]:
    ledgers, layout = plan.milling, plan.timber.layout
    sections = [
        rough_section(
            timber.rough_rows(ledgers, figures=figures),
            unit=figures.unit,
            allowances=timber.allowance_words(ledgers, figures=figures),
        )
    ]
    layers = timber.layer_rows(ledgers, figures=figures)
    strips = timber.strip_rows(ledgers, figures=figures)
    if layers or strips:
        sections.append(layers_section(layers, strips, unit=figures.unit))
    if plan.timber.shortfalls:
        drawn = tuple(
            draw_shortfall(shortfall_picture(s), room_mm=paper.text_mm[0]) for s in plan.timber.shortfalls
        )
        sections.append(asking_section(drawn, shortfall_lines(plan.timber.shortfalls)))
    if layout is not None and layout.boards:
        sections.append(
            boards_section(
                timber.board_pictures(plan, figures=figures),
                paper=paper,
                facts=timber.layout_facts(layout, figures=figures),
                missing=tuple(word(b.name) for b in layout.unplaced),
                bench=bench_lines(plan.timber.bench) if plan.timber.bench else (),
                matching=matching_lines(plan.timber.wishes, layout, show=Show.of(plan)),
            )
        )
        stands = chalk_stands(boards_to_cut(layout, plan.timber.bench), ledgers, figures=figures)
        sections.append(chalk_section(stands, unit=figures.unit))
    if cut := plan.timber.sheets_cut:
        bought = plan.timber.sheets_to_buy
        sections.append(
            sheets_section(
                tuple(timber.board_picture(b, figures=figures) for b in cut),
                paper=paper,
                missing=tuple(word(need.part) for need in (bought.too_large if bought else ())),
                to_buy=buying_words(bought) if bought and bought.boards else "",
            )
        )
        stands = chalk_stands(cut, (), figures=figures)
        chalked = chalk_section(stands, unit=figures.unit)
        lead = "All cuts from the sheets to parts over size, one stand at a saw after the other."
        sections.append(replace(chalked, title="Chalk list of the sheets", lead=lead))
    return tuple(sections)


def _joint_sheets(source: PacketSource, mark: str, *, figures: Figures, paper: Paper) -> tuple[Section, ...]:
    plan = source.plan
    sections = []
    if plan.setups:
        ends = {(p.name, end): end_name(p, end) for p in source.piece.parts.values() for end in End}
        cards = setup_cards(plan.setups, plan.sawing, ends=ends, figures=figures)
        sections.append(
            saw_section(
                cards,
                square=square_rows(plan.setups, figures=figures),
                rips=rip_rows(plan.sawing, figures=figures),
                unit=figures.unit,
                by_hand=BY_HAND if all_by_hand(plan.setups) else "",
            )
        )
    groups = marked_parts(source.piece, plan.joints, figures=figures)
    if groups:
        sheets, methods = joint_sheets(groups, figures=figures, built=plan.built), shared_methods(groups)
        sections.append(joints_section(sheets, unit=figures.unit, paper=paper, methods=methods))
    opened = joint_sections(source.piece, plan.joints, source.meshes, figures=figures)
    if opened:
        sections.append(sections_section(opened, paper=paper))
    loose = closing.connector_rows(plan.hardware, figures=figures)
    late = len(loose) <= _FEW_LOOSE
    if loose and not late:
        sections.append(connectors_section(loose))
    templates = closing.templates_of(groups, figures=figures) + arc_templates(
        source.piece.parts.values(), words=label_of, shown=figures.fine.length
    )
    if templates:
        title = f"{plan.title}, plan {mark}"
        sections.append(templates_section(templates, paper=paper, title=title))
    if loose and late:  # behind the templates, which take pages of their own: the seasons share its page
        sections.append(connectors_section(loose))
    return tuple(sections)


def _time_sheets(source: PacketSource, *, figures: Figures, paper: Paper) -> tuple[Section, ...]:
    plan, seasons = source.plan, source.plan.seasons
    finishing = plan.finishing
    likes = likes_of(plan.parts)
    tables = work.timetables(plan.order, likes, figures=figures)
    told = bool(shared_methods(marked_parts(source.piece, plan.joints, figures=figures)))
    looks = looks_of(plan.parts)
    sawn = {setup.title: f"{ends_words(setup, looks)}." for setup in plan.setups}
    before = (
        (f"Sand and finish first: {names_of(finishing.before_assembly)}.",)
        if finishing.before_assembly
        else ()
    )
    return (
        seasons_section(
            season.movement_rows(seasons, source.piece, figures=figures),
            season.freedom_rows(seasons, figures=figures),
            unit=figures.unit,
            year=year_figure(season.year_picture(seasons, plan.year, figures=figures), paper=paper),
            room=season.room_facts(seasons),
            notes=season.season_notes(seasons, plan.year, figures=figures),
        ),
        glue_section(work.glue_stages(plan.gluing, figures=figures, likes=likes)),
        finish_section(
            work.area_rows(finishing, figures=figures),
            work.coat_rows(finishing, figures=figures),
            facts=work.finish_facts(finishing, figures=figures),
            before=before,
            caution=" ".join(finishing.cautions),
        ),
        order_section(
            work.order_steps(plan.order, likes, figures=figures, sawn=sawn, told_elsewhere=told),
            paper=paper,
            timetables=tables,
            facts=work.order_facts(plan.order, likes, figures=figures),
        ),
        moving_section(
            load_rows(plan.moving, figures=figures),
            unit=figures.unit,
            notes=(padding_words(figures.length),) if plan.moving.route else (),
            caution=" ".join(cautions_for("lifting")),
        ),
    )


def _closing_sheets(plan: Plan, *, figures: Figures, prices: bool) -> tuple[Section, ...]:
    sections = [buying_section(closing.buy_rows(plan, figures=figures), notes=closing.buy_notes(plan))]
    if prices:
        notes = ["A margin is a share of the price; a mark-up is a share of the cost, and comes to less."]
        if priced := priced_words(plan.timber.ask_for):
            notes.append(priced)
        if plan.pricing.unpriced:
            notes.append(
                f"No price is known for: {', '.join(plan.pricing.unpriced)}. They are not in the sum."
            )
        notes += [
            f"If {s.what}: cost {figures.money(s.cost)}, margin {show_number(s.margin_pct)} %."
            for s in plan.pricing.quote.sensitivity
        ]
        sections.append(
            cost_section(
                closing.cost_lines(plan.pricing, figures=figures),
                currency=plan.pricing.currency,
                facts=closing.cost_facts(plan.pricing, figures=figures),
                notes=tuple(notes),
            )
        )
    sections += [
        strength_sheet_of(plan, figures=figures),
        findings_section(closing.finding_rows(plan)),
        sources_section(closing.source_rows(plan, figures=figures), cautions=closing.caution_rows()),
    ]
    return tuple(sections)
