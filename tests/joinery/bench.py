"""Small pieces written as a maker would, read and joined: what the tests of joints stand on."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import yaml

from scantling.joinery import JointWork, join, load_piece_text
from scantling.piece.geometry import Vec, add, scale
from scantling.piece.model import Part, Piece
from scantling.solids.interference import Overlap, overlaps
from scantling.solids.mesh import PartMesh, build_mesh
from scantling.solids.shape import PartShape, shapes_of
from scantling.wood.moisture import MoistureRange

__all__ = ["YEAR", "Made", "file_text", "made", "made_of"]

YEAR = MoistureRange(build_pct=8.0, dry_pct=6.5, wet_pct=11.5)


class Made:
    """A piece with its joints worked out and its parts as cut."""

    def __init__(self, piece: Piece, works: tuple[JointWork, ...]) -> None:
        self.piece, self.works = piece, works
        self.shapes = shapes_of(piece, works)

    def mesh(self, name: str) -> PartMesh:
        """A part as cut."""
        return build_mesh(self.shapes[name])

    def removed_mm3(self, name: str) -> float:
        """What the joints take off a part and the wood added to its ends. [mm3]"""
        shape = self.shapes[name]
        whole = build_mesh(PartShape(part=shape.part, extensions=shape.extensions))
        return whole.volume_mm3 - self.mesh(name).volume_mm3

    def in_the_way(self, first: str, second: str, *, moved: Vec = (0.0, 0.0, 0.0)) -> tuple[Overlap, ...]:
        """Where two parts as cut fill one place, the first moved."""
        one, other = self.piece.parts[first], self.piece.parts[second]
        parts = {first: _moved(one, moved), second: other}
        return overlaps(parts, {name: self.mesh(name) for name in parts})

    def leaving(self, work: JointWork, by_mm: float) -> tuple[Overlap, ...]:
        """What is in the way when the first part has been drawn out so far."""
        return self.in_the_way(work.first, work.second, moved=scale(work.leaves, by_mm))


def _moved(part: Part, by: Vec) -> Part:
    return replace(part, frame=replace(part.frame, origin=add(part.frame.origin, by)))


def file_text(parts: Mapping[str, Any], joints: Mapping[str, Any] | None = None, **more: Any) -> str:
    """A piece file."""
    data = {"scantling": 1, "title": "Trial", **more, "parts": dict(parts)}
    if joints:
        data["joints"] = dict(joints)
    return yaml.safe_dump(json.loads(json.dumps(data)), sort_keys=False)  # a copy: no aliases


def made(text: str, *, moisture: MoistureRange = YEAR, given: Mapping[str, str] | None = None) -> Made:
    """Read a piece file and work out its joints."""
    piece = load_piece_text(text, given=given)
    return Made(piece, join(piece, moisture=moisture))


def made_of(parts: Mapping[str, Any], joints: Mapping[str, Any], *, moisture: MoistureRange = YEAR) -> Made:
    """As :func:`made`, from the blocks of a piece file."""
    return made(file_text(parts, joints), moisture=moisture)
