"""Sanding: the sequence of grits, minutes, and discs or sheets."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from scantling.errors import InputError

__all__ = ["GRITS", "Sanding", "SandingRates", "SandingStep", "grit_sequence", "sanding", "sanding_with"]

GRITS = (60, 80, 100, 120, 150, 180, 220, 240, 280, 320, 400)
"""Grits on sale. [grit]"""
STEP = 1.5
"""Greatest ratio between two grits that leaves no scratches behind. [1] Common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SandingRates:
    """How fast it goes and how much it uses; common practice, to be replaced by one's own.

    Parameters
    ----------
    flat_min_m2, edge_min_m2
        Per grit. [min/m2]
    disc_m2
        Area a disc lasts. [m2]
    """

    flat_min_m2: float = 10.0
    edge_min_m2: float = 20.0
    disc_m2: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class SandingStep:
    """One grit. [min], discs"""

    grit: int
    minutes: float
    discs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Sanding:
    """All the grits in order."""

    steps: tuple[SandingStep, ...]
    minutes: float


def grit_sequence(first: int, last: int) -> tuple[int, ...]:
    r"""Grits from the coarsest to the finest, each as coarse as the step from the one before allows.

    Notes
    -----
    Steps after the first: :math:`\lceil \ln(g_{end}/g_0) / \ln 1.5 \rceil`; grits on sale nearest to equal
    ratios are taken. Common practice.

    Examples
    --------
    >>> grit_sequence(80, 220)
    (80, 120, 180, 220)
    >>> grit_sequence(120, 180)
    (120, 180)
    """
    for name, value in (("first", first), ("last", last)):
        if value not in GRITS:
            raise InputError(
                code="unknown_grit",
                field=f"sanding.{name}",
                value=value,
                rule=f"must be one of {list(GRITS)}",
            )
    if last < first:
        raise InputError(
            code="grits_backwards",
            field="sanding.last",
            value=last,
            rule=f"must not be coarser than the first grit, {first}",
        )
    chosen = [first]
    while chosen[-1] < last:
        reachable = [g for g in GRITS if chosen[-1] < g <= min(chosen[-1] * STEP * 1.001, last)]
        chosen.append(max(reachable) if reachable else min(g for g in GRITS if g > chosen[-1]))
    return tuple(chosen)


def sanding(
    flat_m2: float,
    *,
    first_grit: int,
    last_grit: int,
    edge_m2: float = 0.0,
    rates: SandingRates | None = None,
) -> Sanding:
    """Grits, minutes and discs for an area.

    Parameters
    ----------
    flat_m2, edge_m2
        Faces, and ends and narrow faces (twice as slow). [m2]
    """
    pace = rates or SandingRates()
    paces = dict.fromkeys(grit_sequence(first_grit, last_grit), pace)
    return sanding_with(flat_m2, paces=paces, edge_m2=edge_m2)


def sanding_with(flat_m2: float, *, paces: Mapping[int, SandingRates], edge_m2: float = 0.0) -> Sanding:
    """Minutes and discs for grits already chosen, each at its own pace.

    Parameters
    ----------
    flat_m2, edge_m2
        Faces, and ends and narrow faces. [m2]
    paces
        By grit; they are taken in order, the coarsest first.
    """
    steps = tuple(
        SandingStep(
            grit=grit,
            minutes=flat_m2 * pace.flat_min_m2 + edge_m2 * pace.edge_min_m2,
            discs=math.ceil((flat_m2 + edge_m2) / pace.disc_m2 - 1e-9),
        )
        for grit, pace in sorted(paces.items())
    )
    return Sanding(steps=steps, minutes=sum(step.minutes for step in steps))


def least_steps(first: int, last: int) -> int:
    """Steps after the first grit that the greatest ratio asks for. [1]"""
    return math.ceil(math.log(last / first) / math.log(STEP) - 1e-9)
