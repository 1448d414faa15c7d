"""Sizes of a mark and of its set-up, rounded once for every face: what receives up, what enters down."""

from __future__ import annotations

import re

from scantling.joinery.work import Fit, Mark, MarkKind
from scantling.units import LengthStyle, Round, show_length

__all__ = ["mark_depth", "mark_width", "set_up_words", "size_rounding"]

_SAME_MM = 0.06
"""What a set-up's name writes to a tenth is the mark's own figure within this. [mm]"""
_CHOSEN_TENTHS = 0.01
"""A width within so much of a whole tenth of a millimeter was chosen, as cutters and play are. [0.1 mm]"""
_INTO = re.compile(r"(\d+(?:\.\d+)?) mm (deep|long)\b")
_OTHER = re.compile(r"(\d+(?:\.\d+)?) mm\b")


def size_rounding(mark: Mark) -> Round:
    """A mortise is never cut smaller than asked for, a tenon never larger."""
    if mark.kind in (MarkKind.TENON, MarkKind.TONGUE):
        return Round.DOWN
    return Round.UP if mark.fit is not Fit.TIGHT else Round.NEAREST


def mark_width(mark: Mark, style: LengthStyle, *, unit: bool = False) -> str:
    """Width across: the cutter's, or what was reckoned to a hair, which is rounded as the length is."""
    tenths = mark.width_mm * 10.0
    chosen = abs(tenths - round(tenths)) < _CHOSEN_TENTHS
    way = Round.NEAREST if chosen else size_rounding(mark)
    return show_length(mark.width_mm, style.fine, direction=way, unit=unit)


def mark_depth(mark: Mark, style: LengthStyle, *, unit: bool = False) -> str:
    """Depth into the wood: of what enters rounded down, of all that receives rounded up."""
    enters = mark.kind in (MarkKind.TENON, MarkKind.TONGUE, MarkKind.TAIL)
    way = Round.DOWN if enters else Round.UP
    return show_length(mark.depth_mm, style.fine, direction=way, unit=unit)


def set_up_words(mark: Mark, style: LengthStyle) -> str:
    """The set-up's name with the figures its mark is given; others are left as they are.

    Parameters
    ----------
    mark
        One of those cut with it: equal set-ups cut equal widths and depths.
    style
        Of lengths.
    """

    def into(found: re.Match[str]) -> str:
        same = abs(float(found[1]) - mark.depth_mm) < _SAME_MM
        return f"{mark_depth(mark, style, unit=True)} {found[2]}" if same else found[0]

    def across(found: re.Match[str]) -> str:
        same = abs(float(found[1]) - mark.width_mm) < _SAME_MM
        return mark_width(mark, style, unit=True) if same else found[0]

    head, found, tail = mark.setup, _INTO.search(mark.setup), ""
    if found:
        head, tail = mark.setup[: found.start()], mark.setup[found.start() :]
    return _OTHER.sub(across, head) + _INTO.sub(into, tail)
