"""Money: what an hour, a board foot and a bought thing cost, and what is added."""

from __future__ import annotations

from functools import cache
from typing import Annotated

from pydantic import Field, field_validator

from scantling.joinery.work import ConnectorKind
from scantling.reading import LengthMm, Percent, custom_error, did_you_mean
from scantling.shop.profile.section import ProfileSection
from scantling.shop.profile.tables import table

__all__ = ["Rates", "SheetPrice", "TimberPrice", "shipped_timber_prices"]


class TimberPrice(ProfileSection):
    """Price of one species where no rack gives it; one of the two bases."""

    per_board_foot: float | None = Field(default=None, ge=0)
    per_m3: float | None = Field(default=None, ge=0)
    source: str = "shop profile"


class SheetPrice(ProfileSection):
    """Price of one sheet material in one thickness; no default, since none is shipped."""

    material: str
    """As piece files name it, such as birch plywood."""
    thickness: LengthMm = Field(gt=0)
    per_m2: float = Field(ge=0)
    """As sold: whole sheets are paid for."""


class Rates(ProfileSection):
    """Rates and shares. Money is in ``currency``; nothing here is a quotation."""

    currency: str = "USD"
    hourly: float = Field(default=48.0, ge=0)
    """Invented for the demo."""
    overhead_hourly: float = Field(default=14.0, ge=0)
    """Rent, power, insurance, tools, for each hour worked (invented for the demo)."""
    margin_pct: Percent = Field(default=20.0, ge=0, lt=95)
    """Share of the PRICE kept; not a markup on the cost."""
    timber_markup_pct: Percent = Field(default=10.0, ge=0)
    """Handling and picking; common practice."""
    hardware_markup_pct: Percent = Field(default=10.0, ge=0)
    """Common practice."""
    consumables_pct: Percent = Field(default=3.0, ge=0)
    """Share of timber and hardware for what is not counted: tape, cloths, blades (common practice)."""
    yield_pct: Percent = Field(default=65.0, gt=0, le=100)
    """Common practice for square-edged hardwood."""
    tax_pct: Percent = Field(default=0.0, ge=0)
    delivery: float = Field(default=0.0, ge=0)
    glue_per_kg: float = Field(default=9.0, ge=0)
    """From memory."""
    finish_per_l: float = Field(default=32.0, ge=0)
    """From memory."""
    abrasive_per_sheet: float = Field(default=0.7, ge=0)
    """From memory."""
    hardware: dict[str, Annotated[float, Field(ge=0)]] = Field(default_factory=dict)
    """Price each, by the name on the buying list."""
    timber: dict[str, TimberPrice] = Field(default_factory=dict)
    """Price by species."""
    sheets: tuple[SheetPrice, ...] = ()
    """Price of sheet material, by material and thickness."""

    @field_validator("hardware")
    @classmethod
    def _on_the_list(cls, hardware: dict[str, float]) -> dict[str, float]:
        """Refuses a price of what no list names, which would be left aside in silence."""
        known = [kind.value for kind in ConnectorKind]
        for name in hardware:
            if name not in known:
                raise custom_error(
                    code="unknown_hardware",
                    rule=f"must price what a buying list names: {', '.join(known)}",
                    remedy=did_you_mean(name, known, otherwise=f"Take {name[:40]} out, or name it so."),
                )
        return hardware


@cache
def shipped_timber_prices() -> dict[str, TimberPrice]:
    """Orders of magnitude by species, from memory."""
    return {
        row["species"]: TimberPrice(per_board_foot=float(row["per_board_foot"]), source=row["source"])
        for row in table("timber_prices")
    }
