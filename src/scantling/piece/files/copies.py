"""Copies of a part: mirrored, turned, moved, or in a row."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from scantling.piece.convex import face_direction
from scantling.piece.files.spec import CopySpec, RepeatSpec
from scantling.piece.geometry import Frame, Vec, add, scale
from scantling.piece.model import Part

__all__ = ["copied", "repeated", "stepped"]

_Turn = Callable[[Vec], Vec]


def copied(part: Part, name: str, spec: CopySpec) -> Part:
    """One copy of a part under its own name: the same wood, cut the same, standing elsewhere."""
    flip_x = "left-right" in spec.mirror
    flip_y = "front-back" in spec.mirror
    angle = math.radians(spec.turn or 0.0)
    c, s = math.cos(angle), math.sin(angle)

    def turn(a: Vec) -> Vec:
        x, y = (-a[0] if flip_x else a[0]), (-a[1] if flip_y else a[1])
        if spec.turn is None:
            return (x, y, a[2])
        return (c * x - s * y, s * x + c * y, a[2])

    return _moved(part, name, turn, spec.move or (0.0, 0.0, 0.0), mirrored=part.mirrored ^ flip_x ^ flip_y)


def repeated(part: Part, spec: RepeatSpec) -> list[Part]:
    """A row of the part, NAME_1 first and in its own place."""
    return [replace(stepped(part, spec, k), name=f"{part.name}_{k + 1}") for k in range(int(spec.count))]


def stepped(part: Part, spec: RepeatSpec, steps: int) -> Part:
    """A part moved on (or back, below 0) by so many steps of its row, under its own name."""
    angle = math.radians(spec.turn or 0.0) * steps
    c, s = math.cos(angle), math.sin(angle)
    x0, y0 = spec.about

    def turn(a: Vec) -> Vec:
        return a if spec.turn is None else (c * a[0] - s * a[1], s * a[0] + c * a[1], a[2])

    turned = turn((x0, y0, 0.0))
    back = (x0 - turned[0], y0 - turned[1], 0.0)
    move = add(back, scale(spec.step, float(steps)))
    return _moved(part, part.name, turn, move, mirrored=part.mirrored)


def _moved(part: Part, name: str, turn: _Turn, move: Vec, *, mirrored: bool) -> Part:
    old = part.frame
    frame = Frame(
        origin=add(turn(old.origin), move),
        grain=turn(old.grain),
        width=turn(old.width),
        thickness=turn(old.thickness),
    )
    return replace(
        part,
        name=name,
        frame=frame,
        mirrored=mirrored,
        show=frozenset(face_direction(turn(d.vector)) for d in part.show),
        tapers=tuple(replace(t, face=face_direction(turn(t.face.vector))) for t in part.tapers),
        edges=tuple(replace(e, face=face_direction(turn(e.face.vector))) for e in part.edges),
    )
