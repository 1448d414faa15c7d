"""Deflection of shelves, tops and rails, with shear and with time."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import Enum
from math import ceil, floor

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding, InputError
from scantling.wood.species import Species

__all__ = ["Beam", "Creep", "Loading", "Sag", "check", "inertia_with_edge_mm4", "of_species", "sag"]

EDGE_WIDE_MM = 19.0
"""Width of the strip offered under an edge: what 4/4 leaves when planed (common practice). [mm]"""


class Loading(Enum):
    """Load and ends, with the bending and shear factors of Wood Handbook table 9-1. [1]"""

    UNIFORM_SIMPLE = (5.0 / 384.0, 1.0 / 8.0)
    UNIFORM_CLAMPED = (1.0 / 384.0, 1.0 / 8.0)
    MIDDLE_SIMPLE = (1.0 / 48.0, 1.0 / 4.0)
    MIDDLE_CLAMPED = (1.0 / 192.0, 1.0 / 4.0)
    QUARTERS_SIMPLE = (11.0 / 768.0, 1.0 / 8.0)
    UNIFORM_CANTILEVER = (1.0 / 8.0, 1.0 / 2.0)
    END_CANTILEVER = (1.0 / 3.0, 1.0)


class Creep(Enum):
    """Long-term over first deflection. [1] National Design Specification 3.5.2."""

    DRY = 1.5
    VARIABLE = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A board on edge or flat, bearing a load.

    Parameters
    ----------
    span_mm, width_mm, depth_mm
        Clear span; across; in the direction of the load. [mm]
    moe_mpa
        Along the grain, as published from bending (shear included). [MPa]
    shear_modulus_mpa
        [MPa]
    load_n
        Total load, the beam itself with it. [N]
    own_n
        Of that, the beam itself: it grows with the depth. [N]
    inertia_mm4
        Second moment of area; None takes the rectangle. [mm4]
    """

    span_mm: float
    width_mm: float
    depth_mm: float
    moe_mpa: float
    shear_modulus_mpa: float
    load_n: float
    loading: Loading = Loading.UNIFORM_SIMPLE
    creep: Creep = Creep.DRY
    inertia_mm4: float | None = None
    own_n: float = 0.0

    @property
    def second_moment_mm4(self) -> float:
        """B d^3 / 12, or what was given. [mm4]"""
        if self.inertia_mm4 is not None:
            return self.inertia_mm4
        return self.width_mm * self.depth_mm**3 / 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Sag:
    """Deflection of a beam.

    Parameters
    ----------
    bending_mm, shear_mm
        Its two parts when first loaded. [mm]
    first_mm, long_term_mm
        When first loaded, and after years. [mm]
    per_m_mm
        Long-term, over the span. [mm/m]
    span_over_sag
        Span over long-term deflection. [1]
    """

    bending_mm: float
    shear_mm: float
    first_mm: float
    long_term_mm: float
    per_m_mm: float
    span_over_sag: float


def sag(beam: Beam) -> Sag:
    r"""Deflection by bending and shear, and after years.

    Notes
    -----
    .. math:: \delta = \frac{k_b W L^3}{E I} + \frac{k_s W L}{G A'},\quad A' = 5bh/6   (eq. 9-2 of [1]_)

    Long-term: times 1.5 for dry seasoned wood, 2.0 in changing humidity [2]_.

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 9, eq. 9-2 and table 9-1.
    .. [2] *National Design Specification for Wood Construction*, 3.5.2.

    Examples
    --------
    >>> shelf = Beam(span_mm=900, width_mm=250, depth_mm=19, moe_mpa=12550,
    ...     shear_modulus_mpa=1.1 * 12550 / 16, load_n=392.27)
    >>> round(sag(shelf).bending_mm, 3)
    2.076
    """
    _check(beam)
    k_bend, k_shear = beam.loading.value
    bending = k_bend * beam.load_n * beam.span_mm**3 / (beam.moe_mpa * beam.second_moment_mm4)
    area = 5.0 * beam.width_mm * beam.depth_mm / 6.0
    shear = k_shear * beam.load_n * beam.span_mm / (beam.shear_modulus_mpa * area)
    first = bending + shear
    later = first * beam.creep.value
    return Sag(
        bending_mm=bending,
        shear_mm=shear,
        first_mm=first,
        long_term_mm=later,
        per_m_mm=1000.0 * later / beam.span_mm,
        span_over_sag=beam.span_mm / later if later > 0.0 else float("inf"),
    )


def _check(beam: Beam) -> None:
    for name in ("span_mm", "width_mm", "depth_mm", "moe_mpa", "shear_modulus_mpa"):
        value = getattr(beam, name)
        if not value > 0.0:
            raise InputError(
                code=f"{name.rsplit('_', 1)[0]}_not_positive", field=name, value=value, rule="must be above 0"
            )
    if beam.load_n < 0.0:
        raise InputError(code="load_negative", field="load_n", value=beam.load_n, rule="must be 0 N or more")


def of_species(wood: Species) -> tuple[float, float]:
    """Modulus of elasticity and shear modulus of a wood. [MPa], [MPa]

    The shear modulus is the published ratio times 1.1 times the bending modulus; a sixteenth where no
    ratio is published.

    Raises
    ------
    InputError
        ``stiffness_unknown``.
    """
    if wood.moe_mpa is None:
        raise InputError(
            code="stiffness_unknown",
            field="species",
            value=wood.name,
            rule="must have a published modulus of elasticity",
            remedy="Give moe_mpa for it in a file of your own species.",
        )
    ratio = wood.glt_per_el if wood.glt_per_el is not None else 1.0 / 16.0
    return wood.moe_mpa, 1.1 * wood.moe_mpa * ratio


def inertia_with_edge_mm4(
    width_mm: float, depth_mm: float, *, edge_width_mm: float, edge_depth_mm: float
) -> float:
    """Second moment of a board with a deeper strip glued under one edge. [mm4]

    Examples
    --------
    >>> plain = 279.4 * 22.225**3 / 12
    >>> round(inertia_with_edge_mm4(279.4, 22.225, edge_width_mm=19.05, edge_depth_mm=38.1) / plain, 2)
    3.66
    """
    areas = (width_mm * depth_mm, edge_width_mm * edge_depth_mm)
    middles = (depth_mm / 2.0, depth_mm + edge_depth_mm / 2.0)
    neutral = sum(a * y for a, y in zip(areas, middles, strict=True)) / sum(areas)
    own = width_mm * depth_mm**3 / 12.0 + edge_width_mm * edge_depth_mm**3 / 12.0
    return own + sum(a * (y - neutral) ** 2 for a, y in zip(areas, middles, strict=True))


def check(where: str, beam: Beam) -> list[Finding]:
    """F46 where a shelf, top or rail sags more than looks right."""
    result = sag(beam)
    ratio = limit("F46", "span_ratio")
    seen = limit("F46", "seen_mm_per_m")
    allowed = min(beam.span_mm / ratio, seen * beam.span_mm / 1000.0)
    if result.long_term_mm <= allowed:
        return []
    per_m = min(1.0 / ratio, seen / 1000.0)
    numbers, ways = _ways_out(beam, per_m)
    return [
        finding(
            "F46",
            where=where,
            message=f"{where} sags {result.first_mm:.1f} mm under {beam.load_n:.0f} N, itself included, over "
            f"{beam.span_mm:.0f} mm, "
            f"{result.long_term_mm:.1f} mm after years; at most {allowed:.1f} mm",
            numbers={
                "first_mm": result.first_mm,
                "long_term_mm": result.long_term_mm,
                "allowed_mm": allowed,
                **numbers,
            },
            advice=f"{', '.join(ways)}, or divide it.",
        )
    ]


def _ways_out(beam: Beam, per_mm: float) -> tuple[dict[str, float], list[str]]:
    """What would do, each by itself, rounded so that it does; what cannot do is not told."""
    span = float(floor(_span(beam, per_mm)))
    numbers, ways = {"span_allowed_mm": span}, [f"Shorten it to {span:.0f} mm"]
    depth, edge = _depth(beam, per_mm), _edge(beam, per_mm)
    if depth is not None:
        numbers["thickness_wanted_mm"] = ceil(10.0 * depth - 1e-9) / 10.0
        ways.append(f"make it {numbers['thickness_wanted_mm']:.1f} mm thick")
    if edge is not None:
        numbers |= {"edge_wide_mm": EDGE_WIDE_MM, "edge_deep_mm": float(ceil(edge - 1e-9))}
        strip = f"{EDGE_WIDE_MM:.0f} mm wide and {numbers['edge_deep_mm']:.0f} mm deep"
        ways.append(f"glue a strip {strip} under one edge")
    return numbers, ways


def _passes(beam: Beam, per_mm: float) -> bool:
    return sag(beam).long_term_mm <= per_mm * beam.span_mm


def _span(beam: Beam, per_mm: float) -> float:
    """Longest span that passes with the same load per length. [mm]"""
    low, high = 0.0, beam.span_mm
    for _ in range(40):
        middle = (low + high) / 2.0
        load = beam.load_n * middle / beam.span_mm
        shorter = replace(beam, span_mm=middle, load_n=load)
        low, high = (middle, high) if _passes(shorter, per_mm) else (low, middle)
    return low


def _edge(beam: Beam, per_mm: float) -> float | None:
    """Least depth of a strip glued under one edge, of the same wood, with which it passes. [mm]

    None where a strip four times as deep as the board is thick does not do.
    """

    def passes(deep: float) -> bool:
        inertia = inertia_with_edge_mm4(
            beam.width_mm, beam.depth_mm, edge_width_mm=EDGE_WIDE_MM, edge_depth_mm=deep
        )
        own = beam.own_n * EDGE_WIDE_MM * deep / (beam.width_mm * beam.depth_mm)
        return _passes(replace(beam, inertia_mm4=inertia, load_n=beam.load_n + own), per_mm)

    low, high = 0.0, 4.0 * beam.depth_mm
    if beam.inertia_mm4 is not None or not passes(high):
        return None
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (low, middle) if passes(middle) else (middle, high)
    return high


def _depth(beam: Beam, per_mm: float) -> float | None:
    """Least depth that passes; None where four times as deep does not do. [mm]"""

    def passes(deep: float) -> bool:
        load = beam.load_n + beam.own_n * (deep / beam.depth_mm - 1.0)
        return _passes(replace(beam, depth_mm=deep, inertia_mm4=None, load_n=load), per_mm)

    low, high = beam.depth_mm, 4.0 * beam.depth_mm
    if not passes(high):
        return None
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (low, middle) if passes(middle) else (middle, high)
    return high
