"""Milling: from the finished size of each part back to the rough blank, pass by pass.

A part grows backwards: finished, plus what scraping takes, plus what the last planing takes, and so on to
the board. The ledger is written forwards, as the work is done, and ends at the finished size.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from scantling.piece.model import PartKind
from scantling.shop.milling.ledger import LedgerWriter, MillingLedger
from scantling.shop.milling.milling_passes import (
    edge_loss_mm,
    end_mm,
    finish_passes,
    first_passes,
    flush_mm,
    panel_passes,
    seam_notes,
    stock_notes,
)
from scantling.shop.operations.routing import Operation, machine_for
from scantling.shop.profile.machines import HAND_KERF_MM
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import Nominal
from scantling.shop.sizes.lamination import LayerChoice, plan_layers
from scantling.shop.sizes.nominal_choice import Fit, NominalChoice, choose_nominal, layer_stock, panel_stock
from scantling.shop.sizes.size import FinishedSize, Section, Size
from scantling.shop.sizes.strips import plan_strips

__all__ = ["mill", "mill_all"]

_SQUARE = "square; angled ends are cut after"


def mill_all(
    parts: Iterable[FinishedSize],
    shop: Shop,
    *,
    offered: tuple[Nominal, ...] | None = None,
    choice: LayerChoice = LayerChoice.FEWEST_LINES,
) -> tuple[MillingLedger, ...]:
    """The ledger of every part, in their order; arguments as of :func:`mill`."""
    return tuple(mill(part, shop, offered=offered, choice=choice) for part in parts)


def mill(
    finished: FinishedSize,
    shop: Shop,
    *,
    offered: tuple[Nominal, ...] | None = None,
    choice: LayerChoice = LayerChoice.FEWEST_LINES,
) -> MillingLedger:
    """The milling ledger of one part.

    Parameters
    ----------
    finished
        The part.
    shop
        Allowances, machines, what it buys.
    offered
        Thicknesses to choose from (those in the rack); None takes what the shop buys.
    choice
        How laminations are chosen.
    """
    match finished.kind:
        case PartKind.PANEL:
            ledger = _panel(finished, shop, offered)
        case PartKind.LAMINATION:
            ledger = _lamination(finished, shop, offered, choice)
        case PartKind.SHEET:
            ledger = _sheet(finished, shop)
        case PartKind.STICK:
            ledger = _stick(finished, shop, offered)
    return ledger if finished.leaf_mm is None else _as_leaf(ledger, finished.leaf_mm, shop)


def _as_leaf(ledger: MillingLedger, leaf_mm: float, shop: Shop) -> MillingLedger:
    """The ledger of a part that is resawn out of a thickness before it is milled."""
    first, *others = ledger.passes
    saw = shop.machines.bandsaw
    kerf_mm = saw.kerf_mm if saw else HAND_KERF_MM
    whole = replace(first.before, thickness_mm=2.0 * leaf_mm + kerf_mm)
    cut = replace(first, before=whole, after=replace(first.after, thickness_mm=whole.thickness_mm))
    resaw = replace(
        first,
        operation=Operation.RESAW,
        machine=machine_for(Operation.RESAW, whole, shop.machines),
        before=cut.after,
        note="true one face and one edge first, no more than to ride on",
    )
    note = f"two leaves of {leaf_mm:.1f} mm and a kerf of {kerf_mm:.1f} mm out of {whole.thickness_mm:.1f} mm"
    return replace(ledger, passes=(cut, resaw, *others), notes=(*ledger.notes, note))


def _stick(finished: FinishedSize, shop: Shop, offered: tuple[Nominal, ...] | None) -> MillingLedger:
    allow = shop.allowances
    extra_mm = allow.surface_mm + (allow.round_mm if finished.section is Section.ROUND else 0.0)
    milled = finished.size.less(
        length_mm=-flush_mm(finished, shop), width_mm=-extra_mm, thickness_mm=-extra_mm
    )
    stock = choose_nominal(finished, milled.thickness_mm, shop=shop, offered=offered)
    rough = Size(
        length_mm=milled.length_mm + 2.0 * end_mm(shop),
        width_mm=milled.width_mm + allow.settle_mm + edge_loss_mm(shop),
        thickness_mm=stock.blank_mm,
    )
    writer = LedgerWriter(rough, shop)
    first_passes(writer, shop, milled.thickness_mm, rests=True)
    writer.take(Operation.CROSSCUT, length_mm=2.0 * end_mm(shop), note=_SQUARE)
    finish_passes(writer, finished, shop)
    ledger = _ledger(finished, stock, milled=milled, writer=writer)
    return replace(ledger, edge_loss_mm=edge_loss_mm(shop) + allow.settle_mm)


def _panel(finished: FinishedSize, shop: Shop, offered: tuple[Nominal, ...] | None) -> MillingLedger:
    allow = shop.allowances
    plan = plan_strips(finished, shop)
    bare_mm = finished.thickness_mm + allow.surface_mm
    stock, reflatten_mm = panel_stock(finished, bare_mm, shop=shop, offered=offered)
    milled = Size(
        length_mm=finished.length_mm + flush_mm(finished, shop) + 2.0 * allow.panel_trim_end_mm,
        width_mm=max(plan.widths_mm),
        thickness_mm=bare_mm + reflatten_mm,
    )
    loss_mm = edge_loss_mm(shop) + allow.settle_mm + 2.0 * allow.seam_edge_mm
    rough = replace(milled, width_mm=milled.width_mm + loss_mm, thickness_mm=stock.blank_mm)
    writer = LedgerWriter(rough, shop)
    first_passes(writer, shop, milled.thickness_mm, rests=True)
    writer.take(Operation.SEAM_EDGES, width_mm=2.0 * allow.seam_edge_mm, note="on the day of gluing")
    glued = replace(milled, width_mm=plan.total_mm)
    panel_passes(writer, plan, glued, shop=shop, reflatten_mm=reflatten_mm, width_mm=finished.width_mm)
    finish_passes(writer, finished, shop)
    ledger = _ledger(finished, stock, milled=milled, writer=writer)
    return replace(
        ledger,
        pieces=plan.count,
        glued=glued,
        edge_loss_mm=loss_mm,
        strips=plan,
        notes=(*ledger.notes, *seam_notes(plan)),
    )


def _lamination(
    finished: FinishedSize, shop: Shop, offered: tuple[Nominal, ...] | None, choice: LayerChoice
) -> MillingLedger:
    allow = shop.allowances
    plan = plan_layers(finished, shop, offered=offered, choice=choice)
    stock = layer_stock(plan, finished, shop=shop, offered=offered)
    layers = plan.chosen.layers if plan.chosen else (finished.layer_count or 2)
    milled = Size(
        length_mm=finished.length_mm + flush_mm(finished, shop) + 2.0 * end_mm(shop),
        width_mm=plan.layer_width_mm,
        thickness_mm=plan.needed_mm / layers,
    )
    rough = replace(milled, width_mm=milled.width_mm + edge_loss_mm(shop), thickness_mm=stock.blank_mm)
    writer = LedgerWriter(rough, shop)
    first_passes(writer, shop, milled.thickness_mm, rests=False)
    glued = replace(milled, thickness_mm=plan.needed_mm)
    writer.glue(Operation.GLUE_LAYERS, glued, note=plan.reason)
    writer.take(Operation.SQUARE_UP, width_mm=allow.lamination_slip_mm, note="scrape off the glue first")
    writer.take(Operation.REFLATTEN, thickness_mm=allow.lamination_reflatten_mm)
    writer.take(Operation.CROSSCUT, length_mm=2.0 * end_mm(shop), note=_SQUARE)
    finish_passes(writer, finished, shop)
    ledger = _ledger(finished, stock, milled=milled, writer=writer)
    return replace(ledger, pieces=layers, glued=glued, edge_loss_mm=edge_loss_mm(shop), lamination=plan)


def _sheet(finished: FinishedSize, shop: Shop) -> MillingLedger:
    extra_mm = shop.allowances.sheet_mm
    writer = LedgerWriter(finished.size.less(length_mm=-extra_mm, width_mm=-extra_mm), shop)
    writer.take(Operation.CUT_SHEET)
    writer.take(Operation.SHEET_TO_LINE, length_mm=extra_mm, width_mm=extra_mm)
    thickness_mm = finished.thickness_mm
    stock = NominalChoice(nominal=None, fit=Fit.CLEAN, needed_mm=thickness_mm, offered_mm=thickness_mm)
    return _ledger(finished, stock, milled=finished.size, writer=writer)


def _ledger(
    finished: FinishedSize, stock: NominalChoice, *, milled: Size, writer: LedgerWriter
) -> MillingLedger:
    """The ledger of a part made of one piece."""
    return MillingLedger(
        part=finished.name,
        like=finished.like,
        species=finished.species,
        pieces=1,
        nominal=stock.nominal.name if stock.nominal else "",
        quarters=stock.nominal.quarters if stock.nominal else None,
        fit=stock.fit,
        needed_mm=stock.needed_mm,
        offered_mm=stock.offered_mm,
        rough=writer.passes[0].before,
        milled=milled,
        glued=None,
        finished=finished.size,
        passes=writer.passes,
        notes=stock_notes(stock),
    )
