"""The two ends of a part as the saw meets them: slopes, long and short points, and how they lean together."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from scantling.errors import InputError
from scantling.piece.geometry import Plane, Vec, add, cross, dot
from scantling.piece.model import End, Part

__all__ = ["EndGeometry", "EndSense", "end_geometry", "right_handed", "sense_of", "spans"]

_LEAST_ACROSS = math.sin(math.radians(5.0))
_SAME_SLOPE = math.tan(math.radians(0.02))


class EndSense(StrEnum):
    """How the two ends of a part lean toward each other, in words."""

    SQUARE = "both ends square"
    ONE_ANGLED = "one end angled, the other square"
    PARALLEL = "both ends lean the same way: parallel"
    SAME_WAY = "both ends lean the same way, at different angles"
    MIRRORED = "the ends lean against each other: mirrored"
    AGAINST = "the ends lean against each other, at different angles"
    POINTED = "an end is cut more than once, to a point"
    MIXED = "the ends lean the same way across one face and against each other across the next"


@dataclass(frozen=True, slots=True, kw_only=True)
class EndGeometry:
    """One end.

    Parameters
    ----------
    end
        Which.
    planes
        What ends the part there, in right-handed part axes; more than one where it is cut twice.
    by
        What each plane follows.
    corners_mm
        Places along the grain of the four arrises, in the order (-v, -w), (+v, -w), (+v, +w), (-v, +w). [mm]
    long_mm, short_mm
        Places along the grain of the long and the short point. [mm]
    slope_width, slope_thickness
        Rise along the grain for each mm across the width and through the thickness, of the first plane. [1]
    """

    end: End
    planes: tuple[Plane, ...]
    by: tuple[str, ...]
    corners_mm: tuple[float, float, float, float]
    long_mm: float
    short_mm: float
    slope_width: float
    slope_thickness: float

    @property
    def lead_mm(self) -> float:
        """By how much the long point leads the short point. [mm]"""
        return abs(self.long_mm - self.short_mm)


def right_handed(part: Part) -> bool:
    """Whether the part's own axes are right-handed; those of a mirrored part are not."""
    frame = part.frame
    return dot(cross(frame.grain, frame.width), frame.thickness) > 0.0


def end_geometry(part: Part, end: End, extension_mm: float = 0.0) -> EndGeometry:
    """One end of a part, its trims moved out by what its joints add.

    Parameters
    ----------
    part
        The part.
    end
        Which end.
    extension_mm
        Wood added beyond the trim, along the grain. [mm]

    Raises
    ------
    InputError
        ``end_along_grain``, where a trim runs along the part.
    """
    out = extension_mm if end is End.END else -extension_mm
    trims = [trim for trim in part.trims if trim.end is end]
    hand = 1.0 if right_handed(part) else -1.0
    planes = tuple(
        Plane(
            point=_turned(add(trim.plane.point, (out, 0.0, 0.0)), hand),
            normal=_turned(trim.plane.normal, hand),
        )
        for trim in trims
    )
    if any(abs(plane.normal[0]) < _LEAST_ACROSS for plane in planes):
        raise InputError(
            code="end_along_grain",
            field=f"parts.{part.name}.trim.{end.value}",
            value=trims[0].by,
            rule="must cross the grain at 5 degrees or more",
            remedy="Let another face trim this end, or turn the part.",
        )
    inner = min if end is End.END else max
    corners = tuple(
        inner(_along(plane, v, w) for plane in planes)
        for v, w in _section(part, part.end_mm if end is End.END else part.start_mm, hand)
    )
    long_mm, short_mm = (max(corners), min(corners)) if end is End.END else (min(corners), max(corners))
    if len(planes) > 1:  # its point may lie between the corners
        long_mm = part.end_mm + out if end is End.END else part.start_mm + out
    first = planes[0].normal
    return EndGeometry(
        end=end,
        planes=planes,
        by=tuple(trim.by for trim in trims),
        corners_mm=(corners[0], corners[1], corners[2], corners[3]),
        long_mm=long_mm,
        short_mm=short_mm,
        slope_width=-first[1] / first[0],
        slope_thickness=-first[2] / first[0],
    )


def _turned(local: Vec, hand: float) -> Vec:
    return (local[0], hand * local[1], local[2])


def _along(plane: Plane, v: float, w: float) -> float:
    nu, nv, nw = plane.normal
    pu, pv, pw = plane.point
    return pu - (nv * (v - pv) + nw * (w - pw)) / nu


def _section(part: Part, u: float, hand: float) -> tuple[tuple[float, float], ...]:
    """Corners of the section in right-handed axes, its edges as they are ripped there. [mm]"""
    h, t = part.width_mm / 2.0, part.thickness_mm / 2.0
    if part.round is not None:
        h = t = max(part.round.start_mm, part.round.end_mm) / 2.0
    corners = ((-h, -t), (h, -t), (h, t), (-h, t))
    if not part.edges:
        return corners
    return tuple(_ripped(part, u, (hand * v, w), hand) for v, w in corners)


def _ripped(part: Part, u: float, corner: tuple[float, float], hand: float) -> tuple[float, float]:
    """A corner of the square section moved to where the edges leave it. [mm]"""
    v, w = corner
    for edge in part.edges:
        nu, nv, nw = edge.plane.normal
        pu, pv, pw = edge.plane.point
        out = 1.0 if edge.side.endswith("+") else -1.0
        if edge.side.startswith("width") and v * out > 0.0:
            v = out * min(abs(v), out * (pv - (nu * (u - pu) + nw * (w - pw)) / nv))
        elif edge.side.startswith("thickness") and w * out > 0.0:
            w = out * min(abs(w), out * (pw - (nu * (u - pu) + nv * (v - pv)) / nw))
    return (hand * v, w)


def spans(start: EndGeometry, end: EndGeometry) -> tuple[float, float, tuple[float, float, float, float]]:
    """Long point to long point, short to short, and the length of the four arrises. [mm]"""
    a, b = start.corners_mm, end.corners_mm
    arrises = (b[0] - a[0], b[1] - a[1], b[2] - a[2], b[3] - a[3])
    return end.long_mm - start.long_mm, end.short_mm - start.short_mm, arrises


def sense_of(start: EndGeometry, end: EndGeometry) -> EndSense:
    """How the two ends lean toward each other."""
    if len(start.planes) > 1 or len(end.planes) > 1:
        return EndSense.POINTED
    pairs = (
        (start.slope_width, end.slope_width),
        (start.slope_thickness, end.slope_thickness),
    )
    senses = {_pair_sense(a, b) for a, b in pairs} - {EndSense.SQUARE}
    if not senses:
        return EndSense.SQUARE
    if len(senses) == 1:
        return senses.pop()
    same = {EndSense.PARALLEL, EndSense.SAME_WAY}
    against = {EndSense.MIRRORED, EndSense.AGAINST}
    if senses <= same:
        return EndSense.SAME_WAY
    return EndSense.AGAINST if senses <= against else EndSense.MIXED


def _pair_sense(start: float, end: float) -> EndSense:
    flat = (abs(start) < _SAME_SLOPE, abs(end) < _SAME_SLOPE)
    if all(flat):
        return EndSense.SQUARE
    if any(flat):
        return EndSense.ONE_ANGLED
    alike = abs(abs(start) - abs(end)) < _SAME_SLOPE
    if start * end > 0.0:
        return EndSense.PARALLEL if alike else EndSense.SAME_WAY
    return EndSense.MIRRORED if alike else EndSense.AGAINST
