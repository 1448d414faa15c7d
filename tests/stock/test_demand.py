"""All parts from stock of several sizes, held against exhaustive search and published plates."""

import json
from functools import cache
from itertools import islice, product
from pathlib import Path
from random import Random

import pytest

from scantling.stock.plates.demand import meet_demand
from scantling.stock.plates.fills import Supply
from scantling.stock.plates.lengths import LengthSource
from timber.demands import plate_sets

DATA = Path(__file__).parents[2] / "benchmarks" / "timber" / "data"


def exhaustive(stock: list[tuple[int, int, int]], parts: list[int], wanted: list[int]) -> int | None:
    """The least cost by trying every fill of every stock length, one piece after the other."""

    @cache
    def least(left: tuple[int, ...], there: tuple[int, ...]) -> float:
        if not any(left):
            return 0.0
        best = float("inf")
        for s, (length, cost, _) in enumerate(stock):
            if not there[s]:
                continue
            rest = tuple(n - (k == s) for k, n in enumerate(there))
            for counts in product(*(range(n + 1) for n in left)):
                used = sum(c * p for c, p in zip(counts, parts, strict=True))
                if any(counts) and used <= length:
                    best = min(
                        best, cost + least(tuple(a - b for a, b in zip(left, counts, strict=True)), rest)
                    )
        return best

    found = least(tuple(wanted), tuple(n for *_, n in stock))
    return None if found == float("inf") else int(found)


@pytest.mark.parametrize("seed", range(20))
def test_random_lengths(seed: int) -> None:
    """Two stock lengths in small numbers: the least cost, and no bound above it."""
    rng = Random(seed)
    stock = [
        (rng.randint(8, 12), rng.randint(8, 12), 3),
        (rng.randint(5, 8), rng.randint(4, 8), rng.randint(0, 3)),
    ]
    parts = sorted({rng.randint(2, 7) for _ in range(3)})
    wanted = [rng.randint(1, 2) for _ in parts]
    result = meet_demand(
        [Supply(cost=cost, size=length, limit=limit) for length, cost, limit in stock],
        wanted,
        LengthSource([length for length, *_ in stock], parts),
        volumes=parts,
        seconds=2.0,
    )
    least = exhaustive(stock, parts, wanted)
    assert result.cost == least
    assert least is None or result.bound <= least
    made = [sum(int(f.counts[n]) for f in result.fills) for n in range(len(parts))]
    assert least is None or all(m >= w for m, w in zip(made, wanted, strict=True))
    for fill in result.fills:
        assert sum(int(c) * p for c, p in zip(fill.counts, parts, strict=True)) <= stock[fill.supply][0]


def test_published_plates() -> None:
    """Berkey and Wang 1987, class 1: two instances of equal plates at their best known number, sound."""
    known = {i["name"]: i["known"] for i in json.loads((DATA / "bin_packing.json").read_text())["instances"]}
    for line in islice(plate_sets(quick=True, seconds=20.0), 4):
        turned = "_rotated" if line["set"].endswith("turned") else ""
        best = known[line["instance"]][f"three_stage_first_horizontal{turned}"]["value"]
        assert line["sound"]
        assert line["bound"] <= best
        assert line["objective"] == best
