"""Which moisture and which month to build in, so that joints start in the middle of their travel."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.seasons.air import Month
from scantling.seasons.room import Room
from scantling.wood.moisture import MoistureRange, relative_humidity_for_emc

__all__ = ["BuildAdvice", "advise_build"]

CLOSE_PCT = 1.0
"""How near the shop's air must come to the middle to be called right. [% MC] Half the two points within
which the parts of one glue-up are kept (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildAdvice:
    """Where to start so that the wood swings alike both ways.

    Parameters
    ----------
    target_mc_pct
        Middle between the driest and the wettest of the room. [%]
    target_humidity
        Relative humidity at 20 degC that holds wood there. [1]
    good_months
        Months in which the shop's own air holds wood within a point of it.
    best_month
        Month in which the shop comes nearest.
    miss_pct
        How much wetter the shop holds wood in the best month than it should, negative = drier. [% MC]
    """

    target_mc_pct: float
    target_humidity: float
    good_months: tuple[Month, ...]
    best_month: Month
    miss_pct: float


def advise_build(shop: Room, moisture: MoistureRange) -> BuildAdvice:
    """Advise on moisture and month.

    Parameters
    ----------
    shop
        Air of the workshop, where the wood lies before it is worked.
    moisture
        Driest and wettest in the piece's room, as :func:`scantling.seasons.room.moisture_range` gives
        or, late and damped, :func:`scantling.seasons.year.part_years`.
    """
    target = 0.5 * (moisture.dry_pct + moisture.wet_pct)
    misses = {month: value - target for month, value in zip(Month, shop.year.emc_pct, strict=True)}
    best = min(misses, key=lambda month: abs(misses[month]))
    return BuildAdvice(
        target_mc_pct=target,
        target_humidity=relative_humidity_for_emc(20.0, target),
        good_months=tuple(month for month, miss in misses.items() if abs(miss) <= CLOSE_PCT),
        best_month=best,
        miss_pct=misses[best],
    )
