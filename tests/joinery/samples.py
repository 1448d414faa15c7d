"""One small pair of parts for each joint family, and what its joint takes off them in closed form."""

from __future__ import annotations

from math import pi

from tests.joinery.angle_samples import ANGLE_SAMPLES
from tests.joinery.case_samples import CASE_SAMPLES
from tests.joinery.edge_samples import EDGE_SAMPLES
from tests.joinery.sample import POST, RAIL, Options, Sample, stadium_mm2, stick

__all__ = ["SAMPLES", "Options", "Sample", "stadium_mm2"]

_ROOM_MM = 1.5
"""Left under a tongue or tenon of a breadboard end. [mm]"""
_BLIND_MM = 4.0
"""Left over a blind pin. [mm]"""


SIDE = stick((0, 0, 150), (400, 0, 150), (120, 16), "top", trim={"end": "b.left"})
FRONT = stick((410, -200, 150), (410, 8, 150), (120, 20), "top")
PANEL = {**stick((0, 0, 100), (600, 0, 100), (300, 20), "back"), "kind": "panel"}
CAP = stick((630, -150, 100), (630, 150, 100), (60, 20), "right")
TOP = {**stick((-300, 0, 112), (700, 0, 112), (500, 24), "back"), "kind": "panel"}


def _none(_: Options) -> tuple[float, float]:
    return 0.0, 0.0


def _loose_tenon(o: Options) -> tuple[float, float]:
    tight, long = (stadium_mm2(o["width"] + more, o["thickness"]) for more in (0.0, o["long_by"]))
    return tight * o["depth_first"] * o["count"], long * o["depth_second"] * o["count"]


def _dowel_pin(o: Options) -> tuple[float, float]:
    each = pi / 4.0 * o["diameter"] ** 2 * o["count"]
    return each * o["depth_first"], each * o["depth_second"]


def _notch(o: Options) -> tuple[float, float]:
    return 0.0, (90.0 + 2.0 * o["clearance"]) * 32.0 * 64.0


def _halving(o: Options) -> tuple[float, float]:
    lower = 20.0 * o["share"]
    return 60.0 * (40.0 + 2.0 * o["clearance"]) * lower, 40.0 * (60.0 + 2.0 * o["clearance"]) * (20.0 - lower)


def _housing(o: Options) -> tuple[float, float]:
    return o["stopped"] * o["depth"] * 20.0, (200.0 - o["stopped"]) * (20.0 + o["clearance"]) * o["depth"]


def _round_tenon(o: Options) -> tuple[float, float]:
    length = 38.0 + o["proud"]
    return pi / 4.0 * (30.0**2 - o["diameter"] ** 2) * length, pi / 4.0 * o["diameter"] ** 2 * 38.0


def _top_clip(o: Options) -> tuple[float, float]:
    return 400.0 * o["groove"] * o["depth"], 0.0


def _slotted_screw(o: Options) -> tuple[float, float]:
    """The middle screw in a plain hole, the outer two in slots; heads let in, pilot holes in the top."""
    size, length = o["screw"]
    below = 45.0 - o["counterbore"]
    total = 0.0
    for slot in (size, o["slot"], o["slot"]):
        total += stadium_mm2(slot, size) * below
        total += stadium_mm2(slot - size + o["head"], o["head"]) * o["counterbore"]
    return total, 3.0 * pi / 4.0 * (0.63 * size) ** 2 * (length - below)


def _breadboard_end(o: Options) -> tuple[float, float]:
    t, tongue, tenon, pin = o["tongue_thickness"], o["tongue_length"], o["tenon_length"], o["pin"]
    hole = pi / 4.0 * pin**2
    kept = (300.0 * tongue + 3.0 * (tenon - tongue) * o["tenon_width"]) * t
    kept -= (hole + 2.0 * stadium_mm2(o["slot"], pin)) * t
    groove = 300.0 * (tongue + _ROOM_MM) * t
    mortises = (3.0 * o["tenon_width"] + 2.0 * o["mortise_over"]) * (tenon - tongue) * t
    pins = 3.0 * hole * (20.0 - _BLIND_MM - t)  # all but what the mortise has taken already
    return groove + mortises + pins, 300.0 * 20.0 * tenon - kept


def _mortise_tenon(o: Options) -> tuple[float, float]:
    """A tenon from 20 below the top edge to the shoulder, the haunch above it out to the edge."""
    wide = 90.0 - o["haunch_width"] - o["shoulder"]
    haunch = o["haunch_width"] * o["thickness"]
    kept = wide * o["thickness"] * o["length"] + haunch * o["haunch"]
    room = o["end_room"]
    hollow = wide * o["thickness"] * (o["length"] + room) + haunch * (o["haunch"] + room)
    return 90.0 * 24.0 * o["length"] - kept, hollow


def _panel_groove(o: Options) -> tuple[float, float]:
    """Tongue 8 in; its shoulders stand back by half the panel's swelling and the clearance."""
    back = 100.0 * 0.00365 * 3.5 + o["clearance"]
    return (8.0 + back) * 300.0 * (10.0 - o["tongue"]), 302.0 * o["depth"] * (o["tongue"] + o["play"])


def _opening_fit(o: Options) -> tuple[float, float]:
    return (o["gap"] - 5.0) * 400.0 * 24.0, 0.0


def _dovetail(o: Options) -> tuple[float, float]:
    """Tails 120 - 2 half pins - pins between them, at their ends; what flares in is a slope of the depth."""
    depth = 20.0 - o["lap"]
    wide = (120.0 - 2.0 * o["half_pin"] - (o["tails"] - 1) * o["pin"]) / o["tails"]
    tails = o["tails"] * (wide - depth / o["slope"]) * depth * 16.0
    return 120.0 * depth * 16.0 - tails, tails


def _finger_joint(o: Options) -> tuple[float, float]:
    """Seven of 120 / 7: four stay on the first; the sockets have the clearance, half of it at the edges."""
    pitch = 120.0 / 7.0
    return 3.0 * pitch * 20.0 * 16.0, (4.0 * pitch + 3.0 * o["clearance"]) * 20.0 * 16.0


def _top_button(o: Options) -> tuple[float, float]:
    return 3.0 * o["mortise"] * o["depth"] * (o["tongue"] + o["play"]), 0.0


def _figure_eight(o: Options) -> tuple[float, float]:
    """Recess and pilot hole centered on the rail's face: half of each is in the rail."""
    size, length = o["screw"]
    pilot = pi / 4.0 * (0.63 * size) ** 2 * (length - o["thick"])
    return 3.0 * (pi / 8.0 * o["ring"] ** 2 * o["thick"] + pilot / 2.0), 3.0 * pilot


SAMPLES: dict[str, Sample] = {
    sample.family: sample
    for sample in (
        Sample(
            family="loose_tenon",
            parts={"a": RAIL, "b": POST},
            between=("a.end", "b"),
            options={
                "thickness": 8,
                "width": 50,
                "depth_first": 40,
                "depth_second": 30,
                "long_by": 3,
                "count": 1,
            },
            ranges={
                "thickness": (4, 20),
                "width": (22, 70),
                "depth_first": (5, 150),
                "depth_second": (2, 47),
                "long_by": (0, 15),
            },
            removed=_loose_tenon,
        ),
        Sample(
            family="dowel_pin",
            parts={"a": RAIL, "b": POST},
            between=("a.end", "b"),
            options={"diameter": 8, "count": 3, "depth_first": 30, "depth_second": 25},
            ranges={"diameter": (3, 20), "depth_first": (4, 90), "depth_second": (3, 47)},
            removed=_dowel_pin,
        ),
        Sample(
            family="edge_glue",
            parts={
                "a": stick((0, 0, 0), (500, 0, 0), (120, 22), "back"),
                "b": stick((0, 110, 0), (500, 110, 0), (100, 22), "back"),
            },
            between=("a", "b"),
            options={},
            removed=_none,
        ),
        Sample(
            family="face_lamination",
            parts={
                "a": stick((0, 0, 0), (500, 0, 0), (120, 22), "back"),
                "b": stick((0, 0, 24), (500, 0, 24), (120, 26), "back"),
            },
            between=("a", "b"),
            options={},
            removed=_none,
        ),
        Sample(
            family="notch",
            parts={
                "a": stick((-300, -29, 260), (300, -29, 260), (90, 32), "top"),
                "b": stick((0, 0, 0), (0, 0, 600), (90, 64), "back"),
            },
            between=("a", "b"),
            options={"clearance": 0.2},
            ranges={"clearance": (0, 1.5)},
            removed=_notch,
        ),
        Sample(
            family="halving",
            parts={
                "a": stick((-200, 0, 10), (200, 0, 10), (60, 20), "back"),
                "b": stick((0, -200, 10), (0, 200, 10), (40, 20), "right"),
            },
            between=("a", "b"),
            options={"clearance": 0.1, "share": 0.5},
            ranges={"clearance": (0, 1), "share": (0.2, 0.8)},
            removed=_halving,
        ),
        Sample(
            family="housing",
            parts={
                "a": stick((0, 0, 200), (400, 0, 200), (200, 20), "back", trim={"end": "b.left"}),
                "b": stick((411, 0, 0), (411, 0, 600), (200, 22), "back"),
            },
            between=("a.end", "b"),
            options={"depth": 8, "stopped": 12, "clearance": 0.1},
            ranges={"depth": (2, 20), "stopped": (0, 60), "clearance": (0, 0.5)},
            removed=_housing,
        ),
        Sample(
            family="round_tenon",
            parts={
                "a": stick(
                    (0, 0, 0), (0, 0, 400), (30, 30), "right", round=[30, 30], trim={"end": "b.bottom"}
                ),
                "b": stick((-200, 0, 419), (200, 0, 419), (150, 38), "back"),
            },
            between=("a.end", "b"),
            options={"diameter": 20, "proud": 6},
            ranges={"diameter": (8, 29), "proud": (0, 15)},
            removed=_round_tenon,
        ),
        Sample(
            family="top_clip",
            parts={"a": stick((0, -200, 55), (400, -200, 55), (90, 20), "top"), "b": TOP},
            between=("a.{inner}", "b"),
            options={"groove": 3.2, "from_top": 9, "engaged": 6, "depth": 12},
            ranges={"groove": (2, 6), "from_top": (5, 40), "depth": (7, 19)},
            removed=_top_clip,
        ),
        Sample(
            family="slotted_screw",
            parts={"a": stick((0, -200, 77.5), (0, 200, 77.5), (64, 45), "right"), "b": TOP},
            between=("a", "b"),
            options={"screw": [5, 45], "counterbore": 20, "head": 12, "slot": 12, "count": 3},
            ranges={"counterbore": (5, 22), "head": (8, 16), "slot": (6, 20)},
            removed=_slotted_screw,
        ),
        Sample(
            family="breadboard_end",
            parts={"a": CAP, "b": PANEL},
            between=("a", "b.end"),
            options={
                "tongue_thickness": 8,
                "tongue_length": 12,
                "tenon_length": 40,
                "tenon_width": 50,
                "edge_inset": 60,
                "pin": 6,
                "slot": 12,
                "mortise_over": 7,
            },
            ranges={
                "tongue_thickness": (5, 12),
                "tongue_length": (5, 14),
                "tenon_length": (25, 58),
                "tenon_width": (20, 70),
                "slot": (6, 18),
                "mortise_over": (0, 12),
            },
            removed=_breadboard_end,
        ),
        Sample(
            family="mortise_tenon",
            parts={"a": RAIL, "b": POST},
            between=("a.end", "b"),
            options={
                "length": 30,
                "thickness": 8,
                "shoulder": 8,
                "haunch": 8,
                "haunch_width": 20,
                "haunch_at": "top",
                "end_room": 1,
            },
            ranges={
                "length": (10, 46),
                "thickness": (4, 20),
                "shoulder": (0, 25),
                "haunch": (2, 9),
                "haunch_width": (5, 35),
            },
            removed=_mortise_tenon,
        ),
        Sample(
            family="panel_groove",
            parts={
                "a": {**stick((50, 0, 100), (350, 0, 100), (200, 10), "back"), "kind": "panel"},
                "b": stick((0, 122, 100), (400, 122, 100), (60, 22), "back"),
            },
            between=("a", "b"),
            options={"depth": 12, "tongue": 6, "play": 0.2, "clearance": 0.5, "held": "middle"},
            ranges={"depth": (8.1, 50), "tongue": (2, 9.9), "play": (0, 1), "clearance": (0, 2)},
            removed=_panel_groove,
        ),
        Sample(
            family="opening_fit",
            parts={
                "a": stick((0, 0, 145), (400, 0, 145), (90, 24), "top"),
                "b": stick((-50, 0, 215), (450, 0, 215), (40, 24), "top"),
            },
            between=("a.top", "b"),
            options={"gap": 7},
            ranges={"gap": (5.1, 20)},
            removed=_opening_fit,
        ),
        Sample(
            family="dovetail",
            parts={"a": SIDE, "b": FRONT},
            between=("a.end", "b"),
            options={"lap": 6, "tails": 4, "pin": 6, "half_pin": 5, "slope": 8},
            ranges={"lap": (0, 12), "pin": (3, 9), "half_pin": (2, 10), "slope": (5, 10)},
            removed=_dovetail,
        ),
        Sample(
            family="finger_joint",
            parts={"a": SIDE, "b": FRONT},
            between=("a.end", "b"),
            options={"clearance": 0.1},
            ranges={"clearance": (0, 0.5)},
            removed=_finger_joint,
        ),
        Sample(
            family="top_button",
            parts={"a": stick((0, -200, 55), (400, -200, 55), (90, 20), "top"), "b": TOP},
            between=("a.{inner}", "b"),
            options={
                "from_top": 12,
                "tongue": 8,
                "play": 0.5,
                "engaged": 9,
                "width": 30,
                "depth": 16,
                "mortise": 36,
                "count": 3,
            },
            ranges={"from_top": (8, 28), "tongue": (5, 12), "depth": (9.1, 19), "mortise": (30, 60)},
            removed=_top_button,
        ),
        Sample(
            family="figure_eight",
            parts={"a": stick((0, -200, 55), (400, -200, 55), (90, 20), "top"), "b": TOP},
            between=("a.{inner}", "b"),
            options={"ring": 18, "centers": 21, "from_face": 0, "thick": 3, "screw": [4.5, 18], "count": 3},
            ranges={"ring": (12, 24), "thick": (2, 5)},
            removed=_figure_eight,
        ),
        *EDGE_SAMPLES,
        *ANGLE_SAMPLES,
        *CASE_SAMPLES,
    )
}
