"""All parts on one sheet, from boxes that waste little: against every way to cut small sheets."""

import json
from pathlib import Path
from random import Random

import numpy as np
import pytest

from scantling.stock.plates import tightsets
from scantling.stock.plates.fills import Supply
from scantling.stock.plates.sheets import SheetSource
from scantling.stock.plates.tightsets import TightSets
from tests.stock.test_orders import pieces
from tests.stock.test_partsets import Exhaustive
from timber.checking import Asked, faults

ALL = 1e9
SIZES = Path(__file__).parents[2] / "benchmarks/timber/data/bin_packing_variable_size.json"


@pytest.mark.parametrize("looked_up", [0, 40, 10**9])
@pytest.mark.parametrize("seed", range(16))
def test_a_sheet_holds_all_parts_or_none_does(
    seed: int, looked_up: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As every way to cut tells, whichever way pairs of boxes are found."""
    monkeypatch.setattr(tightsets, "LOOKED_UP", looked_up)
    rng = Random(seed)
    turns = seed % 2 == 1
    parts = [(rng.randint(1, 6), rng.randint(1, 6)) for _ in range(rng.randint(2, 6))]
    area = sum(a * b for a, b in parts)
    wide = rng.randint(5, 9)
    for long in range(max(1, area // wide), area // wide + 4):
        sets = TightSets((long, wide), parts, turns, lambda: False)
        found = sets.laid(ALL)
        assert sets.exact(ALL)
        truth = Exhaustive(parts, 0, turns).yields(long, wide, (1,) * len(parts))
        assert (found is not None) == truth
        if found is not None:
            asked = Asked(plate=(long, wide), parts=[(*p, 1, 1) for p in parts], turns=turns)
            assert faults(asked, found, len(parts)) == []
            assert len(found) == len(parts)


@pytest.mark.parametrize("seed", range(4))
def test_a_sheet_is_put_together_again_at_the_least_share(seed: int) -> None:
    """A sheet cut up without waste needs no box that wastes anything; kerf and copies are kept to."""
    rng, kerf = Random(seed), seed % 3
    cut = pieces(rng, (60, 40), 11)
    parts = sorted({(a - kerf, b - kerf) for a, b in cut if min(a, b) > kerf})
    wanted = [sum((a - kerf, b - kerf) == p for a, b in cut) for p in parts]
    sheets = [(60 - kerf, 40 - kerf), (90, 90), (40 - kerf, 59 - kerf)]
    supplies = [Supply(cost=c, size=a * b) for c, (a, b) in zip((7, 9, 6), sheets, strict=True)]
    source = SheetSource(sheets=sheets, parts=parts, turns=False, kerf=kerf)
    found = list(source.on_one(supplies, np.array(wanted), 9, lambda: False))
    assert [fill.supply for fills in found for fill in fills] == [0]
    (fill,) = found[0]
    assert fill.counts.tolist() == wanted
    asked = Asked(plate=sheets[0], parts=[(*p, 1, n) for p, n in zip(parts, wanted, strict=True)], kerf=kerf)
    assert faults(asked, fill.placed, len(fill.placed)) == []
    assert list(source.on_one(supplies, np.array(wanted), 7, lambda: False)) == []
    assert list(source.on_one(supplies, np.array(wanted), 9, lambda: True)) == []


def test_too_many_boxes_end_a_listing(monkeypatch: pytest.MonkeyPatch) -> None:
    """It is told apart from a listing that found nothing."""
    monkeypatch.setattr(tightsets, "MOST_BOXES", 10)
    sets = TightSets((30, 30), [(n, n + 1) for n in range(1, 8)], False, lambda: False)
    assert sets.laid(ALL) is None
    assert sets.over


def test_twenty_parts_lie_on_one_published_sheet() -> None:
    """MB_C4_9 of Pisinger and Sigurd (2005): the sheet of 76 x 94 holds all parts; 76 x 63 is too small."""
    instances = json.loads(SIZES.read_text())["instances"]
    (instance,) = (i for i in instances if i["name"] == "pisinger_MB_C4_9")
    parts = [(p[0], p[1]) for p in instance["parts"]]
    sheets = [(76, 94), (76, 63)]
    supplies = [Supply(cost=a * b, size=a * b) for a, b in sheets]
    source = SheetSource(sheets=sheets, parts=parts, turns=False)
    found = list(source.on_one(supplies, np.ones(len(parts), dtype=np.int64), 9576, lambda: False))
    assert [[fill.supply for fill in fills] for fills in found] == [[0]]
    placed = found[0][0].placed
    assert faults(Asked(plate=(76, 94), parts=[(*p, 1, 1) for p in parts]), placed, len(parts)) == []
