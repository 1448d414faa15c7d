"""Finish to buy: liters per coat, in all, and in tins."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.errors import InputError
from scantling.finish.system import FinishSystem

__all__ = ["Coats", "coats", "tins"]

SPARE = 1.15
"""Left in tin, tray and brush. [1] Common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Coats:
    """Finish for a piece.

    Parameters
    ----------
    per_coat_l
        Liters of each coat, spare not counted. [L]
    total_l
        With the spare. [L]
    tins_l
        Tins to buy. [L]
    """

    system: str
    shown_coats: int
    hidden_coats: int
    per_coat_l: tuple[float, ...]
    total_l: float
    tins_l: tuple[float, ...]


def coats(
    system: FinishSystem, shown_m2: float, *, shown_coats: int, hidden_m2: float = 0.0, hidden_coats: int = 0
) -> Coats:
    r"""Liters by coat and in all, and the tins that hold them.

    Parameters
    ----------
    shown_m2, hidden_m2
        Areas. [m2]
    shown_coats, hidden_coats
        Coats on each. [1]

    Notes
    -----
    .. math:: V = A\,(v_1 + (k-1)\,v_2) \cdot 1.15

    Spread rates are the label's; the spare is common practice.
    """
    if shown_coats < 0 or hidden_coats < 0:
        raise InputError(
            code="coats_negative",
            field="finish.coats",
            value=min(shown_coats, hidden_coats),
            rule="must be 0 or more",
        )
    each: list[float] = []
    for number in range(max(shown_coats, hidden_coats)):
        area = (shown_m2 if number < shown_coats else 0.0) + (hidden_m2 if number < hidden_coats else 0.0)
        each.append(area * (system.first_l_m2 if number == 0 else system.next_l_m2))
    total = sum(each) * SPARE
    return Coats(
        system=system.name,
        shown_coats=shown_coats,
        hidden_coats=hidden_coats,
        per_coat_l=tuple(each),
        total_l=total,
        tins_l=tins(total, system.tin_l),
    )


def tins(wanted_l: float, sizes_l: tuple[float, ...]) -> tuple[float, ...]:
    """Fewest liters in tins that hold what is wanted, and of those the fewest tins, largest first.

    Examples
    --------
    >>> tins(1.58, (0.5, 1.0, 2.5))
    (1.0, 1.0)
    >>> tins(2.2, (0.5, 1.0, 2.5))
    (2.5,)
    """
    if wanted_l <= 0.0:
        return ()
    largest = max(sizes_l)
    whole = max(math.floor(wanted_l / largest) - 1, 0)
    best: tuple[float, int, tuple[float, ...]] | None = None
    stack: list[tuple[tuple[float, ...], float]] = [((largest,) * whole, wanted_l - whole * largest)]
    while stack:
        chosen, missing = stack.pop()
        if missing <= 1e-9:
            key = (round(sum(chosen), 6), len(chosen), tuple(sorted(chosen, reverse=True)))
            best = key if best is None or key < best else best
            continue
        if len(chosen) - whole < 4 + largest / min(sizes_l):
            last = chosen[-1] if len(chosen) > whole else largest
            stack += [((*chosen, size), missing - size) for size in sizes_l if size <= last]
    assert best is not None
    return best[2]
