"""Runs apart from all tests: a piece through sizes one after the other, and each of them from nothing.

Whatever is kept between plans, in a planner or beside it, is kept in one process; a process split off before
anything is worked out has none of it.
"""

from __future__ import annotations

import json
import math
import multiprocessing
import sys
from random import Random
from typing import Any

from scantling.piece.model import ParameterValue
from scantling.plan.document import plan_json
from scantling.web.designs.session import Session
from scantling.web.sent.views import as_json
from tests.plan.jobs import EXAMPLES, SHIPPED

__all__ = ["differences", "random_sizes"]

_LENGTH = "length"


def _session(piece: str) -> Session:
    shop, room = SHIPPED[piece]
    return Session(
        EXAMPLES / f"{piece}.yaml",
        shop=EXAMPLES / "shops" / f"{shop}.yaml",
        room=str(EXAMPLES / "rooms" / f"{room}.yaml"),
    )


def _answers(session: Session, given: dict[str, str]) -> Any:
    """Shape, figures and the plan itself, as data."""
    shown = (session.shape_view(given), session.plan_view(given, whole=False))
    plan = json.loads(plan_json(session.figures(given).plan))
    return json.loads(json.dumps([*map(as_json, shown), plan]))


def random_sizes(
    parameters: tuple[ParameterValue, ...], random: Random, *, count: int
) -> list[dict[str, str]]:
    """Sets of lengths within their limits, each a change of the one before or of the sizes of the file."""
    lengths = [each for each in parameters if each.dimension == _LENGTH]
    sets: list[dict[str, str]] = [{}]
    for _ in range(count):
        one = random.choice(lengths)
        wanted = one.default * random.choice([0.95, 0.98, 1.01, 1.04])
        least, most = one.least or 0.0, one.most or math.inf
        kept = sets[-1] if random.random() < 0.6 else {}
        sets.append({**kept, one.name: f"{min(max(wanted, least), most):.2f} mm"})
    return [*sets, {**sets[-1], "units": "both"}, sets[0]]


def differences(one: Any, other: Any, where: str = "") -> list[str]:
    """Where two documents differ by more than rounding: parts alike to a millionth of a mm share a solid."""
    if isinstance(one, dict) and isinstance(other, dict) and list(one) == list(other):
        return [line for key in one for line in differences(one[key], other[key], f"{where}/{key}")]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        pairs = enumerate(zip(one, other, strict=True))
        return [line for at, (a, b) in pairs for line in differences(a, b, f"{where}/{at}")]
    if isinstance(one, float) and isinstance(other, float):
        return [] if math.isclose(one, other, rel_tol=1e-7, abs_tol=1e-6) else [f"{where}: {one} {other}"]
    return [] if one == other and type(one) is type(other) else [f"{where}: {one} {other}"]


def _from_nothing(asked: tuple[str, dict[str, str]]) -> Any:
    return _answers(_session(asked[0]), asked[1])


def _sizes(asked: tuple[str, int, int]) -> list[dict[str, str]]:
    piece, seed, count = asked
    return random_sizes(_session(piece).shape({}).piece.parameters, Random(seed), count=count)


def _main(piece: str, seed: int, count: int) -> list[str]:
    split = multiprocessing.get_context("fork")
    with split.Pool(1, maxtasksperchild=1) as others:  # each task in a process of its own
        [sizes] = others.map(_sizes, [(piece, seed, count)], chunksize=1)
        fresh = others.map(_from_nothing, [(piece, given) for given in sizes], chunksize=1)
    session = _session(piece)
    kept = [_answers(session, given) for given in sizes]
    found = [
        f"{given}: {line}"
        for given, one, other in zip(sizes, kept, fresh, strict=True)
        for line in differences(one, other)
    ]
    alike = [given for given, one in zip(sizes[1:-2], kept[1:-2], strict=True) if one == kept[0]]
    return [*found, *(f"{given} changes nothing" for given in alike)]


if __name__ == "__main__":
    print(json.dumps(_main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))))
