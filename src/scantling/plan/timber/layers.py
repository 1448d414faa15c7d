"""Laminations from the boards at hand: how many layers of which stock, by what the boards cost."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice, product

from scantling.piece.model import PartKind
from scantling.plan.cache import Cache
from scantling.plan.job import Job
from scantling.plan.parts import mill_parts
from scantling.plan.timber.needs import request_of
from scantling.plan.timber.stockways import fixed_stock, other_ways
from scantling.shop.profile.yard import Nominal
from scantling.shop.sizes.lamination import LayerOption, plan_layers
from scantling.shop.sizes.size import FinishedSize
from scantling.stock.racks.benchnotes import begun_by, notes_about
from scantling.stock.racks.rack import Rack
from scantling.stock.solving.engine import Method
from scantling.stock.solving.matching import layout_key
from scantling.stock.solving.solve import LayoutAnswer, LayoutRequest, StopRule, solve

__all__ = ["cheapest_layers"]

_MOST_WAYS = 12
"""Ways of building all laminations that are tried."""
_SEED = 1

Built = tuple[FinishedSize, ...]


def cheapest_layers(
    job: Job, rack: Rack, finished: Built, *, offered: tuple[Nominal, ...] | None, cache: Cache
) -> Built:
    """The parts with the layers of each lamination chosen so that the rack holds more, or costs less.

    Every way is laid out by hand rules. The usual one, of the fewest glue lines, is kept unless another is
    better; parts drawn as copies of one are built alike.

    Parameters
    ----------
    job, rack
        The piece, its shop, and the boards with their names in full.
    finished
        The parts.
    offered
        Thicknesses of the boards.
    cache
        Keeps milling and choice.
    """
    choices = _choices(job, finished, offered)
    if not choices:
        return finished

    def chosen() -> Built:
        ways = [finished, *islice(_built(finished, choices), _MOST_WAYS)]
        return min(ways, key=lambda way: _rank(job, rack, way, offered=offered, cache=cache))

    return cache.answer("layers", (job.piece, job.shop, rack, finished, offered), chosen)


def _choices(
    job: Job, finished: Built, offered: tuple[Nominal, ...] | None
) -> dict[str, tuple[LayerOption, ...]]:
    """Ways of building each lamination, by the entry of its copies; none where there is no choice."""
    found = {}
    for part in finished:
        if part.kind is PartKind.LAMINATION and part.like not in found:
            options = plan_layers(part, job.shop, offered=offered).options
            known = tuple(option for option in options if option.quarters is not None)
            if len(known) > 1:
                found[part.like] = known
    return found


def _built(finished: Built, choices: dict[str, tuple[LayerOption, ...]]) -> Iterator[Built]:
    for picked in product(*choices.values()):
        of = dict(zip(choices, picked, strict=True))
        yield tuple(_of_layers(part, of[part.like]) if part.like in of else part for part in finished)


def _of_layers(part: FinishedSize, option: LayerOption) -> FinishedSize:
    assert option.quarters is not None
    return replace(part, layer_count=option.layers, layer_quarters=(option.quarters,))


def _rank(
    job: Job, rack: Rack, way: Built, *, offered: tuple[Nominal, ...] | None, cache: Cache
) -> tuple[float, float, float]:
    """How good a quick layout of a way is: smaller is better."""
    ledgers = mill_parts(way, job.shop, cache, offered=offered)
    request = begun_by(request_of(job, rack, way, ledgers), notes_about(rack.notes, rack.boards)).request
    wider = other_ways(request, job.shop, fixed=fixed_stock(job.piece))
    wider = replace(wider, wishes=request.wishes)  # whether leaves are resawn is left to the thorough search
    return layout_key(_quick(wider).layout, wider)


def _quick(request: LayoutRequest) -> LayoutAnswer:
    stop = StopRule(rounds=1, method=Method.QUICK)
    *_, last = solve(request, stop=stop, seed=_SEED)
    return last
