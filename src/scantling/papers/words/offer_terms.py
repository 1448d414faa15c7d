"""What the maker settles in an offer: whom it is for, and the price asked."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.errors import InputError

__all__ = ["Terms", "asked_price"]


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
    try:
        price = float(text.replace(",", "").replace(" ", ""))
    except ValueError:
        price = math.nan
    if not (math.isfinite(price) and price > 0.0):
        raise InputError(
            code="not_a_price",
            field="price",
            value=text,
            rule="must be a sum of money above 0, in the shop's currency",
            remedy="Write it as a number, such as 2900.",
        )
    return price
