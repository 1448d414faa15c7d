"""What the rules say of the moisture of the boards that are cut, for this shop and this room."""

from __future__ import annotations

from scantling.checks.dryness import MeasuredBoard, shop_against_home, too_wet, unequal
from scantling.errors import Finding
from scantling.plan.timber.drying import Drying, measured
from scantling.plan.year.seasons import shop_rest_pct
from scantling.shop.profile.profile import Shop
from scantling.stock.layouts.layout import Layout
from scantling.wood.moisture import MoistureRange

__all__ = ["dryness_findings", "glued_from"]


def dryness_findings(
    layout: Layout | None, moisture: MoistureRange, shop: Shop, *, drying: Drying | None = None
) -> tuple[Finding, ...]:
    """F34 and F35 for boards and wood whose moisture was measured, and F36 for the shop.

    Parameters
    ----------
    layout
        Parts on boards; None where there is no rack.
    moisture
        Build day, driest and wettest of the room. [%]
    shop
        Its air, and the moisture measured in the wood the day it is milled, where it was.
    drying
        How long boards that are too wet have to wait.
    """
    found = shop_against_home(shop_rest_pct(shop), moisture)
    if shop.climate.wood_pct is not None:
        found += too_wet([MeasuredBoard(name="the wood as milled", mc_pct=shop.climate.wood_pct)], moisture)
    if layout is not None:
        cut = [MeasuredBoard(name=board.name, mc_pct=mc) for board, mc in measured(layout)]
        found += too_wet(cut, moisture, wait="" if drying is None else drying.wait)
        found += unequal(glued_from(layout))
    return tuple(found)


def glued_from(layout: Layout) -> dict[str, list[MeasuredBoard]]:
    """Boards with a measured moisture that go into each part of several strips or layers."""
    boards: dict[str, dict[str, float]] = {}
    counts: dict[str, int] = {}
    for one in layout.boards:
        blanks = (b for placed in one.placed for b in (placed.blank.members or (placed.blank,)))
        for part in (blank.part for blank in blanks):
            counts[part] = counts.get(part, 0) + 1
            if one.board.moisture_pct is not None:
                boards.setdefault(part, {})[one.board.name] = one.board.moisture_pct
    return {
        part: [MeasuredBoard(name=name, mc_pct=mc) for name, mc in found.items()]
        for part, found in boards.items()
        if counts[part] > 1
    }
