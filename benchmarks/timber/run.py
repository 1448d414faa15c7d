"""The timber benchmark: published plates and seeded racks, every answer checked, as tables.

``python benchmarks/timber/run.py`` runs everything (minutes); ``--quick`` one of each kind (seconds).
Times are of the processor, so that another job on the machine does not count. Results are appended to
``results.jsonl`` beside this file with ``--record``.
"""

from __future__ import annotations

import argparse
import json
import platform
import sys
import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from itertools import product
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))

from scantling.stock import LayoutRequest, StopRule, solve, verify_layout
from scantling.stock.plates.plate import (
    FreeStrip,
    Plate,
    PlatePart,
    PlateResult,
    best_cutting,
    best_free_strips,
)
from timber.checking import Asked, faults
from timber.demands import lengths, plate_sets
from timber.limited import limited
from timber.peers import packer_price, plain_model_price
from timber.rackmaker import random_rack
from timber.secondcore import SecondCore
from timber.tables import table_run

HERE = Path(__file__).parent
RACKS = ((10, 25), (20, 40), (40, 60))
GROWTH = ((10, 25), (20, 40), (40, 60), (80, 160), (160, 400), (400, 1000))
GROWTH_S = (1.0, 10.0, 60.0)
RUN_TIMES, RUN_S = 40, (10.0, 60.0)


def load(name: str) -> list[dict[str, Any]]:
    """Instances of one file."""
    return list(json.loads((HERE / "data" / f"{name}.json").read_text())["instances"])


def sound(plate: Plate, result: PlateResult, parts: list[PlatePart]) -> bool:
    """Whether a layout stands up to the check; without parts its rectangles are worth their widths."""
    worth = [(p.length, p.width, p.value, None) for p in parts]
    placed = result.placed
    if not parts:
        worth = [(long, wide, wide, None) for _, _, long, wide, _ in placed]
        placed = tuple((x, y, long, wide, n) for n, (x, y, long, wide, _) in enumerate(placed))
    asked = Asked(plate=(plate.length, plate.width), parts=worth, kerf=plate.kerf, defects=plate.defects)
    return not faults(asked, placed, result.value)


def plates(quick: bool) -> Iterator[dict[str, Any]]:
    """Plates with defects, kerf 0 to 2, against their optimum and the peer's value."""
    for instance in load("guillotine_defects_one_plate")[: 2 if quick else None]:
        parts = [PlatePart(length=p[0], width=p[1], value=p[2]) for p in instance["parts"]]
        for kerf in (0, 1, 2):
            known = instance["known"].get(
                "guillotine_unlimited_cut_through" + (f"_kerf{kerf}" if kerf else ""), {}
            )
            if kerf and "value" not in known:
                continue
            plate = Plate(
                length=instance["plate"][0],
                width=instance["plate"][1],
                defects=tuple(map(tuple, instance["defects"])),
                kerf=kerf,
            )
            started = time.process_time()
            result = best_cutting(plate, parts)
            peer = {0: "packingsolver_0.1.1233_4s", 2: "packingsolver_0.1.1233_4s_kerf2"}.get(kerf, "")
            yield {
                "set": "plates with defects",
                "instance": f"{instance['name']} kerf {kerf}",
                "objective": result.value,
                "known": known.get("value"),
                "peer": instance.get("peer", {}).get(peer),
                "cpu_s": time.process_time() - started,
                "sound": sound(plate, result, parts),
            }


def strips(quick: bool) -> Iterator[dict[str, Any]]:
    """Free-width strips on plates with defects."""
    for instance in load("free_width_strips_with_defects")[: 3 if quick else None]:
        plate = Plate(
            length=instance["plate"][0],
            width=instance["plate"][1],
            defects=tuple(map(tuple, instance["defects"])),
            kerf=instance["kerf"],
        )
        started = time.process_time()
        result = best_free_strips(
            plate, FreeStrip(length=instance["strip_length"], least_width=instance["min_width"])
        )
        yield {
            "set": "free-width strips",
            "instance": instance["name"],
            "objective": result.value,
            "known": instance["known"]["cut_through"]["value"],
            "cpu_s": time.process_time() - started,
            "sound": sound(plate, result, []),
        }


def clean(quick: bool) -> Iterator[dict[str, Any]]:
    """Plates without defects, with and without kerf."""
    found = load("guillotine_knapsack_unconstrained") + load("guillotine_kerf_twins")
    for instance in found[: 3 if quick else None]:
        if any(p[3] is not None for p in instance["parts"]):
            continue
        plate = Plate(length=instance["plate"][0], width=instance["plate"][1], kerf=instance.get("kerf", 0))
        parts = [PlatePart(length=p[0], width=p[1], value=p[2]) for p in instance["parts"]]
        started = time.process_time()
        result = best_cutting(plate, parts)
        yield {
            "set": "plates without defects",
            "instance": instance["name"],
            "objective": result.value,
            "known": instance["known"]["guillotine_unlimited"]["value"],
            "cpu_s": time.process_time() - started,
            "sound": sound(plate, result, parts),
        }


def rack_line(
    request: LayoutRequest, name: str, *, seconds: float, seed: int, pair: bool = False
) -> dict[str, Any]:
    """One rack solved within a time, every answer checked; by a pair of processes, time of each of them."""
    core = SecondCore() if pair else None
    clock = time.process_time if core is None else core.clock
    started, sound_all, last, first_s = clock(), True, None, None
    stop = StopRule(rounds=None, seconds=seconds, clock=clock)
    for answer in solve(request, stop=stop, seed=seed, executor=core):
        last = answer.layout
        first_s = clock() - started if first_s is None and last.complete else first_s
        sound_all &= not answer.news or not verify_layout(
            last,
            boards=request.boards,
            blanks=request.blanks,
            panels=request.panels,
            cutting=request.cutting,
        )
    assert last is not None
    return {
        "set": "racks by two processes" if pair else "racks",
        "instance": name,
        "limit_s": seconds,
        "seed": seed,
        "objective": last.price,
        "bound": last.bound_price,
        "gap_pct": last.gap_pct,
        "feasible": last.complete,
        "first_s": first_s,
        "cpu_s": clock() - started,
        "sound": sound_all,
    }


def racks(quick: bool, seconds: float, peers: bool, pair: bool) -> Iterator[dict[str, Any]]:
    """Seeded racks with defects; and without, beside the peers."""
    for boards, blanks in RACKS[: 1 if quick else None]:
        for seed in (1,) if quick else (1, 2, 3):
            request = random_rack(seed, boards=boards, blanks=blanks)
            name = f"{boards} boards {blanks} blanks #{seed}"
            yield rack_line(request, name, seconds=seconds, seed=1, pair=pair)
            if not peers:
                continue
            bare = replace(request, boards=tuple(replace(b, defects=()) for b in request.boards))
            line = rack_line(bare, name + " no defects", seconds=seconds, seed=1, pair=pair)
            line["packer"] = packer_price(bare)
            line["plain_model"], line["plain_bound"] = plain_model_price(bare, seconds=seconds)
            yield line


def growth(quick: bool, pair: bool) -> Iterator[dict[str, Any]]:
    """One rack of each size after 1, 10 and 60 seconds of the processor, by one process or two."""
    for (boards, blanks), seconds in product(
        GROWTH[: 2 if quick else None], GROWTH_S[: 1 if quick else None]
    ):
        request = random_rack(1, boards=boards, blanks=blanks)
        line = rack_line(request, f"{boards} boards {blanks} blanks", seconds=seconds, seed=1, pair=pair)
        yield {**line, "set": line["set"].replace("racks", "growth")}


def runs(quick: bool, pair: bool) -> Iterator[dict[str, Any]]:
    """A run of one piece, with glued-up tops and thick legs, after 10 and 60 seconds of the processor."""
    times = 4 if quick else RUN_TIMES
    for seconds in RUN_S[: 1 if quick else None]:
        request = table_run(times, seed=1)
        line = rack_line(request, f"{times} reading tables", seconds=seconds, seed=1, pair=pair)
        yield {**line, "set": line["set"].replace("racks", "runs")}


def show(lines: list[dict[str, Any]]) -> None:
    """Print one table a set."""
    for name in dict.fromkeys(line["set"] for line in lines):
        mine = [line for line in lines if line["set"] == name]
        print(f"\n{name}")
        keys = [k for k in dict.fromkeys(k for line in mine for k in line) if k not in ("set", "seed")]
        print("  ".join(f"{k:>12}" if k != "instance" else f"{k:<42}" for k in keys))
        for line in mine:
            print("  ".join(_cell(k, line.get(k)) for k in keys))
        if any("known" in line for line in mine):
            compared = [line for line in mine if line.get("known") is not None]
            hit = sum(line["objective"] == line["known"] for line in compared)
            print(f"optimum reached on {hit} of {len(compared)}")
        print(f"checked: {sum(line['sound'] for line in mine)} of {len(mine)} sound")


def _cell(key: str, value: object) -> str:
    if key == "instance":
        return f"{value!s:<42}"
    return f"{value:>12.2f}" if isinstance(value, float) else f"{'' if value is None else value!s:>12}"


def main() -> int:
    """Run and print; 1 where an answer is unsound or misses a known optimum."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--quick", action="store_true", help="one of each kind")
    parser.add_argument("--seconds", type=float, default=10.0, help="processor seconds for each search")
    parser.add_argument("--no-peers", action="store_true", help="racks without the other packages")
    parser.add_argument("--pair", action="store_true", help="racks by two processes, time of each")
    parser.add_argument("--record", action="store_true", help="append to results.jsonl")
    names = ("clean", "limited", "sets", "lengths", "strips", "plates", "racks", "growth", "runs")
    parser.add_argument("--only", choices=names, help="one set alone")
    parser.add_argument("--lengths", type=Path, metavar="FILE", help="stock lengths, not in data/")
    options = parser.parse_args()
    sets = {
        "clean": lambda: clean(options.quick),
        "limited": lambda: limited(options.quick, options.seconds),
        "sets": lambda: plate_sets(options.quick, options.seconds),
        "lengths": lambda: lengths(options.lengths, options.seconds) if options.lengths else (),
        "strips": lambda: strips(options.quick),
        "plates": lambda: plates(options.quick),
        "racks": lambda: racks(options.quick, options.seconds, not options.no_peers, options.pair),
        "growth": lambda: growth(options.quick, options.pair),
        "runs": lambda: runs(options.quick, options.pair),
    }
    lines: list[dict[str, Any]] = []
    for name, make in sets.items():
        if options.only in (None, name):
            if name == "lengths" and not options.lengths:
                print("\nstock lengths: left out, no file named by --lengths")
            lines += (found := list(make()))
            show(found)
    if options.record:
        about = {
            "date": datetime.now(UTC).date().isoformat(),
            "machine": f"{platform.machine()} {platform.python_version()}",
        }
        with (HERE / "results.jsonl").open("a") as out:
            out.writelines(json.dumps(about | line) + "\n" for line in lines)
    wrong = [n for n in lines if not n["sound"] or n.get("known") not in (None, n["objective"])]
    return 1 if wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
