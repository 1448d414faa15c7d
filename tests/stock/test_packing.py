"""Sheets packed by hand rules: sound by a check that knows nothing of them, published numbers reached."""

import json
from collections import Counter
from itertools import count
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from scantling.stock.plates.packing import Packing, SheetDemand, pack_sheets
from timber.checking import Asked, faults

DATA = Path(__file__).parents[2] / "benchmarks" / "timber" / "data"


def packings(asked: SheetDemand, tries: int, least: int = 0) -> list[Packing]:
    """All packings found in so many tries, or until one costs no more than the least."""
    number = count()
    return list(pack_sheets(asked, enough=lambda cost: next(number) >= tries or 0 < cost <= least))


@st.composite
def demands(draw: st.DrawFn) -> SheetDemand:
    """One to three kinds of sheets, some of them few, and up to a dozen parts that fit the first kind."""
    sizes = draw(st.lists(st.tuples(st.integers(8, 30), st.integers(8, 30)), min_size=1, max_size=3))
    parts = draw(
        st.lists(st.tuples(st.integers(1, sizes[0][0]), st.integers(1, sizes[0][1])), min_size=1, max_size=5)
    )
    return SheetDemand(
        sizes=sizes,
        costs=[draw(st.integers(1, 9)) for _ in sizes],
        limits=[None, *(draw(st.sampled_from([None, 0, 1, 2])) for _ in sizes[1:])],
        parts=parts,
        wanted=[draw(st.integers(1, 3)) for _ in parts],
        turns=draw(st.booleans()),
    )


@given(demands())
@settings(max_examples=60, deadline=None)
def test_every_packing_is_sound(asked: SheetDemand) -> None:
    """All parts there, edge-to-edge cuts part them, no kind taken too often, each packing cheaper."""
    found = packings(asked, 60)
    assert found, "every part fits a kind there is any number of"
    for packing in found:
        made: Counter[int] = Counter()
        used: Counter[int] = Counter()
        for sheet in packing.sheets:
            used[sheet.kind] += 1
            made.update(n for *_, n in sheet.placed)
            parts = [(a, b, 1, None) for a, b in asked.parts]
            on = Asked(plate=asked.sizes[sheet.kind], parts=parts, turns=asked.turns)
            assert not faults(on, sheet.placed, len(sheet.placed))
            assert sheet.covered == sum(long * wide for _, _, long, wide, _ in sheet.placed)
        assert made == Counter(dict(enumerate(asked.wanted)))
        assert all(limit is None or used[kind] <= limit for kind, limit in enumerate(asked.limits))
        assert packing.cost == sum(asked.costs[kind] * often for kind, often in used.items())
    costs = [packing.cost for packing in found]
    assert costs == sorted(set(costs), reverse=True)


def test_what_fits_nowhere_gives_nothing() -> None:
    """A part longer than every sheet, and more parts than there are sheets."""
    long = SheetDemand(sizes=[(10, 10)], costs=[1], limits=[None], parts=[(11, 2)], wanted=[1], turns=True)
    many = SheetDemand(sizes=[(10, 10)], costs=[1], limits=[2], parts=[(9, 9)], wanted=[3])
    assert not packings(long, 50)
    assert not packings(many, 50)


def test_turning_makes_room() -> None:
    """10 x 4 lies across a sheet of 4 x 10 only if it may be turned."""
    lying = SheetDemand(sizes=[(4, 10)], costs=[1], limits=[None], parts=[(10, 4)], wanted=[1])
    turned = SheetDemand(sizes=[(4, 10)], costs=[1], limits=[None], parts=[(10, 4)], wanted=[1], turns=True)
    assert not packings(lying, 50)
    assert packings(turned, 50)[-1].cost == 1


@pytest.mark.parametrize(
    "name", ["cl01_60_5", "cl03_60_5", "cl05_60_5", "cl07_60_5", "cl08_60_5", "cl10_60_5"]
)
@pytest.mark.parametrize("turns", [False, True])
def test_published_numbers(name: str, turns: bool) -> None:
    """Berkey and Wang 1987, Martello and Vigo 1998: sixty parts on the fewest equal plates known."""
    instances = json.loads((DATA / "bin_packing.json").read_text())["instances"]
    found = next(i for i in instances if i["name"] == name)
    best = found["known"]["three_stage_first_horizontal" + ("_rotated" if turns else "")]["value"]
    asked = SheetDemand(
        sizes=[tuple(found["plate"])],
        costs=[1],
        limits=[None],
        parts=[(p[0], p[1]) for p in found["parts"]],
        wanted=[p[-1] for p in found["parts"]],
        turns=turns,
    )
    assert packings(asked, 40_000, least=best)[-1].cost <= best
