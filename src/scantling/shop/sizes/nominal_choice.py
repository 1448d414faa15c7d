"""Which nominal stock a part is milled from, and what to do when none is thick enough."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import BoughtAs, Nominal
from scantling.shop.sizes.lamination import LaminationPlan
from scantling.shop.sizes.size import FinishedSize

__all__ = [
    "LEAST_SKIM_MM",
    "Fit",
    "NominalChoice",
    "choose_nominal",
    "layer_stock",
    "panel_stock",
    "thickness_loss_mm",
]

LEAST_SKIM_MM = 2.0
"""Least that flattens a straight board on both faces (common practice). [mm]"""

LEAST_REFLATTEN_MM = 0.5
"""Least left on a panel for flattening after glue-up, with strips kept flush (common practice). [mm]"""


class Fit(StrEnum):
    """How the stock suits the part."""

    CLEAN = "mills with the allowance"
    TIGHT = "only from straight, flat boards"
    NONE = "too thin"


@dataclass(frozen=True, slots=True, kw_only=True)
class NominalChoice:
    """Stock chosen for one part.

    Parameters
    ----------
    nominal
        The stock; None where nothing on offer serves.
    fit
        How it suits.
    needed_mm
        Rough thickness the part asks for. [mm]
    offered_mm
        Thickness of the stock as bought; of the thickest on offer where none serves. [mm]
    passes
        How many of the part could be sawn from the thickness by resawing.
    """

    nominal: Nominal | None
    fit: Fit
    needed_mm: float
    offered_mm: float
    passes: int = 1

    @property
    def blank_mm(self) -> float:
        """Thickness of the blank: of the stock, or what is wanted where no stock serves. [mm]"""
        return self.offered_mm if self.nominal is not None else self.needed_mm


def thickness_loss_mm(shop: Shop, *, rests: bool) -> float:
    """What first milling takes off the thickness, with what resting and planing again take. [mm]

    Parameters
    ----------
    shop
        Its allowances, and whether it buys rough.
    rests
        Whether the part is milled twice with a rest between.
    """
    allow = shop.allowances
    first = allow.face_mm + allow.plane_mm if shop.yard.bought_as is BoughtAs.ROUGH else 2.0 * allow.skim_mm
    return first + (allow.settle_mm if rests else 0.0)


def choose_nominal(
    finished: FinishedSize,
    milled_mm: float,
    *,
    shop: Shop,
    offered: tuple[Nominal, ...] | None = None,
    spare_mm: float = 0.0,
) -> NominalChoice:
    """The thinnest stock that mills to a thickness with the shop's allowance.

    Where none does, the thickest that still leaves :data:`LEAST_SKIM_MM` is taken and called tight; so too,
    for what is flattened again after glue-up (``spare_mm``), where the one that does is thicker than that by
    more than the shop planes down (``allowances.thicker``): a top of 20 mm comes out of 4/4 rather than out
    of 8/4 where there is nothing between.

    Parameters
    ----------
    finished
        The part; ``quarters`` fixes the stock.
    milled_mm
        Thickness to mill to, before surfacing or gluing. [mm]
    shop
        Allowances and what it buys.
    offered
        Thicknesses to choose from; None takes what the shop buys.
    spare_mm
        Part of ``milled_mm`` that can be done without where stock is tight. [mm]
    """
    asked = () if finished.quarters is None else (finished.quarters,)
    stock = shop.offered(asked=asked) if offered is None else offered
    if finished.quarters is not None:
        stock = tuple(n for n in stock if n.quarters == finished.quarters)
    needed_mm = milled_mm + thickness_loss_mm(shop, rests=True)
    if finished.leaf_mm is not None and stock:
        leaf_mm = finished.leaf_mm
        return NominalChoice(nominal=stock[0], fit=Fit.CLEAN, needed_mm=needed_mm, offered_mm=leaf_mm)
    bought_as = shop.yard.bought_as
    by_thickness = sorted(stock, key=lambda n: n.rough_mm)
    thinner = [n for n in by_thickness if n.bought_mm(bought_as) < needed_mm - 1e-6]
    thickest = thinner[-1] if thinner else None
    offered_mm = thickest.bought_mm(bought_as) if thickest else 0.0
    least = LEAST_SKIM_MM if bought_as is BoughtAs.ROUGH else shop.allowances.skim_mm
    tight = thickest is not None and offered_mm - milled_mm + spare_mm >= least - 1e-6
    if len(thinner) < len(by_thickness):
        clean = by_thickness[len(thinner)]
        bought_mm = clean.bought_mm(bought_as)
        near = spare_mm <= 0.0 or bought_mm - offered_mm <= shop.allowances.thicker_mm + 1e-6
        if near or not tight:
            return NominalChoice(
                nominal=clean,
                fit=Fit.CLEAN,
                needed_mm=needed_mm,
                offered_mm=bought_mm,
                passes=_resaws(bought_mm, needed_mm, finished.width_mm, shop),
            )
    if tight:
        return NominalChoice(nominal=thickest, fit=Fit.TIGHT, needed_mm=needed_mm, offered_mm=offered_mm)
    return NominalChoice(nominal=None, fit=Fit.NONE, needed_mm=needed_mm, offered_mm=offered_mm)


def panel_stock(
    finished: FinishedSize,
    bare_mm: float,
    *,
    shop: Shop,
    offered: tuple[Nominal, ...] | None = None,
) -> tuple[NominalChoice, float]:
    """The stock of a panel's strips, and what is left on them for flattening after glue-up. [mm]

    Where stock is tight, less is left on, down to :data:`LEAST_REFLATTEN_MM`.

    Parameters
    ----------
    finished, shop, offered
        As of :func:`choose_nominal`.
    bare_mm
        Thickness of the panel before surfacing, flattened. [mm]
    """
    usual_mm = shop.allowances.panel_reflatten_mm
    spare_mm = max(0.0, usual_mm - LEAST_REFLATTEN_MM)
    stock = choose_nominal(finished, bare_mm + usual_mm, shop=shop, offered=offered, spare_mm=spare_mm)
    if stock.fit is not Fit.TIGHT:
        return stock, usual_mm
    least_mm = min(usual_mm, LEAST_REFLATTEN_MM)
    return stock, min(usual_mm, max(least_mm, stock.offered_mm - LEAST_SKIM_MM - bare_mm))


def layer_stock(
    plan: LaminationPlan,
    finished: FinishedSize,
    *,
    shop: Shop,
    offered: tuple[Nominal, ...] | None = None,
) -> NominalChoice:
    """The stock of a lamination's layers, as its plan has chosen it; arguments as of :func:`mill`."""
    chosen = plan.chosen
    layers = chosen.layers if chosen else (finished.layer_count or 2)
    needed_mm = plan.needed_mm / layers + thickness_loss_mm(shop, rests=False)
    stock = shop.offered(asked=finished.layer_quarters) if offered is None else offered
    by_name = {nominal.name: nominal.bought_mm(shop.yard.bought_as) for nominal in stock}
    if chosen is None:
        thickest_mm = max(by_name.values(), default=0.0)
        return NominalChoice(nominal=None, fit=Fit.NONE, needed_mm=needed_mm, offered_mm=thickest_mm)
    return NominalChoice(
        nominal=next(nominal for nominal in stock if nominal.name == chosen.nominal),
        fit=Fit.CLEAN,
        needed_mm=needed_mm,
        offered_mm=by_name[chosen.nominal] if finished.leaf_mm is None else finished.leaf_mm,
    )


def _resaws(bought_mm: float, needed_mm: float, width_mm: float, shop: Shop) -> int:
    """Parts that come out of one thickness when it is resawn; 1 where there is no saw for it."""
    saw = shop.machines.bandsaw
    if saw is None or width_mm > saw.resaw_mm:
        return 1
    return max(1, int((bought_mm + saw.kerf_mm) // (needed_mm + saw.kerf_mm)))
