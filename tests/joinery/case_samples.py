"""Samples of what moves in a case: hinges, runners, slides."""

from __future__ import annotations

from math import pi

from tests.joinery.sample import Options, Sample, stick

__all__ = ["CASE_SAMPLES"]


def _butt_hinge(o: Options) -> tuple[float, float]:
    """Two beds a side, each with two pilot holes of 0.63 of the screw from its bottom; gap 1 mm as drawn."""
    deep, back = (o["knuckle"] - 1.0) / 2.0, o["leaf"] - o["pin_out"]
    size, length = o["screw"]
    pilots = 2.0 * pi / 4.0 * (0.63 * size) ** 2 * (length - o["thick"])
    each = 2.0 * (o["length"] * back * deep + pilots)
    return each, each


CASE_SAMPLES = (
    Sample(
        family="butt_hinge",
        parts={
            "a": stick((0, 0, 112), (200, 0, 112), (60, 22), "back"),
            "b": stick((0, 19, 60), (200, 19, 60), (80, 22), "top"),
        },
        between=("a.bottom", "b.{inner}"),
        options={
            "count": 2,
            "length": 40,
            "leaf": 16,
            "pin_out": 3,
            "knuckle": 6,
            "thick": 2,
            "screw": [3, 16],
            "screws": 2,
        },
        ranges={
            "length": (20, 45),
            "leaf": (8, 20),
            "pin_out": (1, 4),
            "knuckle": (3, 9),
            "thick": (1, 3),
        },
        removed=_butt_hinge,
    ),
)
