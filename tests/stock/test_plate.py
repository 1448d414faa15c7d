"""One plate cut exactly: against an exhaustive recursion written on its own, and against published optima.

Sources of the instances and of their values are in ``benchmarks/timber/data/README.md``.
"""

import json
from functools import cache
from itertools import product
from pathlib import Path
from random import Random

import pytest

from scantling.stock.plates.plate import (
    FreeStrip,
    Plate,
    PlatePart,
    PlateResult,
    best_cutting,
    best_free_strips,
)
from timber.checking import Asked, faults

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


def exhaustive(plate: Plate, parts: list[PlatePart]) -> int:
    """The best value over every cut at every whole unit, the kerf taken off at each."""

    def fits(part: PlatePart, x: int, y: int, right: int, top: int) -> bool:
        return any(
            all(
                a >= dx + long or a + part.length <= dx or b >= dy + wide or b + part.width <= dy
                for dx, dy, long, wide in plate.defects
            )
            for a, b in product(range(x, right - part.length + 1), range(y, top - part.width + 1))
        )

    @cache
    def best(x: int, y: int, right: int, top: int) -> int:
        found = [p.value for p in parts if fits(p, x, y, right, top)]
        kerf = plate.kerf
        found += [best(x, y, c, top) + best(c + kerf, y, right, top) for c in range(x + 1, right - kerf)]
        found += [best(x, y, right, c) + best(x, c + kerf, right, top) for c in range(y + 1, top - kerf)]
        return max(found, default=0)

    return best(0, 0, plate.length, plate.width)


def check(plate: Plate, parts: list[PlatePart], result: PlateResult) -> None:
    """The layout stands up to the benchmark's checker, which knows nothing of the search."""
    asked = Asked(
        plate=(plate.length, plate.width),
        parts=[(p.length, p.width, p.value, None) for p in parts],
        kerf=plate.kerf,
        defects=plate.defects,
    )
    assert faults(asked, result.placed, result.value) == []


def random_plate(rng: Random, *, kerf: int, defects: int) -> Plate:
    """A small plate; its defects may overlap, lie over its edge, or be narrower than the kerf."""
    length, width = rng.randint(6, 13), rng.randint(5, 10)
    found = [
        (rng.randrange(length), rng.randrange(width), rng.randint(1, 3), rng.randint(1, 3))
        for _ in range(defects)
    ]
    return Plate(length=length, width=width, defects=tuple(found), kerf=kerf)


@pytest.mark.parametrize("seed", range(60))
def test_random_plates(seed: int) -> None:
    """Small plates with 0 to 3 defects, kerf 0 to 2: the exhaustive value, and a sound layout."""
    rng = Random(seed)
    plate = random_plate(rng, kerf=seed % 3, defects=seed // 3 % 4)
    parts = [
        PlatePart(length=rng.randint(1, 6), width=rng.randint(1, 5), value=rng.randint(1, 12))
        for _ in range(rng.randint(1, 4))
    ]
    result = best_cutting(plate, parts)
    assert result.value == exhaustive(plate, parts)
    check(plate, parts, result)


@pytest.mark.parametrize("seed", range(24))
def test_random_strips(seed: int) -> None:
    """A strip of any width is a part of every width, worth its width."""
    rng = Random(seed)
    plate = random_plate(rng, kerf=seed % 3, defects=seed // 3 % 4)
    strip = FreeStrip(length=rng.randint(2, 6), least_width=rng.randint(1, 3))
    widths = range(strip.least_width, plate.width + 1)
    result = best_free_strips(plate, strip)
    assert result.value == exhaustive(
        plate, [PlatePart(length=strip.length, width=w, value=w) for w in widths]
    )
    laid = [PlatePart(length=long, width=wide, value=wide) for _, _, long, wide, _ in result.placed]
    numbered = tuple((*place[:4], n) for n, place in enumerate(result.placed))
    check(plate, laid, PlateResult(value=result.value, placed=numbered))


def test_nothing_fits() -> None:
    """No part, none small enough, or none that is clear: nothing is placed."""
    part = PlatePart(length=5, width=3, value=7)
    for plate, parts in (
        (Plate(length=8, width=8), []),
        (Plate(length=4, width=8), [part]),
        (Plate(length=8, width=8, defects=((3, 0, 2, 8),)), [part]),
    ):
        assert best_cutting(plate, parts) == PlateResult(value=0, placed=())


@pytest.mark.parametrize("name", ["gcut1", "gcut3", "gcut6", "gcut9", "gcut13", "cgcut2", "cgcut3"])
def test_plates_without_defects(name: str) -> None:
    """Beasley 1985 and Christofides and Whitlock 1977: the published optima, exactly."""
    instance = instances("guillotine_knapsack_unconstrained")[name]
    known = instance["known"]["guillotine_unlimited"]["value"]  # type: ignore[index]
    result = best_cutting(plate_of(instance, 0), parts_of(instance))
    assert result.value == known
    check(plate_of(instance, 0), parts_of(instance), result)


def test_kerf_twin() -> None:
    """A kerf added to every part and the plate leaves the optimum as it is."""
    instance = instances("guillotine_kerf_twins")["gcut1_kerf32"]
    result = best_cutting(plate_of(instance, 32), parts_of(instance))
    assert result.value == 56460
    check(plate_of(instance, 32), parts_of(instance), result)


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
        ("450x200_C22M10R8N7_D3", 0, 61580),
        ("300x300_C21M20R10N4_D4", 0, 73089),
    ],
)
def test_plates_with_defects_and_kerf(name: str, kerf: int, optimum: int) -> None:
    """Plates of Afsharian, Niknejad and Wäscher 2014; optima of an exhaustive program, exactly."""
    instance = instances("guillotine_defects_one_plate")[name]
    result = best_cutting(plate_of(instance, kerf), parts_of(instance))
    assert result.value == optimum
    check(plate_of(instance, kerf), parts_of(instance), result)


@pytest.mark.parametrize(("name", "width"), [("75x75_C12M5R6N8_D4", 107), ("112x50_C13M5R10N6_D4", 66)])
def test_free_width_strips(name: str, width: int) -> None:
    """The greatest total width of clear strips half a plate long, exactly."""
    instance = instances("guillotine_defects_one_plate")[name]
    plate = plate_of(instance, 0)
    result = best_free_strips(plate, FreeStrip(length=plate.length // 2, least_width=5))
    assert result.value == width
