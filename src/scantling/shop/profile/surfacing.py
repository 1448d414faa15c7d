"""Finishes and abrasives a shop has, as plain values for whoever plans with them."""

from __future__ import annotations

from enum import StrEnum
from functools import cache

from pydantic import Field

from scantling.reading import Percent, TemperatureC
from scantling.shop.profile.section import ProfileSection
from scantling.shop.profile.tables import table

__all__ = ["Abrasive", "Chemistry", "FinishProduct", "shipped_abrasives", "shipped_finishes"]


class Chemistry(StrEnum):
    """What a finish is made of; its cautions follow from it, so no other word is taken."""

    OIL = "oil"
    OIL_VARNISH = "oil-varnish"
    FILM = "film"
    HARD_WAX_OIL = "hard-wax oil"
    SHELLAC = "shellac"
    LACQUER = "lacquer"
    WATER_BORNE = "water-borne"
    SOAP = "soap"
    WAX = "wax"


class FinishProduct(ProfileSection):
    """One finish; its own data sheet goes before these figures."""

    name: str
    kind: Chemistry
    first_l_m2: float = Field(gt=0)
    """First coat, liters to a square meter."""
    next_l_m2: float = Field(gt=0)
    """Every next coat, liters to a square meter."""
    coats: int = Field(ge=1)
    recoat_h: float = Field(ge=0)
    light_use_h: float = Field(ge=0)
    full_cure_h: float = Field(ge=0)
    min_temperature_c: TemperatureC = Field(ge=-20, le=60)
    max_humidity_pct: Percent = Field(gt=0, le=100)
    minutes_per_m2: float = Field(gt=0)
    """Hands-on time of one coat."""
    flammable: bool = True
    oily_rags: bool = False
    """Whether its rags can heat themselves."""
    price_per_l: float | None = Field(default=None, ge=0)
    source: str = ""


class Abrasive(ProfileSection):
    """One grit."""

    grit: int = Field(gt=0)
    minutes_per_m2: float = Field(gt=0)
    m2_per_sheet: float = Field(gt=0)
    price_per_sheet: float | None = Field(default=None, ge=0)
    """Of this grit; left out, ``rates: abrasive_per_sheet``."""
    source: str = ""


@cache
def shipped_finishes() -> tuple[FinishProduct, ...]:
    """Every finish shipped."""
    return tuple(FinishProduct.model_validate(row) for row in table("finishes"))


@cache
def shipped_abrasives() -> tuple[Abrasive, ...]:
    """Every grit shipped, coarse first."""
    return tuple(Abrasive.model_validate(row) for row in table("abrasives"))
