"""Weights, volumes and temperatures as a maker who works in inches has them: ounces, quarts, Fahrenheit."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.units.boardmeasure import MM3_PER_BOARD_FOOT
from scantling.units.show import show_number

__all__ = ["Measure", "celsius_words", "gram_words", "liter_words", "measure_of"]

_LB_PER_KG = 1.0 / 0.45359237
"""International avoirdupois pound, exact; 16 ounces."""
_LBF_PER_N = 1.0 / 4.4482216152605
"""Pound-force of standard gravity, exact."""
_FT_PER_M = 1.0 / 0.3048
_QT_PER_L = 1.0 / 0.946352946
"""US liquid quart, exact (57.75 cubic inches); 32 fluid ounces, a quarter of a gallon."""
_BF_PER_M3 = 1e9 / float(MM3_PER_BOARD_FOOT)
_PSI_PER_MPA = 1e6 / 6894.757293168


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """A unit and how many of it one metric unit is.

    Parameters
    ----------
    per
        Of ``unit`` in one of the metric unit.
    digits
        Decimals shown.
    """

    unit: str
    per: float
    digits: int = 0

    def number(self, metric: float) -> str:
        """The figure, without its unit."""
        return show_number(metric * self.per, digits=self.digits)


_FIXED = {
    "kg": Measure(unit="lb", per=_LB_PER_KG, digits=1),
    "N m": Measure(unit="lbf ft", per=_LBF_PER_N * _FT_PER_M),
    "N": Measure(unit="lbf", per=_LBF_PER_N),
    "kN": Measure(unit="lbf", per=1000.0 * _LBF_PER_N),
    "MPa": Measure(unit="psi", per=_PSI_PER_MPA),
    "m²": Measure(unit="ft²", per=_FT_PER_M**2, digits=1),
    "cm²": Measure(unit="in²", per=1.0 / 2.54**2, digits=1),
    "cm³": Measure(unit="in³", per=1.0 / 2.54**3, digits=1),
    "m³": Measure(unit="bf", per=_BF_PER_M3, digits=1),
    "g/m²": Measure(unit="oz/ft²", per=16e-3 * _LB_PER_KG / _FT_PER_M**2, digits=2),
}


def measure_of(unit: str, largest: float) -> Measure:
    """The unit for figures up to a size.

    Parameters
    ----------
    unit
        Metric: ``g``, ``L``, ``kg``, ``N``, ``kN``, ``N m``, ``MPa``, ``m²``, ``cm²``, ``cm³``, ``m³`` or
        ``g/m²``.
    largest
        The largest figure, in that unit.
    """
    if unit == "g":
        ounces = Measure(unit="oz", per=16e-3 * _LB_PER_KG, digits=1)
        if ounces.per * largest >= 16.0:
            return Measure(unit="lb", per=1e-3 * _LB_PER_KG, digits=2)
        return ounces if ounces.per * largest >= 1.0 else Measure(unit="oz", per=ounces.per, digits=2)
    if unit == "L":
        if _QT_PER_L * largest < 1.0:
            return Measure(unit="fl oz", per=32.0 * _QT_PER_L, digits=1)
        if _QT_PER_L * largest < 4.0:
            return Measure(unit="qt", per=_QT_PER_L, digits=2)
        return Measure(unit="gal", per=_QT_PER_L / 4.0, digits=2)
    return _FIXED[unit]


def gram_words(grams: float, *, inch: bool) -> str:
    """A small weight with its unit.

    Examples
    --------
    >>> gram_words(53.0, inch=False), gram_words(53.0, inch=True), gram_words(1.2, inch=True)
    ('53 g', '1.9 oz', '0.04 oz')
    >>> gram_words(0.4, inch=False)
    'under 1 g'
    """
    if not inch:
        return "under 1 g" if 0.0 < grams < 0.5 else f"{grams:.0f} g"
    measure = measure_of("g", grams)
    return f"{measure.number(grams)} {measure.unit}"


def liter_words(liters: float, *, inch: bool) -> str:
    """A volume of liquid with its unit, US measure.

    Examples
    --------
    >>> liter_words(1.12, inch=False), liter_words(1.12, inch=True), liter_words(0.5, inch=True)
    ('1.12 L', '1.18 qt', '16.9 fl oz')
    """
    if not inch:
        return f"{show_number(liters, digits=2)} L"
    measure = measure_of("L", liters)
    return f"{measure.number(liters)} {measure.unit}"


def celsius_words(celsius: float, *, inch: bool) -> str:
    """A temperature with its unit, to a degree.

    Examples
    --------
    >>> celsius_words(20.0, inch=False), celsius_words(20.0, inch=True)
    ('20 °C', '68 °F')
    """
    return f"{celsius * 1.8 + 32.0:.0f} °F" if inch else f"{celsius:.0f} °C"
