"""Words for the two countings of the hours, and for which of them the price stands on."""

from __future__ import annotations

from scantling.plan.pricing import Pricing

__all__ = ["counting_words", "standing_words", "stands_on_steps"]


def stands_on_steps(pricing: Pricing) -> bool:
    """Whether the price asks the hours of the steps, the greater of the two countings."""
    return pricing.steps_h >= pricing.second_opinion.likely_h


def counting_words(pricing: Pricing) -> str:
    """Which of the two countings the price stands on."""
    return "by steps" if stands_on_steps(pricing) else "by operation"


def standing_words(pricing: Pricing) -> str:
    """The hours a price stands on, to be told beside it where other hours are shown.

    Parameters
    ----------
    pricing
        Of the plan.

    Returns
    -------
    str
        ``for 38 h counted by operation``; empty where the price stands on the hours of the steps, or both
        countings come to the same as shown.
    """
    asked = f"{pricing.quote.hours:.0f}"
    if stands_on_steps(pricing) or asked == f"{pricing.steps_h:.0f}":
        return ""
    return f"for {asked} h counted {counting_words(pricing)}"
