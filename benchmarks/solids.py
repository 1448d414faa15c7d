"""How soon parts are cut, drawn and written: thirty posts with eleven cuts each, no two alike."""

from __future__ import annotations

import math
import subprocess
import sys
from dataclasses import replace

from scantling.joinery.work import Box, Cut, Hole, Slot, Tool
from scantling.piece.geometry import Frame, Plane, Vec, cross
from scantling.piece.model import End, Part, PartKind, Trim
from scantling.solids.exact import exact_parts
from scantling.solids.gltf import glb_bytes
from scantling.solids.interference import overlaps
from scantling.solids.mesh import MeshCache, build_mesh, meshes_of
from scantling.solids.projection import project
from scantling.solids.shape import PartShape
from scantling.solids.step import step_bytes
from scantling.solids.view import FRONT, TRIMETRIC
from scantling.wood.ring import Ring
from timing import Timing, measure

__all__ = ["timings"]

POSTS = 30
SIDE, LENGTH = 80.0, 700.0
FACES: tuple[tuple[Vec, Vec], ...] = (
    ((0.0, 0.0, 1.0), (0.0, 0.0, -1.0)),
    ((0.0, 1.0, 0.0), (0.0, -1.0, 0.0)),
    ((0.0, 0.0, -1.0), (0.0, 0.0, 1.0)),
)


def timings() -> list[Timing]:
    """Time both kernels on the same thirty parts."""
    shapes = {f"post_{n:02}": _post(n) for n in range(POSTS)}
    parts = {name: shape.part for name, shape in shapes.items()}
    meshes = meshes_of(shapes)
    bodies = exact_parts(shapes)
    one = {"post_00": shapes["post_00"]}
    return [
        measure("mesh of one part, 11 cuts", lambda: build_mesh(shapes["post_00"]), limit_s=0.1),
        measure("meshes of 30 parts, 11 cuts each", lambda: meshes_of(shapes), limit_s=1.0),
        _one_changed(shapes),
        measure("overlaps of 30 parts", lambda: overlaps(parts, meshes), limit_s=1.0),
        measure("glTF of 30 parts", lambda: glb_bytes(parts, meshes)),
        measure("exact kernel loaded by a new process", _load_exact_kernel),
        measure("exact bodies of 30 parts", lambda: exact_parts(shapes)),
        measure("STEP of 30 parts, read back", lambda: step_bytes(shapes, title="Posts"), runs=5),
        measure("drawing of one part from the front", lambda: project(one, FRONT, bodies=bodies)),
        measure("picture of 30 parts, hidden lines too", lambda: project(shapes, TRIMETRIC, bodies=bodies)),
    ]


def _one_changed(shapes: dict[str, PartShape]) -> Timing:
    """A parameter of one part changes; the other twenty-nine are found in the cache."""
    cache, turn = MeshCache(), iter(range(1, 1000))
    meshes_of(shapes, cache)

    def change() -> None:
        first = shapes["post_00"]
        longer = replace(first.part, width_mm=SIDE + next(turn) / 10.0)
        meshes_of({**shapes, "post_00": replace(first, part=longer)}, cache)

    return measure("meshes of 30 parts after one changed", change, limit_s=0.1)


def _load_exact_kernel() -> None:
    code = "from scantling.solids.exact import exact_volume_mm3; import OCP.HLRBRep"
    subprocess.run([sys.executable, "-c", code], check=True)


def _post(number: int) -> PartShape:
    """A post among others in a lattice of rows that run into each other."""
    tilt = math.radians(5.0 + 0.1 * number)
    ends = (
        _trim(End.START, 0.0, (-math.cos(tilt), math.sin(tilt), 0.0)),
        _trim(End.END, LENGTH, (math.cos(tilt), 0.0, math.sin(tilt))),
    )
    overhang = SIDE / 2.0 * math.tan(tilt)
    grain, width = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0)) if number % 2 else ((0.0, 1.0, 0.0), (-1.0, 0.0, 0.0))
    part = Part(
        name=f"post_{number:02}",
        like="post",
        kind=PartKind.STICK,
        species="black cherry",
        frame=Frame(
            origin=(90.0 * (number // 2), 90.0 * (number // 2), 0.0),
            grain=grain,
            width=width,
            thickness=(0.0, 0.0, 1.0),
        ),
        width_mm=SIDE,
        thickness_mm=SIDE,
        start_mm=-overhang,
        end_mm=LENGTH + overhang,
        trims=ends,
        ring=Ring.FLAT,
    )
    tools: tuple[Tool, ...] = (*_mortises(), *_holes(), _notch())
    cuts = tuple(Cut(part=part.name, tool=tool, what="cut") for tool in tools)
    return PartShape(part=part, cuts=cuts)


def _trim(end: End, axis_mm: float, normal: Vec) -> Trim:
    return Trim(plane=Plane(point=(axis_mm, 0.0, 0.0), normal=normal), end=end, by="square")


def _tool_frame(u_mm: float, out: Vec, into: Vec) -> Frame:
    origin = (u_mm, out[1] * SIDE / 2.0, out[2] * SIDE / 2.0)
    along = (1.0, 0.0, 0.0)
    return Frame(origin=origin, grain=into, width=along, thickness=cross(into, along))


def _mortises() -> list[Slot]:
    return [
        Slot(frame=_tool_frame(u_mm, *face), length_mm=50.0, width_mm=10.0, depth_mm=28.0)
        for face in FACES
        for u_mm in (110.0, 590.0)
    ]


def _holes() -> list[Hole]:
    return [
        Hole(frame=_tool_frame(u_mm, *FACES[1]), diameter_mm=8.0, depth_mm=SIDE) for u_mm in (250.0, 450.0)
    ]


def _notch() -> Box:
    return Box(frame=_tool_frame(350.0, *FACES[0]), length_mm=20.0, width_mm=40.0, thickness_mm=SIDE)
