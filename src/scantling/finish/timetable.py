"""When the next coat may go on, and when the piece may be used."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from scantling.errors import InputError
from scantling.finish.system import FinishKind, FinishSystem

__all__ = ["CoatTime", "Drying", "cautions", "drying"]

TEN_DEGREES = 2.0
"""Drying takes this much longer for 10 degC colder. [1] From memory: the label comes first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatTime:
    """One coat: when it may go on, counted from the first. [h]"""

    number: int
    at_h: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drying:
    """From the first coat to full use.

    Parameters
    ----------
    factor
        By how much the shop's temperature stretches the label's times. [1]
    recoat_h
        Between coats in this shop. [h]
    coats
        Each coat's hour. [h]
    light_use_h, full_use_h
        From the first coat. [h]
    notes
        What to know of it.
    """

    factor: float
    recoat_h: float
    coats: tuple[CoatTime, ...]
    light_use_h: float
    full_use_h: float
    notes: tuple[str, ...]

    @property
    def light_use_days(self) -> int:
        """Whole days from the first coat until it may be used with care. [d]"""
        return ceil(self.light_use_h / 24.0 - 1e-9)

    @property
    def full_use_days(self) -> int:
        """Whole days from the first coat until it may be used without. [d]"""
        return ceil(self.full_use_h / 24.0 - 1e-9)

    @property
    def last_wait_days(self) -> int:
        """Whole days from the last coat until it may be used with care. [d]"""
        last_h = self.coats[-1].at_h if self.coats else 0.0
        return ceil((self.light_use_h - last_h) / 24.0 - 1e-9)


def drying(system: FinishSystem, count: int, *, shop_c: float, shop_rh: float = 0.5) -> Drying:
    r"""Timetable of the coats in a shop.

    Parameters
    ----------
    system
        The finish.
    count
        Coats. [1]
    shop_c, shop_rh
        Air of the shop: temperature [degC] and relative humidity [1].

    Raises
    ------
    InputError
        ``too_cold_to_finish``, ``too_hot_to_finish``.

    Notes
    -----
    .. math:: f = 2^{(T_{label} - T)/10}

    Stretching by 2 for 10 degC is from memory, and it is never shortened below the label's own time.
    """
    if shop_c < system.least_c:
        raise _outside(
            system, shop_c, code="too_cold_to_finish", remedy="Heat the shop, nights too, until it has cured."
        )
    if shop_c > system.most_c:
        raise _outside(
            system, shop_c, code="too_hot_to_finish", remedy="Work in the cool of the day, out of the sun."
        )
    factor = max(TEN_DEGREES ** ((system.label_c - shop_c) / 10.0), 1.0)
    recoat = system.recoat_h * factor
    last = recoat * max(count - 1, 0)
    notes: list[str] = []
    if factor > 1.0:
        notes.append(
            f"The shop is {system.label_c - shop_c:.0f} degC colder than the label's {system.label_c:.0f}: "
            f"times are stretched {factor:.2f} times, a rule from memory. Try the last coat with a fingertip."
        )
    if shop_rh > system.damp_rh:
        most = f"{100 * system.damp_rh:.0f} %"
        notes.append(
            f"At {100 * shop_rh:.0f} % humidity it dries slower than reckoned: it takes {most} at most."
        )
    return Drying(
        factor=factor,
        recoat_h=recoat,
        coats=tuple(CoatTime(number=k + 1, at_h=k * recoat) for k in range(count)),
        light_use_h=last + system.light_use_h * factor,
        full_use_h=last + system.full_use_h * factor,
        notes=tuple(notes),
    )


def _outside(system: FinishSystem, shop_c: float, *, code: str, remedy: str) -> InputError:
    return InputError(
        code=code,
        field="shop.temperature",
        value=f"{shop_c:g} degC",
        rule=f"must lie in {system.least_c:g}..{system.most_c:g} degC for {system.name}",
        remedy=remedy,
    )


_OILY = {FinishKind.DRYING_OIL, FinishKind.OIL_VARNISH, FinishKind.FILM_VARNISH, FinishKind.HARD_WAX_OIL}
_FUMES = {FinishKind.LACQUER, FinishKind.SHELLAC, FinishKind.OIL_VARNISH, FinishKind.FILM_VARNISH}


def cautions(system: FinishSystem) -> tuple[str, ...]:
    """The usual cautions for a finish; the product's own label and safety data sheet come first.

    References
    ----------
    .. [1] OSHA 29 CFR 1926.252(e): oily rags kept in fire-resistant covered containers.
    """
    found = ["Read the product's label and safety data sheet; they come before anything said here."]
    if system.oily_rags or system.kind in _OILY:
        found.append(
            "Rags wet with it heat up by themselves and catch fire, from an hour to days later: "
            "spread them flat, "
            "single, outdoors to harden, or keep them in a closed metal can filled with water."
        )
    if system.flammable or system.kind in _FUMES:
        found.append("Its vapor burns: open the windows, and keep flames, sparks and heaters away.")
    found.append("Gloves and fresh air; sanding between coats makes dust that wants extraction and a mask.")
    return tuple(found)
