"""Pricing of the plan: timber, hardware, consumables, hours, overhead, and the price to ask."""

from __future__ import annotations

import tomllib
from collections import Counter
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from scantling.money.hours import Count, Hours, estimate
from scantling.money.price import Kind, Line, Quote, Rates, quote
from scantling.plan.making.hardware import HardwareLine, to_get
from scantling.plan.steps.order import Order
from scantling.plan.steps.step import Work
from scantling.plan.timber.sheets_to_buy import SheetPurchase
from scantling.plan.timber.timber import Timber
from scantling.shop.profile.profile import Shop
from scantling.stock.layouts.layout import Layout
from scantling.wood.sheets import find_sheet

__all__ = ["Costed", "Pricing", "plan_pricing"]


_OWN = "shop profile"
_EXAMPLE = "an example: put in your own"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pricing:
    """What it costs and what to ask.

    Parameters
    ----------
    currency
        Of every amount.
    quote
        Lines, cost, price, and what upsets it, at the greater of the two countings of hours: an offer once
        signed cannot be raised.
    steps_h
        Hands-on hours of the steps in the order of work. [h]
    steps_price
        The price at those hours. [currency]
    second_opinion
        The hours again, by operation and with their range, reckoned apart from the steps.
    second_price
        The price at the likely hours of the second opinion. [currency]
    tax_pct, with_tax
        Added to the price. [%], [currency]
    unpriced
        Things no price is known for; they are left out of the sum.
    """

    currency: str
    quote: Quote
    steps_h: float
    steps_price: float
    second_opinion: Hours
    second_price: float
    tax_pct: float
    with_tax: float
    unpriced: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Costed:
    """The parts of the plan that cost something, and counts for the second opinion."""

    timber: Timber
    work: Work
    order: Order
    counts: tuple[Count, ...]


@dataclass(slots=True)
class _Bill:
    """Lines so far, and what has no price."""

    lines: list[Line]
    unpriced: list[str]

    def add(self, kind: Kind, what: str, amount: float, *, reckoned: str, source: str) -> None:
        self.lines.append(Line(kind=kind, what=what, amount=amount, reckoned=reckoned, source=source))


def _from(shop: Shop, name: str, *, default: str = "from memory") -> str:
    """Whether a rate was given with the shop, or a default stands in, and where that comes from."""
    return _OWN if name in shop.rates.model_fields_set else f"default, {default}"


@cache
def _usual_prices() -> dict[str, float]:
    text = (files("scantling.plan") / "data" / "hardware_prices.toml").read_text(encoding="utf-8")
    prices: dict[str, float] = tomllib.loads(text)["prices"]
    return prices


def plan_pricing(costed: Costed, shop: Shop) -> Pricing:
    """The bill and the price.

    Parameters
    ----------
    costed
        What costs something.
    shop
        Its rates.
    """
    rates = shop.rates
    bill = _Bill(lines=[], unpriced=[])
    _timber(bill, costed.timber, shop)
    _sheets(bill, costed.timber, shop)
    _hardware(bill, costed.work.hardware, shop)
    _consumables(bill, costed, shop)
    if rates.delivery:
        bill.add(
            Kind.DELIVERY,
            "delivery",
            rates.delivery,
            reckoned="as agreed",
            source=_from(shop, "delivery"),
        )
    second = estimate(costed.counts)
    steps_h = costed.order.hours
    made = quote(
        bill.lines,
        hours=max(steps_h, second.likely_h),
        rates=Rates(
            hour=rates.hourly,
            overhead_hour=rates.overhead_hourly,
            margin_pct=rates.margin_pct,
            consumables_pct=rates.consumables_pct,
            currency=rates.currency,
            hour_source=_from(shop, "hourly", default=_EXAMPLE),
            overhead_source=_from(shop, "overhead_hourly", default=_EXAMPLE),
            consumables_source=_from(shop, "consumables_pct", default="common practice"),
        ),
    )

    def price_at(hours: float) -> float:
        more = (hours - made.hours) * (rates.hourly + rates.overhead_hourly)
        return (made.cost + more) / (1.0 - made.margin_pct / 100.0)

    return Pricing(
        currency=rates.currency,
        quote=made,
        steps_h=steps_h,
        steps_price=price_at(steps_h),
        second_opinion=second,
        second_price=price_at(second.likely_h),
        tax_pct=rates.tax_pct,
        with_tax=made.price * (1.0 + rates.tax_pct / 100.0),
        unpriced=tuple(bill.unpriced),
    )


def _timber(bill: _Bill, timber: Timber, shop: Shop) -> None:
    markup = 1.0 + shop.rates.timber_markup_pct / 100.0
    more = _picking(shop)
    begun = timber.bench.begun if timber.bench else ()
    if timber.layout is not None and (timber.layout.boards or begun):
        if timber.layout.price is None:
            bill.unpriced.append("boards of the rack without a price")
        else:
            bill.add(
                Kind.TIMBER,
                f"{len(timber.layout.boards) + len(begun)} boards of the rack",
                timber.layout.price * markup,
                reckoned=f"{timber.layout.price:.2f}{more}",
                source="rack",
            )
    for purchase in timber.to_buy:
        price = shop.timber_price(purchase.species)
        what = f"{purchase.species}, {purchase.quarters:g}/4"
        if price is None or (price.per_board_foot is None and price.per_m3 is None):
            bill.unpriced.append(what)
            continue
        each = price.per_board_foot
        amount = (
            purchase.buy_board_feet * each if each is not None else purchase.buy_m3 * (price.per_m3 or 0.0)
        )
        how = (
            f"{purchase.buy_board_feet:.1f} bf on average at {each:g}"
            if each is not None
            else f"{purchase.buy_m3:.3f} m³ on average at {price.per_m3:g} a m³"
        )
        bill.add(Kind.TIMBER, what, amount * markup, reckoned=how + more, source=price.source)


def _picking(shop: Shop) -> str:
    return f", and {shop.rates.timber_markup_pct:g} % for picking and handling"


def _sheets(bill: _Bill, timber: Timber, shop: Shop) -> None:
    """Sheets of the rack that are cut, whole sheets to buy, and the area of parts larger than any sold."""
    if timber.on_sheets is not None:
        _cut_sheets(bill, timber.on_sheets.layout, shop)
    bought = timber.sheets_to_buy
    if bought is None:
        return
    whole: dict[tuple[str, float], list[SheetPurchase]] = {}
    for purchase in bought.purchases:
        whole.setdefault((purchase.material, purchase.thickness_mm), []).append(purchase)
    for (material, thickness), purchases in sorted(whole.items()):
        area = sum(p.count * p.length_mm * p.width_mm for p in purchases) * 1e-6
        sheets = " and ".join(
            f"{p.count} {'sheet' if p.count == 1 else 'sheets'} of {p.length_mm:g} × {p.width_mm:g} mm"
            for p in purchases
        )
        _sheet_line(bill, (material, thickness), area, f"{sheets}, {area:.2f} m²", shop)
    areas: dict[tuple[str, float], float] = {}
    for need in bought.too_large:
        key = (need.material, need.thickness_mm)
        areas[key] = areas.get(key, 0.0) + need.length_mm * need.width_mm * 1e-6
    for kind, area in sorted(areas.items()):
        _sheet_line(bill, kind, area, f"{area:.2f} m² of parts larger than a sheet", shop)


def _sheet_line(bill: _Bill, kind: tuple[str, float], area_m2: float, amount: str, shop: Shop) -> None:
    """Sheet material of one thickness, by the shop's price of a square meter, if it has one."""
    (material, thickness), rates = kind, shop.rates
    near = [
        each.per_m2
        for each in rates.sheets
        if find_sheet(each.material).name == material and abs(each.thickness - thickness) < 0.05
    ]
    what = f"{material} {thickness:g} mm"
    if not near:
        bill.unpriced.append(f"{what}, {amount}")
        return
    bill.add(
        Kind.TIMBER,
        what,
        area_m2 * near[0] * (1.0 + rates.timber_markup_pct / 100.0),
        reckoned=f"{amount} at {near[0]:g}{_picking(shop)}",
        source=_OWN,
    )


def _cut_sheets(bill: _Bill, layout: Layout, shop: Shop) -> None:
    if not layout.boards:
        return
    if layout.price is None:
        bill.unpriced.append("sheets of the rack without a price")
        return
    bill.add(
        Kind.TIMBER,
        f"{len(layout.boards)} sheets of the rack" if len(layout.boards) > 1 else "1 sheet of the rack",
        layout.price * (1.0 + shop.rates.timber_markup_pct / 100.0),
        reckoned=f"{layout.price:.2f}{_picking(shop)}",
        source="rack",
    )


def _hardware(bill: _Bill, hardware: tuple[HardwareLine, ...], shop: Shop) -> None:
    markup = 1.0 + shop.rates.hardware_markup_pct / 100.0
    kinds = Counter(line.kind for line in hardware if not line.made_here)
    for line in hardware:
        if line.made_here:
            continue
        own = shop.rates.hardware.get(line.kind.value)
        each = own if own is not None else _usual_prices().get(line.kind.value)
        what = to_get(line)
        if kinds[line.kind] > 1 and line.size_mm:
            what += f", {' × '.join(f'{size:g}' for size in line.size_mm)} mm"
        if each is None:
            bill.unpriced.append(what)
            continue
        bill.add(
            Kind.HARDWARE,
            what,
            line.get * each * markup,
            reckoned=f"{line.get} at {each:g}, and {shop.rates.hardware_markup_pct:g} %",
            source=_OWN if own is not None else "default, from memory",
        )


def _consumables(bill: _Bill, costed: Costed, shop: Shop) -> None:
    rates = shop.rates
    grams = costed.work.gluing.glue_g
    if grams:
        bill.add(
            Kind.CONSUMABLES,
            "glue",
            grams * 1e-3 * rates.glue_per_kg,
            reckoned=f"{grams:.0f} g at {rates.glue_per_kg:g} a kg",
            source=_from(shop, "glue_per_kg"),
        )
    liters = sum(costed.work.finishing.coats.tins_l)
    product = shop.finish_named(costed.work.finishing.system)
    per_l = product.price_per_l if product.price_per_l is not None else rates.finish_per_l
    if liters:
        bill.add(
            Kind.CONSUMABLES,
            costed.work.finishing.system,
            liters * per_l,
            reckoned=f"{liters:g} L at {per_l:g} a liter",
            source=_OWN if product.price_per_l is not None else _from(shop, "finish_per_l"),
        )
    _abrasives(bill, costed, shop)


def _abrasives(bill: _Bill, costed: Costed, shop: Shop) -> None:
    """Discs at the price of their own grit, where the shop gives one, else at that of any."""
    usual = shop.rates.abrasive_per_sheet
    own = {one.grit: one.price_per_sheet for one in shop.grits() if one.price_per_sheet is not None}
    steps = costed.work.finishing.sanding.steps
    discs: dict[float, int] = {}
    for step in steps:
        each = own.get(step.grit, usual)
        discs[each] = discs.get(each, 0) + step.discs
    bill.add(
        Kind.CONSUMABLES,
        "abrasive discs",
        sum(count * each for each, count in discs.items()),
        reckoned=" and ".join(f"{count} at {each:g}" for each, count in discs.items()) or "none",
        source=_OWN if any(step.grit in own for step in steps) else _from(shop, "abrasive_per_sheet"),
    )
