"""Ten figures of the demo's plan, worked by hand from the sizes in its file."""

from __future__ import annotations

from math import atan, atan2, cos, degrees, hypot, radians, tan

import pytest

from scantling.joinery.work import MarkKind
from scantling.piece.geometry import Vec, cross, dot, scale, sub, unit
from scantling.plan.parts import PlannedPart
from scantling.shop.sawing.saw import PartSawing
from scantling.wood.density import density_kg_m3
from scantling.wood.species import find_species
from tests.plan.jobs import demo_plan

RISE, LEG, SPLAY, RAKE = 716.0, 48.0, radians(7.0), radians(5.0)
LEG_X, LEG_Y = 1370 / 2 - 190, 660 / 2 - 100
APRON, THICK, SETBACK = 90.0, 20.0, 6.0


def part(name: str) -> PlannedPart:
    """A part of the plan."""
    return next(p for p in demo_plan().parts if p.name == name)


def sawing(name: str) -> PartSawing:
    """How a part is sawn."""
    return next(s for s in demo_plan().sawing if s.part == name)


def test_field_of_the_top() -> None:
    """1370 less two ends of 75 is 1220 between the shoulders; two tenons of 48 make 1316."""
    assert part("top").shoulder_mm == pytest.approx(1220.0)
    assert part("top").length_mm == pytest.approx(1316.0)


def test_leg_is_as_long_as_two_leans_make_it() -> None:
    """Rise times sqrt(1 + tan2 + tan2), and what the compound cut adds across 48 and through 48."""
    axis = RISE * hypot(1.0, tan(SPLAY), tan(RAKE))
    miter = atan(tan(SPLAY) * cos(RAKE))
    lead = LEG * tan(miter) + LEG * tan(RAKE) / cos(miter)
    assert axis == pytest.approx(724.1, abs=0.05)  # the scenario's own figure
    assert part("leg_fl").length_mm == pytest.approx(axis + lead, abs=1e-6)
    assert sawing("leg_fl").short_mm == pytest.approx(axis - lead, abs=1e-6)


def test_leg_is_sawn_at_miter_and_bevel_of_the_scenario() -> None:
    """Front face down: miter atan(tan a cos b) = 6.97 degrees, bevel b = 5 degrees."""
    lay = sawing("leg_fl").cuts[0].lay
    assert lay.miter_deg == pytest.approx(degrees(atan(tan(SPLAY) * cos(RAKE))), abs=1e-9)
    assert round(lay.miter_deg, 2) == 6.97
    assert lay.bevel_deg == pytest.approx(5.0, abs=1e-9)


def inner_face(toward: Vec) -> tuple[Vec, Vec]:
    """Point and normal of the front left leg's face that looks toward a direction, by vectors alone."""
    axis = unit((tan(SPLAY), tan(RAKE), 1.0))
    width = unit(sub((1.0, 0.0, 0.0), scale(axis, axis[0])))
    normal = width if toward[0] else cross(axis, width)
    normal = normal if dot(normal, toward) > 0 else scale(normal, -1.0)
    head: Vec = (-LEG_X, -LEG_Y, RISE)
    return tuple(h + n * LEG / 2 for h, n in zip(head, normal, strict=True)), normal


def test_long_aprons_reach_from_leg_to_leg() -> None:
    """Where the lower edge of the front apron meets the leg's face is half its long-point length."""
    point, normal = inner_face((1.0, 0.0, 0.0))
    front_y = -(LEG_Y + APRON / 2 * tan(RAKE) + LEG / 2 - SETBACK - THICK / 2)
    reach = []
    for y in (front_y - THICK / 2, front_y + THICK / 2):
        for z in (RISE, RISE - APRON):
            x = point[0] - (normal[1] * (y - point[1]) + normal[2] * (z - point[2])) / normal[0]
            reach.append(-x)
    assert part("apron_front").length_mm == pytest.approx(2 * max(reach), abs=1e-6)
    assert sawing("apron_front").short_mm == pytest.approx(2 * min(reach), abs=1e-6)


def test_side_aprons_reach_from_leg_to_leg() -> None:
    """The leg's back face holds the X direction: side aprons are sawn at 5 degrees and no tilt."""
    point, normal = inner_face((0.0, 1.0, 0.0))
    low = point[1] - normal[2] * (RISE - APRON - point[2]) / normal[1]
    assert part("apron_left").length_mm == pytest.approx(-2 * low, abs=1e-6)
    lay = sawing("apron_left").cuts[0].lay
    assert (round(lay.miter_deg, 6), round(lay.bevel_deg, 6)) == (5.0, 0.0)


def test_outer_pin_slot_is_as_long_as_the_year_asks() -> None:
    """Pin 6, 270 from the fixed one: 6 + 1.25 of the shrinkage, 8.49 to 4.51 % (eq. 13-3), + 1 to spare."""
    year = demo_plan().seasons.moisture
    total = find_species("black cherry").tangential_pct
    shrink = 270 * (year.build_pct - year.dry_pct) / (30 * 100 / total - 30 + year.build_pct)
    slots = [j for j in demo_plan().seasons.joints if j.what == "pin slot 1"]
    assert len(slots) == 2
    assert slots[0].cut_to_mm == pytest.approx(6 + 1.25 * shrink + 1.0, abs=1e-6)
    assert slots[0].bias_mm == pytest.approx(-1.25 * shrink / 2, abs=1e-6)


def test_clip_groove_is_deep_enough_when_the_top_is_widest() -> None:
    """8 in the groove, no swelling in this room, half a millimeter behind: 8.5 deep (C14)."""
    clips = [j for j in demo_plan().joints if j.family == "top_clip"]
    grooves = [m for j in clips for m in j.marks if m.kind is MarkKind.GROOVE]
    assert {round(m.depth_mm, 6) for m in grooves} == {8.5}


def test_tapers_take_18_off_each_inner_face() -> None:
    """48 to 30, beginning 90 from the top's long point: atan(18 / (length - 90))."""
    tapers = sawing("leg_fl").tapers
    run = part("leg_fl").length_mm - 90
    assert [t.loss_mm for t in tapers] == [18.0, 18.0]
    assert tapers[0].angle_deg == pytest.approx(degrees(atan2(18.0, run)), abs=1e-9)


def test_top_takes_five_strips() -> None:
    """660 and half an inch to trim, strips of at most 150: ceil(672.7 / 150) = 5."""
    top = next(m for m in demo_plan().milling if m.part == "top")
    assert top.pieces == 5
    assert sum(top.strips.widths_mm) == pytest.approx(660 + 12.7)


def test_loose_tenons_are_cut_to_both_mortises() -> None:
    """Eight of 10 x 50, as long as 32 + 22 less a millimeter of room at each end."""
    tenons = [line for line in demo_plan().hardware if line.kind == "loose tenon"]
    assert [(t.needed, t.size_mm) for t in tenons] == [(8, (10.0, 50.0, 52.0))]


def test_weight_is_volume_times_density() -> None:
    """The field before its tongue: 1220 x 660 x 24 of cherry, and two tenons' worth on each end."""
    top = part("top")
    tongue = 8 * (2 * 12 * 660 + 2 * 5 * 36 * 70)
    slots = 8 * 6 * (2 * (2 * 9.67 + 2 * 8.33) + 0)
    assert top.volume_mm3 == pytest.approx(1220 * 660 * 24 + tongue - slots, rel=2e-4)
    density = density_kg_m3(find_species("black cherry"), mc_pct=6.5)
    assert top.mass_kg == pytest.approx(top.volume_mm3 * 1e-9 * density, rel=1e-3)
