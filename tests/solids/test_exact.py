"""The two kernels, fed from one description, agree; and the exact one with closed forms."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

from scantling.joinery.work import Box, Extension, Turned
from scantling.piece.model import End
from scantling.solids.exact import build_exact, exact_parts, exact_volume_mm3
from scantling.solids.mesh import build_mesh, meshes_of
from scantling.solids.shape import shapes_of
from tests.solids.sticks import bar, busy_bar, hole, into, round_bar, shaped, slanted_trim, slot, square_trim
from tests.solids.table import table

BAR = 700.0 * 60.0 * 40.0
CLOSED_FORM = 1e-9
"""The exact kernel integrates planes, cylinders and cones to about twelve places."""
MESH = 2e-5
"""Where a round hole meets a slanted or round face, 48 corners are a little off."""


def notch(**sizes: float) -> Box:
    """A notch in the upper broad face at u = 300."""
    frame = into((300.0, 0.0, 20.0), (0.0, 0.0, -1.0), (1.0, 0.0, 0.0))
    return Box(frame=frame, **{"length_mm": 10.0, "width_mm": 30.0, "thickness_mm": 60.0, **sizes})


TENON = Turned(frame=into((700.0, 0, 0), (1, 0, 0), (0, 1, 0)), diameter_mm=28.0, length_mm=45.0)
LONGER = Extension(part="bar", end=End.END, length_mm=45.0)
SKEW = (math.sin(math.radians(20.0)), 0.0, -math.cos(math.radians(20.0)))
RAKED = bar(trims=(slanted_trim(End.START, 0.0, 7.0, 20.0), square_trim(End.END, 700.0)))

CASES = {
    "bar": (shaped(bar()), BAR),
    "raked": (shaped(RAKED), BAR),
    "frustum": (shaped(round_bar(400.0, start=38.0, end=28.0)), math.pi * 400 / 3 * (361 + 266 + 196)),
    "point": (shaped(round_bar(300.0, start=30.0, end=0.0)), math.pi * 225.0 * 100.0),
    "mortise": (shaped(bar(), slot((300, 0, 20))), BAR - (400.0 + math.pi * 25.0) * 28.0),
    "hole": (shaped(bar(), hole((300, 0, 20))), BAR - math.pi * 9.0 * 20.0),
    "through hole": (shaped(bar(), hole((300, 0, 20), depth=40.0)), BAR - math.pi * 9.0 * 40.0),
    "skew hole": (shaped(bar(), hole((300, 0, 20), way=SKEW)), BAR - math.pi * 9.0 * 20.0),
    "notch": (shaped(bar(), notch()), BAR - 10.0 * 30.0 * 60.0),
    "tenon": (shaped(bar(), TENON, extensions=(LONGER,)), BAR + math.pi * 196.0 * 45.0),
    "hole in notch": (
        shaped(bar(), hole((300, 0, 10.0), depth=30.0), notch()),
        BAR - 18000.0 - math.pi * 9.0 * 30.0,
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_the_exact_kernel_agrees_with_the_closed_form_and_the_mesh_with_it(name):
    """Each tool alone, in a part where its volume follows from school geometry."""
    shape, expected = CASES[name]
    body = build_exact(shape)
    assert BRepCheck_Analyzer(body).IsValid()
    # A hole from the floor of a notch reaches back 1e-4 mm, which is in the notch already.
    assert exact_volume_mm3(body) == pytest.approx(expected, rel=CLOSED_FORM)
    assert build_mesh(shape).volume_mm3 == pytest.approx(expected, rel=1e-8)


def test_every_part_of_the_table_has_one_volume_and_center_in_both_kernels():
    """Raked, tapered and mortised parts: the light kernel is good to its 48 corners."""
    shapes = shapes_of(*table())
    meshes = meshes_of(shapes)
    bodies = exact_parts(shapes)
    assert list(bodies) == list(shapes)
    for name, exact in bodies.items():
        bulk = GProp_GProps()
        BRepGProp.VolumeProperties_s(exact.body, bulk)
        assert meshes[name].volume_mm3 == pytest.approx(bulk.Mass(), rel=1e-7), name
        center = bulk.CentreOfMass()
        over = -1.0 if name in {"leg_fr", "leg_bl", "apron_back", "apron_right"} else 1.0
        found = np.array([center.X(), center.Y(), over * center.Z()])
        assert meshes[name].centroid_mm == pytest.approx(found, abs=1e-3), name


def test_a_bar_with_everything_at_once_agrees_between_the_kernels():
    """Two mortises that meet, a through hole, a notch, a slanting cut and two raked ends."""
    shape = busy_bar()
    body = build_exact(shape)
    assert BRepCheck_Analyzer(body).IsValid()
    assert build_mesh(shape).volume_mm3 == pytest.approx(exact_volume_mm3(body), rel=MESH)
    bulk = GProp_GProps()
    BRepGProp.SurfaceProperties_s(body, bulk)
    assert build_mesh(shape).surface_area_mm2 == pytest.approx(bulk.Mass(), rel=1e-4)


def test_mirrored_twins_share_a_form_and_have_one_volume():
    """Turning the body over keeps its volume positive."""
    bodies = exact_parts(shapes_of(*table()))
    assert bodies["leg_fr"].form == bodies["leg_bl"].form != bodies["leg_fl"].form
    assert bodies["leg_fr"].body is bodies["leg_bl"].body
    volumes = [exact_volume_mm3(bodies[name].body) for name in ("leg_fl", "leg_fr")]
    assert volumes[0] == pytest.approx(volumes[1], rel=1e-12)
    assert volumes[0] > 1e6


def test_a_part_cut_away_whole_is_left_out():
    """There is no body to draw or to export."""
    everything = replace(notch(), length_mm=100.0, width_mm=2000.0, thickness_mm=100.0)
    assert exact_parts({"bar": shaped(bar(), everything)}) == {}
