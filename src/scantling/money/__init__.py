"""Money: hours by operation with ranges, lines with their source, price, margin and what upsets it."""

from scantling.money.hours import Count, HourLine, Hours, Rate, estimate, learned, rates
from scantling.money.price import (
    Kind,
    Line,
    Quote,
    Rates,
    Sensitivity,
    check_hours,
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
    "check_hours",
    "estimate",
    "learned",
    "price_from_markup",
    "quote",
    "rates",
]
