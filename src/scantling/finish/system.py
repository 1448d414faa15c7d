"""A finish as its label describes it, given from outside (the shop profile)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.errors import InputError

__all__ = ["FinishKind", "FinishSystem"]


class FinishKind(StrEnum):
    """What the film is made of; it decides the cautions."""

    DRYING_OIL = "drying oil"
    OIL_VARNISH = "oil-varnish blend"
    FILM_VARNISH = "film varnish"
    HARD_WAX_OIL = "hard-wax oil"
    SHELLAC = "shellac"
    LACQUER = "lacquer"
    WATER_BORNE = "water-borne"
    WAX = "wax"
    SOAP = "soap"


@dataclass(frozen=True, slots=True, kw_only=True)
class FinishSystem:
    """One finish.

    Parameters
    ----------
    first_l_m2, next_l_m2
        Liters per square meter, first coat and later ones. [L/m2]
    recoat_h, light_use_h, full_use_h
        At ``label_c``: until the next coat, until light use, until full use. [h]
    label_c
        Temperature those times hold at. [degC]
    least_c, most_c
        Temperatures it may be used at. [degC]
    tin_l
        Sizes it is sold in. [L]
    damp_rh
        Relative humidity above which it dries slower than its label says. [1]
    oily_rags, flammable
        What the label says of its rags and its vapor. They add to what the kind is known for and take
        nothing from it.
    """

    name: str
    kind: FinishKind
    first_l_m2: float
    next_l_m2: float
    recoat_h: float
    light_use_h: float
    full_use_h: float
    label_c: float = 20.0
    least_c: float = 10.0
    most_c: float = 30.0
    tin_l: tuple[float, ...] = (0.5, 1.0, 2.5, 5.0)
    damp_rh: float = 0.70
    oily_rags: bool = False
    flammable: bool = False
    source: str = "product label"

    def __post_init__(self) -> None:
        for name in ("first_l_m2", "next_l_m2", "recoat_h", "light_use_h", "full_use_h"):
            value = getattr(self, name)
            if not value > 0.0:
                raise InputError(
                    code="finish_figure_not_positive",
                    field=f"finishes.{self.name}.{name}",
                    value=value,
                    rule="must be above 0",
                    remedy="Take it from the product's label.",
                )
        if not self.tin_l or min(self.tin_l) <= 0.0:
            raise InputError(
                code="no_tin",
                field=f"finishes.{self.name}.tin_l",
                value=self.tin_l,
                rule="must name at least one size above 0 L",
            )
