"""A scoop keeps clear of the joints of its part: refused where it meets one, told where the wall is thin."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from scantling.checks import Subject
from scantling.checks import run as run_rules
from scantling.errors import FileFaults, Finding
from scantling.joinery.scooped import scoops, wall_to_scoop_mm
from scantling.joinery.work import Hole
from scantling.piece.geometry import Frame
from scantling.piece.shaping import arc_radius_mm
from scantling.piece.thinnest import thickness_left_mm
from tests.joinery.bench import YEAR, Made, made, made_of

__all__: list[str] = []

SEAT = 32.0


def stool(margin: Any, *, depth: float = 6.0, hole: float | None = None) -> Made:
    """A seat of 1000 by 300, scooped, with one round leg of 30 plumb at 100 from its start."""
    parts = {
        "seat": {
            "kind": "panel",
            "species": "white oak",
            "center": [0, 0, 400 + SEAT / 2],
            "along": "right",
            "length": 1000,
            "section": [300, SEAT],
            "width_toward": "back",
            "shape": [
                {"kind": "chamfer", "size": 3},
                {"kind": "scoop", "depth": depth, "margin": margin, "face": "top"},
            ],
        },
        "leg": {
            "kind": "stick",
            "species": "white oak",
            "from": [-400, 0, 0],
            "to": [-400, 0, 400],
            "section": [30, 30],
            "round": [30, 30],
            "width_toward": "right",
            "trim": {"start": "floor", "end": "seat.bottom"},
        },
    }
    joint = {"kind": "round_tenon", "between": [["leg.end", "seat"]], "diameter": 20}
    return made_of(parts, {"leg_to_seat": joint if hole is None else {**joint, "depth": hole}})


def told(piece: Made) -> list[Finding]:
    """What the rule on walls says."""
    subject = Subject(piece=piece.piece, works=piece.works, moisture=YEAR)
    return [f for f in run_rules(subject).findings if f.code == "F15"]


def test_a_scoop_that_runs_into_a_hole_is_refused_at_its_place() -> None:
    """The hole of 20 is at 100 from the start, so it reaches to 110: field, figures, rule and the way out."""
    with pytest.raises(FileFaults) as caught:
        stool(105)
    [fault] = caught.value.faults
    assert fault.code == "scoop_meets_joint"
    assert fault.field == "parts.seat.shape[2]"
    assert "105.0 mm from the start" in fault.value
    assert "hole of leg_to_seat" in fault.value
    assert fault.rule == "must keep clear of the hollows of all joints"
    assert fault.remedy == "Make the margin at its start more than 110.0 mm."
    assert fault.line > 0


@pytest.mark.parametrize(("margin", "wall"), [(114.0, 4.0), (115.9, 5.9)])
def test_a_thin_wall_beside_a_scoop_is_told(margin: float, wall: float) -> None:
    """6 mm of wood between hole and rim, as beside any mortise; the advice gives what is missing."""
    [found] = told(stool([margin, 100]))
    assert found.numbers["wall_mm"] == pytest.approx(wall, abs=0.01)
    assert f"{6.0 - wall:.1f} mm larger" in found.advice


def test_a_wall_of_six_beside_a_scoop_passes() -> None:
    """Just enough."""
    assert told(stool([116.0, 100])) == []


def test_a_blind_hole_under_a_scoop_keeps_its_wall() -> None:
    """Scooped from end to end: what is left over a hole is least where it is nearest to the middle.

    By hand: R = (1000^2 / 4 + 36) / 12 = 20836.3; at 110 from the start, 390 from the middle, the arc is
    6 - 390^2 / 2R = 2.35 deep, so that of 32 a hole 24 deep leaves 5.65, and one of 23.5 leaves 6.15.
    """
    deep = 6.0 - 390.0**2 / (2.0 * arc_radius_mm(1000.0, 6.0))
    [found] = told(stool(0, hole=24.0))
    assert found.numbers["wall_mm"] == pytest.approx(SEAT - 24.0 - deep, abs=0.01)
    assert told(stool(0, hole=23.5)) == []


@pytest.mark.parametrize("lean", [0.0, 14.0])
@pytest.mark.parametrize("at", [120.0, 180.0, 500.0])
def test_wall_to_a_scoop_is_the_least_over_the_bodies(at: float, lean: float) -> None:
    """Against points strewn over the arc and over the hole's surface, each against each."""
    part = stool([150.0, 150.0]).piece.parts["seat"]
    [scoop] = scoops(part)
    s, c = math.sin(math.radians(lean)), math.cos(math.radians(lean))
    frame = Frame(
        origin=(part.start_mm + at, 0.0, -SEAT / 2.0),
        grain=(s, 0.0, c),
        width=(0.0, 1.0, 0.0),
        thickness=(c, 0.0, -s),
    )
    deep = 15.0
    found = wall_to_scoop_mm(part, scoop, Hole(frame=frame, diameter_mm=20.0, depth_mm=deep))
    radius = arc_radius_mm(scoop.end_mm - scoop.start_mm, scoop.size_mm)
    u = np.linspace(scoop.start_mm, scoop.end_mm, 14001)
    middle = (scoop.start_mm + scoop.end_mm) / 2.0
    arc = np.column_stack(
        [u, SEAT / 2.0 - (np.sqrt(radius**2 - (u - middle) ** 2) - (radius - scoop.size_mm))]
    )
    turns, out = np.meshgrid(np.linspace(0.0, math.tau, 181), np.linspace(0.0, 10.0, 11))
    hole = np.array(
        [
            frame.point((deep, r * math.cos(t), r * math.sin(t)))
            for t, r in zip(turns.flat, out.flat, strict=True)
        ]
    )[:, (0, 2)]
    least = min(float(np.hypot(*(arc - point).T).min()) for point in hole)
    assert found == pytest.approx(least, abs=0.05)


def test_thickness_left_counts_scoops_and_arches_of_the_thickness() -> None:
    """6 of 32 gone; a rail hollowed in an edge keeps its thickness."""
    assert thickness_left_mm(stool([150.0, 150.0]).piece.parts["seat"]) == pytest.approx(26.0)
    rail = made_of(
        {
            "a": {
                "kind": "stick",
                "species": "white oak",
                "section": [80, 30],
                "width_toward": "top",
                "from": [0, 0, 0],
                "to": [600, 0, 0],
                "shape": [{"kind": "hollow", "rise": 20, "face": "bottom"}],
            }
        },
        {},
    ).piece.parts["a"]
    assert thickness_left_mm(rail) == pytest.approx(30.0)


@pytest.mark.parametrize(
    ("shapes", "left"),
    [
        ([{"kind": "cut_out", "high": 9, "face": "front", "from": 100, "to": 500}], 21.0),
        (
            [{"kind": "hollow", "rise": 8, "face": "front"}, {"kind": "crown", "rise": 8, "face": "back"}],
            22.0,
        ),
        ([{"kind": "crown", "rise": 8, "face": "back"}], 22.0),
    ],
)
def test_thickness_left_of_what_is_cut_out_or_curved(shapes: list[dict[str, Any]], left: float) -> None:
    """A rail curved in its thickness is as much thinner everywhere; a crown at its ends."""
    base = {"kind": "stick", "species": "white oak", "section": [80, 30], "width_toward": "top"}
    rail = made_of({"a": {**base, "from": [0, 0, 0], "to": [600, 0, 0], "shape": shapes}}, {}).piece.parts[
        "a"
    ]
    assert thickness_left_mm(rail) == pytest.approx(left)


def test_a_scoop_in_inches_is_refused_in_inches() -> None:
    """The figures are written in the file's unit."""
    text = """
scantling: 1
title: t
units: in
parts:
  seat:
    kind: panel
    species: white oak
    center: [0, 0, 16.5]
    along: right
    length: 40
    section: [12, 1]
    width_toward: back
    shape:
      - {kind: scoop, depth: 1/4 in, margin: 4 in}
  leg:
    kind: stick
    species: white oak
    from: [-15, 0, 0]
    to: [-15, 0, 16]
    section: [1 1/4 in, 1 1/4 in]
    round: [1 1/4 in, 1 1/4 in]
    width_toward: right
    trim: {start: floor, end: seat.bottom}
joints:
  j: {kind: round_tenon, between: [[leg.end, seat]], diameter: 1}
"""
    with pytest.raises(FileFaults) as caught:
        made(text)
    [fault] = caught.value.faults
    assert "mm" not in f"{fault.value}{fault.remedy}"
    assert fault.remedy == "Make the margin at its start more than 5 1/2 in."
