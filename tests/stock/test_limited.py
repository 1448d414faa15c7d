"""Limits on copies, held against an exhaustive recursion written on its own."""

import json
from functools import cache
from itertools import product
from pathlib import Path
from random import Random

import pytest

from scantling.stock.plates.limited import LimitedPart, Stages, best_limited_cutting
from scantling.stock.plates.plate import Plate
from timber.checking import Asked, faults
from timber.limited import part_list


def exhaustive(length: int, width: int, parts: list[LimitedPart], kerf: int) -> int:
    """The best value over every cut at every whole unit and every way to share out the copies."""

    @cache
    def best(long: int, wide: int, left: tuple[int, ...]) -> int:
        most = 0
        for n, part in enumerate(parts):
            sizes = {(part.length, part.width)} | ({(part.width, part.length)} if part.turns else set())
            if left[n] and any(a <= long and b <= wide for a, b in sizes):
                most = max(most, part.value)
        for here in product(*(range(c + 1) for c in left)):
            if sum(here) == 0 or here == left:
                continue
            there = tuple(a - b for a, b in zip(left, here, strict=True))
            for cut in range(1, long - kerf):
                most = max(most, best(cut, wide, here) + best(long - cut - kerf, wide, there))
            for cut in range(1, wide - kerf):
                most = max(most, best(long, cut, here) + best(long, wide - cut - kerf, there))
        return most

    return best(length, width, tuple(p.copies for p in parts))


@pytest.mark.parametrize("seed", range(25))
def test_random_plates(seed: int) -> None:
    """Small plates, kerf 0 or 1, some parts turned: the same value, proven, and a sound layout."""
    rng = Random(seed)
    kerf = seed % 2
    length, width = rng.randint(5, 8), rng.randint(4, 7)
    parts = [
        LimitedPart(
            length=rng.randint(1, 5),
            width=rng.randint(1, 4),
            value=rng.randint(1, 12),
            copies=rng.randint(1, 2),
            turns=seed % 3 == 0,
        )
        for _ in range(3)
    ]
    result = best_limited_cutting(Plate(length=length, width=width, kerf=kerf), parts)
    assert result.value == exhaustive(length, width, parts, kerf)
    assert result.proven
    asked = Asked(
        plate=(length, width),
        parts=[(p.length, p.width, p.value, p.copies) for p in parts],
        kerf=kerf,
        turns=seed % 3 == 0,
    )
    assert faults(asked, result.placed, result.value) == []


def test_a_part_too_large_yields_nothing() -> None:
    """Nothing fits, nothing is placed, and that is proven."""
    part = LimitedPart(length=9, width=2, value=5, copies=3)
    for stages in Stages:
        result = best_limited_cutting(Plate(length=8, width=8), [part], stages=stages)
        assert (result.value, result.bound, result.placed) == (0, 0, ())


def test_the_time_given_is_kept() -> None:
    """A clock that runs out at once leaves a first layout, and a bound that is not below the optimum, 390."""
    ticks = iter(range(10_000))
    data = Path(__file__).parents[2] / "benchmarks/timber/data/guillotine_knapsack_constrained.json"
    instance = next(i for i in json.loads(data.read_text())["instances"] if i["name"] == "CHL5")
    result = best_limited_cutting(
        Plate(length=20, width=20), part_list(instance), seconds=1.0, clock=lambda: float(next(ticks))
    )
    assert result.bound >= 390 >= result.value > 0
    assert not result.proven
