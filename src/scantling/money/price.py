"""The price of a piece: what it costs, and what must be charged so that a margin is left."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from scantling.errors import InputError

__all__ = ["Kind", "Line", "Quote", "Rates", "Sensitivity", "price_from_markup", "quote"]


class Kind(StrEnum):
    """What a line of a quote is for."""

    TIMBER = "timber"
    HARDWARE = "hardware"
    CONSUMABLES = "consumables"
    WORK = "work"
    OVERHEAD = "overhead"
    DELIVERY = "delivery"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a quote, with how it was reckoned and where its figures are from. [currency]"""

    kind: Kind
    what: str
    amount: float
    reckoned: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """Money figures of a shop.

    Parameters
    ----------
    hour
        Paid for an hour of work. [currency/h]
    overhead_hour
        Rent, machines, insurance, over the hours worked. [currency/h]
    margin_pct
        Share of the price that is left over. [%] 0..90
    consumables_pct
        Abrasives, glue and the like, of timber and hardware. [%]
    currency
        Its sign or name.
    hour_source, overhead_source, consumables_source
        Where these three come from.
    """

    hour: float
    overhead_hour: float = 0.0
    margin_pct: float = 20.0
    consumables_pct: float = 0.0
    currency: str = ""
    hour_source: str = "shop profile"
    overhead_source: str = "shop profile"
    consumables_source: str = "shop profile"

    def __post_init__(self) -> None:
        for name in ("hour", "overhead_hour", "consumables_pct"):
            if getattr(self, name) < 0.0:
                raise InputError(
                    code="rate_negative",
                    field=f"rates.{name}",
                    value=getattr(self, name),
                    rule="must be 0 or more",
                )
        if not 0.0 <= self.margin_pct <= 90.0:
            raise InputError(
                code="margin_out_of_range",
                field="rates.margin_pct",
                value=self.margin_pct,
                rule="must lie in 0..90 %",
                remedy="A margin is a share of the price, so it stays below 100 %.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Sensitivity:
    """What is left of the margin when something changes, at the price quoted. [currency], [%]"""

    what: str
    cost: float
    margin_pct: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """A price and how it came about.

    Parameters
    ----------
    cost
        Sum of the lines. [currency]
    price
        Cost over one less the margin. [currency]
    margin
        What is left. [currency]
    markup_pct
        The same as a share of the cost. [%]
    price_if_markup
        What the same percentage put on the cost would give; it is less. [currency]
    """

    lines: tuple[Line, ...]
    currency: str
    cost: float
    price: float
    margin: float
    margin_pct: float
    markup_pct: float
    price_if_markup: float
    hours: float
    sensitivity: tuple[Sensitivity, ...]

    def of_kind(self, kind: Kind) -> float:
        """Sum of the lines of a kind. [currency]"""
        return sum(line.amount for line in self.lines if line.kind is kind)


def price_from_markup(cost: float, markup_pct: float) -> float:
    """Price with a percentage put on the cost. [currency]

    Examples
    --------
    >>> round(price_from_markup(4267, 20))
    5120
    """
    return cost * (1.0 + markup_pct / 100.0)


def quote(lines: Sequence[Line], *, hours: float, rates: Rates) -> Quote:
    r"""A price from lines of timber, hardware and so on, and hours of work.

    Parameters
    ----------
    lines
        Timber, hardware, consumables, delivery, each reckoned elsewhere.
    hours
        Working time. [h]
    rates
        What an hour costs and the margin wanted; adds the lines of work, overhead and consumables.

    Notes
    -----
    .. math:: P = \frac{\sum c}{1 - m}

    A margin is a share of the price, a mark-up a share of the cost. Structure: common practice.
    """
    for line in lines:
        if line.amount < 0.0:
            raise InputError(
                code="amount_negative",
                field=f"quote.{line.what}",
                value=line.amount,
                rule="must be 0 or more",
            )
    if hours < 0.0:
        raise InputError(code="hours_negative", field="quote.hours", value=hours, rule="must be 0 h or more")
    every = (*lines, *_own_lines(lines, hours, rates))
    cost = sum(line.amount for line in every)
    price = cost / (1.0 - rates.margin_pct / 100.0)
    made = Quote(
        lines=every,
        currency=rates.currency,
        cost=cost,
        price=price,
        margin=price - cost,
        margin_pct=rates.margin_pct,
        markup_pct=100.0 * (price - cost) / cost if cost else 0.0,
        price_if_markup=price_from_markup(cost, rates.margin_pct),
        hours=hours,
        sensitivity=(),
    )
    return replace(made, sensitivity=_sensitivity(made, rates))


def _own_lines(lines: Sequence[Line], hours: float, rates: Rates) -> list[Line]:
    found: list[Line] = []
    goods = sum(line.amount for line in lines if line.kind in (Kind.TIMBER, Kind.HARDWARE))
    if rates.consumables_pct and goods:
        found.append(
            Line(
                kind=Kind.CONSUMABLES,
                what="rags, tape and other small things",
                amount=goods * rates.consumables_pct / 100.0,
                reckoned=f"{rates.consumables_pct:g} % of {goods:.2f}",
                source=rates.consumables_source,
            )
        )
    for kind, what, rate, source in (
        (Kind.WORK, "hours of work", rates.hour, rates.hour_source),
        (Kind.OVERHEAD, "rent, machines, insurance", rates.overhead_hour, rates.overhead_source),
    ):
        if rate and hours:
            found.append(
                Line(
                    kind=kind,
                    what=what,
                    amount=hours * rate,
                    reckoned=f"{hours:.1f} h at {rate:g}",
                    source=source,
                )
            )
    return found


def _sensitivity(made: Quote, rates: Rates) -> tuple[Sensitivity, ...]:
    """The price stays, something costs more: what is left."""
    per_hour = rates.hour + rates.overhead_hour
    changes = (
        ("20 % more hours", 0.20 * made.hours * per_hour),
        ("20 % fewer hours", -0.20 * made.hours * per_hour),
        ("20 % dearer timber", 0.20 * made.of_kind(Kind.TIMBER)),
        ("15 % more of everything", 0.15 * made.cost),
    )
    return tuple(
        Sensitivity(what=what, cost=made.cost + more, margin_pct=_left_pct(made, more))
        for what, more in changes
    )


def _left_pct(made: Quote, more: float) -> float:
    return 100.0 * (made.price - made.cost - more) / made.price if made.price else 0.0
