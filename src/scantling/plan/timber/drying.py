"""Boards too wet to be cut: in which air they wait, how long, and what they weigh when they are ready."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.checks.dryness import READ_TO_PCT, settles_at_pct, wettest_cut_pct
from scantling.plan.cache import Cache
from scantling.plan.year.seasons import shop_rest_pct
from scantling.shop.profile.profile import Shop
from scantling.stock.boards.board import Board
from scantling.stock.layouts.layout import Layout
from scantling.wood.density import basic_specific_gravity
from scantling.wood.diffusion import Slab
from scantling.wood.drying import drying_days
from scantling.wood.moisture import MoistureRange, relative_humidity_for_emc
from scantling.wood.species import FIBER_SATURATION_PCT, find_species

__all__ = ["Drying", "DryingBoards", "drying_of", "measured", "told_days"]

_NEAR_PCT = 0.3
"""Air that leaves wood nearer than this to what is wanted dries it too slowly to wait for (our own). [%]"""
_HALF, _DOUBLE = 0.5, 2.0
"""Between which shares of the estimate boards of one species lie (our own reading of published scatter)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingBoards:
    """Boards alike that dry together.

    Parameters
    ----------
    boards
        Their names.
    mc_pct
        What they read. [% of ovendry mass]
    thickness_mm
        As they stand, rough. [mm]
    mass_share_pct
        What a board weighs when it is ready, of what it weighs now. [%]
    days
        Until then, in the air of :class:`Drying`; an estimate, and of green wood the least. None where it is
        not dry within 2048 days. [days]
    """

    boards: tuple[str, ...]
    mc_pct: float
    thickness_mm: float
    mass_share_pct: float
    days: float | None

    @property
    def wait(self) -> str:
        """How long that is, in words."""
        if self.days is None:
            return "not within five years"
        if self.mc_pct > FIBER_SATURATION_PCT:
            return f"{told_days(self.days)}, and what it loses above {FIBER_SATURATION_PCT:.0f} % before"
        return told_days(self.days)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drying:
    """The wait of all boards that are cut and are too wet.

    Parameters
    ----------
    wanted_pct
        Wettest they should be cut at. [%]
    temperature_c, humidity_pct
        The air they wait in. [degC], [%]
    in_shop
        Whether that is the shop's own air; otherwise it holds wood where the piece's home does, because the
        shop's leaves wood too wet.
    boards
        Those alike together, the longest wait first.
    """

    wanted_pct: float
    temperature_c: float
    humidity_pct: float
    in_shop: bool
    boards: tuple[DryingBoards, ...]

    @property
    def days(self) -> float:
        """Until the last is ready that can be waited for. [days]"""
        return max((one.days for one in self.boards if one.days is not None), default=0.0)

    @property
    def wait(self) -> str:
        """Where the last dries and how long it takes, in words."""
        return f"{self.where}: {self.boards[0].wait}"

    @property
    def where(self) -> str:
        """The air in words."""
        if self.in_shop:
            return "in the shop's air"
        return f"in a closed corner kept at {self.humidity_pct:.0f} %, for the shop's air leaves wood too wet"


def drying_of(layout: Layout | None, moisture: MoistureRange, shop: Shop, cache: Cache) -> Drying | None:
    """The wait of the boards that are cut and whose moisture was measured; None where none is too wet.

    Parameters
    ----------
    layout
        Parts on boards; None where there is no rack.
    moisture
        Build day, driest and wettest of the room. [%]
    shop
        Its air.
    """
    if layout is None:
        return None
    wanted = wettest_cut_pct(moisture)
    wet = [(board, mc) for board, mc in measured(layout) if mc > wanted + READ_TO_PCT]
    if not wet:
        return None
    temperature, humidity = shop.climate.temperature_c, float(shop.climate.humidity_pct)
    in_shop = shop_rest_pct(shop) <= wanted - _NEAR_PCT
    if not in_shop:
        humidity = 100.0 * relative_humidity_for_emc(temperature, settles_at_pct(moisture))
    alike: dict[tuple[str, float, float], list[Board]] = {}
    for board, mc in wet:
        alike.setdefault((board.species, board.rough_thickness_mm, mc), []).append(board)
    slabs = tuple(_slab(*kind) for kind in alike)
    days = cache.answer(
        "drying",
        (slabs, wanted, temperature, humidity),
        lambda: drying_days(slabs, target_mc_pct=wanted, temperature_c=temperature, humidity_pct=humidity),
    )
    told = [
        DryingBoards(
            boards=tuple(board.name for board in group),
            mc_pct=mc,
            thickness_mm=thickness,
            mass_share_pct=100.0 * (100.0 + wanted) / (100.0 + mc),
            days=None if math.isinf(wait) else wait,
        )
        for ((_, thickness, mc), group), wait in zip(alike.items(), days, strict=True)
    ]
    told.sort(key=lambda one: -math.inf if one.days is None else -one.days)
    return Drying(
        wanted_pct=wanted,
        temperature_c=temperature,
        humidity_pct=humidity,
        in_shop=in_shop,
        boards=tuple(told),
    )


def measured(layout: Layout) -> list[tuple[Board, float]]:
    """Boards that are cut and whose moisture was measured, with what they read. [%]"""
    return [
        (one.board, one.board.moisture_pct)
        for one in layout.boards
        if one.placed and one.board.moisture_pct is not None
    ]


def _slab(species: str, thickness_mm: float, mc_pct: float) -> Slab:
    return Slab(
        thickness_mm=thickness_mm,
        basic_specific_gravity=basic_specific_gravity(find_species(species)),
        mc_pct=mc_pct,
    )


def told_days(days: float) -> str:
    """A wait in words, with how far boards of one species scatter about it.

    Examples
    --------
    >>> told_days(23), told_days(6)
    ('about 3 weeks (2 to 7)', 'about 6 days (3 to 12)')
    """
    unit, per = ("days", 1.0) if days < 11 else ("weeks", 7.0)
    most, least, likely = (max(1, round(days * share / per)) for share in (_DOUBLE, _HALF, 1.0))
    about = "about a day" if likely == 1 else f"about {likely} {unit}"
    return about if least == most else f"{about} ({least} to {most})"
