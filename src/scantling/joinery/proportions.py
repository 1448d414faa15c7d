"""Sizes by the trade's proportions, for what a piece file leaves out. All of them common practice.

An option of 0 cannot be written in a file, so 0 stands for what is left out.
"""

from __future__ import annotations

from dataclasses import replace
from math import floor

from scantling.joinery.fitting import wood_behind_mm
from scantling.joinery.meeting import Meeting
from scantling.joinery.options import JointOptions
from scantling.joinery.tenon_layout import SIXTEENTH_MM, third_mm
from scantling.piece.model import End, JointRequest, Part

__all__ = [
    "DOWELS_MM",
    "dowel_sizes",
    "filled",
    "loose_tenon_sizes",
    "nearest_dowel_mm",
    "third_deep_mm",
    "whole_mm",
]

DOWELS_MM = (6.0, 8.0, 10.0, 12.0, 16.0, 20.0)
"""Diameters of dowels that are sold everywhere. [mm]"""
_INCH_DOWELS_MM = tuple(count * SIXTEENTH_MM for count in (4, 5, 6, 8, 10, 12))
"""The same where they go by inches (common practice). [mm]"""
_FLOOR_MM = 6.0
"""Wood left behind a blind hollow. [mm]"""
_DEEP, _WIDE = 4.0, 6.0
"""Depth of a mortise, and greatest width of a tenon, over its thickness. [1]"""


def filled(joint: JointRequest, **sizes: float) -> JointRequest:
    """The joint with sizes put in where the file leaves them out."""
    options = joint.options
    assert isinstance(options, JointOptions)
    missing = {name: value for name, value in sizes.items() if not getattr(options, name)}
    return replace(joint, options=options.model_copy(update=missing)) if missing else joint


def whole_mm(mm: float, *, inch: bool) -> float:
    """A size down to a whole millimeter, or to a sixteenth of an inch. [mm]

    Examples
    --------
    >>> whole_mm(115.2, inch=False), whole_mm(115.2, inch=True) / 25.4
    (115.0, 4.5)
    """
    step = SIXTEENTH_MM if inch else 1.0
    return floor(mm / step + 1e-9) * step


def loose_tenon_sizes(meeting: Meeting, *, count: float, along_grain: bool, inch: bool) -> dict[str, float]:
    """A loose tenon: a third as thick as the thinner part, four times as deep as thick on either side.

    Parameters
    ----------
    meeting
        The two parts and where they touch.
    count, along_grain
        Tenons side by side, and whether their row runs along the first part's grain.
    inch
        Whether they are of inch cutters.

    Returns
    -------
    dict
        ``thickness``, ``width``, ``depth_first``, ``depth_second``. [mm] The width is three fifths of what
        each tenon has of the joint, at most six times the thickness; the second part keeps 6 mm behind it.
    """
    first, second = meeting.first, meeting.second
    thick = third_mm(min(first.thickness_mm, second.thickness_mm), inch=inch)
    room = first.length_mm if along_grain else first.width_mm
    deep = _DEEP * thick
    return {
        "thickness": thick,
        "width": whole_mm(min(0.6 * room / count, _WIDE * thick), inch=inch),
        "depth_first": min(deep, _behind_mm(meeting, first=True, inch=inch)),
        "depth_second": min(deep, _behind_mm(meeting, first=False, inch=inch)),
    }


def dowel_sizes(meeting: Meeting, *, inch: bool) -> dict[str, float]:
    """Dowels two fifths as thick as the thinner part, two and a half diameters deep on either side.

    Returns
    -------
    dict
        ``diameter``, ``depth_first``, ``depth_second``. [mm] The second part keeps 6 mm behind them.
    """
    thick = nearest_dowel_mm(0.4 * min(meeting.first.thickness_mm, meeting.second.thickness_mm), inch=inch)
    return {
        "diameter": thick,
        "depth_first": min(2.5 * thick, _behind_mm(meeting, first=True, inch=inch)),
        "depth_second": min(2.5 * thick, _behind_mm(meeting, first=False, inch=inch)),
    }


def nearest_dowel_mm(wanted_mm: float, *, inch: bool) -> float:
    """The usual diameter nearest to one wanted, the thinner of two. [mm]

    Examples
    --------
    >>> nearest_dowel_mm(8.8, inch=False), nearest_dowel_mm(7.0, inch=False)
    (8.0, 6.0)
    """
    usual = _INCH_DOWELS_MM if inch else DOWELS_MM
    return min(usual, key=lambda size: (abs(size - wanted_mm), size))


def third_deep_mm(part: Part, *, inch: bool) -> float:
    """A third of a part's thickness, down to a whole millimeter or a sixteenth, for a housing. [mm]"""
    return max(1.0, whole_mm(part.thickness_mm / 3.0, inch=inch))


def _behind_mm(meeting: Meeting, *, first: bool, inch: bool) -> float:
    """How deep a blind hollow may go, at least 1 mm so that what is too thin is told as such. [mm]"""
    contact = meeting.contact
    part = meeting.first if first else meeting.second
    into = tuple((-1.0 if first else 1.0) * value for value in contact.normal)
    if first and contact.first_face in set(End):
        return part.length_mm / 2.0
    wood = wood_behind_mm(part, contact.center, (into[0], into[1], into[2]))
    return max(1.0, whole_mm(wood - _FLOOR_MM, inch=inch))
