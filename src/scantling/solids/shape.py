"""What one part is made of: its own wood, what joints add to its ends and what they cut away."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import dataclass

from scantling.joinery.work import (
    Arched,
    Box,
    Cut,
    Extension,
    HalfSpace,
    Hole,
    JointWork,
    Profile,
    Slot,
    Tool,
    Turned,
)
from scantling.piece.geometry import Frame, Plane, Vec, dot, scale
from scantling.piece.model import End, Part, Piece
from scantling.remembering import remembered
from scantling.solids.shaping import shaping_cuts

__all__ = ["PartShape", "content_key", "shapes_of"]

_PLACES = 6
"""Like parts differ by rounding of their frames only: a millionth of a millimeter is the same wood."""
_TURN_PLACES = 9
"""Directions need more: a millionth of a millimeter at the end of a meter."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartShape:
    """One part with its joints cut: the description every kernel is fed with.

    Parameters
    ----------
    part
        The part before joinery.
    extensions
        Wood that joints add beyond its trimmed ends.
    cuts
        What joints take away, in the part's own coordinates.
    """

    part: Part
    extensions: tuple[Extension, ...] = ()
    cuts: tuple[Cut, ...] = ()

    def extension_mm(self, end: End) -> float:
        """Longest extension asked for at one end. [mm]"""
        return max((e.length_mm for e in self.extensions if e.end is end), default=0.0)


def shapes_of(piece: Piece, works: Iterable[JointWork]) -> dict[str, PartShape]:
    """Every part of a piece with its joints cut, by name, in the order of the piece.

    Parameters
    ----------
    piece
        The resolved piece.
    works
        What its joints answered.

    Returns
    -------
    dict[str, PartShape]
        One shape for each part.
    """
    extensions: dict[str, list[Extension]] = {name: [] for name in piece.parts}
    cuts: dict[str, list[Cut]] = {name: [] for name in piece.parts}
    for work in works:
        for extension in work.extensions:
            extensions[extension.part].append(extension)
        for cut in work.cuts:
            cuts[cut.part].append(cut)
    shaped = {name: _shaped(part, tuple(extensions[name])) for name, part in piece.parts.items()}
    return {
        name: PartShape(part=part, extensions=tuple(extensions[name]), cuts=(*cuts[name], *shaped[name]))
        for name, part in piece.parts.items()
    }


@remembered(limit=1024)
def _shaped(part: Part, extensions: tuple[Extension, ...]) -> tuple[Cut, ...]:
    return tuple(shaping_cuts(part, grown=frozenset(e.end for e in extensions if e.length_mm > 0.0)))


def content_key(shape: PartShape) -> str:
    """Key of a shape's geometry in its own coordinates.

    Parts of one form share it wherever they stand, whatever they are called and of whatever wood; a
    mirrored part shares it with its twin, for it is described the same way in its own left-handed frame.

    Parameters
    ----------
    shape
        The shape.

    Returns
    -------
    str
        32 hexadecimal digits.
    """
    return _key(shape.part, shape.extensions, shape.cuts)


@remembered(limit=1024)
def _key(part: Part, extensions: tuple[Extension, ...], cuts: tuple[Cut, ...]) -> str:
    shape = PartShape(part=part, extensions=extensions, cuts=cuts)
    ends = [(t.end.value, _plane(t.plane)) for t in part.trims]
    section = (
        _number(part.width_mm),
        _number(part.thickness_mm),
        _number(part.start_mm),
        _number(part.end_mm),
        None if part.round is None else (_number(part.round.start_mm), _number(part.round.end_mm)),
    )
    faces = [taper.plane for taper in part.tapers] + [edge.plane for edge in part.edges]
    content = (
        section,
        sorted(set(ends)),
        sorted({_plane(plane) for plane in faces}),
        tuple(_number(shape.extension_mm(end)) for end in End),
        sorted({_tool(cut.tool) for cut in shape.cuts}),
    )
    return hashlib.sha256(repr(content).encode()).hexdigest()[:32]


def _number(value: float) -> float:
    return round(value, _PLACES) + 0.0  # the sum turns -0.0 into 0.0


def _vector(v: Vec) -> tuple[float, ...]:
    return tuple(_number(x) for x in v)


def _way(v: Vec) -> tuple[float, ...]:
    return tuple(round(x, _TURN_PLACES) + 0.0 for x in v)


def _plane(plane: Plane) -> tuple[float, ...]:
    """Normal and distance from the origin: two points of one plane must give one key."""
    return (*_way(plane.normal), _number(dot(plane.point, plane.normal)))


def _frame(frame: Frame) -> tuple[float, ...]:
    return (*_vector(frame.origin), *_way(frame.grain), *_way(frame.width))


def _tool(tool: Tool) -> tuple[str, tuple[float, ...]]:
    match tool:
        case HalfSpace():
            return ("half space", _plane(tool.plane))
        case Box():
            sizes = (tool.length_mm, tool.width_mm, tool.thickness_mm)
        case Slot():
            sizes = (tool.length_mm, tool.width_mm, tool.depth_mm)
        case Hole():
            sizes = (tool.diameter_mm, tool.depth_mm, 0.0)
        case Turned():
            sizes = (tool.diameter_mm, tool.length_mm, 0.0)
        case Profile():
            return ("Profile", _profile(tool))
        case Arched():
            through = _vector(tool.frame.point((0.0, *tool.through)))
            return ("Arched", (*_profile(tool), *through))
    return (type(tool).__name__, (*_frame(tool.frame), *_vector(sizes)))


def _profile(tool: Profile | Arched) -> tuple[float, ...]:
    """Its corners where they lie: one body, whichever corner comes first and whichever hand the frame is."""
    near = sorted(_vector(tool.frame.point((0.0, v, w))) for v, w in tool.outline)
    way = _vector(scale(tool.frame.grain, tool.length_mm))
    return (*way, *(x for corner in near for x in corner))
