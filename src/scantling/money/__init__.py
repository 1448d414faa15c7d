"""Money: hours by operation with ranges, lines with their source, price, margin and what upsets it."""

from scantling.money.hours import Count, HourLine, Hours, Rate, estimate, rates
from scantling.money.price import (
    Kind,
    Line,
    Quote,
    Rates,
    Sensitivity,
    price_from_markup,
    quote,
)

__all__ = [
    "Count",
    "HourLine",
    "Hours",
    "Kind",
    "Line",
    "Quote",
    "Rate",
    "Rates",
    "Sensitivity",
    "estimate",
    "price_from_markup",
    "quote",
    "rates",
]
