"""What bends the wood that crosses a joint until it breaks, at clear strength."""

from __future__ import annotations

from scantling.piece.geometry import Vec, dot, norm, scale, sub, unit
from scantling.piece.model import Part, PartKind
from scantling.wood.species import find_species

__all__ = ["bent_nmm", "lies_flat", "rectangle_mm3", "section_mm3", "turning_way"]

_LIES = 0.7
"""From this cosine on a direction counts as lying the way of another. [1]"""


def rectangle_mm3(thickness_mm: float, width_mm: float) -> float:
    """Section modulus of a tenon bent over its width. [mm3]

    Examples
    --------
    >>> rectangle_mm3(8.0, 60.0)
    4800.0
    """
    return thickness_mm * width_mm**2 / 6.0


def bent_nmm(part: Part, modulus_mm3: float) -> float | None:
    """Moment that breaks a section of a part's wood; None for sheets and woods without a figure. [N mm]"""
    strength = None if part.kind is PartKind.SHEET else find_species(part.species).mor_mpa
    return None if strength is None else strength * modulus_mm3


def turning_way(first: Part, second: Part, normal: Vec) -> Vec | None:
    """The way over which a joint resists when its parts are turned in the plane of their grains.

    Parameters
    ----------
    first, second
        The parts of the joint.
    normal
        Square to the faces that meet. World.

    Returns
    -------
    Vec or None
        World direction in those faces: up and down on the end of a rail in a leg, along the grain between
        two boards edge to edge. None where the grains cross in the very faces that meet, as in a lap.
    """
    flat = [sub(part.frame.grain, scale(normal, dot(part.frame.grain, normal))) for part in (second, first)]
    ways = [unit(way) for way in flat if norm(way) > _LIES]
    if not ways or abs(dot(ways[0], ways[-1])) < _LIES:
        return None
    return ways[0]


def lies_flat(along: Vec, way: Vec) -> bool:
    """Whether a tenon or a row that runs along one direction lies across the way it is turned."""
    return abs(dot(along, way)) < _LIES


def section_mm3(thickness_mm: float, width_mm: float, *, along: Vec, way: Vec) -> float:
    """Section modulus of a tenon, its width along a direction, against turning over a way. [mm3]"""
    if lies_flat(along, way):
        return rectangle_mm3(width_mm, thickness_mm)
    return rectangle_mm3(thickness_mm, width_mm)
