"""One plate cut exactly, against published optima; sources in ``benchmarks/timber/data/README.md``."""

import json
from pathlib import Path

import pytest

from scantling.stock.plate import (
    FreeStrip,
    Plate,
    PlatePart,
    best_clean_cutting,
    best_cutting,
    best_free_strips,
)

DATA = Path(__file__).parents[2] / "benchmarks" / "timber" / "data"


def instances(name: str) -> dict[str, dict[str, object]]:
    """Instances of a file by name."""
    return {i["name"]: i for i in json.loads((DATA / f"{name}.json").read_text())["instances"]}


def plate_of(instance: dict[str, object], kerf: int) -> Plate:
    """The plate of an instance."""
    length, width = instance["plate"]  # type: ignore[misc]
    defects = tuple(tuple(d) for d in instance.get("defects", ()))  # type: ignore[attr-defined]
    return Plate(length=length, width=width, defects=defects, kerf=kerf)


def parts_of(instance: dict[str, object]) -> list[PlatePart]:
    """The parts of an instance."""
    return [PlatePart(length=p[0], width=p[1], value=p[2]) for p in instance["parts"]]  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", ["gcut1", "gcut3", "gcut6", "gcut9", "cgcut2", "cgcut3"])
def test_plates_without_defects(name: str) -> None:
    """Beasley 1985 and Christofides and Whitlock 1977: the published optima, exactly."""
    instance = instances("guillotine_knapsack_unconstrained")[name]
    known = instance["known"]["guillotine_unlimited"]["value"]  # type: ignore[index]
    assert best_clean_cutting(plate_of(instance, 0), parts_of(instance)) == known


def test_kerf_twin() -> None:
    """A kerf added to every part and the plate leaves the optimum as it is."""
    instance = instances("guillotine_kerf_twins")["gcut1_kerf32"]
    assert best_clean_cutting(plate_of(instance, 32), parts_of(instance)) == 56460


@pytest.mark.parametrize(
    ("name", "kerf", "optimum"),
    [
        ("75x75_C12M5R6N8_D4", 0, 1863),
        ("75x75_C12M5R6N8_D4", 2, 1863),
        ("75x75_C12M10R8N15_D1", 0, 5000),
        ("75x75_C12M10R8N15_D1", 1, 4782),
        ("112x50_C13M5R10N6_D4", 0, 3992),
        ("112x50_C13M5R10N6_D4", 2, 3706),
        ("75x75_C12M5R8N5_D4", 1, 2846),
    ],
)
def test_plates_with_defects_and_kerf(name: str, kerf: int, optimum: int) -> None:
    """Plates of Afsharian, Niknejad and Wäscher 2014; optima of an exhaustive program, exactly."""
    instance = instances("guillotine_defects_one_plate")[name]
    result = best_cutting(plate_of(instance, kerf), parts_of(instance))
    assert result.value == optimum
    assert sum(parts_of(instance)[n].value for *_, n in result.placed) == optimum


@pytest.mark.parametrize(("name", "width"), [("75x75_C12M5R6N8_D4", 107), ("112x50_C13M5R10N6_D4", 66)])
def test_free_width_strips(name: str, width: int) -> None:
    """The greatest total width of clear strips half a plate long, exactly."""
    instance = instances("guillotine_defects_one_plate")[name]
    plate = plate_of(instance, 0)
    result = best_free_strips(plate, FreeStrip(length=plate.length // 2, least_width=5))
    assert result.value == width
