"""Loose things of the joints in the picture: their size, their place, and what they go with."""

from __future__ import annotations

import math

import numpy as np
import pytest

from scantling.joinery.work import Connector, ConnectorKind, Freedom, JointWork
from scantling.piece.geometry import Frame
from scantling.solids.gltf import glb_bytes
from scantling.solids.loose import goes_with, loose_solid
from tests.solids.test_gltf import read

__all__: list[str] = []

SIZES = {
    ConnectorKind.LOOSE_TENON: ((10.0, 50.0, 52.0), (10.0 * 40.0 + math.pi * 25.0) * 52.0),
    ConnectorKind.KEY: ((3.2, 9.0, 18.0), 9.0 * 18.0 * 3.2 / 2.0),
    ConnectorKind.PIN: ((6.0, 20.0), math.pi * 9.0 * 20.0),
    ConnectorKind.TOP_CLIP: ((2.0, 20.0, 38.0), 2.0 * 20.0 * 38.0),
    ConnectorKind.WEDGE: ((6.0, 24.0, 40.0), 24.0 * 40.0 * 6.0 * 1.2 / 2.0),
}
"""Size of each kind with its volume, by hand. [mm, mm3]"""


@pytest.mark.parametrize("kind", SIZES)
def test_a_loose_thing_has_the_size_that_is_bought(kind: ConnectorKind) -> None:
    """Its volume from the closed mesh is that of the shape, curves within 3 %."""
    size, volume = SIZES[kind]
    solid = loose_solid(Connector(kind=kind, count=1, size_mm=size))
    a, b, c = (solid.vertices_mm[solid.triangles[:, k]] for k in range(3))
    assert np.einsum("ij,ij->i", a, np.cross(b, c)).sum() / 6.0 == pytest.approx(volume, rel=0.03)
    extent = np.ptp(solid.vertices_mm, axis=0)
    assert extent[0] == pytest.approx(size[-1])


def _clip_joint() -> JointWork:
    """Two pins and a clip between an apron and the top, which moves."""
    upright = Frame(
        origin=(100.0, 0.0, 700.0), grain=(0.0, 0.0, 1.0), width=(1.0, 0.0, 0.0), thickness=(0.0, 1.0, 0.0)
    )
    pins = Connector(kind=ConnectorKind.PIN, count=2, size_mm=(6.0, 20.0), frames=(upright, upright))
    clip = Connector(kind=ConnectorKind.TOP_CLIP, count=1, size_mm=(2.0, 20.0, 38.0), frames=(upright,))
    freedom = Freedom(
        part="top",
        what="clip 1",
        at=(100.0, 0.0, 700.0),
        from_fixed_mm=200.0,
        shrink_travel_mm=1.0,
        swell_travel_mm=1.0,
        shrink_room_mm=2.0,
        swell_room_mm=2.0,
    )
    return JointWork(
        joint="clips.1",
        family="top_clip",
        first="apron",
        second="top",
        at=(100.0, 0.0, 700.0),
        leaves=(0.0, 0.0, -1.0),
        connectors=(pins, clip),
        freedoms=(freedom,),
    )


def test_each_loose_thing_is_a_node_that_names_its_joint_and_stands_in_its_middle() -> None:
    """Three nodes in meters, Y up, the two pins of one form sharing a mesh; each says what it is between."""
    document, _ = read(glb_bytes({}, {}, works=[_clip_joint()]))
    nodes = document["nodes"]
    assert [node["name"] for node in nodes] == [
        "clips.1/pin 1",
        "clips.1/pin 2",
        "clips.1/Z-shaped top clip 1",
    ]
    assert nodes[0]["mesh"] == nodes[1]["mesh"] != nodes[2]["mesh"]
    assert nodes[0]["matrix"][12:15] == pytest.approx([0.1, 0.7, 0.0])
    assert nodes[0]["extras"]["between"] == ["apron", "top"]


def test_a_clip_goes_with_the_top_and_a_pin_stays_with_what_it_is_driven_through() -> None:
    """The joint lets the top move: its clip is screwed to it; a pin stands in the other part."""
    work = _clip_joint()
    assert goes_with(work, ConnectorKind.TOP_CLIP) == "top"
    assert goes_with(work, ConnectorKind.PIN) == "apron"
