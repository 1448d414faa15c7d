"""All parts from stock of one or several sizes: lengths, equal plates, plates of several sizes.

The instances of lengths are not ours to pass on: ``--lengths FILE`` names a copy of them.
"""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from scantling.stock.plates.demand import DemandResult, Source, meet_demand
from scantling.stock.plates.fills import Supply
from scantling.stock.plates.lengths import LengthSource
from scantling.stock.plates.sheets import SheetSource, StripSource
from timber.checking import Asked, faults

__all__ = ["lengths", "plate_sets"]

DATA = Path(__file__).parent / "data"


def answer(
    name: str, instance: dict[str, Any], question: tuple[list[Supply], Source, list[int]], seconds: float
) -> tuple[dict[str, Any], DemandResult]:
    """One question answered, as a line of the table without its check."""
    supplies, source, volumes = question
    started = time.process_time()
    result = meet_demand(
        supplies,
        [p[-1] for p in instance["parts"]],
        source,
        volumes=volumes,
        seconds=seconds,
        clock=time.process_time,
    )
    line = {
        "set": name,
        "instance": instance["name"],
        "objective": result.cost,
        "bound": result.bound,
        "found_s": result.found_s,
        "cpu_s": time.process_time() - started,
    }
    return line, result


def lengths(file: Path, seconds: float) -> Iterator[dict[str, Any]]:
    """Parts from stock lengths."""
    for instance in json.loads(file.read_text())["instances"]:
        stock = instance.get("stock") or [[instance["capacity"], None, 1]]
        supplies = [Supply(cost=s[2], size=s[0], limit=s[1]) for s in stock]
        sizes = [p[0] for p in instance["parts"]]
        source = LengthSource([s[0] for s in stock], sizes)
        line, result = answer("stock lengths", instance, (supplies, source, sizes), seconds)
        known = next(iter(instance["known"].values()))
        yield line | {
            "best known": known["value"],
            "known bound": known["lower_bound"],
            "sound": _lengths_sound(instance, stock, result),
        }


def _lengths_sound(instance: dict[str, Any], stock: list[list[int]], result: DemandResult) -> bool:
    """No length overfull, none used too often, all parts there, the cost as said."""
    made = [0] * len(instance["parts"])
    used = [0] * len(stock)
    for fill in result.fills:
        counts = [int(n) for n in fill.counts]
        if sum(n * p[0] for n, p in zip(counts, instance["parts"], strict=True)) > stock[fill.supply][0]:
            return False
        used[fill.supply] += 1
        made = [a + b for a, b in zip(made, counts, strict=True)]
    return (
        all(m >= p[1] for m, p in zip(made, instance["parts"], strict=True))
        and all(s[1] is None or u <= s[1] for u, s in zip(used, stock, strict=True))
        and sum(u * s[2] for u, s in zip(used, stock, strict=True)) == result.cost
    )


def plate_sets(quick: bool, seconds: float) -> Iterator[dict[str, Any]]:
    """Equal plates and plates of several sizes, parts as they lie and turned."""
    equal = json.loads((DATA / "bin_packing.json").read_text())["instances"]
    several = json.loads((DATA / "bin_packing_variable_size.json").read_text())["instances"]
    for instance in equal[: 2 if quick else None]:
        stock = [{"w": instance["plate"][0], "h": instance["plate"][1], "cost": 1}]
        for turns in (False, True):
            key = "three_stage_first_horizontal" + ("_rotated" if turns else "")
            yield _plates_line(instance, stock, turns, instance["known"][key], seconds)
    for instance in several[: 1 if quick else None]:
        for turns in (False, True):
            key = "two_stage_first_horizontal" + ("_rotated" if turns else "")
            known = instance["known"].get(key)
            if known:
                yield _plates_line(instance, instance["stock"], turns, known, seconds)
        free = instance["known"].get("not_guillotine")
        if free:
            # these values count area, not the costs in the file: 63336 is two plates of 156 x 203
            stock = [{**s, "cost": s["w"] * s["h"]} for s in instance["stock"]]
            yield _plates_line(instance, stock, False, free, seconds)


def _plates_line(
    instance: dict[str, Any], stock: list[dict[str, int]], turns: bool, known: dict[str, Any], seconds: float
) -> dict[str, Any]:
    sheets = [(s["w"], s["h"]) for s in stock]
    parts = [(p[0], p[1]) for p in instance["parts"]]
    supplies = [Supply(cost=s["cost"], size=s["w"] * s["h"]) for s in stock]
    strips = instance["name"].startswith("cintra")
    source: Source = StripSource(sheets=sheets, parts=parts, turns=turns)
    if not strips:
        source = SheetSource(sheets=sheets, parts=parts, turns=turns, seconds=1.0, clock=time.process_time)
    name = "plates of several sizes" if len(stock) > 1 else "equal plates"
    question = (supplies, source, [a * b for a, b in parts])
    line, result = answer(name + (", parts turned" if turns else ""), instance, question, seconds)
    made = [0] * len(parts)
    sound = sum(stock[f.supply]["cost"] for f in result.fills) == result.cost
    asked_parts = [(a, b, 1, None) for a, b in parts]
    for fill in result.fills:
        asked = Asked(
            plate=sheets[fill.supply], parts=asked_parts, turns=turns, strips="along" if strips else ""
        )
        sound &= not faults(asked, fill.placed, len(fill.placed))
        for *_, number in fill.placed:
            made[number] += 1
    sound &= all(m >= p[3] for m, p in zip(made, instance["parts"], strict=True))
    return line | {"best known": known["value"], "known bound": known.get("bound"), "sound": sound}
