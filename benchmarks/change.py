"""What the server does when a size is changed: the shape, the picture, the figures, each by itself.

Processor time, so that the figures mean something on a machine with other work; the wall time of the same
answers is in ``web.py``.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from frames import ALL_RAILS, ONE_RAIL, frames_text
from timing import Timing, timed

__all__ = ["timings"]

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"
RUNS = 5
"""After one that is not counted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Case:
    """A piece, and its sizes one after the other."""

    name: str
    piece: Path
    sizes: Callable[[int], dict[str, str]]


def timings() -> list[Timing]:
    """Time what stands between a changed size and what is sent."""
    with _cases() as cases:
        return [timing for case in cases for timing in _timings(case)]


@contextmanager
def _cases() -> Iterator[tuple[_Case, ...]]:
    with TemporaryDirectory() as folder:
        frames = Path(folder) / "frames.yaml"
        frames.write_text(frames_text(20), encoding="utf-8")

        def thick(k: int) -> str:
            return f"{22.1 + k / 10.0} mm"

        yield (
            _Case(name="60 parts, one changed", piece=frames, sizes=lambda k: {ONE_RAIL: thick(k)}),
            _Case(
                name="60 parts, all changed",
                piece=frames,
                sizes=lambda k: {ONE_RAIL: thick(k), ALL_RAILS: thick(k)},
            ),
            _Case(
                name="sideboard, 57 parts",
                piece=EXAMPLES / "sideboard.yaml",
                sizes=lambda k: {"height": f"{850.5 + k / 2.0} mm"},
            ),
            _Case(
                name="chest, 72 parts",
                piece=EXAMPLES / "five_drawer_chest.yaml",
                sizes=lambda k: {"graded_by": f"{21.9 - k / 10.0} mm"},
            ),
        )


def _timings(case: _Case) -> list[Timing]:
    from scantling.web.designs.sending import json_bytes
    from scantling.web.designs.session import Session

    session = Session(case.piece)
    session.plan_view({}, whole=False)
    session.scene({})
    stages: dict[str, Callable[[dict[str, str]], object]] = {
        "shape": lambda given: json_bytes(session.shape_view(given)),
        "picture": session.scene,
        "figures": lambda given: json_bytes(session.plan_view(given, whole=False)),
    }
    taken_s: dict[str, list[float]] = {stage: [] for stage in stages}
    for k in range(RUNS + 1):
        for stage, work in stages.items():
            start = time.process_time()
            work(case.sizes(k))
            taken_s[stage].append(time.process_time() - start)
    return [
        timed(f"{stage} of a changed size, {case.name}, processor time", taken_s[stage][1:])
        for stage in stages
    ]


if __name__ == "__main__":
    for timing in timings():
        print(f"{timing.name:<72}{timing.median_s * 1000:8.1f} ms")
