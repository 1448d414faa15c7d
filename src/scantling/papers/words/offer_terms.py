"""What the maker settles in an offer: whom it is for, and the price asked."""

from __future__ import annotations

import re
from dataclasses import dataclass

from scantling.errors import InputError

__all__ = ["Terms", "asked_price"]

_SUM = re.compile(r"(?:[0-9]{1,9}|[0-9]{1,3}(?:[, ][0-9]{3}){1,2})(?:\.[0-9]{0,2})?")
"""A sum of money: digits, by threes or not, and cents."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Terms:
    """What the maker settles for the client.

    Parameters
    ----------
    client
        Whom it is for; empty leaves a line to write on.
    price
        What is asked; None takes the price of the plan. [currency]
    """

    client: str = ""
    price: float | None = None


def asked_price(text: str | None) -> float | None:
    """The sum asked, thousands apart or not; None where none is written.

    A comma or space parts thousands, a point stands before cents: ``4.900,50`` could be two sums and is
    refused.

    Raises
    ------
    InputError
        ``not_a_price``.

    Examples
    --------
    >>> asked_price("4,900"), asked_price(None)
    (4900.0, None)
    """
    if text is None or not text.strip():
        return None
    found = _SUM.fullmatch(text.strip())
    price = float(re.sub(r"[, ]", "", found[0])) if found else 0.0
    if price <= 0.0:
        raise InputError(
            code="not_a_price",
            field="price",
            value=text,
            rule="must be a sum of money above 0, in the shop's currency",
            remedy="Write it as a number, such as 2900, 2,900 or 2900.50.",
        )
    return price
