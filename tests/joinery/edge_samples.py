"""Samples of edge joints, rabbets, screws and bolts."""

from __future__ import annotations

from math import cos, pi, sin, sqrt

from tests.joinery.sample import POST, RAIL, Options, Sample, stick

__all__ = ["EDGE_SAMPLES", "crossing_bores_mm3"]

LAPPING = stick((0, 0, 0), (500, 0, 0), (110, 20), "back")
LAPPED = stick((0, 95, 0), (500, 95, 0), (100, 20), "back")


def _tongue_groove(o: Options) -> tuple[float, float]:
    """8 mm of 20 drawn 10 mm in over 500 mm; behind the tongue what both halves swell, and the clearance."""
    behind = 0.00365 * 3.5 * (110.0 / 2.0 + 100.0 / 2.0) + o["clearance"]
    cheeks = 500.0 * (20.0 - o["tongue"]) * (10.0 + o["gap"])
    return cheeks, 500.0 * (o["tongue"] + o["play"]) * (10.0 + behind)


def _shiplap(o: Options) -> tuple[float, float]:
    wide = 500.0 * (10.0 + o["gap"])
    return wide * (20.0 * (1.0 - o["share"]) + o["play"] / 2.0), wide * (20.0 * o["share"] + o["play"] / 2.0)


def _spline(o: Options) -> tuple[float, float]:
    groove = (500.0 - 2.0 * o["stopped"]) * (o["thickness"] + o["play"]) * o["depth"]
    return groove, groove


def _rabbet(o: Options) -> tuple[float, float]:
    """8 deep, 10 wide and what half of 200 mm swells and the clearance; three screws of 3 x 20."""
    wide = 10.0 + 100.0 * 0.00365 * 3.5 + o["clearance"]
    holes = 3.0 * pi / 4.0 * (3.0 + 0.5) ** 2 * 8.0
    return holes, 500.0 * wide * 8.0 + 3.0 * pi / 4.0 * (0.63 * 3.0) ** 2 * 12.0


def _screwed(o: Options) -> tuple[float, float]:
    """22 mm passed; the plug's hole over the shank's; pilot holes nine tenths of the root."""
    size, length = o["screw"]
    shank, plug = pi / 4.0 * (size + 0.5) ** 2, pi / 4.0 * o["plug"] ** 2
    passed = 22.0 - o["counterbore"]
    return (
        3.0 * (shank * passed + plug * o["counterbore"]),
        3.0 * pi / 4.0 * (0.63 * size) ** 2 * (length - passed),
    )


def crossing_bores_mm3(narrow: float, wide: float) -> float:
    """Common to two round holes that cross square, by the trapezoid rule, exact to rounding. [mm3]"""
    r, big, steps = narrow / 2.0, wide / 2.0, 64
    angles = (pi * k / steps for k in range(steps))
    return 4.0 * r**2 * pi / steps * sum(sqrt(big**2 - (r * sin(a)) ** 2) * cos(a) ** 2 for a in angles)


def _cross_bolt(o: Options) -> tuple[float, float]:
    """Bolt 6 x 100 through 48 mm: nut at 47, hole to 57; two dowels; nut hole 12 and half the nut deep."""
    wide, nut = o["bolt"][0] + 0.5, o["nut"]
    under = 48.0 - o["recess"][0]
    to_nut = o["bolt"][1] - under - 5.0
    dowels = 2.0 * pi / 4.0 * o["dowel"][0] ** 2 * (o["dowel"][1] / 2.0 + 1.0)
    first = pi / 4.0 * (wide**2 * (to_nut + 10.0) + nut[0] ** 2 * (12.0 + nut[1] / 2.0))
    recess = pi / 4.0 * (o["recess"][1] ** 2 - wide**2) * o["recess"][0]
    return first - crossing_bores_mm3(wide, nut[0]) + dowels, pi / 4.0 * wide**2 * 48.0 + recess + dowels


def _tusk_tenon(o: Options) -> tuple[float, float]:
    """Through 48 mm of post: tenon 78 wide, 2 mm of set-back; the slope is level in the middle."""
    thick = o["thickness"]
    long = 48.0 + o["deep"] + thick / 2.0 / o["slope"] + o["tail"]
    hole = (2.0 + o["deep"]) * thick * o["wedge"]
    return (90.0 * 24.0 - 78.0 * thick) * long + hole, 78.0 * thick * 48.0


def _sliding_batten(o: Options) -> tuple[float, float]:
    """8 mm deep over 300; 40 wide at the bottom, a slope of the depth narrower on each side at the face."""
    flare = 8.0 / o["dovetail"]
    return 300.0 * 8.0 * flare, 300.0 * 8.0 * (40.0 + o["play"] - flare)


EDGE_SAMPLES = (
    Sample(
        family="tongue_groove",
        parts={"a": LAPPING, "b": LAPPED},
        between=("a", "b"),
        options={"tongue": 8, "gap": 2, "play": 0.2, "clearance": 0.5},
        ranges={"tongue": (3, 15), "gap": (0, 4), "play": (0, 0.5), "clearance": (0, 5)},
        removed=_tongue_groove,
    ),
    Sample(
        family="shiplap",
        parts={"a": LAPPING, "b": LAPPED},
        between=("a", "b"),
        options={"over": "top", "gap": 2, "play": 0.2, "share": 0.5},
        ranges={"gap": (0, 6), "play": (0, 0.5), "share": (0.31, 0.69)},
        removed=_shiplap,
    ),
    Sample(
        family="spline",
        parts={
            "a": stick((0, 0, 0), (500, 0, 0), (120, 22), "back"),
            "b": stick((0, 110, 0), (500, 110, 0), (100, 22), "back"),
        },
        between=("a", "b"),
        options={"thickness": 6, "depth": 10, "play": 0.1, "stopped": 0},
        ranges={"thickness": (3, 15), "depth": (8, 40), "play": (0, 0.5)},
        removed=_spline,
    ),
    Sample(
        family="rabbet",
        parts={
            "a": {**stick((0, 120, 7), (500, 120, 7), (200, 8), "back"), "kind": "panel"},
            "b": stick((0, 0, 0), (500, 0, 0), (60, 22), "back"),
        },
        between=("a", "b"),
        options={"fastened": "screwed", "fastener": [3, 20], "count": 3, "clearance": 0.5},
        ranges={"clearance": (0, 3)},
        removed=_rabbet,
    ),
    Sample(
        family="plain_screw",
        parts={
            "a": stick((0, 0, 0), (500, 0, 0), (120, 22), "back"),
            "b": stick((0, 0, 24), (500, 0, 24), (120, 26), "back"),
        },
        between=("a", "b"),
        options={"screw": [4.5, 35], "counterbore": 8, "plug": 10, "count": 3},
        ranges={"counterbore": (2, 12), "plug": (7, 16)},
        removed=_screwed,
    ),
    Sample(
        family="cross_bolt",
        parts={"a": RAIL, "b": POST},
        between=("a.end", "b"),
        options={
            "bolt": [6, 100],
            "nut": [10, 14],
            "nut_face": "{inner}",
            "recess": [8, 18],
            "dowel": [8, 40],
        },
        removed=_cross_bolt,
        within=2e-4,
    ),
    Sample(
        family="tusk_tenon",
        parts={"a": RAIL, "b": POST},
        between=("a.end", "b"),
        options={"driven_from": "{inner}", "thickness": 12, "wedge": 20, "deep": 25, "slope": 8, "tail": 45},
        ranges={"thickness": (6, 20), "wedge": (5, 38), "deep": (10, 40), "tail": (20, 80)},
        removed=_tusk_tenon,
    ),
    Sample(
        family="sliding_batten",
        parts={
            "a": stick((300, -150, 27), (300, 150, 27), (40, 30), "right"),
            "b": {**stick((0, 0, 10), (600, 0, 10), (300, 20), "back"), "kind": "panel"},
        },
        between=("a", "b"),
        options={"enters_at": "{inner}", "dovetail": 6, "play": 0.1},
        ranges={"dovetail": (4, 12), "play": (0, 0.5)},
        removed=_sliding_batten,
    ),
)
