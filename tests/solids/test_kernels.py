"""Any tools in any places: the light kernel and the exact one cut the same wood away."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from OCP.BRepCheck import BRepCheck_Analyzer

from scantling.joinery.work import Box, Extension, HalfSpace, Hole, Profile, Slot, Tool
from scantling.piece.geometry import Plane, Vec, scale, unit
from scantling.piece.model import End
from scantling.solids.exact import build_exact, exact_volume_mm3
from scantling.solids.mesh import build_mesh
from tests.solids.sticks import bar, shaped, slanted_trim, turned_frame

BAR = 700.0 * 60.0 * 40.0
FACETS = 1e-5
"""Share of the bar by which 48 facets may be off where holes meet slanting faces and each other."""

lengths = st.floats(5.0, 60.0)
angles = st.floats(-40.0, 40.0)


@st.composite
def frames(draw: st.DrawFn):
    """On the upper face of the bar, pointing down into it, leaning by up to 40 degrees each way."""
    origin: Vec = (draw(st.floats(60.0, 640.0)), draw(st.floats(-25.0, 25.0)), 20.0)
    return turned_frame(
        yaw_deg=draw(st.floats(-180.0, 180.0)),
        pitch_deg=-90.0 + draw(angles),
        roll_deg=draw(angles),
        origin=origin,
    )


@st.composite
def tools(draw: st.DrawFn) -> Tool:
    """One cut of any kind."""
    kind = draw(st.sampled_from(["box", "slot", "hole", "plane", "profile"]))
    frame, a, b, c = draw(frames()), draw(lengths), draw(lengths), draw(lengths)
    match kind:
        case "box":
            return Box(frame=frame, length_mm=a, width_mm=b, thickness_mm=c)
        case "slot":
            return Slot(frame=frame, length_mm=max(a, b), width_mm=min(a, b) / 2.0, depth_mm=c)
        case "hole":
            return Hole(frame=frame, diameter_mm=a / 2.0, depth_mm=b)
        case "profile":
            outline = ((-a / 2.0, 0.0), (a / 2.0, 0.0), (a / 3.0, b / 2.0), (-a / 4.0, b / 2.0))
            left = replace(frame, thickness=scale(frame.thickness, draw(st.sampled_from([1.0, -1.0]))))
            return Profile(frame=left, outline=outline, length_mm=c)
    lean = math.radians(draw(angles))
    normal = unit((math.sin(lean), 0.3, math.cos(lean)))
    return HalfSpace(plane=Plane(point=(350.0, 30.0, 15.0), normal=normal))


@settings(max_examples=20, deadline=None)
@given(cuts=st.lists(tools(), max_size=4), tilt=st.floats(0.0, 30.0), more=st.floats(0.0, 30.0))
def test_both_kernels_leave_the_same_volume(cuts, tilt, more):
    """Volumes agree, the bodies are sound, and a bar only gets smaller by being cut."""
    part = bar(trims=(slanted_trim(End.START, 0.0, tilt, 30.0), slanted_trim(End.END, 700.0, tilt, 140.0)))
    longer = (Extension(part="bar", end=End.END, length_mm=more),) if more else ()
    shape = shaped(part, *cuts, extensions=longer)
    body, mesh = build_exact(shape), build_mesh(shape)
    assert BRepCheck_Analyzer(body).IsValid()
    assert mesh.volume_mm3 == pytest.approx(exact_volume_mm3(body), abs=FACETS * BAR)
    assert mesh.volume_mm3 <= BAR + more * 2400.0 + 1e-3


def test_two_straight_cuts_in_all_but_one_plane_are_one_cut():
    """Normals 2e-9 apart: the exact kernel lost the second cut and the first with it."""
    normal = unit((0.0, 0.3, 1.0))
    cuts = [
        HalfSpace(plane=Plane(point=(350.0, 30.0, 15.0), normal=unit((lean, *normal[1:]))))
        for lean in (0.0, 2e-9)
    ]
    once, twice = shaped(bar(), cuts[0]), shaped(bar(), *cuts)
    assert exact_volume_mm3(build_exact(twice)) == pytest.approx(
        exact_volume_mm3(build_exact(once)), rel=1e-9
    )
    assert build_mesh(twice).volume_mm3 == pytest.approx(build_mesh(once).volume_mm3, rel=1e-9)
