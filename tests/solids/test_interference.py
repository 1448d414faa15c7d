"""Wood in one place twice is found with its volume; parts that only touch are not."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from scantling.joinery.work import Box
from scantling.solids.interference import gaps, overlaps
from scantling.solids.mesh import meshes_of
from scantling.solids.shape import shapes_of
from tests.solids.sticks import HERE, bar, hole, into, mirrored, round_bar, shaped, turned_frame
from tests.solids.table import table


def found(*shapes, least_mm3=1.0, least_mm=0.05):
    """Overlaps of shapes by name."""
    by_name = {shape.part.name: shape for shape in shapes}
    parts = {name: shape.part for name, shape in by_name.items()}
    return overlaps(parts, meshes_of(by_name), least_mm3=least_mm3, least_mm=least_mm)


def at(part, origin):
    """The part moved."""
    return replace(part, frame=replace(part.frame, origin=origin))


def test_two_crossing_bars_overlap_by_the_box_they_share():
    """Its volume, middle and size are those of the common box."""
    across = replace(
        bar("b", length=200.0, width=30.0, thickness=20.0),
        frame=into((350.0, -100.0, 25.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)),
    )
    (one,) = found(shaped(bar("a")), shaped(across))
    assert (one.first, one.second) == ("a", "b")
    assert one.volume_mm3 == pytest.approx(30.0 * 60.0 * 5.0, rel=1e-9)
    assert one.thickness_mm == pytest.approx(9000.0 / (30.0 * 60.0 + 30.0 * 5.0 + 60.0 * 5.0))
    assert one.at == pytest.approx((350.0, 0.0, 17.5))
    assert one.size_mm == pytest.approx((30.0, 60.0, 5.0))


def test_a_notch_for_the_other_part_takes_the_overlap_away():
    """The pair is judged as cut."""
    across = replace(
        bar("b", length=200.0, width=30.0, thickness=20.0),
        frame=into((350.0, -100.0, 25.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)),
    )
    notch = Box(
        frame=into((350.0, 0.0, 20.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0)),
        length_mm=5.0,
        width_mm=30.0,
        thickness_mm=60.0,
    )
    assert found(shaped(bar("a"), notch), shaped(across), least_mm3=1e-6, least_mm=0.0) == ()


@pytest.mark.parametrize(("lift", "expected"), [(39.94, 1), (39.96, 0), (40.0, 0), (40.06, 0)])
def test_parts_that_touch_over_a_face_do_not_overlap(lift, expected):
    """Six hundredths over a whole face are told, four are a touch."""
    assert len(found(shaped(bar("a")), shaped(at(bar("b"), (0.0, 0.0, lift))))) == expected


def test_touching_is_no_overlap_in_a_turned_frame_either():
    """Rounding of turned coordinates stays under the least volume."""
    frame = turned_frame(yaw_deg=33.0, pitch_deg=41.0, roll_deg=12.0)
    a = replace(bar("a"), frame=frame)
    b = replace(bar("b"), frame=replace(frame, origin=frame.point((0.0, 60.0, 0.0))))
    assert found(shaped(a), shaped(b)) == ()


@pytest.mark.parametrize(("oversize", "expected"), [(0.0, 0), (0.3, 1)])
@pytest.mark.parametrize("turn_deg", [0.0, 3.75, 1.2])
def test_a_round_tenon_in_its_hole_does_not_overlap_however_it_is_turned(oversize, expected, turn_deg):
    """Facets of tenon and hole need not fall on one another; three tenths too thick is told."""
    turn = math.radians(turn_deg)
    board = shaped(
        bar("board", width=200.0, length=200.0), hole((100.0, 0.0, 20.0), diameter=50.0, depth=40.0)
    )
    across = (math.cos(turn), math.sin(turn), 0.0)
    diameter = 50.0 + oversize
    tenon = replace(
        round_bar(100.0, start=diameter, end=diameter, name="tenon"),
        frame=into((100.0, 0.0, -50.0), (0.0, 0.0, 1.0), across),
    )
    assert len(found(board, shaped(tenon))) == expected


def test_the_table_as_designed_has_no_overlaps():
    """Aprons end at the legs' faces and legs at the underside of the top."""
    piece, works = table()
    assert overlaps(piece.parts, meshes_of(shapes_of(piece, works))) == ()


def test_a_table_with_a_leg_moved_has_overlaps_worst_first():
    """20 mm toward the aprons: it runs into both, the long one and the short one."""
    piece, works = table()
    leg = piece.parts["leg_fr"]
    x, y, z = leg.frame.origin
    parts = {**piece.parts, "leg_fr": at(leg, (x - 20.0, y + 5.0, z))}
    bad = overlaps(parts, meshes_of(shapes_of(piece, works)))
    assert [{o.first, o.second} for o in bad] == [{"leg_fr", "apron_front"}, {"leg_fr", "apron_right"}]
    assert bad[0].volume_mm3 > bad[1].volume_mm3 > 1000.0


def test_mirrored_parts_overlap_by_as_much_as_their_twins():
    """Winding is turned for the kernel, which refuses a solid inside out."""
    pair = [bar("a"), at(bar("b", length=300.0), (500.0, 10.0, 5.0))]
    twins = [replace(p, frame=mirrored(p.frame)) for p in pair]
    (one,) = found(*(shaped(p) for p in pair))
    (other,) = found(*(shaped(p) for p in twins))
    assert one.volume_mm3 == pytest.approx(200.0 * 50.0 * 35.0)
    assert other.volume_mm3 == pytest.approx(one.volume_mm3)


def test_gaps_are_told_up_to_the_distance_asked_for():
    """Two bars 1.5 mm apart, a third 10 mm off."""
    bars = (bar("a"), at(bar("b"), (0.0, 61.5, 0.0)), at(bar("c"), (0.0, 0.0, 50.0)))
    parts = {b.name: b for b in bars}
    meshes = meshes_of({b.name: shaped(b) for b in bars})
    assert [(g.first, g.second) for g in gaps(parts, meshes)] == [("a", "b")]
    (close, far, diagonal) = gaps(parts, meshes, within_mm=12.0)
    assert (close.gap_mm, far.gap_mm) == pytest.approx((1.5, 10.0))
    assert diagonal.gap_mm == pytest.approx((1.5**2 + 10.0**2) ** 0.5)


def test_a_part_cut_away_whole_overlaps_nothing():
    """An empty solid has no place."""
    everything = Box(
        frame=into((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)),
        length_mm=700.0,
        width_mm=60.0,
        thickness_mm=40.0,
    )
    assert found(shaped(bar("a"), everything), shaped(replace(bar("b"), frame=HERE))) == ()
