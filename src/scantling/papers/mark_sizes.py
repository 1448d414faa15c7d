"""Sizes of a mark and of its set-up, rounded once for every face: what receives up, what enters down."""

from __future__ import annotations

import re
from dataclasses import replace

from scantling.joinery.work import Fit, Mark, MarkKind
from scantling.units import LengthStyle, Round, show_length

__all__ = ["mark_depth", "mark_width", "set_up_words", "size_rounding"]

_SAME_MM = 0.06
"""What a set-up's name writes to a tenth is the mark's own figure within this. [mm]"""
_INTO = re.compile(r"(\d+(?:\.\d+)?) mm (deep|long)\b")
_OTHER = re.compile(r"(\d+(?:\.\d+)?) mm\b")


def size_rounding(mark: Mark) -> Round:
    """A mortise is never cut smaller than asked for, a tenon never larger."""
    if mark.kind in (MarkKind.TENON, MarkKind.TONGUE):
        return Round.DOWN
    return Round.UP if mark.fit is not Fit.TIGHT else Round.NEAREST


def _fine(style: LengthStyle) -> LengthStyle:
    """Cutters come in 64ths and tenths of a millimeter, whatever the tape on the bench is read to."""
    return replace(style, denominator=64, step_mm=0.1)


def mark_width(mark: Mark, style: LengthStyle) -> str:
    """Width across, which is the cutter's, without unit."""
    return show_length(mark.width_mm, _fine(style), unit=False)


def mark_depth(mark: Mark, style: LengthStyle) -> str:
    """Depth into the wood, without unit: of what enters rounded down, of all that receives rounded up."""
    enters = mark.kind in (MarkKind.TENON, MarkKind.TONGUE, MarkKind.TAIL)
    way = Round.DOWN if enters else Round.UP
    return show_length(mark.depth_mm, _fine(style), direction=way, unit=False)


def set_up_words(mark: Mark, style: LengthStyle) -> str:
    """The set-up's name with the figures its mark is given; others are left as they are.

    Parameters
    ----------
    mark
        One of those cut with it: equal set-ups cut equal widths and depths.
    style
        Of lengths.
    """
    unit = " in" if style.inch else " mm"

    def into(found: re.Match[str]) -> str:
        same = abs(float(found[1]) - mark.depth_mm) < _SAME_MM
        return f"{mark_depth(mark, style)}{unit} {found[2]}" if same else found[0]

    def across(found: re.Match[str]) -> str:
        same = abs(float(found[1]) - mark.width_mm) < _SAME_MM
        return mark_width(mark, style) + unit if same else found[0]

    head, found, tail = mark.setup, _INTO.search(mark.setup), ""
    if found:
        head, tail = mark.setup[: found.start()], mark.setup[found.start() :]
    return _OTHER.sub(across, head) + _INTO.sub(into, tail)
