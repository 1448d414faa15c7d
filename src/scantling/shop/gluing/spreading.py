"""Glue for a stage: how much, and how many minutes from the first bead to the last clamp."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.shop.profile.glues import Glue
from scantling.shop.profile.profile import Shop

__all__ = ["StageTime", "glue_mass_g", "stage_time", "time_allowed_min", "warm_first"]


@dataclass(frozen=True, slots=True, kw_only=True)
class StageTime:
    """Minutes of one stage, against those there are.

    Parameters
    ----------
    spread_min, place_min, clamp_min
        Spreading the glue, placing the parts, setting the clamps. [min]
    total_min
        From the first bead to the last clamp. [min]
    allowed_min
        Share of the glue's working time that may be used, at the shop's temperature. [min]
    in_time
        Whether it is done within what is allowed.
    """

    spread_min: float
    place_min: float
    clamp_min: float
    total_min: float
    allowed_min: float
    in_time: bool


def glue_mass_g(area_mm2: float, glue: Glue, shop: Shop) -> float:
    r"""Wet glue to pour for an area. [g]

    Parameters
    ----------
    area_mm2
        One side of all glue lines together; the spread is for both faces. [mm2]
    glue
        Its spread.
    shop
        What is poured over what stays in the joint.

    Notes
    -----
    .. math:: m = A s \cdot 1.25
    """
    return area_mm2 * 1e-6 * glue.spread_g_m2 * shop.clamping.glue_spare


def time_allowed_min(glue: Glue, shop: Shop) -> float:
    """Working time that may be used: the shop's share of it, at the shop's temperature. [min]"""
    return shop.clamping.open_share * glue.working_at(shop.climate.temperature_c)


def warm_first(glue: Glue, shop: Shop) -> tuple[str, ...]:
    """What to do where the shop is colder than the glue allows; nothing where it is not."""
    if shop.climate.temperature_c >= glue.min_temperature_c:
        return ()
    return (
        f"warm the shop and the wood to {glue.min_temperature_c:.0f} °C and keep it so while the glue cures: "
        f"{shop.climate.temperature_c:.0f} °C is too cold for {glue.name}",
    )


def stage_time(
    line_lengths_mm: tuple[float, ...], shop: Shop, *, parts: int, clamps: int, glue: Glue
) -> StageTime:
    """Minutes of a stage.

    Parameters
    ----------
    line_lengths_mm
        Length of each glue line or joint. [mm]
    shop
        Its pace, and how many work.
    parts
        Parts (or bodies glued before) to place.
    clamps
        Clamps to set.
    glue
        The glue.
    """
    pace = shop.clamping
    share = pace.helped_share if shop.people.count > 1 else 1.0
    spread_s = sum(max(pace.spread_joint_s, pace.spread_s_per_m * mm / 1000.0) for mm in line_lengths_mm)
    spread_min, place_min, clamp_min = (
        share * seconds / 60.0 for seconds in (spread_s, parts * pace.place_s, clamps * pace.clamp_s)
    )
    total_min, allowed_min = spread_min + place_min + clamp_min, time_allowed_min(glue, shop)
    return StageTime(
        spread_min=spread_min,
        place_min=place_min,
        clamp_min=clamp_min,
        total_min=total_min,
        allowed_min=allowed_min,
        in_time=total_min <= allowed_min + 1e-9,
    )
