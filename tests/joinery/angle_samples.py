"""Small pairs of parts for the joints at angles, and what each takes off them in closed form."""

from __future__ import annotations

from tests.joinery.sample import Options, Sample, stick

__all__ = ["ANGLE_SAMPLES"]


def _miter(o: Options) -> tuple[float, float]:
    """A groove through both ends of boards 120 wide."""
    each = 120.0 * o["thickness"] * o["depth"]
    return each, each


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
)
"""One to a family."""
