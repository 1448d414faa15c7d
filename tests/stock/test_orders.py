"""Parts in an order, cut as well as it can be: sheets cut up at random are put together again."""

from functools import cache
from random import Random

import numpy as np
import pytest

from scantling.stock.plates.fills import Supply
from scantling.stock.plates.orderloops import NOTHING, curves_of, shared_out
from scantling.stock.plates.orders import order_parts
from scantling.stock.plates.packing import SheetDemand
from scantling.stock.plates.settling import Known, settle
from scantling.stock.plates.sheets import SheetSource
from tests.stock.test_partsets import Exhaustive, question
from timber.checking import Asked, faults


def pieces(rng: Random, box: tuple[int, int], cuts: int) -> list[tuple[int, int]]:
    """A sheet cut edge to edge so many times, at random."""
    long, wide = box
    if not cuts or max(box) < 4:
        return [box]
    first = rng.randint(0, cuts - 1)
    if long >= wide:
        at = rng.randint(2, long - 2)
        halves = (at, wide), (long - at, wide)
    else:
        at = rng.randint(2, wide - 2)
        halves = (long, at), (long, wide - at)
    return pieces(rng, halves[0], first) + pieces(rng, halves[1], cuts - 1 - first)


@pytest.mark.parametrize("seed", range(6))
def test_sheets_are_put_together_again(seed: int) -> None:
    """Two sheets without waste, also of parts turned and of sheets looked at in coarser units."""
    rng, scale = Random(seed), 12 if seed == 5 else 1
    boxes = [(60, 40), (50, 45)]
    parts = [p for box in boxes for p in pieces(rng, box, 5)]
    turns = seed % 2 == 1
    if turns:
        parts = [p if rng.random() < 0.5 else p[::-1] for p in parts]
    sizes = [(a * scale, b * scale) for a, b in [*boxes, (90, 90)]]
    parts = [(a * scale, b * scale) for a, b in parts]
    costs, asked = [24, 23, 60], 0
    demand = SheetDemand(
        sizes=sizes,
        costs=costs,
        limits=[None, 1, None],
        parts=parts,
        wanted=[1] * len(parts),
        turns=turns,
    )

    def late() -> bool:
        nonlocal asked
        asked += 1
        return asked > 400

    found = list(order_parts(demand, below=60, late=late))
    assert found
    assert found[-1].cost in (47, 48)
    assert sum(costs[s.kind] for s in found[-1].sheets) == found[-1].cost
    placed = [p for s in found[-1].sheets for p in s.placed]
    assert sorted(n for *_, n in placed) == list(range(len(parts)))
    for sheet in found[-1].sheets:
        rules = Asked(plate=sizes[sheet.kind], parts=[(*p, 1, 1) for p in parts], turns=turns)
        assert faults(rules, sheet.placed, len(sheet.placed)) == []


def test_many_parts_or_a_late_call_give_nothing() -> None:
    """A search by order is for few parts, and never begins late."""
    few = SheetDemand(sizes=[(9, 9)], costs=[1], limits=[None], parts=[(2, 3)], wanted=[1])
    many = SheetDemand(sizes=[(9, 9)], costs=[1], limits=[None], parts=[(2, 3)], wanted=[200])
    assert list(order_parts(few, below=2, late=lambda: True)) == []
    assert list(order_parts(many, below=99, late=lambda: False)) == []
    assert [p.cost for p in order_parts(few, below=2, late=lambda: False)] == [1]


Sizes = frozenset[tuple[int, int]]


def sizes_of_runs(order: list[int], poses: list[Sizes]) -> dict[tuple[int, int], Sizes]:
    """Length and width of every box that two shorter runs side by side or one on the other make."""

    @cache
    def sizes(first: int, last: int) -> Sizes:
        if first == last:
            return poses[order[first]]
        found = set()
        for cut in range(first, last):
            for a, b in sizes(first, cut):
                for c, d in sizes(cut + 1, last):
                    found |= {(a + c, max(b, d)), (max(a, c), b + d)}
        return frozenset(found)

    return {(a, b): sizes(a, b) for a in range(len(order)) for b in range(a, len(order))}


@pytest.mark.parametrize("seed", range(10))
def test_curves_and_lacks_are_those_of_every_nesting(seed: int) -> None:
    """The least width by length and the other way round, the lack of each run, the least of a whole order.

    Also where only what changed is worked out anew.
    """
    rng, turns, size, none = Random(seed), seed % 2 == 1, 32, 31
    parts = [(rng.randint(1, 6), rng.randint(1, 6)) for _ in range(6)]
    poses = [frozenset({(a, b), (b, a)} if turns else {(a, b)}) for a, b in parts]
    sheets, ends = [(9, 7), (6, 11)], (12, 14)
    alone = np.full((2, len(parts), size), none, dtype=np.uint8)
    for copy, some in enumerate(poses):
        for long, wide in some:
            alone[0, copy, long:] = np.minimum(alone[0, copy, long:], wide)
            alone[1, copy, wide:] = np.minimum(alone[1, copy, wide:], long)
    curves = np.zeros((2, len(parts), len(parts), size), dtype=np.uint8)
    lack = np.zeros((2, len(parts), len(parts)), dtype=np.int64)
    before = np.full(len(parts), -1)
    for _ in range(4):
        order = rng.sample(range(len(parts)), len(parts))
        curves_of(
            before,
            np.array(order),
            (alone[0], alone[1]),
            np.array(sheets),
            np.array(ends),
            (curves[0], curves[1], lack),
        )
        before = np.array(order)
        lacks: dict[tuple[int, int, int], int] = {}
        for (first, last), every in sizes_of_runs(order, poses).items():
            inside = [(a, b) for a, b in every if a <= ends[0] and b <= ends[1]]
            for kind, (end, top) in enumerate(sheets):
                over = [max(0, b - top) * end + max(0, a - end) * top for a, b in inside]
                lacks[kind, first, last] = min(over, default=NOTHING)
                assert lack[kind, first, last] == lacks[kind, first, last]
            if not inside:
                continue
            for long in range(ends[0] + 1):
                assert curves[0, first, last, long] == min((b for a, b in inside if a <= long), default=none)
            for wide in range(ends[1] + 1):
                assert curves[1, first, last, wide] == min((a for a, b in inside if b <= wide), default=none)
        # one sheet of each kind at most: no run, one, the other, both
        states = np.arange(4)
        more = np.array([states % 2 == 0, states < 2])
        found = shared_out(lack, np.array([1, 2]), more)
        last = len(parts) - 1
        both = [
            lacks[kind, 0, cut] + lacks[1 - kind, cut + 1, last] for cut in range(last) for kind in range(2)
        ]
        assert found[-1].tolist()[1:] == [
            min(NOTHING, n) for n in (lacks[0, 0, last], lacks[1, 0, last], min(both))
        ]


@pytest.mark.parametrize("seed", range(12))
def test_sets_of_the_largest_parts_bound_the_cost(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Never above the least cost, and with all parts among them that cost itself."""
    monkeypatch.setattr("scantling.stock.plates.sheets.LEAST_BULKY", 2.0)
    sheets, parts, wanted, kerf, turns = question(seed)
    rng = Random(seed)
    costs = [rng.randint(20, 40), rng.randint(8, 25)]
    supplies = [Supply(cost=c, size=a * b) for c, (a, b) in zip(costs, sheets, strict=True)]
    source = SheetSource(sheets=sheets, parts=parts, turns=turns, kerf=kerf)
    least = Exhaustive(parts, kerf, turns).least(sheets, costs, wanted)
    found = []
    for every, some in source.bulky(supplies, np.array(wanted), lambda: False):
        settled = settle(supplies, some, every, known=Known(), late=lambda: False)
        assert settled.chosen is not None
        found.append(sum(costs[fill.supply] for fill in settled.chosen))
        assert float(settled.relaxed) <= found[-1] + 1e-6
        assert settled.least == found[-1]
    assert len(found) > 1
    assert found == sorted(found)
    assert found[-1] == least
