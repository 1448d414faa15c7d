"""Loose things of the joints as simple solids for the picture: tenons, pins, dowels, clips, screws, wedges.

They show where each sits and how large it is; threads, heads and bends are left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from scantling.joinery.work import Connector, ConnectorKind, JointWork
from scantling.solids.circle import SEGMENTS
from scantling.solids.polyhedron import Floats, Ints

__all__ = ["LooseSolid", "goes_with", "is_metal", "loose_solid"]

_METAL = frozenset(
    {
        ConnectorKind.TOP_CLIP,
        ConnectorKind.FIGURE_EIGHT,
        ConnectorKind.SCREW,
        ConnectorKind.NAIL,
        ConnectorKind.BOLT,
        ConnectorKind.BARREL_NUT,
        ConnectorKind.BUTT_HINGE,
        ConnectorKind.STRAP_HINGE,
        ConnectorKind.LID_STAY,
        ConnectorKind.DRAWER_SLIDE,
        ConnectorKind.SHELF_PIN,
    }
)
_THIN_END = 0.2
"""Thickness of a wedge's thin end over that of its thick one. [1]"""
_SEGMENTS = max(16, SEGMENTS // 2)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LooseSolid:
    """A loose thing in its own coordinates: u along its length, the origin in its middle.

    Parameters
    ----------
    vertices_mm
        [mm] shape (n, 3)
    triangles
        Corners, anticlockwise from outside. [1] shape (m, 3)
    edge_lines
        Arrises, for drawing. [mm] shape (k, 2, 3)
    """

    vertices_mm: Floats
    triangles: Ints
    edge_lines: Floats


def is_metal(kind: ConnectorKind) -> bool:
    """Whether it is drawn as metal; the others are wood."""
    return kind in _METAL


def goes_with(work: JointWork, kind: ConnectorKind) -> str:
    """The part it moves with over the year.

    A pin stays with the part it is driven through, while the tongue's slot moves past it; anything else goes
    with the part that moves. Where nothing moves, with the joint's second part.
    """
    moving = next((freedom.part for freedom in work.freedoms), work.second)
    if kind is not ConnectorKind.PIN or not work.freedoms:
        return moving
    return work.second if moving == work.first else work.first


def loose_solid(connector: Connector) -> LooseSolid:
    """The solid of one of a connector's loose things.

    Parameters
    ----------
    connector
        Its size is taken as :class:`~scantling.joinery.work.Connector` has it.
    """
    return _solid(connector.kind, connector.size_mm)


@lru_cache(maxsize=512)
def _solid(kind: ConnectorKind, size_mm: tuple[float, ...]) -> LooseSolid:
    if len(size_mm) == 2 or kind is ConnectorKind.BUTT_HINGE:  # its knuckle alone is seen
        diameter, length = size_mm[0], size_mm[-1]
        return _prism(_circle(diameter / 2.0), length, lengthwise=False)
    thickness, width, length = size_mm
    if kind is ConnectorKind.LOOSE_TENON and width > thickness:
        return _prism(_round_ended(width, thickness), length, lengthwise=False)
    if kind is ConnectorKind.KEY:
        return _key(thickness, width, length)
    thin = _THIN_END if kind is ConnectorKind.WEDGE else 1.0
    return _prism(_rectangle(width, thickness), length, lengthwise=True, thin=thin)


def _key(thickness_mm: float, width_mm: float, length_mm: float) -> LooseSolid:
    """A slip across a corner, planed off to the corner's outer faces: a triangle, its point outward."""
    half, tip = length_mm / 2.0, width_mm / 2.0
    flat = _prism(np.array([[-half, -tip], [half, -tip], [0.0, tip]]), thickness_mm, lengthwise=True)
    turned = [1, 2, 0]  # drawn lying along its thickness; its length comes first
    return LooseSolid(
        vertices_mm=flat.vertices_mm[:, turned],
        triangles=flat.triangles,
        edge_lines=flat.edge_lines[:, :, turned],
    )


def _rectangle(width_mm: float, thickness_mm: float) -> Floats:
    half = np.array([width_mm / 2.0, thickness_mm / 2.0])
    return np.asarray(half * [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])


def _circle(radius_mm: float) -> Floats:
    turn = np.linspace(0.0, 2.0 * np.pi, _SEGMENTS, endpoint=False)
    return np.asarray(radius_mm * np.column_stack([np.cos(turn), np.sin(turn)]))


def _round_ended(width_mm: float, thickness_mm: float) -> Floats:
    """A slot's outline: two half circles and the straight sides between them."""
    radius = thickness_mm / 2.0
    half = np.linspace(-np.pi / 2.0, np.pi / 2.0, _SEGMENTS // 2 + 1)
    right = radius * np.column_stack([np.cos(half), np.sin(half)]) + [width_mm / 2.0 - radius, 0.0]
    return np.vstack([right, -right])


def _prism(outline: Floats, length_mm: float, *, lengthwise: bool, thin: float = 1.0) -> LooseSolid:
    """An outline in v, w drawn along u, its far end thinned in w; with or without arrises along u."""
    count, half = len(outline), length_mm / 2.0
    near = np.column_stack([np.full(count, -half), outline])
    far = np.column_stack([np.full(count, half), outline * [1.0, thin]])
    i = np.arange(count)
    j = (i + 1) % count
    fan = np.arange(1, count - 1)
    triangles = np.vstack(
        [
            np.column_stack([i, j, count + j]),
            np.column_stack([i, count + j, count + i]),
            np.column_stack([np.zeros_like(fan), fan + 1, fan]),
            np.column_stack([np.full_like(fan, count), count + fan, count + fan + 1]),
        ]
    )
    lines = [np.stack([near, near[j]], axis=1), np.stack([far, far[j]], axis=1)]
    if lengthwise:
        lines.append(np.stack([near, far], axis=1))
    vertices = np.vstack([near, far])
    return LooseSolid(vertices_mm=vertices, triangles=triangles, edge_lines=np.concatenate(lines))
