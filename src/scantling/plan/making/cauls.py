"""Wedges and corner blocks for clamping, each given an offcut of the layout that is large enough."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from scantling.shop.gluing.glueup import Caul, GlueUp, Wedge
from scantling.stock.layouts.layout import Layout

__all__ = ["caul_blank_mm", "wedge_blank_mm", "with_offcuts"]

_WEDGE_LONG_MM, _WEDGE_WIDE_MM = 60.0, 40.0
"""Of a wedge under a clamp's pad (common practice). [mm]"""
_CAUL_WIDE_MM = 50.0
"""Of a block on a corner, across its notch (common practice). [mm]"""
_CAUL_OVER_MM = 20.0
"""A block is longer than the corner by this, to be held while it is notched. [mm]"""
_KERF_MM = 4.0
"""Lost between two of them to the saw. [mm]"""
_BEHIND_MM = 8.0
"""Wood left behind a block's notch. [mm]"""
_THIN_MM = 4.0
"""A wedge's thin end. [mm]"""


@dataclass(slots=True)
class _Left:
    """An offcut, and how long it still is."""

    name: str
    length_mm: float
    width_mm: float
    thickness_mm: float


def wedge_blank_mm(wedge: Wedge) -> tuple[float, float, float]:
    """Length, width and thickness of what a wedge is sawn from. [mm]"""
    thick = _THIN_MM + _WEDGE_LONG_MM * math.tan(math.radians(min(wedge.angle_deg, 45.0)))
    return (_WEDGE_LONG_MM, _WEDGE_WIDE_MM, float(math.ceil(thick)))


def caul_blank_mm(caul: Caul) -> tuple[float, float, float]:
    """Length, width and thickness of what a corner block is sawn from. [mm]"""
    notch = _CAUL_WIDE_MM / 4.0 * math.tan(math.radians(caul.flank_deg))
    long = float(math.ceil(caul.length_mm + _CAUL_OVER_MM))
    return (long, _CAUL_WIDE_MM, float(math.ceil(notch + _BEHIND_MM)))


def with_offcuts(stages: Iterable[GlueUp], layout: Layout | None) -> tuple[GlueUp, ...]:
    """The stages, their wedges and blocks with the name of the offcut they are cut from.

    Each takes the smallest offcut it fits on, lengthwise; what is used of it is gone for the next. Where
    none is left the name stays empty: any scrap of the size will do.

    Parameters
    ----------
    stages
        Glue-ups in order.
    layout
        Parts on boards; None where there is no rack.
    """
    left = _offcuts(layout)
    found = []
    for stage in stages:
        cauls = tuple(
            replace(caul, offcut=_taken(left, caul_blank_mm(caul), caul.count)) for caul in stage.cauls
        )
        wedges = tuple(
            replace(wedge, offcut=_taken(left, wedge_blank_mm(wedge), wedge.count)) for wedge in stage.wedges
        )
        found.append(replace(stage, cauls=cauls, wedges=wedges))
    return tuple(found)


def _offcuts(layout: Layout | None) -> list[_Left]:
    if layout is None:
        return []
    return [
        _Left(
            name=offcut.name,
            length_mm=offcut.length_mm,
            width_mm=offcut.width_mm,
            thickness_mm=laid.board.rough_thickness_mm,
        )
        for laid in layout.boards
        for offcut in laid.offcuts
        if offcut.name
    ]


def _taken(left: list[_Left], blank_mm: tuple[float, float, float], count: int) -> str:
    """The name of the offcut that gives so many blanks, one behind the other and side by side."""
    length, width, thick = blank_mm

    def rows(one: _Left) -> int:
        return (
            math.ceil(count / max(1, int(one.width_mm // (width + _KERF_MM)))) if one.width_mm >= width else 0
        )

    fits = [
        one
        for one in left
        if rows(one) and one.length_mm >= rows(one) * (length + _KERF_MM) and one.thickness_mm >= thick
    ]
    if not fits:
        return ""
    best = min(fits, key=lambda one: one.length_mm * one.width_mm)
    best.length_mm -= rows(best) * (length + _KERF_MM)
    return best.name
