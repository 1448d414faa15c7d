"""Small pairs of parts for the joints at angles, and what each takes off them in closed form."""

from __future__ import annotations

from tests.joinery.sample import Options, Sample, stick

__all__ = ["ANGLE_SAMPLES"]


def _miter(o: Options) -> tuple[float, float]:
    """A groove through both ends of boards 120 wide."""
    each = 120.0 * o["thickness"] * o["depth"]
    return each, each


def _bridle(o: Options) -> tuple[float, float]:
    """A rail 60 x 24 ending at the outer edge of a stile 70 x 24: shoulder room on the side it goes on."""
    t = o["thickness"]
    return (70.0 + o["clearance"]) * 60.0 * (24.0 - t), 70.0 * 60.0 * t


ANGLE_SAMPLES = (
    Sample(
        family="miter",
        parts={
            "a": stick((0, 0, 150), (400, 0, 150), (120, 16), "top", trim={"end": "miter with b"}),
            "b": stick((400, -200, 150), (400, 0, 150), (120, 16), "top", trim={"end": "miter with a"}),
        },
        between=("a.end", "b.end"),
        options={"held_by": "spline", "thickness": 4, "depth": 8},
        ranges={"thickness": (3, 8), "depth": (2, 9)},
        removed=_miter,
    ),
    Sample(
        family="bridle",
        parts={
            "a": stick((0, 0, 170), (435, 0, 170), (60, 24), "top"),
            "b": stick((400, 0, 0), (400, 0, 200), (70, 24), "right"),
        },
        between=("a", "b"),
        options={"thickness": 8, "clearance": 0.1},
        ranges={"thickness": (4, 18), "clearance": (0, 0.8)},
        removed=_bridle,
    ),
)
"""One to a family."""
