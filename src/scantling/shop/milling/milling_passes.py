"""The passes common to every part: first milling of a rough blank, and the last before it is finished."""

from __future__ import annotations

from dataclasses import replace

from scantling.shop.milling.ledger import LedgerWriter, Stage
from scantling.shop.operations.routing import Operation
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import BoughtAs
from scantling.shop.sizes.nominal_choice import Fit, NominalChoice, thickness_loss_mm
from scantling.shop.sizes.size import EndCut, FinishedSize, Section, Size
from scantling.shop.sizes.strips import SEAM_CLEAR_MM, StripPlan

__all__ = [
    "edge_loss_mm",
    "end_mm",
    "finish_passes",
    "first_passes",
    "flush_mm",
    "panel_passes",
    "seam_notes",
    "stock_notes",
]

_LAST_SHARE = 1.0 / 3.0
"""Of the flattening of a panel, what is left for after its last joints (common practice). [1]"""
_TURN = "turn it over between cuts, so that both faces lose alike"


def end_mm(shop: Shop) -> float:
    """Left on at each end of a rough blank: the trim, and the planer's snipe. [mm]"""
    planer = shop.machines.planer
    return shop.allowances.end_trim_mm + (planer.snipe_mm if planer else 0.0)


def edge_loss_mm(shop: Shop) -> float:
    """Off the width of a blank when it is jointed and ripped. [mm]"""
    return shop.allowances.edge_mm + shop.allowances.rip_clean_mm


def flush_mm(finished: FinishedSize, shop: Shop) -> float:
    """Left on both ends together of a part cut flush after assembly. [mm]"""
    return 2.0 * shop.allowances.flush_cut_mm if finished.end_cut is EndCut.FLUSH_AFTER else 0.0


def first_passes(writer: LedgerWriter, shop: Shop, target_mm: float, *, rests: bool) -> None:
    """From the rough blank to a piece of its milled width and thickness.

    The first face takes its allowance (or half of what there is, if that is less), planing the rest.

    Parameters
    ----------
    writer
        Stands at the rough blank.
    target_mm
        Milled thickness. [mm]
    rests
        Whether it is left over size, rested, and planed again.
    """
    allow = shop.allowances
    rough = shop.yard.bought_as is BoughtAs.ROUGH
    budget_mm = writer.size.thickness_mm - target_mm
    tight = rests and budget_mm < thickness_loss_mm(shop, rests=True) - 1e-6
    settle_mm = allow.settle_mm if rests and not tight else 0.0
    face_mm = max(0.0, min(allow.face_mm if rough else allow.skim_mm, (budget_mm - settle_mm) / 2.0))
    writer.take(Operation.CROSSCUT_ROUGH)
    writer.take(Operation.FACE, thickness_mm=face_mm)
    writer.take(Operation.EDGE, width_mm=allow.edge_mm)
    rest_mm = budget_mm - settle_mm - face_mm
    writer.take(Operation.PLANE, thickness_mm=rest_mm, note=_TURN if rest_mm > 1.5 * face_mm else "")
    writer.take(Operation.RIP, width_mm=allow.rip_clean_mm, note="the kerf is reckoned beside the blank")
    if rests:
        writer.take(Operation.REST, note="one to seven days on stickers (common practice)")
        writer.take(Operation.SETTLE, width_mm=allow.settle_mm, thickness_mm=settle_mm)


def panel_passes(
    writer: LedgerWriter, plan: StripPlan, glued: Size, *, shop: Shop, reflatten_mm: float, width_mm: float
) -> None:
    """From strips to a panel of finished size but for surfacing.

    Sub-panels that go through the planer are flattened there; only the last joints are left for hand planes.

    Parameters
    ----------
    writer
        Stands at a strip ready to glue.
    plan
        The strips.
    glued
        Size of the whole panel as glued. [mm]
    reflatten_mm
        Left on for flattening. [mm]
    width_mm
        Finished width; all that strips as the boards gave them hold beyond it is trimmed. [mm]
    """
    allow = shop.allowances
    last_mm = reflatten_mm
    if plan.last_joints:
        widest_mm = max(sum(plan.widths_mm[i - 1] for i in group) for group in plan.sub_panels)
        sub = replace(glued, width_mm=widest_mm)
        writer.glue(Operation.GLUE_SUB_PANELS, sub, stage=Stage.SUB_PANEL, note=plan.reason)
        last_mm = reflatten_mm * _LAST_SHARE
        writer.take(Operation.FLATTEN_SUB_PANELS, thickness_mm=reflatten_mm - last_mm)
        glued = replace(glued, thickness_mm=writer.size.thickness_mm)
    if plan.count > 1:
        writer.glue(Operation.GLUE_STRIPS, glued, note="" if plan.last_joints else plan.reason)
    writer.take(Operation.REFLATTEN, thickness_mm=last_mm)
    writer.take(Operation.TRIM_WIDTH, width_mm=writer.size.width_mm - width_mm - allow.surface_mm)
    writer.take(Operation.TRIM_LENGTH, length_mm=2.0 * allow.panel_trim_end_mm)


def finish_passes(writer: LedgerWriter, finished: FinishedSize, shop: Shop) -> None:
    """From the milled part to the finished one."""
    allow = shop.allowances
    if finished.section is Section.ROUND:
        writer.take(Operation.ROUND, width_mm=allow.round_mm, thickness_mm=allow.round_mm)
    writer.take(Operation.SURFACE, width_mm=allow.surface_mm, thickness_mm=allow.surface_mm)
    extra_mm = flush_mm(finished, shop)
    if extra_mm > 0.0:
        writer.take(Operation.FLUSH_CUT, length_mm=extra_mm)


def stock_notes(stock: NominalChoice) -> tuple[str, ...]:
    """What there is to say about the stock chosen."""
    if stock.fit is Fit.TIGHT and stock.nominal is not None:
        return (
            f"{stock.nominal.name} is {stock.offered_mm:.1f} mm, {stock.needed_mm:.1f} mm is wanted: "
            "pick straight, flat boards and skim them",
        )
    if stock.passes > 1:
        return (f"thick enough to resaw into {stock.passes}",)
    return ()


def seam_notes(plan: StripPlan) -> tuple[str, ...]:
    """Says so when a seam could not be kept clear."""
    if plan.seam_clearance_mm >= SEAM_CLEAR_MM or plan.count == 1:
        return ()
    return (
        f"a seam comes within {plan.seam_clearance_mm:.0f} mm of an edge or a fastener "
        f"(at least {SEAM_CLEAR_MM:.0f} mm is better)",
    )
