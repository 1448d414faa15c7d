"""How soon a piece of sixty parts is cut again after a change: one part, all parts, and nothing at hand.

A change of one rail touches the rail and its two posts, and nothing else is cut or joined again.
"""

from __future__ import annotations

import statistics
from collections.abc import Callable, Iterator
from pathlib import Path

import yaml

from scantling.joinery import load_piece, load_piece_text
from scantling.piece.model import Piece
from scantling.plan.job import Job
from scantling.plan.planner import Planner
from scantling.seasons.room_file import find_room
from scantling.shop.profile.profile_file import default_shop
from timing import Timing, measure

__all__ = ["timings"]

CHEST = Path(__file__).resolve().parents[1] / "examples" / "five_drawer_chest.yaml"
FRAMES = 20
"""Of three parts each: two posts and a rail between them."""
_RAIL, _ALL = "rail_07", "all of them"


def timings() -> list[Timing]:
    """Time the solids of sixty parts: one changed, all changed, and all from nothing."""
    one, every, fresh = _actions()
    return [
        measure("solids of 60 parts after one changed, joints too", one, limit_s=0.1),
        measure("solids of 60 parts after all changed, joints too", every, limit_s=1.0),
        measure("solids of 60 parts with nothing at hand, joints too", fresh, limit_s=1.0),
        *_chest_timings(),
    ]


def _chest_timings() -> list[Timing]:
    """A piece as makers have it: the five-drawer chest, 72 parts and 150 joints."""
    graded = [_chest(graded_by=f"{22.0 - k / 10.0} mm") for k in range(40)]
    planner = Planner()
    planner.solids(_job(graded[0]))
    waiting = graded[1:]
    return [
        measure(
            "solids of the chest of 72 parts after its drawers are graded anew, joints too",
            lambda: planner.solids(_job(waiting.pop())),
            limit_s=1.0,
        ),
        measure(
            "solids of the chest of 72 parts with nothing at hand, joints too",
            lambda: Planner().solids(_job(graded[0])),
            limit_s=1.0,
        ),
    ]


def _chest(**given: str) -> Piece:
    return load_piece(CHEST, given=given)


def _actions() -> tuple[Callable[[], object], Callable[[], object], Callable[[], object]]:
    base = _piece({})
    planner = Planner()
    planner.solids(_job(base))
    changed = (_piece({_RAIL: 22.0 + k / 10.0}) for k in range(1, 40))
    grown = (_piece({_ALL: 22.0 + k / 10.0}) for k in range(1, 40))
    return _next_of(planner, changed), _next_of(planner, grown), lambda: Planner().solids(_job(base))


def _next_of(planner: Planner, pieces: Iterator[Piece]) -> Callable[[], object]:
    """Cuts the next of pieces that are read beforehand, so that reading is not timed."""
    waiting = list(pieces)
    return lambda: planner.solids(_job(waiting.pop()))


def _job(piece: Piece) -> Job:
    return Job(piece=piece, shop=default_shop(), room=find_room("dry-winter-house"))


def _piece(thick_mm: dict[str, float]) -> Piece:
    """Twenty frames in a row, no two alike; a rail may be given another thickness."""
    parts: dict[str, object] = {}
    pairs: list[list[str]] = []
    base = {"kind": "stick", "species": "white oak"}
    for k in range(FRAMES):
        y, deep = 120.0 * k, 40.0 + 0.1 * k
        for side, x in (("l", 0.0), ("r", 500.0)):
            ends = {"from": [x, y, 0], "to": [x, y, 700], "section": [deep, deep]}
            parts[f"post_{side}_{k:02}"] = {**base, **ends, "width_toward": "right"}
        name = f"rail_{k:02}"
        thick = thick_mm.get(name, thick_mm.get(_ALL, 22.0) + 0.05 * k)
        ends = {"from": [0, y, 600], "to": [500, y, 600], "section": [90, thick]}
        trim = {"start": f"post_l_{k:02}.right", "end": f"post_r_{k:02}.left"}
        parts[name] = {**base, **ends, "width_toward": "top", "trim": trim}
        pairs += [[f"{name}.start", f"post_l_{k:02}"], [f"{name}.end", f"post_r_{k:02}"]]
    joint = {"kind": "mortise_tenon", "length": 25, "thickness": 8, "pin": 6, "between": pairs}
    text = {"scantling": 1, "title": "Frames", "units": "mm", "parts": parts, "joints": {"rails": joint}}
    return load_piece_text(yaml.safe_dump(text, sort_keys=False))


def _print_ratios() -> None:
    found = timings()
    whole = found[2].median_s
    for timing in found:
        share = timing.median_s / whole if whole else statistics.nan
        print(f"{timing.name}: {timing.median_s * 1000:.0f} ms, {share:.2f} of a rebuild from nothing")


if __name__ == "__main__":
    _print_ratios()
