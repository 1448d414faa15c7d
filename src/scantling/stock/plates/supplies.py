"""How many pieces of each stock size are bought at least: the next sum of costs that a bound allows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import reduce
from math import ceil, gcd, isfinite

from scantling.stock.choosing.master import quiet_solver
from scantling.stock.plates.fills import Supply, stop_when

__all__ = ["next_sum"]

SURE = Fraction(1, 10**7)


def next_sum(
    supplies: Sequence[Supply], *, at_least: Fraction, material: int, late: Callable[[], bool]
) -> int:
    """The least cost of whole pieces that is not below a bound and holds the material; late, a lower one."""
    from highspy import _core

    step = reduce(gcd, (s.cost for s in supplies))
    floor_cost = ceil(at_least / step - SURE) * step
    model = quiet_solver()
    model.setOptionValue("mip_rel_gap", 0.0)
    stop_when(model, late)
    infinite = model.getInfinity()
    model.addRow(float(material), infinite, 0, [], [])
    model.addRow(float(floor_cost), infinite, 0, [], [])
    for column, supply in enumerate(supplies):
        most = infinite if supply.limit is None else float(supply.limit)
        model.addCol(float(supply.cost), 0.0, most, 2, [0, 1], [float(supply.size), float(supply.cost)])
        model.changeColIntegrality(column, _core.HighsVarType.kInteger)
    model.run()
    if model.getModelStatus() == _core.HighsModelStatus.kInfeasible:
        return floor_cost
    if not isfinite(model.getInfo().mip_dual_bound):  # late before anything was proven
        return floor_cost
    proven = Fraction(model.getInfo().mip_dual_bound).limit_denominator(10**6)
    return max(floor_cost, ceil(proven / step - SURE) * step)
