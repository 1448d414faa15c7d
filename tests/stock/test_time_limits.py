"""Searches end by the clock they are given, and by no other: the clock here moves only when it is asked."""

from dataclasses import dataclass
from random import Random

import numpy as np
import pytest

from scantling.stock.plates.demand import Source, meet_demand
from scantling.stock.plates.fills import Fill, FillMaster, Supply
from scantling.stock.plates.lengths import LengthSource
from scantling.stock.plates.limited import LimitedPart, best_limited_cutting
from scantling.stock.plates.packing import SheetDemand, pack_sheets
from scantling.stock.plates.plate import Plate
from scantling.stock.plates.sheets import SheetSource, StripSource

LIMIT_S = 10.0
MOST_ASKED = 40
"""So often the clock may be asked once the limit is reached: in the finest run that is 0.8 s."""


@dataclass
class Clock:
    """So many seconds go by each time it is asked."""

    tick: float
    now: float = 0.0

    def __call__(self) -> float:
        """The time."""
        self.now += self.tick
        return self.now


def parts_of(count: int, seed: int) -> list[tuple[int, int]]:
    """Parts of many sizes."""
    rng = Random(seed)
    return [(rng.randint(3, 60), rng.randint(3, 60)) for _ in range(count)]


@pytest.mark.parametrize("tick", [0.02, 0.5, 30.0])
@pytest.mark.parametrize("kind", ["sheets", "large sheets", "strips", "lengths"])
def test_all_parts_within_the_limit(kind: str, tick: float) -> None:
    """Whatever part of the search the clock runs out in, it ends there, with a bound not above its answer."""
    clock = Clock(tick)
    sheets = [(100, 100), (80, 97)] if kind != "large sheets" else [(211, 199), (187, 223)]
    parts = parts_of(40, seed=4)
    wanted = [1 if kind.endswith("sheets") else 7] * len(parts)
    volumes = [a * b for a, b in parts]
    supplies = [Supply(cost=a * b + 1, size=a * b) for a, b in sheets]
    source: Source = SheetSource(sheets=sheets, parts=parts, turns=False, clock=clock)
    if kind == "strips":
        source = StripSource(sheets=sheets, parts=parts, turns=True)
    if kind == "lengths":
        lengths = [a * 20 + b for a, b in parts]
        source, volumes = LengthSource([5000, 3119], lengths), lengths
        supplies = [Supply(cost=5003, size=5000), Supply(cost=3121, size=3119, limit=20)]
    result = meet_demand(supplies, wanted, source, volumes=volumes, seconds=LIMIT_S, clock=clock)
    assert clock.now <= LIMIT_S + MOST_ASKED * tick
    assert result.cost is None or result.bound <= result.cost


def test_whole_numbers_end_by_the_clock() -> None:
    """A choice no solver comes to the end of in moments is left when the clock says so."""
    rng, asked = np.random.default_rng(0), 0
    master = FillMaster([Supply(cost=int(c), size=1) for c in rng.integers(50, 150, 200)], np.full(30, 40))
    for number in range(200):
        master.add(Fill(number, rng.integers(1, 9, 30) * (rng.random(30) < 0.2)))

    def late() -> bool:
        nonlocal asked
        asked += 1
        return asked > 20

    none = np.zeros(200, dtype=np.int64)
    found = master.whole(master.wanted, none, late=late, below=1e15)
    assert not found.ended
    assert asked < 40
    assert master.whole(master.wanted, none, late=lambda: True, below=1e15).taken is None


def test_one_plate_ends_by_the_clock() -> None:
    """What one plate yields at most: out of time, with a bound that holds."""
    clock = Clock(0.1)
    parts = [LimitedPart(length=a, width=b, value=a * b, copies=1) for a, b in parts_of(30, seed=2)]
    result = best_limited_cutting(Plate(length=100, width=100), parts, seconds=1.0, clock=clock)
    assert clock.now <= 1.0 + MOST_ASKED * clock.tick
    assert result.value <= result.bound


def test_many_parts_by_hand_rules_end_by_the_clock() -> None:
    """Late while the first of two thousand parts are put down, none is laid out."""
    parts = parts_of(2000, seed=1)
    asked = SheetDemand(sizes=[(100, 100)], costs=[1], limits=[None], parts=parts, wanted=[1] * len(parts))
    clock = Clock(1.0)
    assert list(pack_sheets(asked, enough=lambda _: clock() > 3.0)) == []
    assert clock.now < 10.0
