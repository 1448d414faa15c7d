"""Findings: parts that no stock on offer is thick enough for, or a little thinner stock nearly is."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from scantling.errors import Finding, Severity
from scantling.piece.model import PartKind
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import Nominal
from scantling.shop.sizes.lamination import plan_layers
from scantling.shop.sizes.nominal_choice import Fit, thickness_loss_mm
from scantling.shop.sizes.size import FinishedSize

__all__ = ["STOCK_TOO_THIN", "stock_findings"]

STOCK_TOO_THIN = "F68"
"""Stock too thin for the part."""
NEARLY_MM = 1.5
"""A part that wants thicker stock by less than this is told how thin it would have to be (1/16 in, common
practice). [mm]"""
_SOURCE = "Thicknesses of the yard and allowances of the shop profile."


def stock_findings(
    parts: Iterable[FinishedSize],
    ledgers: Iterable[MillingLedger],
    shop: Shop,
    *,
    offered: tuple[Nominal, ...] | None = None,
) -> tuple[Finding, ...]:
    """Parts with no stock, or only just enough, or that a hair too much makes want thicker stock (F68).

    Parameters
    ----------
    parts, ledgers
        The parts and their ledgers, in the same order.
    shop
        Allowances and what it buys.
    offered
        Thicknesses there are; None takes what the shop buys.
    """
    found = (
        _nearly(part, ledger, shop, offered)
        if ledger.fit is Fit.CLEAN
        else _finding(part, ledger, shop, offered)
        for part, ledger in zip(parts, ledgers, strict=True)
    )
    return tuple(item for item in found if item is not None)


def _nearly(
    part: FinishedSize, ledger: MillingLedger, shop: Shop, offered: tuple[Nominal, ...] | None
) -> Finding | None:
    """The next thinner stock, where it lacks less than :data:`NEARLY_MM`."""
    if part.quarters is not None or part.leaf_mm is not None or part.kind is PartKind.LAMINATION:
        return None
    stock = shop.offered() if offered is None else offered
    thinner = [n.bought_mm(shop.yard.bought_as) for n in stock]
    below = [(mm, n.name) for mm, n in zip(thinner, stock, strict=True) if mm < ledger.needed_mm - 1e-6]
    if part.kind is PartKind.SHEET or not below or ledger.needed_mm - max(below)[0] > NEARLY_MM + 1e-6:
        return None
    bought_mm, name = max(below)
    short_mm = ledger.needed_mm - bought_mm
    most_mm = math.floor((part.thickness_mm - short_mm) * 10.0 + 1e-6) / 10.0
    return Finding(
        code=STOCK_TOO_THIN,
        severity=Severity.NOTE,
        where=part.name,
        message=f"{ledger.needed_mm:.1f} mm of rough stock are wanted for {part.thickness_mm:.1f} mm "
        f"finished; {name} is {bought_mm:.1f} mm, {short_mm:.1f} mm short, so {ledger.nominal} is asked for.",
        advice=f"Make it at most {most_mm:.1f} mm thick and it mills out of {name}.",
        numbers={"needed_mm": ledger.needed_mm, "offered_mm": bought_mm, "most_mm": most_mm},
        source=_SOURCE,
    )


def _finding(
    part: FinishedSize, ledger: MillingLedger, shop: Shop, offered: tuple[Nominal, ...] | None
) -> Finding:
    tight = ledger.fit is Fit.TIGHT
    extra_mm = ledger.milled.thickness_mm - part.thickness_mm + thickness_loss_mm(shop, rests=True)
    most_mm = ledger.offered_mm - extra_mm
    asked = f"{ledger.needed_mm:.1f} mm of rough stock are wanted for {part.thickness_mm:.1f} mm finished"
    found = f"{ledger.nominal} is {ledger.offered_mm:.1f} mm" if tight else _none(ledger)
    return Finding(
        code=STOCK_TOO_THIN,
        severity=Severity.MEDIUM if tight else Severity.HIGH,
        where=part.name,
        message=f"{asked}; {found}.",
        advice=_advice(part, shop, offered=offered, most_mm=most_mm, tight=tight),
        numbers={
            "needed_mm": ledger.needed_mm,
            "offered_mm": ledger.offered_mm,
            "most_mm": max(0.0, most_mm),
        },
        source=_SOURCE,
    )


def _none(ledger: MillingLedger) -> str:
    if ledger.offered_mm <= 0.0:
        return "nothing of the thickness asked for is on offer"
    return f"the thickest on offer is {ledger.offered_mm:.1f} mm"


def _advice(
    part: FinishedSize,
    shop: Shop,
    *,
    offered: tuple[Nominal, ...] | None,
    most_mm: float,
    tight: bool,
) -> str:
    ways = ["Pick straight, flat boards and skim them"] if tight else []
    free = replace(part, layer_count=None, layer_quarters=())
    layers = plan_layers(free, shop, offered=offered).chosen if part.kind is not PartKind.PANEL else None
    if layers is not None:
        ways.append(f"laminate it from {layers.layers} layers of {layers.nominal}")
    if most_mm > 0.0:
        ways.append(f"make it at most {most_mm:.1f} mm thick")
    if not tight:
        ways.append("buy thicker stock")
    text = ", or ".join(ways)
    return text[0].upper() + text[1:] + "."
