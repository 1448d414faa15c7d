"""Saw angles follow from planes, and agree with the closed forms of the trade.

Splayed leg: resultant as published in chairmaking, backing angle derived; figures worked by hand.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.piece.geometry import cross, dot, norm, unit
from scantling.shop.sawing.sawplane import KeptSide, Turn, backing_angle_deg, placements, resultant_deg


def test_a_splayed_leg_of_8_and_5_degrees() -> None:
    """Resultant 9.40, backing 0.695 and 0.55 mm on 45, by hand; 12 and 12 give 2.48 and 2.6 on 60."""
    assert resultant_deg(8, 5) == pytest.approx(9.40, abs=0.005)
    assert backing_angle_deg(8, 5) == pytest.approx(0.695, abs=0.0005)
    assert 45 * math.tan(math.radians(backing_angle_deg(8, 5))) == pytest.approx(0.55, abs=0.005)
    assert backing_angle_deg(12, 12) == pytest.approx(2.48, abs=0.005)
    assert 60 * math.tan(math.radians(backing_angle_deg(12, 12))) == pytest.approx(2.6, abs=0.05)


@given(u=st.floats(0.3, 1.0) | st.floats(-1.0, -0.3), v=st.floats(-1.0, 1.0), w=st.floats(-1.0, 1.0))
def test_every_lay_cuts_the_plane_it_is_for(u: float, v: float, w: float) -> None:
    """Turned back through the lay, the blade's plane is the plane of the end, on the side named."""
    normal = unit((u, v, w))
    found = placements(normal)
    assert {place.down for place in found} == {(0, 0, 1), (0, 0, -1), (0, 1, 0), (0, -1, 0)}
    for place in found:
        up = (-place.down[0], -place.down[1], -place.down[2])
        along = cross(place.fence, up)
        m, b = math.radians(place.miter_deg), math.radians(place.bevel_deg)
        turned = -math.sin(m) if place.turn is Turn.RIGHT else math.sin(m)
        blade = (math.cos(b) * math.cos(m), math.cos(b) * turned, math.sin(b))
        seen = (dot(normal, along), dot(normal, place.fence), dot(normal, up))
        side = 1.0 if place.kept is KeptSide.LEFT else -1.0
        apart = [side * s - c for s, c in zip(seen, blade, strict=True)]
        assert max(abs(a) for a in apart) < 5e-4
        assert norm(along) == pytest.approx(1.0)
        assert min(place.miter_deg, place.bevel_deg) >= 0.0


def test_an_end_that_leans_one_way_is_offered_with_a_single_angle_first() -> None:
    """A lean across the width is a plain miter on the flat, a plain bevel on edge; the miter comes first."""
    a = math.radians(7.0)
    found = placements((math.cos(a), math.sin(a), 0.0))
    assert (found[0].miter_deg, found[0].bevel_deg) == pytest.approx((7.0, 0.0))
    assert all(place.angles == 1 for place in found)
    assert {round(place.bevel_deg, 6) for place in found} == {0.0, 7.0}
