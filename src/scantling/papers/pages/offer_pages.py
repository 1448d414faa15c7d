"""The offer for a client: what is to be made, how it will live in the room, the price, and room to sign."""

from __future__ import annotations

from collections.abc import Mapping

from scantling.joinery.work import ConnectorKind
from scantling.papers.marking.piece_views import draw_picture
from scantling.papers.packet import Fact, PacketData, Paper, Section
from scantling.papers.packet.blocks import (
    Block,
    Bullets,
    Caution,
    Column,
    Facts,
    Heading,
    Row,
    Table,
    Together,
)
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.packet_pages import PacketSource
from scantling.papers.pages.view_pages import piece_picture
from scantling.papers.sheets.show import word
from scantling.papers.words.joint_naming import words_of
from scantling.papers.words.moving_words import way_words
from scantling.papers.words.naming import label_of
from scantling.papers.words.offer_terms import Terms
from scantling.papers.words.sentence_units import in_style
from scantling.piece.model import PartKind, Piece, Stands
from scantling.plan.cache import content_of
from scantling.plan.result import Plan
from scantling.plan.year.season_parts import SeasonPart
from scantling.solids.exact import ExactPart, exact_parts
from scantling.units import LengthStyle

__all__ = ["offer_of"]

_SMALL_MM = 2.0
"""Movement that nobody sees. [mm]"""
_TOLD_MM = 0.05
"""Less is 0.0 on paper. [mm]"""
_MOST_PARTS = 3
"""Parts whose movement is told."""
_NOTICE = (
    "Sizes are of the finished piece; movement and weight are estimates from published data of the wood. The "
    "offer holds for the plan named at the foot of every sheet: another size, wood or room is another plan, "
    "and priced anew."
)
_JUDGED = (
    "What holds people up, what children use and tall storage is for the published standard and a test house "
    "to judge; no figure here says that it passes."
)
_HUNG = (
    "It hangs on the wall: the fixings are chosen and set for that wall by someone who knows it, licensed "
    "where it can fall on people."
)
_ANCHORED = (
    "It is anchored to the wall before anything is put in, with fixings for that wall, by someone who "
    "knows it."
)

_DRAFT = "a draft: not all of it has a price yet"
_BLANK = "_" * 12
"""What a price is written on by hand, where the reckoned sum lacks something."""


def offer_of(
    source: PacketSource, terms: Terms, *, paper: Paper, style: LengthStyle | None = None
) -> PacketData:
    """The offer: no hours, no costs, nothing of the shop's but its name.

    Parameters
    ----------
    source
        The plan and its solids.
    terms
        Whom it is for, and the price where it is not the plan's.
    paper
        Paper to print on.
    style
        How lengths are shown; None takes the unit of the piece.

    Returns
    -------
    PacketData
        For :func:`scantling.papers.packet.compile_packet`.
    """
    with words_of(source.plan):
        shown = style or source.plan.style
        offer = _offer(source, terms, paper=paper, style=shown)
    return in_style(offer, shown)


def _offer(source: PacketSource, terms: Terms, *, paper: Paper, style: LengthStyle) -> PacketData:
    plan, piece = source.plan, source.piece
    figures = Figures(style=style, currency=plan.pricing.currency)
    bodies: Mapping[str, ExactPart] = exact_parts(source.shapes) if source.bodies is None else source.bodies
    width, height = paper.text_mm
    picture = piece_picture(plan.title, source.shapes, bodies)
    draft = terms.price is None and bool(plan.pricing.unpriced)
    price = plan.pricing.quote.price if terms.price is None else terms.price
    asked = f"{_BLANK} {figures.currency}" if draft else _money(price, figures.currency)
    return PacketData(
        title=plan.title,
        about=plan.about.strip(),
        made_for=f"For {terms.client or '_' * 36}",
        fingerprint=content_of(plan)[:6],
        facts=(
            Fact(
                label="Overall",
                value=figures.sizes(*plan.moving.whole.size_mm),
                note=f"{figures.unit}, length, depth, height",
            ),
            Fact(label="Wood", value=", ".join(_woods(piece, shown=True)[:2])),
            Fact(label="Surface", value=plan.finishing.system),
            Fact(label="Price", value=asked, note=_DRAFT if draft else ""),
        ),
        sections=(_what(plan, piece, figures), _how(plan, piece, figures), _terms(plan, asked)),
        notice=_NOTICE,
        picture=draw_picture(picture, room_mm=width, height_mm=height - 150.0),
        heading="Offer",
    )


def _money(amount: float, currency: str) -> str:
    return f"{amount:,.0f} {currency}"


def _woods(piece: Piece, *, shown: bool) -> tuple[str, ...]:
    """Woods of the parts that are seen, or of those that are not, the most used first."""
    volume: dict[str, float] = {}
    for part in piece.parts.values():
        if bool(part.show) is shown:
            volume[part.species] = (
                volume.get(part.species, 0.0) + part.length_mm * part.width_mm * part.thickness_mm
            )
    return tuple(sorted(volume, key=volume.__getitem__, reverse=True))


def _what(plan: Plan, piece: Piece, figures: Figures) -> Section:
    """What is to be made, and how it comes into the house."""
    drying = plan.finishing.drying
    seen = _woods(piece, shown=True)
    hidden = tuple(wood for wood in _woods(piece, shown=False) if wood not in seen)
    woods = ", ".join(seen or hidden) + (
        f"; where it does not show {', '.join(hidden)}" if seen and hidden else ""
    )
    coats = len(drying.coats)
    rows = [
        ("Size", f"{figures.sizes(*plan.moving.whole.size_mm, unit=True)}, length, depth and height"),
        ("Wood", woods),
        ("Surface", f"{plan.finishing.system}, {coats} coat{'s' if coats > 1 else ''}"),
        ("Weight", figures.mass(plan.moving.mass_kg)),
        *_use_rows(piece, figures),
        ("Comes", _comes(plan, figures)),
        (
            "In use",
            f"lightly {drying.light_use_h / 24.0:.0f} days after its first coat, fully after "
            f"{drying.full_use_h / 24.0:.0f}",
        ),
    ]
    return Section(
        title="What is offered",
        lead="The piece as it is drawn on the first sheet.",
        blocks=(
            Table(
                columns=(Column(title="", strong=True), Column(title="", share=1.0)),
                rows=tuple(Row(cells=cells) for cells in rows),
            ),
        ),
    )


def _use_rows(piece: Piece, figures: Figures) -> list[tuple[str, str]]:
    """Seats and load, where the brief names them."""
    brief, rows = piece.brief, []
    if brief.seats:
        rows.append(("Seats", str(brief.seats)))
    if brief.load_kg:
        rows.append(("Drawn for", f"{figures.load(brief.load_kg)} on it"))
    return rows


def _comes(plan: Plan, figures: Figures) -> str:
    """In how many pieces, and what the way in as measured lets through."""
    loads = plan.moving.apart or (plan.moving.whole,)
    told = f"in {len(loads)} pieces, put together where it stands" if len(loads) > 1 else "in one piece"
    if not plan.moving.route:
        return told
    stuck = [load for load in loads if load.way is not None and not load.way.passes]
    if not stuck:
        return f"{told}; the way in lets it through, as it was measured"
    return f"{told}; {'; '.join(f'{word(load.name)} {way_words(load, figures.length)}' for load in stuck)}"


def _how(plan: Plan, piece: Piece, figures: Figures) -> Section:
    """What the wood will do in the room it is made for."""
    months = plan.seasons.months
    dry, wet = (choose(months, key=lambda m: m.humidity_pct) for choose in (min, max))
    points = [
        f"The room it is made for: {plan.room}, with air between {dry.humidity_pct:.0f} % and "
        f"{wet.humidity_pct:.0f} % humidity through the year. In air drier or damper than that the wood may "
        "move farther than its joints let it.",
        *(_moves(season, figures) for season in _seen_to_move(plan, piece)),
        *dict.fromkeys(f"{label_of(each.message)}." for each in plan.findings if each.code == "F07"),
    ]
    blocks: list[Block] = [Bullets(points=tuple(points))]
    held = _held_by_the_wall(plan, piece)
    if held:
        blocks.append(Caution(title="At the wall", text=held))
    blocks.append(Bullets(points=("Wood moves so in any hands; the joints are cut to let it.", _JUDGED)))
    return Section(
        title="How it lives",
        lead="Solid wood is wider in damp air than in dry.",
        blocks=tuple(blocks),
        runs_on=True,
    )


def _seen_to_move(plan: Plan, piece: Piece) -> list[SeasonPart]:
    """The parts that show and move most, one of those alike."""
    told: dict[str, SeasonPart] = {}
    for season in plan.seasons.parts:
        part = piece.parts[season.part]
        if (
            part.show
            and part.kind is not PartKind.SHEET
            and season.widest_mm - season.narrowest_mm >= _SMALL_MM
        ):
            told.setdefault(season.like, season)
    return list(told.values())[:_MOST_PARTS]


def _moves(season: SeasonPart, figures: Figures) -> str:
    changes = (
        (-season.narrowest_mm, "narrower in the driest month"),
        (season.widest_mm, "wider in the dampest"),
    )
    told = (f"{figures.tenths(mm, unit=True)} {what}" for mm, what in changes if mm >= _TOLD_MM)
    wide = f"{label_of(season.part)}, {figures.length(season.width_mm)} wide when it comes"
    return f"{wide}: up to {' and '.join(told)}."


def _held_by_the_wall(plan: Plan, piece: Piece) -> str:
    """What the last step says of the wall; empty for what stands free."""
    if piece.brief.stands is Stands.WALL:
        return _HUNG
    anchored = any(line.kind is ConnectorKind.WALL_ANCHOR for line in plan.hardware)
    return _ANCHORED if anchored else ""


def _terms(plan: Plan, asked: str) -> Section:
    """The price, what is in it, and lines to sign."""
    lines = ("Payment in advance", "Delivered by", "This offer holds until")
    blank = (Column(title="", strong=True), Column(title="", share=1.0))
    signed = (
        Column(title=""),
        Column(title="For the client", share=1.0),
        Column(title="For the maker", share=1.0),
    )
    return Section(
        title="Price",
        lead=f"{asked} for the piece as described, made, delivered and set up; taxes are not in it.",
        blocks=(
            Facts(
                facts=(
                    Fact(label="Price", value=asked),
                    Fact(
                        label="Ready",
                        value=f"{plan.order.timetable.last_day} days",
                        note="after the work is begun, weekends counted",
                    ),
                ),
                columns=2,
            ),
            Table(columns=blank, rows=tuple(Row(cells=(line, "")) for line in lines), written=True),
            Together(
                blocks=(
                    Heading(text="Agreed"),
                    Table(
                        columns=signed,
                        rows=tuple(
                            Row(cells=(line, "", "")) for line in ("Name", "Date", "Signature\n\u00a0")
                        ),
                        written=True,
                    ),
                )
            ),
        ),
        runs_on=True,
    )
