"""Layers of a lamination: how many, from which nominal stock, how thick each is milled."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import BoughtAs, Nominal
from scantling.shop.sizes.size import FinishedSize

__all__ = ["LaminationPlan", "LayerChoice", "LayerOption", "layers_needed", "net_layer_mm", "plan_layers"]


class LayerChoice(StrEnum):
    """What makes one way of laminating better than another."""

    FEWEST_LINES = "fewest glue lines"
    LEAST_WOOD = "least wood"


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerOption:
    """One way of building the thickness.

    Parameters
    ----------
    nominal
        Stock bought: ``8/4``.
    quarters
        Its quarters of an inch; None for metric stock. [1/4 in]
    layers, lines
        Layers, and the glue lines between them.
    net_mm
        Thickest a layer can be milled from that stock. [mm]
    layer_mm
        What each layer is milled to. [mm]
    spare_mm
        How much thicker the lamination could be made. [mm]
    bought_mm
        Thickness bought, all layers together. [mm]
    board_feet_per_ft2
        Board feet to a square foot of face; for metric stock reckoned from its rough thickness. [bf/ft2]
    """

    nominal: str
    quarters: int | None
    layers: int
    lines: int
    net_mm: float
    layer_mm: float
    spare_mm: float
    bought_mm: float
    board_feet_per_ft2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LaminationPlan:
    """Layers chosen for one part, with the ways not taken.

    Parameters
    ----------
    needed_mm
        Thickness to glue up: finished, plus surfacing, plus flattening after glue-up. [mm]
    layer_width_mm
        Width of a layer when glued, with room for slip. [mm]
    chosen
        The way taken; None if no stock on offer serves.
    reason
        Why, in a sentence.
    """

    part: str
    needed_mm: float
    layer_width_mm: float
    options: tuple[LayerOption, ...]
    chosen: LayerOption | None
    reason: str


def layers_needed(needed_mm: float, net_mm: float) -> int:
    r"""Layers of one thickness that make up at least the thickness needed.

    Parameters
    ----------
    needed_mm
        Finished thickness and what flattening after glue-up takes. [mm]
    net_mm
        Thickness of one milled layer. [mm] > 0

    Notes
    -----
    .. math:: n = \lceil (T + a) / t_{net} \rceil

    Examples
    --------
    >>> layers_needed(2.75 * 25.4 + 25.4 / 8, 1.75 * 25.4)
    2
    """
    return max(1, math.ceil(needed_mm / net_mm - 1e-9))


def net_layer_mm(nominal: Nominal, shop: Shop) -> float:
    """Thickest layer this shop mills from a nominal board. [mm]

    The layers are flattened again as one after glue-up, so none is left over size to rest.
    """
    allow = shop.allowances
    loss = allow.face_mm + allow.plane_mm if shop.yard.bought_as is BoughtAs.ROUGH else 2.0 * allow.skim_mm
    return nominal.bought_mm(shop.yard.bought_as) - loss


def plan_layers(
    finished: FinishedSize,
    shop: Shop,
    *,
    offered: tuple[Nominal, ...] | None = None,
    choice: LayerChoice = LayerChoice.FEWEST_LINES,
) -> LaminationPlan:
    """Layers of a lamination.

    Parameters
    ----------
    finished
        The part; its ``layer_count`` and ``layer_quarters`` limit the choice.
    shop
        Its allowances and what it buys.
    offered
        Thicknesses to choose from; None takes what the shop buys.
    choice
        Fewest glue lines, or least wood.
    """
    allow = shop.allowances
    needed_mm = finished.thickness_mm + allow.surface_mm + allow.lamination_reflatten_mm
    options = tuple(
        option
        for nominal in (shop.offered(asked=finished.layer_quarters) if offered is None else offered)
        if not finished.layer_quarters or nominal.quarters in finished.layer_quarters
        if (option := _option(nominal, needed_mm, finished.layer_count, shop)) is not None
    )
    ranked = sorted(options, key=lambda option: _rank(option, choice))
    chosen = ranked[0] if ranked else None
    return LaminationPlan(
        part=finished.name,
        needed_mm=needed_mm,
        layer_width_mm=finished.width_mm + allow.surface_mm + allow.lamination_slip_mm,
        options=options,
        chosen=chosen,
        reason=_reason(chosen, ranked, choice, needed_mm),
    )


def _option(nominal: Nominal, needed_mm: float, wanted: int | None, shop: Shop) -> LayerOption | None:
    net_mm = net_layer_mm(nominal, shop)
    if net_mm <= 0.0:
        return None
    layers = max(2, layers_needed(needed_mm, net_mm)) if wanted is None else wanted
    if layers * net_mm < needed_mm - 1e-9:
        return None
    quarters = nominal.rough_mm / 6.35 if nominal.quarters is None else float(nominal.quarters)
    return LayerOption(
        nominal=nominal.name,
        quarters=nominal.quarters,
        layers=layers,
        lines=layers - 1,
        net_mm=net_mm,
        layer_mm=needed_mm / layers,
        spare_mm=layers * net_mm - needed_mm,
        bought_mm=layers * nominal.bought_mm(shop.yard.bought_as),
        board_feet_per_ft2=layers * max(quarters, 4.0) / 4.0,
    )


def _rank(option: LayerOption, choice: LayerChoice) -> tuple[float, float]:
    if choice is LayerChoice.FEWEST_LINES:
        return (option.layers, option.bought_mm)
    return (option.board_feet_per_ft2, option.layers)


def _reason(
    chosen: LayerOption | None, ranked: list[LayerOption], choice: LayerChoice, needed_mm: float
) -> str:
    if chosen is None:
        return f"no stock on offer makes up {needed_mm:.1f} mm in the layers allowed"
    text = f"{chosen.layers} layers of {chosen.nominal}: {choice.value}"
    cheapest = min(ranked, key=lambda option: _rank(option, LayerChoice.LEAST_WOOD))
    if cheapest.board_feet_per_ft2 < chosen.board_feet_per_ft2 - 1e-9:
        text += (
            f"; {cheapest.layers} layers of {cheapest.nominal} would take "
            f"{1.0 - cheapest.board_feet_per_ft2 / chosen.board_feet_per_ft2:.0%} less wood "
            f"for {cheapest.lines} lines in place of {chosen.lines}"
        )
    return text
