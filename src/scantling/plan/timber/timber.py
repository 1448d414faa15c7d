"""Timber: what the piece asks of the boards, and which part comes from which board, or what to buy."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial

from scantling.errors import Finding
from scantling.piece.model import Piece
from scantling.plan.cache import Cache
from scantling.plan.job import Job
from scantling.plan.made.bench import BenchState, bench_findings, bench_state
from scantling.plan.timber.buying import WoodToAskFor, wood_to_ask_for
from scantling.plan.timber.ganging import gang_up, lengths_of_grain
from scantling.plan.timber.laying_out import (
    Question,
    answer_of,
    as_shown,
    ask_boards,
    kept_findings,
    lay_rest,
)
from scantling.plan.timber.matching import matching_findings, wishes_of
from scantling.plan.timber.needs import SheetNeed, aim_of, cutting_of, needs_of, request_of
from scantling.plan.timber.sheets import SheetPlan, plan_sheets
from scantling.plan.timber.sheets_to_buy import BoughtSheets, plan_sheets_to_buy
from scantling.plan.timber.shortfall import Shortfall, grade_of, plan_shortfalls
from scantling.plan.timber.stockways import Chosen, Limits, fixed_stock, other_ways
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.gang import Gang
from scantling.shop.sizes.size import FinishedSize
from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.folding import folded
from scantling.stock.asked.wish import Wish
from scantling.stock.buying.measure import DEFAULT_YIELD, Purchase, Yield, boards_to_buy
from scantling.stock.buying.yard import Needs
from scantling.stock.checking.findings import findings_after, findings_before
from scantling.stock.layouts.layout import BoardLayout, Layout
from scantling.stock.racks.benchnotes import notes_about
from scantling.stock.racks.rack import Rack
from scantling.stock.solving.solve import LayoutAnswer, LayoutRequest
from scantling.wood.species import find_species

__all__ = [
    "ROUNDS",
    "SEED",
    "Timber",
    "named_in_full",
    "plan_timber",
    "question_of",
    "with_shortfalls",
    "yard_needs",
]

ROUNDS = 12
"""Layouts tried for a plan; a longer search is asked for on its own."""
SEED = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Timber:
    """Where the wood comes from.

    Parameters
    ----------
    blanks, panels
        What the piece asks for, with the shop's allowances.
    layout
        Parts on boards, where there is a rack.
    to_buy
        What is to be bought, by the shop's average yield: all of it without a rack, what is missing with one.
    ask_for
        What to ask the yard for, of each of those: the amount to buy by.
    sheets
        Parts from sheet material.
    net_m3
        Volume of the rough blanks. [m3]
    wishes
        Blanks that belong together.
    lacking, lacking_panels
        What the boards of the rack leave without a place; both empty without a rack.
    shortfalls
        How often an amount is not enough, by wood and thickness, of what is bought; not before
        :func:`with_shortfalls`.
    bench
        What is cut already and decided at the bench; None where there are no notes.
    on_sheets
        Parts laid out on the sheets of the rack; None where it has none.
    sheets_to_buy
        Sheets for the parts the rack has none for; None where it lacks none.
    gangs
        Lengths that short parts are milled in together; those of parts already cut come first.
    """

    blanks: tuple[Blank, ...]
    panels: tuple[FreeWidthPanel, ...]
    layout: Layout | None
    to_buy: tuple[Purchase, ...]
    ask_for: tuple[WoodToAskFor, ...] = ()
    sheets: tuple[SheetNeed, ...]
    net_m3: float
    wishes: tuple[Wish, ...] = ()
    bench: BenchState | None = None
    lacking: tuple[Blank, ...] = ()
    lacking_panels: tuple[FreeWidthPanel, ...] = ()
    shortfalls: tuple[Shortfall, ...] = ()
    gangs: tuple[Gang, ...] = ()
    on_sheets: SheetPlan | None = None
    sheets_to_buy: BoughtSheets | None = None
    findings: tuple[Finding, ...] = ()

    @property
    def sheets_cut(self) -> tuple[BoardLayout, ...]:
        """Sheets that are cut: those of the rack, then those to buy."""
        there = self.on_sheets.layout.boards if self.on_sheets else ()
        return (*there, *(self.sheets_to_buy.boards if self.sheets_to_buy else ()))


def plan_timber(
    job: Job,
    finished: tuple[FinishedSize, ...],
    ledgers: tuple[MillingLedger, ...],
    *,
    cache: Cache,
    told: Callable[[LayoutAnswer], None] | None = None,
) -> Timber:
    """Blanks, and their boards or what to buy.

    Parameters
    ----------
    job
        The piece with its wishes, the shop's saws and yield, the boards at hand.
    finished, ledgers
        Parts and their milling, in the same order.
    cache
        Keeps layouts.
    told
        Is told of every better layout, and may interrupt the search.
    """
    blanks, panels, sheets = needs_of(job.piece, finished, ledgers)
    asked = Timber(
        blanks=blanks,
        panels=panels,
        layout=None,
        to_buy=(),
        sheets=sheets,
        net_m3=sum(x.rough_volume_mm3 for x in ledgers if x.quarters or x.nominal) * 1e-9,
        wishes=wishes_of(job.piece, blanks, panels),
    )
    on_sheets = plan_sheets(sheets, job.rack, job.shop, cache=cache)
    to_buy = plan_sheets_to_buy(
        on_sheets.without if on_sheets else sheets,
        job.shop,
        taken=[s.name for s in job.rack.sheets] if job.rack else (),
        cache=cache,
    )
    told_of = {f.where for f in on_sheets.findings} if on_sheets else set()
    asked = replace(
        asked,
        on_sheets=on_sheets,
        sheets_to_buy=to_buy,
        findings=(
            *(on_sheets.findings if on_sheets else ()),
            *(f for f in (to_buy.findings if to_buy else ()) if f.where not in told_of),
        ),
    )
    if job.rack is None or not job.rack.boards:
        return _to_ask_for(_in_lengths(asked, job, ledgers), job)
    return _laid_out(asked, job, named_in_full(job.rack), milled=(finished, ledgers), cache=cache, told=told)


def yard_needs(timber: Timber, shop: Shop, *, piece: Piece | None = None) -> Needs:
    """What boards are judged by at the yard: needs and wishes, and how this shop cuts and weighs.

    With its piece, blanks may come from thicker stock too, but for parts whose stock the piece fixes.
    """
    fixed = fixed_stock(piece) if piece is not None else frozenset[str]()
    return Needs(
        blanks=timber.blanks,
        panels=timber.panels,
        cutting=cutting_of(shop),
        wishes=timber.wishes,
        aim=aim_of(shop),
        ways=None if piece is None else partial(other_ways, shop=shop, fixed=fixed),
    )


def _in_lengths(asked: Timber, job: Job, ledgers: tuple[MillingLedger, ...]) -> Timber:
    """The needs with short parts joined to lengths."""
    bare = LayoutRequest(boards=(), blanks=asked.blanks, wishes=asked.wishes, cutting=cutting_of(job.shop))
    found, gangs = gang_up(bare, piece=job.piece, ledgers=ledgers, shop=job.shop)
    return replace(asked, blanks=found.blanks, wishes=found.wishes, gangs=gangs)


def with_shortfalls(timber: Timber, job: Job, cache: Cache) -> Timber:
    """The timber with how often an amount is not enough, where it is bought; that takes the longest.

    Parameters
    ----------
    timber
        As :func:`plan_timber` leaves it.
    job
        What it was planned for.
    cache
        Keeps the curves.
    """
    cutting = cutting_of(job.shop)
    if job.rack is not None and job.rack.boards:
        blanks, panels = timber.lacking, timber.lacking_panels
    else:
        blanks, panels = _with_musts(timber.blanks, timber.wishes, cutting), timber.panels
    found = plan_shortfalls(
        timber.to_buy,
        blanks,
        panels,
        grade=grade_of(job.shop.yard.boards),
        cutting=cutting,
        cache=cache,
    )
    return replace(timber, shortfalls=found, ask_for=wood_to_ask_for(timber.to_buy, found))


def _to_ask_for(asked: Timber, job: Job) -> Timber:
    """What to buy."""
    cutting = cutting_of(job.shop)
    whole = _with_musts(asked.blanks, asked.wishes, cutting)
    to_buy = boards_to_buy(whole, asked.panels, expected=_expected(job.shop))
    return replace(
        asked,
        to_buy=to_buy,
        ask_for=wood_to_ask_for(to_buy),
        findings=(
            *asked.findings,
            *matching_findings(job.piece, asked.wishes, blanks=asked.blanks, cutting=cutting, layout=None),
        ),
    )


def _laid_out(
    asked: Timber,
    job: Job,
    rack: Rack,
    *,
    milled: tuple[tuple[FinishedSize, ...], tuple[MillingLedger, ...]],
    cache: Cache,
    told: Callable[[LayoutAnswer], None] | None,
) -> Timber:
    """What is left to cut, on the boards that are left."""
    finished, ledgers = milled
    question = question_of(job, rack, finished, ledgers)
    rounds, workers = (ROUNDS, 1) if job.layout_s is None else (None, job.layout_workers)
    limits = Limits(rounds=rounds, seconds=job.layout_s, seed=SEED, workers=workers)
    chosen = lay_rest(question, limits, cache=cache, told=told)
    return _answered(asked, question, chosen, job=job, ledgers=ledgers)


def question_of(
    job: Job, rack: Rack, finished: tuple[FinishedSize, ...], ledgers: tuple[MillingLedger, ...]
) -> Question:
    """What is left to lay out on the boards of a rack, with the notes beside it.

    Parameters
    ----------
    job
        The piece, and the shop.
    rack
        The boards, each wood by its full name.
    finished, ledgers
        Parts and their milling, in the same order.
    """
    request = request_of(job, rack, finished, ledgers)
    notes = notes_about(rack.notes, rack.boards)
    return ask_boards(request, notes, piece=job.piece, ledgers=ledgers, shop=job.shop)


def _answered(
    asked: Timber, question: Question, chosen: Chosen, *, job: Job, ledgers: tuple[MillingLedger, ...]
) -> Timber:
    """What is asked for with its answer."""
    begun = question.begun
    request, layout = answer_of(question, chosen)
    gangs = (*question.gangs, *lengths_of_grain(layout, question.gangs, request.cutting))
    lacking = _missing(request.panels, layout)
    left = {b.name for b in begun.request.blanks}
    notes = question.notes
    to_buy = boards_to_buy(layout.unplaced, lacking, expected=_expected(job.shop))
    return replace(
        asked,
        blanks=(*(b for b in asked.blanks if b.name not in left), *request.blanks),
        layout=as_shown(question, layout),
        lacking=layout.unplaced,
        lacking_panels=lacking,
        to_buy=to_buy,
        ask_for=wood_to_ask_for(to_buy),
        wishes=request.wishes,
        bench=bench_state(notes, begun, kept=question.kept),
        gangs=(*_in_lengths(asked, job, ledgers).gangs, *gangs) if begun.boards else gangs,
        findings=(
            *asked.findings,
            *bench_findings(begun, notes),
            *kept_findings(question.kept, notes),
            *_what_lacks(request, layout, job.piece),
        ),
    )


def _what_lacks(request: LayoutRequest, layout: Layout, piece: Piece) -> tuple[Finding, ...]:
    """What can be said before the search, then what the layout leaves wanting, each thing once.

    Blanks that lack a place only because a wish of theirs can never be granted are told by that wish.
    """
    cutting, wishes = request.cutting, request.wishes
    before = findings_before(
        request.boards,
        _with_musts(request.blanks, wishes, cutting),
        request.panels,
        cutting=cutting,
        wishes=wishes,
    ).findings
    after = findings_after(layout, panels=request.panels, boards=request.boards, cutting=cutting).findings
    matched = matching_findings(piece, wishes, blanks=request.blanks, cutting=cutting, layout=layout)
    named = {found.where for found in before}
    never = named | {found.where for found in matched if found.code == "T08"}
    named |= {m for w in wishes if w.worth is None and w.name in never for m in w.members}
    return (
        *before,
        *(found for found in after if found.where not in named),
        *(found for found in matched if found.where not in named),
    )


def _with_musts(blanks: tuple[Blank, ...], wishes: tuple[Wish, ...], cutting: Cutting) -> tuple[Blank, ...]:
    """The blanks with those folded into one that must be cut as one."""
    return folded(blanks, (w for w in wishes if w.worth is None), cutting)


def named_in_full(rack: Rack) -> Rack:
    """The rack with each wood by its full name, however it was written."""
    return replace(rack, boards=tuple(replace(b, species=find_species(b.species).name) for b in rack.boards))


def _expected(shop: Shop) -> Yield:
    """The shop's own yield, if it gives one."""
    if "yield_pct" not in shop.rates.model_fields_set:
        return DEFAULT_YIELD
    return Yield(yield_pct=shop.rates.yield_pct, reason=f"{shop.rates.yield_pct:g} % by the shop profile")


def _missing(panels: tuple[FreeWidthPanel, ...], layout: Layout) -> tuple[FreeWidthPanel, ...]:
    """What panels still lack, as narrower panels."""
    lacking = {strips.panel: strips.missing_mm for strips in layout.strips if strips.missing_mm > 1e-6}
    return tuple(
        replace(p, total_width_mm=lacking[p.name], least_strip_mm=min(p.least_strip_mm, lacking[p.name]))
        for p in panels
        if p.name in lacking
    )
