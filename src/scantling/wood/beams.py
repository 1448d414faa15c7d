"""Deflection of straight beams, by bending and by shear."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum

from scantling.errors import InputError

__all__ = [
    "Creep",
    "Deflection",
    "Loading",
    "Section",
    "amplified_by_axial_load_mm",
    "beam_deflection",
    "buckling_load_n",
]


class Loading(Enum):
    """How a beam is loaded and held: ``k_b`` and ``k_s`` of the Wood Handbook, Table 9-1. [1]"""

    UNIFORM_SUPPORTED = (5 / 384, 1 / 8)
    UNIFORM_CLAMPED = (1 / 384, 1 / 8)
    MIDDLE_SUPPORTED = (1 / 48, 1 / 4)
    MIDDLE_CLAMPED = (1 / 192, 1 / 4)
    QUARTERS_SUPPORTED_AT_MIDDLE = (11 / 768, 1 / 8)
    QUARTERS_SUPPORTED_AT_LOAD = (1 / 96, 1 / 8)
    UNIFORM_CANTILEVER = (1 / 8, 1 / 2)
    END_CANTILEVER = (1 / 3, 1.0)

    @property
    def bending(self) -> float:
        """Constant of the bending part. [1]"""
        return self.value[0]

    @property
    def shear(self) -> float:
        """Constant of the shear part. [1]"""
        return self.value[1]


class Creep(Enum):
    """Final over first deflection under lasting load. [1]

    National Design Specification for Wood Construction, 3.5.2 (recalled): seasoned and dry 1.5; unseasoned,
    or in changing damp, 2.0.
    """

    DRY = 1.5
    DAMP = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Second moment and shear area of a cross-section.

    Parameters
    ----------
    second_moment_mm4
        About the axis of bending. [mm4]
    shear_area_mm2
        Area that counts for shear. [mm2]
    """

    second_moment_mm4: float
    shear_area_mm2: float

    @classmethod
    def rectangle(cls, *, breadth_mm: float, depth_mm: float) -> Section:
        """A rectangle bent over its depth: ``b h^3 / 12`` and ``5 b h / 6``."""
        _positive(breadth_mm=breadth_mm, depth_mm=depth_mm)
        return cls(
            second_moment_mm4=breadth_mm * depth_mm**3 / 12.0,
            shear_area_mm2=5.0 * breadth_mm * depth_mm / 6.0,
        )

    @classmethod
    def circle(cls, *, diameter_mm: float) -> Section:
        """A round: ``pi d^4 / 64`` and ``9 pi d^2 / 40``."""
        _positive(diameter_mm=diameter_mm)
        return cls(
            second_moment_mm4=math.pi * diameter_mm**4 / 64.0,
            shear_area_mm2=9.0 * math.pi * diameter_mm**2 / 40.0,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Deflection:
    """Deflection of a beam when the load comes on.

    Parameters
    ----------
    bending_mm, shear_mm
        Its two parts. [mm]
    """

    bending_mm: float
    shear_mm: float

    @property
    def total_mm(self) -> float:
        """Both together. [mm]"""
        return self.bending_mm + self.shear_mm

    def final_mm(self, creep: Creep) -> float:
        """After years under the load. [mm]"""
        return creep.value * self.total_mm


def _positive(**values: float) -> None:
    for field, value in values.items():
        if not value > 0.0:
            raise InputError(code="not_positive", field=field, value=value, rule="must be greater than 0")


def beam_deflection(
    load_n: float, section: Section, *, span_mm: float, loading: Loading, modulus_mpa: float, shear_mpa: float
) -> Deflection:
    r"""Deflection of a straight beam.

    Parameters
    ----------
    load_n
        Total load, also where it is spread evenly. [N]
    section
        Cross-section.
    span_mm
        Between supports, or of the cantilever. [mm] > 0.
    loading
        Loads and supports.
    modulus_mpa
        Modulus of elasticity: the one along the grain where shear is counted, the tabulated one of the
        bending test with an infinite ``shear_mpa``. [MPa] > 0.
    shear_mpa
        Shear modulus in the plane of bending: along and tangential for flat-sawn vertical faces. [MPa] > 0.

    Returns
    -------
    Deflection
        Its bending and shear parts.

    Raises
    ------
    InputError
        ``not_positive``.

    Notes
    -----
    .. math:: \delta = \frac{k_b W L^3}{EI} + \frac{k_s W L}{GA'}      (eq. 9-2 of [1]_)

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 9, eq. 9-2 and Table 9-1.

    Examples
    --------
    >>> sag = beam_deflection(392.27, Section.rectangle(breadth_mm=250, depth_mm=19), span_mm=900,
    ...     loading=Loading.UNIFORM_SUPPORTED, modulus_mpa=12_550, shear_mpa=1.1 * 12_550 / 16)
    >>> round(sag.bending_mm, 4), round(sag.shear_mm, 4)
    (2.0763, 0.0129)
    """
    _positive(span_mm=span_mm, modulus_mpa=modulus_mpa, shear_mpa=shear_mpa)
    bending = loading.bending * load_n * span_mm**3 / (modulus_mpa * section.second_moment_mm4)
    shear = loading.shear * load_n * span_mm / (shear_mpa * section.shear_area_mm2)
    return Deflection(bending_mm=bending, shear_mm=shear)


def buckling_load_n(section: Section, *, length_mm: float, modulus_mpa: float) -> float:
    r"""Load at which a straight column with pin ends gives way: :math:`\pi^2 E I / L^2`. [N]

    Examples
    --------
    >>> round(buckling_load_n(Section.rectangle(breadth_mm=45, depth_mm=45), length_mm=700,
    ...     modulus_mpa=12_000))
    82595
    """
    _positive(length_mm=length_mm, modulus_mpa=modulus_mpa)
    return math.pi**2 * modulus_mpa * section.second_moment_mm4 / length_mm**2


def amplified_by_axial_load_mm(deflection_mm: float, *, load_n: float, buckling_n: float) -> float:
    r"""Deflection once a compression along the beam is added: :math:`\delta_0/(1 - P/P_{cr})`. [mm]

    Raises
    ------
    InputError
        ``column_buckles`` where the load reaches the buckling load.

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 9 (recalled).

    Examples
    --------
    >>> amplified_by_axial_load_mm(2.0, load_n=500.0, buckling_n=1000.0)
    4.0
    """
    if not load_n < buckling_n:
        raise InputError(
            code="column_buckles",
            field="load_n",
            value=load_n,
            rule=f"must be less than the buckling load of {buckling_n:.0f} N",
            remedy="Thicken or shorten the part.",
        )
    return deflection_mm / (1.0 - load_n / buckling_n)
