"""Plates on which each part may be cut a given number of times, against published optima."""

from __future__ import annotations

import json
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from scantling.stock.plates.limited import LimitedPart, Stages, best_limited_cutting
from scantling.stock.plates.plate import Plate
from timber.checking import Asked, faults

__all__ = ["WAYS", "limited", "line_of", "part_list"]

DATA = Path(__file__).parent / "data"
WAYS = {
    "guillotine_unlimited": (Stages.ANY, "", "any number of stages"),
    "two_stage_first_horizontal": (Stages.RIP_FIRST, "along", "two stages, strips along"),
    "two_stage_first_vertical": (Stages.CROSSCUT_FIRST, "across", "two stages, strips across"),
}
"""By the data's name of a kind of cuts: what allows them, what checks them, and in words."""
QUICK = ("2", "CHL2s", "CU2", "Hchl2", "gcut4")


def part_list(instance: dict[str, Any]) -> list[LimitedPart]:
    """Parts of an instance."""
    return [LimitedPart(length=p[0], width=p[1], value=p[2], copies=p[3]) for p in instance["parts"]]


def line_of(instance: dict[str, Any], key: str, *, seconds: float) -> dict[str, Any]:
    """One instance cut one way, checked."""
    stages, strips, words = WAYS[key]
    started = time.process_time()
    result = best_limited_cutting(
        Plate(length=instance["plate"][0], width=instance["plate"][1]),
        part_list(instance),
        stages=stages,
        seconds=seconds,
        clock=time.process_time,
    )
    asked = Asked(plate=tuple(instance["plate"]), parts=[tuple(p) for p in instance["parts"]], strips=strips)
    return {
        "set": f"plates with limits on copies, {words}",
        "instance": instance["name"],
        "known": instance["known"][key]["value"],
        "objective": result.value,
        "bound": result.bound,
        "found_s": result.found_s,
        "cpu_s": time.process_time() - started,
        "sound": not faults(asked, result.placed, result.value),
    }


def limited(quick: bool, seconds: float) -> Iterator[dict[str, Any]]:
    """All instances, all kinds of cuts there is a value for."""
    instances = json.loads((DATA / "guillotine_knapsack_constrained.json").read_text())["instances"]
    for key in WAYS:
        for instance in instances:
            if key in instance["known"] and (not quick or instance["name"] in QUICK):
                yield line_of(instance, key, seconds=seconds)
