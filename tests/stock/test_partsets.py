"""Sets of parts that sheets yield, and the cheapest choice of them, against an exhaustive recursion."""

from functools import cache
from itertools import count, product
from random import Random

import numpy as np
import pytest

from scantling.stock.plates.demand import meet_demand
from scantling.stock.plates.fills import Supply
from scantling.stock.plates.partsets import PartSets, SetDemand
from scantling.stock.plates.settling import Known, settle, tallies
from scantling.stock.plates.sheets import SheetSource
from timber.checking import Asked, faults

Box = tuple[int, int]
Counts = tuple[int, ...]


class Exhaustive:
    """Whether a sheet yields parts, by every cut at every whole unit and every way to share the parts out."""

    def __init__(self, parts: list[Box], kerf: int, turns: bool) -> None:
        self.parts, self.kerf, self.turns = parts, kerf, turns
        self.yields = cache(self._yields)

    def _yields(self, long: int, wide: int, wanted: Counts) -> bool:
        if sum(wanted) == 0:
            return True
        if sum(wanted) == 1:
            a, b = self.parts[wanted.index(1)]
            return (a <= long and b <= wide) or (self.turns and b <= long and a <= wide)
        for here in product(*(range(n + 1) for n in wanted)):
            if not 0 < sum(here) < sum(wanted):
                continue
            there = tuple(a - b for a, b in zip(wanted, here, strict=True))
            along = any(
                self.yields(c, wide, here) and self.yields(long - c - self.kerf, wide, there)
                for c in range(1, long - self.kerf)
            )
            if along or any(
                self.yields(long, c, here) and self.yields(long, wide - c - self.kerf, there)
                for c in range(1, wide - self.kerf)
            ):
                return True
        return False

    def least(self, sheets: list[Box], costs: list[int], wanted: Counts) -> int:
        """The least cost of sheets for all parts."""

        @cache
        def cost(left: Counts) -> float:
            if sum(left) == 0:
                return 0.0
            found = float("inf")
            for some in product(*(range(n + 1) for n in left)):
                if sum(some):
                    fits = [c for s, c in zip(sheets, costs, strict=True) if self.yields(*s, some)]
                    rest = tuple(a - b for a, b in zip(left, some, strict=True))
                    found = min(found, min(fits) + cost(rest)) if fits else found
            return found

        return int(cost(wanted))


def question(seed: int) -> tuple[list[Box], list[Box], Counts, int, bool]:
    """Two sheets, a few parts that fit the first, one or two of each, kerf 0 or 1, turned or not."""
    rng = Random(seed)
    sheets = [(rng.randint(6, 8), rng.randint(5, 7)), (rng.randint(3, 7), rng.randint(3, 6))]
    parts = [(rng.randint(1, 5), rng.randint(1, 4)) for _ in range(4)]
    wanted = tuple(rng.randint(1, 1 + seed % 2) for _ in parts)
    return sheets, parts, wanted, seed // 2 % 2, seed // 4 % 2 == 1


@pytest.mark.parametrize("seed", range(16))
def test_every_set_is_listed(seed: int) -> None:
    """A set is listed if a sheet yields it and not otherwise; its layout is sound."""
    sheets, parts, wanted, kerf, turns = question(seed)
    asked = SetDemand(
        sheets=[(a + kerf, b + kerf) for a, b in sheets],
        parts=[(a + kerf, b + kerf) for a, b in parts],
        wanted=wanted,
        turns=turns,
    )
    sets, truth = PartSets(asked), Exhaustive(parts, kerf, turns)
    assert sets.grow(lambda: False)
    listed = {tuple(row) for layer in sets.layers for row in sets.counts(layer.words).tolist()}
    for some in product(*(range(n + 1) for n in wanted)):
        able = [s for s in sheets if truth.yields(*s, some)]
        assert (some in listed) == (bool(able) and sum(some) > 0)
        for sheet in able if sum(some) else ():
            laid = sets.laid(np.array(some), (sheet[0] + kerf, sheet[1] + kerf))
            bare = [(x, y, long - kerf, wide - kerf, n) for x, y, long, wide, n in laid]
            limits = [(*p, 1, n) for p, n in zip(parts, some, strict=True)]
            assert faults(Asked(plate=sheet, parts=limits, kerf=kerf, turns=turns), bare, sum(some)) == []


@pytest.mark.parametrize("few", [False, True])
@pytest.mark.parametrize("seed", range(16))
def test_the_cheapest_sheets(seed: int, few: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    """The least cost, proven, with all parts on sound sheets; hand rules alone would not do on all.

    Also where there is room for a few boxes at first, and tallies are too many to go through.
    """
    if few:
        monkeypatch.setattr("scantling.stock.plates.partsets.FIRST_ROOM", 1)
        monkeypatch.setattr("scantling.stock.plates.settling.MOST_TALLIES", 1)
    sheets, parts, wanted, kerf, turns = question(seed)
    rng = Random(seed)
    costs, ticks = [rng.randint(20, 40), rng.randint(8, 25)], count()
    result = meet_demand(
        [Supply(cost=c, size=a * b) for c, (a, b) in zip(costs, sheets, strict=True)],
        wanted,
        SheetSource(sheets=sheets, parts=parts, turns=turns, kerf=kerf),
        volumes=[a * b for a, b in parts],
        seconds=2.0,
        clock=lambda: next(ticks) / 1000,
    )
    assert result.cost == Exhaustive(parts, kerf, turns).least(sheets, costs, wanted)
    assert result.proven
    made = sum((fill.counts for fill in result.fills), np.zeros(len(parts), dtype=np.int64))
    assert (made >= wanted).all()
    for fill in result.fills:
        asked = Asked(plate=sheets[fill.supply], parts=[(*p, 1, None) for p in parts], kerf=kerf, turns=turns)
        assert faults(asked, fill.placed, len(fill.placed)) == []
        assert [sum(p[4] == n for p in fill.placed) for n in range(len(parts))] == fill.counts.tolist()


def test_time_runs_out() -> None:
    """Late at once, nothing is listed; and too many kinds of parts for one word are not tried."""
    asked = SetDemand(sheets=[(9, 9)], parts=[(2, 3), (3, 3)], wanted=[1, 1])
    assert not PartSets(asked).grow(lambda: True)
    many = SetDemand(sheets=[(9, 9)], parts=[(2, 3)] * 63, wanted=[1] * 63)
    assert not PartSets(many).grow(lambda: False)


@pytest.mark.parametrize("costs", [(7,), (5, 9), (4, 4, 11), (12, 5, 7, 3)])
def test_tallies_are_all_there(costs: tuple[int, ...]) -> None:
    """Every tally with a cost from the start to before the end, once, cheapest first."""
    found = tallies(np.array(costs), 18, 41)
    assert found is not None
    spent = (found @ np.array(costs)).tolist()
    assert spent == sorted(spent)
    every = {
        some
        for some in product(*(range(41 // c + 1) for c in costs))
        if 18 <= sum(n * c for n, c in zip(some, costs, strict=True)) < 41
    }
    assert len(found) == len(every)
    assert {tuple(row) for row in found.tolist()} == every


@pytest.mark.parametrize("seed", range(16))
def test_covers_hold_for_what_can_be_done(seed: int) -> None:
    """What a search says of all choices holds for one that yields all parts, and nothing cheaper is found."""
    sheets, parts, wanted, kerf, turns = question(seed)
    rng = Random(seed)
    costs = [rng.randint(20, 40), rng.randint(8, 25)]
    supplies = [Supply(cost=c, size=a * b) for c, (a, b) in zip(costs, sheets, strict=True)]
    every = SheetSource(sheets=sheets, parts=parts, turns=turns, kerf=kerf).every(
        supplies, np.array(wanted), lambda: False
    )
    assert every is not None
    settled = settle(supplies, np.array(wanted), every, known=Known(), late=lambda: False)
    assert settled.chosen is not None
    taken = np.bincount([fill.supply for fill in settled.chosen], minlength=2)
    assert all(int(taken @ cover.most) >= cover.need for cover in settled.covers)
    known = Known(below=settled.least, covers=settled.covers)
    again = settle(supplies, np.array(wanted), every, known=known, late=lambda: False)
    assert (again.chosen, again.ended, again.least) == (None, True, settled.least)
    late = settle(supplies, np.array(wanted), every, known=Known(), late=lambda: True)
    assert (late.chosen, late.ended) == (None, False)
    assert late.least <= settled.least
