"""How much a finish slows moisture: published effectiveness, and the resistance it amounts to."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING

from scantling.errors import InputError
from scantling.wood import tables
from scantling.wood.provenance import Provenance

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = ["Exclusion", "exclusions", "find_exclusion", "fitted_resistance_s_mm"]

TEST_THICKNESS_MM = 12.0
"""Thickness of an endless board with the specimens' ratio of volume to surface. [mm] Specimens of
76 x 127 x 16 mm, finished all over (size recalled): 6.0 mm of wood behind each unit of surface."""
TEST_GRAVITY = 0.38
"""Specific gravity of ponderosa pine, green volume. [1] Wood Handbook, Table 5-3."""
_DAYS = (1, 7, 14)


@dataclass(frozen=True, slots=True, kw_only=True)
class Exclusion:
    """Moisture-excluding effectiveness of a finish.

    Parameters
    ----------
    finish
        Name of the published row; empty for bare wood.
    coats
        Coats of that row. [1]
    day_1_pct, day_7_pct, day_14_pct
        Less moisture gained than by bare wood after so many days; ``None`` where unpublished. [%]
    resistance_s_mm
        Resistance to water vapour that reproduces the figures best, see
        :func:`fitted_resistance_s_mm`. [s/mm]
    source
        Where the figures come from.
    is_estimate
        Whether another finish's row stands in, or the figures are of low confidence.
    """

    finish: str
    coats: int
    day_1_pct: float | None = None
    day_7_pct: float | None = None
    day_14_pct: float | None = None
    resistance_s_mm: float = 0.0
    source: Provenance | None = None
    is_estimate: bool = False


BARE = Exclusion(finish="", coats=0)


@cache
def exclusions() -> tuple[Exclusion, ...]:
    """Every published row."""
    return tuple(
        Exclusion(
            finish=row["finish"],
            coats=int(row["coats"]),
            day_1_pct=_number(row["day_1"]),
            day_7_pct=_number(row["day_7"]),
            day_14_pct=_number(row["day_14"]),
            resistance_s_mm=float(row["resistance_s_mm"]),
            source=source,
            is_estimate=source.is_estimate,
        )
        for row, source in tables.exclusion_rows()
    )


def _number(text: str) -> float | None:
    return float(text) if text else None


def find_exclusion(finish: str, *, coats: int) -> Exclusion:
    """The published row for a finish, by its row or its trade name, and a count of coats.

    More coats than published count as the most published, fewer as the fewest.

    Parameters
    ----------
    finish
        ``shellac``, ``film varnish``, ``hard-wax oil``, ``none``...
    coats
        Coats on that face; 0 is bare wood. [1]

    Raises
    ------
    InputError
        ``unknown_finish``, naming those known.

    Examples
    --------
    >>> find_exclusion("shellac", coats=2).day_14_pct
    20.0
    """
    row_name, stands_in = _row_of(finish)
    if coats <= 0 or not row_name:
        return BARE
    rows = sorted((row for row in exclusions() if row.finish == row_name), key=lambda row: row.coats)
    enough = [row for row in rows if row.coats <= coats]
    row = enough[-1] if enough else rows[0]
    if not stands_in:
        return row
    return replace(row, is_estimate=True)


def _row_of(finish: str) -> tuple[str, bool]:
    """Name of the published row a finish is taken as, and whether it only stands in."""
    plain = " ".join(finish.casefold().replace("_", " ").split())
    if any(row.finish == plain for row in exclusions()):
        return plain, False
    names = tables.finish_names()
    found = names.get(plain) or names.get(plain.replace(" ", "-"))
    if found is None:
        raise InputError(
            code="unknown_finish",
            field="finish",
            value=finish[:80],
            rule="must be a finish whose resistance to moisture is known",
            remedy=f"Write one of: {', '.join(names)}.",
        )
    return found


@cache
def _test_curves() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Effectiveness after 1, 7 and 14 days of the published test, over resistance. [s/mm], [%]"""
    import numpy as np

    from scantling.wood.diffusion import Slab, simulate
    from scantling.wood.moisture import emc_pct

    resistances = np.concatenate(([0.0], np.geomspace(0.1, 1e3, 160)))
    start = emc_pct(27.0, 0.30)
    slabs = [
        Slab(
            thickness_mm=TEST_THICKNESS_MM,
            basic_specific_gravity=TEST_GRAVITY,
            mc_pct=start,
            finish_front_s_mm=float(resistance),
            finish_back_s_mm=float(resistance),
        )
        for resistance in resistances
    ]
    hours = 24 * _DAYS[-1]
    past = simulate(slabs, temperature_c=np.full(hours + 1, 27.0), relative_humidity=np.full(hours + 1, 0.90))
    gained = past.mean_pct[list(_DAYS)] - start
    return resistances, 100.0 * (1.0 - gained / gained[:, :1])


def fitted_resistance_s_mm(exclusion: Exclusion) -> float:
    """Resistance to water vapour that reproduces a published effectiveness best.

    The published test is run by :func:`scantling.wood.diffusion.simulate` for a row of resistances; the
    one taken misses the figures of 1, 7 and 14 days least, by squares. The results are kept in
    ``data/moisture_exclusion.csv``.

    Parameters
    ----------
    exclusion
        A published row, or bare wood.

    Returns
    -------
    float
        Resistance of the finish alone. [s/mm] 0 for bare wood.
    """
    import numpy as np

    printed = (exclusion.day_1_pct, exclusion.day_7_pct, exclusion.day_14_pct)
    known = [(at, value) for at, value in enumerate(printed) if value is not None]
    if not known:
        return 0.0
    resistances, curves = _test_curves()
    misfit = sum((curves[at] - value) ** 2 for at, value in known)
    return float(resistances[int(np.argmin(misfit))])
