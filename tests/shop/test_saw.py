"""Saw settings of parts: angles, long and short points, senses and set-ups, by worked figures."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from scantling.errors import InputError
from scantling.piece.convex import face_direction
from scantling.piece.geometry import Frame, Vec, add, cross, scale
from scantling.piece.model import Direction, End, Part
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.sawing.partends import EndSense
from scantling.shop.sawing.saw import CutOrder, PartSawing, SawCut, saw_all, saw_part
from scantling.shop.sawing.sawplane import KeptSide, Turn
from scantling.shop.sawing.sawsetup import saw_setups
from tests.shop.sticks import level_stick, splayed_leg, tapered

SHOP = default_shop()


def mirrored(part: Part, name: str) -> Part:
    """The part's mirror image across the middle plane X = 0, with a left-handed frame."""
    frame = part.frame

    def flip(vector: tuple[float, float, float]) -> tuple[float, float, float]:
        return (-vector[0], vector[1], vector[2])

    image = Frame(
        origin=flip(frame.origin),
        grain=flip(frame.grain),
        width=flip(frame.width),
        thickness=flip(frame.thickness),
    )
    return replace(part, name=name, frame=image, mirrored=True)


@pytest.mark.parametrize(
    ("front", "side", "rise", "miter", "bevel", "edge"),
    [(8, 5, 412, 7.97, 5.00, 417.6), (7, 5, 716, 6.97, 5.00, 724.1)],
)
def test_a_two_way_splayed_leg(
    front: float, side: float, rise: float, miter: float, bevel: float, edge: float
) -> None:
    """Front face down: miter atan(tan a cos b), bevel b; arrises rise x sqrt(1 + tan^2 a + tan^2 b)."""
    sawing = saw_part(splayed_leg("leg", front, side, rise_mm=rise), {}, SHOP)
    for cut in sawing.cuts:
        lays = (cut.lay, *cut.others)
        front_down = next(lay for lay in lays if lay.face_down is Direction.FRONT)
        assert (front_down.miter_deg, front_down.bevel_deg) == pytest.approx((miter, bevel), abs=0.005)
        assert front_down.miter_scale_deg == pytest.approx(90 - front_down.miter_deg)
        side_down = next(lay for lay in lays if lay.face_down is Direction.LEFT)
        swapped = math.degrees(math.atan(math.tan(math.radians(side)) * math.cos(math.radians(front))))
        assert side_down.miter_deg == pytest.approx(swapped, abs=0.1)
    assert [arris.length_mm for arris in sawing.arrises] == pytest.approx([edge] * 4, abs=0.05)
    assert sawing.sense is EndSense.PARALLEL


def test_parallel_and_mirrored_ends_of_90_at_12_degrees() -> None:
    """Axis 700: parallel 719.1 tip to tip with both edges 700; mirrored 719.1 and 680.9, by hand."""
    parallel = saw_part(level_stick("rail", 700.0, lean_deg=(12.0, 12.0)), {}, SHOP)
    assert parallel.sense is EndSense.PARALLEL
    assert parallel.long_mm == pytest.approx(719.13, abs=0.005)
    assert [arris.length_mm for arris in parallel.arrises] == pytest.approx([700.0] * 4)
    against = saw_part(level_stick("rail", 700.0, lean_deg=(12.0, -12.0)), {}, SHOP)
    assert against.sense is EndSense.MIRRORED
    assert (against.long_mm, against.short_mm) == pytest.approx((719.13, 680.87), abs=0.005)
    lengths = sorted(arris.length_mm for arris in against.arrises)
    assert lengths == pytest.approx([680.87, 680.87, 719.13, 719.13], abs=0.005)
    assert against.blank_mm >= against.long_mm + SHOP.kerf_mm + 10


def test_a_raked_leg_from_floor_to_underside() -> None:
    """412 high, 45 deep, 12 deg: edge 421.2 and blank 430.8, as worked by hand."""
    leg = splayed_leg("leg", 12.0, 0.0, rise_mm=412.0, square_mm=45.0)
    sawing = saw_part(leg, {}, SHOP)
    assert sawing.arrises[0].length_mm == pytest.approx(421.2, abs=0.05)
    assert sawing.long_mm == pytest.approx(430.8, abs=0.05)
    assert sawing.cuts[0].lead_width_mm == pytest.approx(45 * math.tan(math.radians(12)), abs=1e-6)


def test_a_joint_lengthens_an_end_and_keeps_its_angle() -> None:
    """20 mm of tenon at the end: 20 longer along the grain, same setting."""
    apron = level_stick("apron", 700.0, lean_deg=(7.0, -7.0))
    plain = saw_part(apron, {}, SHOP)
    longer = saw_part(apron, {("apron", End.END): 20.0}, SHOP)
    assert longer.long_mm == pytest.approx(plain.long_mm + 20.0)
    assert longer.cuts[1].lay == plain.cuts[1].lay


def test_an_apron_is_sawn_flat_with_the_miter_alone() -> None:
    """A lean in the front view asks for one angle; on edge it would be a bevel, offered as another way."""
    cut = saw_part(level_stick("apron", 700.0, lean_deg=(7.0, -7.0)), {}, SHOP).cuts[0]
    assert (cut.lay.miter_deg, cut.lay.bevel_deg) == pytest.approx((7.0, 0.0))
    assert cut.lay.face_down in (Direction.FRONT, Direction.BACK)
    assert any(lay.bevel_deg == pytest.approx(7.0) and lay.miter_deg == 0.0 for lay in cut.others)


def test_a_mirrored_leg_is_sawn_with_the_same_setting_laid_the_other_way() -> None:
    """Four legs of two hands are one setting; the lay of a left leg is not that of a right one."""
    left = splayed_leg("leg left", 7.0, 5.0, rise_mm=716.0)
    right = mirrored(left, "leg right")
    a, b = saw_all((left, right), {}, SHOP)
    for one, other in zip(a.cuts, b.cuts, strict=True):
        assert one.lay.setting == other.lay.setting
        assert (one.lay.face_down, one.lay.fence_edge, one.lay.kept) != (
            other.lay.face_down,
            other.lay.fence_edge,
            other.lay.kept,
        )
    setups = saw_setups((a, b), SHOP)
    assert [len(setup.cuts) for setup in setups] == [2, 2]
    assert [setup.order for setup in setups] == [CutOrder.FIRST, CutOrder.SECOND]
    assert setups[1].stop_mm == pytest.approx(a.long_mm)


def blade_in_world(part: Part, cut: SawCut) -> Vec:
    """Normal of the blade, out of the wood kept, worked out from the names of the lay alone."""
    frame, lay = part.frame, cut.lay
    axes = [scale(axis, sign) for axis in (frame.width, frame.thickness) for sign in (1.0, -1.0)]
    down = next(axis for axis in axes if face_direction(axis) is lay.face_down)
    y = next(axis for axis in axes if face_direction(axis) is lay.fence_edge)
    z = scale(down, -1.0)
    x = cross(y, z)
    m, b = math.radians(lay.miter_deg), math.radians(lay.bevel_deg)
    swing = -math.sin(m) if lay.turn is Turn.RIGHT else math.sin(m)
    normal = add(
        add(scale(x, math.cos(b) * math.cos(m)), scale(y, math.cos(b) * swing)), scale(z, math.sin(b))
    )
    return normal if lay.kept is KeptSide.LEFT else scale(normal, -1.0)


@pytest.mark.parametrize("hand", ["as drawn", "mirrored"])
@pytest.mark.parametrize(("front", "side"), [(7.0, 5.0), (-7.0, 5.0), (12.0, -8.0), (0.0, 9.0)])
def test_the_lay_in_words_cuts_the_plane_in_the_world(front: float, side: float, hand: str) -> None:
    """Laid as the words say, the blade stands in the plane of the floor or the top, for both hands."""
    leg = splayed_leg("leg", front, side, rise_mm=700.0)
    part = leg if hand == "as drawn" else mirrored(leg, "leg")
    for cut in saw_part(part, {}, SHOP).cuts:
        wanted = (0.0, 0.0, -1.0 if cut.end is End.START else 1.0)
        for lay in (cut.lay, *cut.others):
            found = blade_in_world(part, replace(cut, lay=lay))
            assert found == pytest.approx(wanted, abs=1e-9)


def test_first_ends_are_sawn_before_second_ends_whatever_the_angles() -> None:
    """Over a mixed lot, each part's first end stands in an earlier set-up than its second."""
    parts = [
        level_stick("a", 500.0, lean_deg=(0.0, 10.0)),
        level_stick("b", 600.0, lean_deg=(10.0, 0.0)),
        level_stick("c", 600.0, lean_deg=(4.0, -10.0)),
        splayed_leg("d", 7.0, 5.0, rise_mm=700.0),
    ]
    setups = saw_setups(saw_all(parts, {}, SHOP), SHOP)
    seen: set[str] = set()
    for setup in setups:
        for cut in setup.cuts:
            assert (cut.part in seen) is (cut.order is CutOrder.SECOND)
        seen |= {cut.part for cut in setup.cuts}
    assert sum(len(setup.cuts) for setup in setups) == 8


def test_equal_parts_share_a_stop_and_unequal_ones_do_not() -> None:
    """Two aprons of 700 share one stop, one of 500 has its own, all with the blade at 7 deg."""
    parts = [
        level_stick(name, length, lean_deg=(7.0, -7.0))
        for name, length in (("a", 700), ("b", 700), ("c", 500))
    ]
    setups = saw_setups(saw_all(parts, {}, SHOP), SHOP)
    assert [(len(setup.cuts), setup.stop_mm is None) for setup in setups] == [
        (3, True),
        (1, False),
        (2, False),
    ]


def test_a_saw_that_does_not_turn_so_far_is_passed_over_and_said() -> None:
    """55 deg is past a miter saw of 50, so the table saw takes it; else no saw reaches, and why is told."""
    steep = level_stick("brace", 400.0, lean_deg=(55.0, 55.0), width_mm=40.0)
    assert saw_part(steep, {}, SHOP).cuts[0].lay.machine is Machine.TABLE_SAW
    lay = saw_part(steep, {}, parse_shop("machines: {miter_saw: {}}")).cuts[0].lay
    assert not lay.reaches
    assert lay.why_not == ("miter saw: turn 55.0° is past its 50.0°",)
    by_hand = saw_part(steep, {}, parse_shop("machines: {}")).cuts[0].lay
    assert (by_hand.machine, by_hand.reaches) == (Machine.HAND_SAW, True)


def test_a_taper_is_set_by_its_loss_and_run() -> None:
    """45 to 28 over 560 is 1.74 deg, as worked by hand, and 28 are left at the thin end."""
    leg = tapered(splayed_leg("leg", 0.0, 0.0, rise_mm=650.0, square_mm=45.0), begin_mm=90.0, loss_mm=17.0)
    sawing = saw_part(leg, {}, SHOP)
    [cut] = sawing.tapers
    assert cut.angle_deg == pytest.approx(1.74, abs=0.005)
    assert (cut.run_mm, cut.left_mm) == pytest.approx((560.0, 28.0))
    assert any("taper last" in note for note in sawing.notes)


def test_an_end_that_runs_along_the_part_is_refused_by_name() -> None:
    """A trim within 5 degrees of the grain has no saw setting: the fault names part, end and trim."""
    leg = splayed_leg("leg", 0.0, 0.0, rise_mm=700.0)
    along = replace(leg.trims[0], by="wall.front", plane=replace(leg.trims[0].plane, normal=(0.0, 1.0, 0.0)))
    with pytest.raises(InputError, match=r"parts\.leg\.trim\.start.*got wall\.front") as caught:
        saw_part(replace(leg, trims=(along, leg.trims[1])), {}, SHOP)
    assert caught.value.code == "end_along_grain"


def test_two_trims_at_one_end_are_two_cuts_and_named() -> None:
    """A leg cut by the floor and by a second plane has a second cut at that end, and a note that says so."""
    leg = splayed_leg("leg", 0.0, 0.0, rise_mm=700.0)
    floor = leg.trims[0]
    slant = replace(
        floor, by="brace.top", plane=replace(floor.plane, normal=scale((-1.0, -1.0, 0.0), math.sqrt(0.5)))
    )
    sawing = saw_part(replace(leg, trims=(floor, slant, leg.trims[1])), {}, SHOP)
    assert [cut.order for cut in sawing.cuts].count(CutOrder.TRIM) == 1
    assert sawing.notes == ("the start is cut twice, along floor and brace.top",)


@given(front=st.floats(-20, 20), side=st.floats(-20, 20), rise=st.floats(200, 900), square=st.floats(20, 90))
def test_points_and_lengths_agree(front: float, side: float, rise: float, square: float) -> None:
    """No arris is longer than tip to tip nor shorter than short to short, and the leads say by how much."""
    sawing = saw_part(splayed_leg("leg", front, side, rise_mm=rise, square_mm=square), {}, SHOP)
    lengths = [arris.length_mm for arris in sawing.arrises]
    assert sawing.short_mm - 1e-9 <= min(lengths) <= max(lengths) <= sawing.long_mm + 1e-9
    lead = sawing.cuts[0].lead_width_mm + sawing.cuts[0].lead_thickness_mm
    assert sawing.long_mm - max(lengths) == pytest.approx(lead, abs=1e-6)


def test_sawings_survive_json() -> None:
    """Plain data, out and back."""
    sawings = saw_all([splayed_leg("leg", 7.0, 5.0, rise_mm=716.0)], {}, SHOP)
    adapter = TypeAdapter(tuple[PartSawing, ...])
    assert adapter.validate_json(adapter.dump_json(sawings)) == sawings


def test_by_hand_nothing_is_set() -> None:
    """A hand saw has neither fence nor stop: the line is knifed, and the end shot down to it."""
    hands = parse_shop("machines: {}")
    leg = splayed_leg("leg", 7.0, 5.0, rise_mm=716.0)
    parts = [leg, level_stick("rail", 600.0, lean_deg=(0.0, 0.0))]
    for setup in saw_setups(saw_all(parts, {}, hands), hands):
        assert setup.machine is Machine.HAND_SAW
        text = " ".join(setup.steps)
        assert "knife the line" in text
        assert not any(told in text for told in ("fence", "stop", "blade"))
