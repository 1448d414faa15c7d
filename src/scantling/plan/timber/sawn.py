"""The parts as their boards give them: planed down from thicker stock, or resawn."""

from __future__ import annotations

from dataclasses import replace

from scantling.piece.matching import WishKind
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.profile.machines import HAND_KERF_MM
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import nominals_in
from scantling.shop.sizes.size import FinishedSize
from scantling.stock.asked.folding import parted_by
from scantling.stock.layouts.layout import Layout

__all__ = ["as_sawn"]


def as_sawn(
    parts: tuple[FinishedSize, ...], wanted: tuple[MillingLedger, ...], layout: Layout | None, *, shop: Shop
) -> tuple[FinishedSize, ...]:
    """The parts with the stock their boards really have, where it is not the usual one.

    A part of several pieces takes the thickest: all its strips or layers are planed to one thickness.

    Parameters
    ----------
    parts, wanted
        Finished sizes, and their milling from the usual stock, in the same order.
    layout
        Parts on boards; None without a rack.
    shop
        Its saw for resawing.
    """
    saw = shop.machines.bandsaw
    kerf_mm = saw.kerf_mm if saw else HAND_KERF_MM
    cut = [(laid.board, placed.blank) for laid in (layout.boards if layout else ()) for placed in laid.placed]
    stock: dict[str, int] = {}
    leaves: dict[str, float] = {}
    for board, blank in cut:
        for part in {member.part for member in blank.members or (blank,)}:
            stock[part] = max(stock.get(part, 0), int(board.nominal_quarters))
            if parted_by(blank) is WishKind.RESAWN:
                leaves[part] = (board.rough_thickness_mm - kerf_mm) / 2.0
    return tuple(
        _from_stock(part, ledger, stock.get(part.name), leaves.get(part.name))
        for part, ledger in zip(parts, wanted, strict=True)
    )


def _from_stock(
    part: FinishedSize, ledger: MillingLedger, quarters: int | None, leaf_mm: float | None
) -> FinishedSize:
    """A part cut from another stock than the usual."""
    if quarters is None or not nominals_in([quarters]) or (quarters == ledger.quarters and leaf_mm is None):
        return part
    if ledger.lamination is not None:
        return replace(part, layer_quarters=(quarters,), layer_count=ledger.pieces, leaf_mm=leaf_mm)
    return replace(part, quarters=quarters, leaf_mm=leaf_mm)
