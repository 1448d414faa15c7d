"""What to ask the yard for: one amount for each wood and thickness, and what it would take on average."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.plan.timber.shortfall import CHANCE, Shortfall
from scantling.stock.buying.measure import Purchase
from scantling.units import MM3_PER_BOARD_FOOT

__all__ = ["WoodToAskFor", "wood_to_ask_for"]


@dataclass(frozen=True, slots=True, kw_only=True)
class WoodToAskFor:
    """One wood and thickness, as a maker asks for it.

    Parameters
    ----------
    species, quarters
        The wood and its nominal thickness. [1/4 in]
    net_board_feet
        The blanks themselves. [board ft]
    ask_board_feet, ask_m3
        The advice: what falls short no more often than ``chance_short``; without a curve, the average.
        [board ft], [m3]
    average_board_feet, average_m3
        Net over the shop's yield: what the piece takes over many jobs, the rest of the boards kept.
        [board ft], [m3]
    chance_short
        How often the advice falls short at most; None where no racks were drawn for it. [1]
    sawn
        How much of the net is to be sawn one way, by the way, the most first. [board ft]
    one_board_mm
        Length and width of a sound board that holds it all, where little of what is asked for is wanted. [mm]
    longest_mm, widest_mm
        Every delivery must hold boards of at least this size. [mm]
    reason
        Why the average is what it is.
    """

    species: str
    quarters: float
    net_board_feet: float
    ask_board_feet: float
    ask_m3: float
    average_board_feet: float
    average_m3: float
    chance_short: float | None
    sawn: tuple[tuple[str, float], ...]
    longest_mm: float
    widest_mm: float
    reason: str
    one_board_mm: tuple[float, float] | None = None


def wood_to_ask_for(
    purchases: Sequence[Purchase], shortfalls: Sequence[Shortfall] = ()
) -> tuple[WoodToAskFor, ...]:
    """The amount to ask for of each wood and thickness: what falls short 5 times in 100 where that is known.

    Boards come whole and of their own widths, so an average is no amount to buy by; it is what leaves the
    rack over many jobs.

    Parameters
    ----------
    purchases
        What is to be bought, by the shop's average yield.
    shortfalls
        The curves of those that racks were drawn for.
    """
    curves = {(s.species, s.quarters): s for s in shortfalls}
    return tuple(_asked(p, curves.get((p.species, p.quarters))) for p in purchases)


def _asked(purchase: Purchase, curve: Shortfall | None) -> WoodToAskFor:
    ask = purchase.buy_board_feet if curve is None else curve.ask_board_feet
    return WoodToAskFor(
        species=purchase.species,
        quarters=purchase.quarters,
        net_board_feet=purchase.net_board_feet,
        ask_board_feet=ask,
        ask_m3=ask * MM3_PER_BOARD_FOOT * 1e-9,
        average_board_feet=purchase.buy_board_feet,
        average_m3=purchase.buy_m3,
        chance_short=None if curve is None else CHANCE,
        sawn=purchase.sawn,
        longest_mm=purchase.longest_mm,
        widest_mm=purchase.widest_mm,
        one_board_mm=None if curve is None else curve.one_board_mm,
        reason=f"+{purchase.allowance_pct:.0f} %: {purchase.reason}",
    )
