"""Samples of what moves in a case: hinges, runners, slides."""

from __future__ import annotations

from math import pi

from tests.joinery.sample import Options, Sample, stadium_mm2, stick

__all__ = ["CASE_SAMPLES"]


def _butt_hinge(o: Options) -> tuple[float, float]:
    """Two beds a side, each with two pilot holes of 0.63 of the screw from its bottom; gap 1 mm as drawn."""
    deep, back = (o["knuckle"] - 1.0) / 2.0, o["leaf"] - o["pin_out"]
    size, length = o["screw"]
    pilots = 2.0 * pi / 4.0 * (0.63 * size) ** 2 * (length - o["thick"])
    each = 2.0 * (o["length"] * back * deep + pilots)
    return each, each


def _drawer_runner(o: Options) -> tuple[float, float]:
    """Two slots through 40 mm, heads let in; a housing 6 mm deep and 300 long, and two pilot holes."""
    size, length = o["screw"]
    through, cb = 40.0, o["counterbore"]
    slots = (
        stadium_mm2(o["slot"], size) * (through - cb)
        + stadium_mm2(o["slot"] - size + o["head"], o["head"]) * cb
    )
    pilots = 2.0 * pi / 4.0 * (0.63 * size) ** 2 * (length - through + cb)
    return 2.0 * slots, 300.0 * (20.0 + o["play"]) * 6.0 + pilots


def _drawer_groove(o: Options) -> tuple[float, float]:
    """End to end over 400 mm, 4 mm drawn in and the room behind."""
    return 400.0 * o["height"] * (4.0 + o["room"]), 0.0


def _drawer_slide(o: Options) -> tuple[float, float]:
    size, length = o["screw"]
    pilots = o["screws"] * pi / 4.0 * (0.63 * size) ** 2 * length
    return pilots, pilots


def _strap_hinge(o: Options) -> tuple[float, float]:
    """Two straps: their screws in lid and box; beds as deep as what of them is not the gap of 1 mm."""
    size, length = o["screw"]
    each = pi / 4.0 * (0.63 * size) ** 2 * (length - o["thick"])
    beds = 2.0 * o["width"] * 22.0 * (o["thick"] - 1.0)
    return 2.0 * o["screws"] * each, 2.0 * o["tail_screws"] * each + beds


def _pin_hinge(o: Options) -> tuple[float, float]:
    """A hole in the end of the lid, and one wider by the play in the side."""
    bore, turn = o["diameter"], o["diameter"] + 0.3
    return pi / 4.0 * bore**2 * o["depth_first"], pi / 4.0 * turn**2 * o["depth_second"]


def _shelf_pin(o: Options) -> tuple[float, float]:
    """Two rows of five round holes in the side; the shelf keeps all its wood."""
    return 0.0, 2.0 * 5.0 * pi / 4.0 * o["pin"][0] ** 2 * o["depth"]


CASE_SAMPLES = (
    Sample(
        family="pin_hinge",
        parts={
            "a": stick((0, 0, 205), (299, 0, 205), (120, 10), "back"),
            "b": stick((310, -100, 120), (310, 100, 120), (240, 20), "top"),
        },
        between=("a.end", "b"),
        options={"hinge": "{inner}", "diameter": 6, "depth_first": 25, "depth_second": 10},
        ranges={"diameter": (3, 7), "depth_first": (10, 40), "depth_second": (5, 15)},
        removed=_pin_hinge,
    ),
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
    Sample(
        family="drawer_runner",
        parts={
            "a": stick((0, -150, 100), (0, 150, 100), (40, 20), "right"),
            "b": stick((24, 0, 0), (24, 0, 200), (320, 20), "back"),
        },
        between=("a", "b"),
        options={"screw": [4, 30], "counterbore": 20, "head": 9, "slot": 9, "play": 0.2, "screws": 2},
        ranges={"counterbore": (11, 23.9), "head": (8, 14), "slot": (6, 14), "play": (0, 1)},
        removed=_drawer_runner,
    ),
    Sample(
        family="drawer_groove",
        parts={
            "a": stick((0, -200, 100), (0, 200, 100), (120, 12), "top"),
            "b": stick((-10, -200, 100), (-10, 200, 100), (20, 16), "top"),
        },
        between=("a", "b"),
        options={"height": 21, "room": 0.5},
        ranges={"height": (20.1, 24), "room": (0, 3.9)},
        removed=_drawer_groove,
    ),
    Sample(
        family="drawer_slide",
        parts={
            "a": stick((0, 0, 100), (250, 0, 100), (120, 12), "top"),
            "b": stick((-20, 28.7, 110), (260, 28.7, 110), (200, 20), "top"),
        },
        between=("a.{inner}", "b"),
        options={"thick": 12.7, "screw": [3.5, 10], "screws": 3},
        ranges={"thick": (11.95, 12.7)},
        removed=_drawer_slide,
    ),
    Sample(
        family="strap_hinge",
        parts={
            "a": stick((0, 0, 112), (200, 0, 112), (200, 22), "back"),
            "b": stick((0, 89, 25), (200, 89, 25), (150, 22), "top"),
        },
        between=("a.bottom", "b.{inner}"),
        options={
            "count": 2,
            "strap": 120,
            "tail": 60,
            "width": 25,
            "thick": 3,
            "inset": 30,
            "screw": [4, 16],
            "screws": 3,
            "tail_screws": 2,
        },
        ranges={"strap": (60, 150), "width": (15, 40), "thick": (1.1, 4), "tail": (40, 90)},
        removed=_strap_hinge,
    ),
    Sample(
        family="shelf_pin",
        parts={
            "a": stick((0, 0, 200), (398.5, 0, 200), (200, 20), "back"),
            "b": stick((411, 0, 0), (411, 0, 400), (220, 22), "back"),
        },
        between=("a.end", "b"),
        options={"pin": [5, 18], "depth": 9, "pitch": 32, "holes": 5},
        ranges={"depth": (3, 16), "pitch": (6, 60)},
        removed=_shelf_pin,
    ),
)
