"""Plates with limits on copies: published instances and optima, see ``benchmarks/timber/data/README.md``.

Unlimited stages: optima of the 59 instances of Furini, Malaguti and Thomopulos 2016, as listed in the public
thesis repository of H. Becker; two stages: proven values in the repository fontanf/packingsolver. The
benchmark's checker, which knows nothing of the search, looks at every layout; ``make bench-timber`` runs all.
"""

import json
from pathlib import Path

import pytest

from scantling.stock.plates.limited import LimitedPart, Stages, best_limited_cutting
from scantling.stock.plates.plate import Plate
from tests.published.value import Published
from timber.checking import Asked, faults
from timber.limited import WAYS, part_list

DATA = Path(__file__).parents[3] / "benchmarks" / "timber" / "data" / "guillotine_knapsack_constrained.json"
INSTANCES = {i["name"]: i for i in json.loads(DATA.read_text())["instances"]}
QUICK = (
    *(
        "2",
        "2s",
        "3",
        "3s",
        "A1",
        "A1s",
        "A2",
        "A2s",
        "A3",
        "CHL2",
        "CHL2s",
        "CHL5",
        "CU1",
        "CU2",
        "CW1",
        "HH",
    ),
    *(
        "OF2",
        "STS2s",
        "STS4s",
        "W",
        "cgcut1",
        "cgcut2",
        "cgcut3",
        "gcut1",
        "gcut10",
        "gcut2",
        "gcut5",
        "gcut6",
    ),
    *("gcut9", "okp4", "wang20"),
)
"""Those of the 51 that take a few hundredths of a second."""
TWO_STAGES = ("2s", "3", "A1s", "A2s", "A3", "CHL2", "CHL5", "CU1", "CW1", "OF2", "STS2s", "W")


def check(name: str, key: str) -> None:
    """One instance cut one way reaches the published value, proves it, and stands up to the checker."""
    instance = INSTANCES[name]
    stages, strips, words = WAYS[key]
    plate = Plate(length=instance["plate"][0], width=instance["plate"][1])
    result = best_limited_cutting(plate, part_list(instance), stages=stages, seconds=60.0)
    asked = Asked(plate=tuple(instance["plate"]), parts=[tuple(p) for p in instance["parts"]], strips=strips)
    assert faults(asked, result.placed, result.value) == []
    assert result.proven
    Published(
        value=instance["known"][key]["value"],
        source="published cutting instances",
        where=f"{name}, {words}",
        why="a whole number, so exactly",
        absolute=0.5,
    ).check(result.value)


@pytest.mark.parametrize("name", QUICK)
def test_any_number_of_stages(name: str) -> None:
    """The proven optimum of the published instance."""
    check(name, "guillotine_unlimited")


@pytest.mark.parametrize("key", ["two_stage_first_horizontal", "two_stage_first_vertical"])
@pytest.mark.parametrize("name", TWO_STAGES)
def test_two_stages(name: str, key: str) -> None:
    """The proven optimum with strips along, and with strips across."""
    check(name, key)


def test_a_kerf_leaves_the_optimum_when_all_sizes_give_way_to_it() -> None:
    """Parts and plate one kerf smaller both ways have the same layouts: 40 times the sizes, a kerf of 30."""
    instance = INSTANCES["CHL5"]
    parts = [
        LimitedPart(length=40 * p[0] - 30, width=40 * p[1] - 30, value=p[2], copies=p[3])
        for p in instance["parts"]
    ]
    plate = Plate(length=40 * 20 - 30, width=40 * 20 - 30, kerf=30)
    result = best_limited_cutting(plate, parts, seconds=60.0)
    assert (result.value, result.bound) == (390, 390)
    asked = Asked(
        plate=(plate.length, plate.width),
        parts=[(p.length, p.width, p.value, p.copies) for p in parts],
        kerf=30,
    )
    assert faults(asked, result.placed, result.value) == []


def test_the_checker_tells_what_is_wrong() -> None:
    """Off the plate, overlapping, too often, of wrong size and worth, a pinwheel, and no strips."""
    asked = Asked(plate=(5, 5), parts=[(2, 3, 6, 1), (3, 2, 6, 2), (1, 1, 1, None)], strips="along")
    pinwheel = [(0, 0, 2, 3, 0), (2, 0, 3, 2, 1), (0, 3, 3, 2, 1), (3, 2, 2, 3, 0), (2, 2, 1, 1, 2)]
    told = faults(asked, pinwheel, 25)
    assert told == [
        "part 0 is cut 2 times",
        "edge-to-edge cuts do not part them",
        "they do not lie in strips",
    ]
    told = faults(asked, [(4, 0, 2, 3, 0), (4, 2, 1, 2, 1)], 13)
    assert [t.split(" ")[0] for t in told] == ["part", "(4,", "part", "the", "edge-to-edge", "they"]


@pytest.mark.parametrize("stages", list(Stages))
def test_defects_are_refused(stages: Stages) -> None:
    """Limits and defects together are a board's matter, not this program's."""
    with pytest.raises(ValueError, match="without defects"):
        best_limited_cutting(Plate(length=4, width=4, defects=((1, 1, 1, 1),)), [], stages=stages)
