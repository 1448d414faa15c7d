"""Notches by the saw: passes of one kerf, slivers snapped off, a stacked cutter; what strength is left."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.joinery.work import JointWork, Mark, MarkKind
from scantling.piece.model import Part
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.profile import Shop

__all__ = ["NotchSawing", "notch_passes", "plan_notches", "residual_shares"]

OVERLAP_MM = 0.4
"""How far passes beside each other overlap (common practice). [mm]"""
RELIEF_MM = 10.0
"""From relief cut to relief cut by hand (common practice). [mm]"""
STACK_OVERLAP_MM = 2.0
"""How far passes of a stacked cutter overlap (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class NotchSawing:
    """How one notch is sawn.

    Parameters
    ----------
    width_mm, depth_mm
        Of the notch, along the grain and square to the face. [mm]
    tilt_deg
        Of its cheeks against square. [deg]
    passes_side_by_side
        Passes of one kerf that leave nothing standing; None by hand.
    passes_slivers
        Passes that leave slivers one kerf wide, to snap off and pare; by hand, both cheeks and relief cuts
        10 mm apart (common practice).
    passes_stacked
        Passes of the stacked cutter; None where the shop has none, or the cheeks lean.
    waste_to_chisel_mm3
        What the slivers leave to chisel. [mm3]
    deep_share
        Depth of the notch over depth of the part. [1]
    strength_share, stiffness_share
        Bending strength and stiffness left at the notch, of a part loaded along its depth. [1]
    """

    joint: str
    part: str
    machine: Machine
    width_mm: float
    depth_mm: float
    tilt_deg: float
    passes_side_by_side: int | None
    passes_slivers: int
    passes_stacked: int | None
    waste_to_chisel_mm3: float
    deep_share: float
    strength_share: float
    stiffness_share: float


def notch_passes(width_mm: float, *, cutter_mm: float, step_mm: float) -> int:
    r"""Passes that clear a width, both cheeks sawn.

    Parameters
    ----------
    width_mm
        Width of the notch. [mm] >= ``cutter_mm``
    cutter_mm
        Kerf of the blade or stack. [mm]
    step_mm
        From pass to pass: kerf less overlap; twice the kerf less overlap where slivers are left. [mm]

    Notes
    -----
    .. math:: 1 + \lceil (W - k) / s \rceil

    Examples
    --------
    >>> notch_passes(44.5, cutter_mm=3.2, step_mm=3.2 - 0.4), notch_passes(44.5, cutter_mm=3.2, step_mm=6.0)
    (16, 8)
    """
    return 1 + max(0, math.ceil((width_mm - cutter_mm) / step_mm - 1e-9))


def residual_shares(depth_mm: float, part_depth_mm: float) -> tuple[float, float]:
    r"""Bending strength and stiffness left at a notch.

    Parameters
    ----------
    depth_mm, part_depth_mm
        Of the notch and of the part, both along the load. [mm]

    Notes
    -----
    Of the full section: :math:`(1 - n/d)^2` and :math:`(1 - n/d)^3`. Splitting from the corner of the
    notch comes before that in a loaded span, so these are the most there can be.

    Examples
    --------
    >>> [round(share, 2) for share in residual_shares(1, 3)]
    [0.44, 0.3]
    """
    left = max(0.0, 1.0 - depth_mm / part_depth_mm)
    return left**2, left**3


def plan_notches(
    works: Iterable[JointWork], parts: Mapping[str, Part], shop: Shop
) -> tuple[NotchSawing, ...]:
    """How every notch and halving of the piece is sawn, in the order of the joints."""
    return tuple(
        _sawing(work.joint, mark, parts[mark.part], shop)
        for work in works
        for mark in work.marks
        if mark.kind is MarkKind.NOTCH
    )


def _sawing(joint: str, mark: Mark, part: Part, shop: Shop) -> NotchSawing:
    saw = shop.machines.table_saw
    kerf_mm = shop.kerf_mm
    part_depth_mm = _depth_of(part, mark)
    strength, stiffness = residual_shares(mark.depth_mm, part_depth_mm)
    sliver_mm = 2.0 * kerf_mm - OVERLAP_MM if saw else RELIEF_MM
    slivers = notch_passes(mark.length_mm, cutter_mm=kerf_mm, step_mm=sliver_mm)
    beside = notch_passes(mark.length_mm, cutter_mm=kerf_mm, step_mm=kerf_mm - OVERLAP_MM) if saw else None
    stack_mm = saw.stacked_cutter_mm if saw else 0.0
    left_mm = max(0.0, mark.length_mm - slivers * kerf_mm)
    return NotchSawing(
        joint=joint,
        part=mark.part,
        machine=Machine.TABLE_SAW if saw else Machine.HAND_SAW,
        width_mm=mark.length_mm,
        depth_mm=mark.depth_mm,
        tilt_deg=mark.tilt_deg,
        passes_side_by_side=beside,
        passes_slivers=slivers,
        passes_stacked=_stacked(mark, stack_mm),
        waste_to_chisel_mm3=left_mm * mark.depth_mm * mark.width_mm,
        deep_share=mark.depth_mm / part_depth_mm,
        strength_share=strength,
        stiffness_share=stiffness,
    )


def _stacked(mark: Mark, stack_mm: float) -> int | None:
    """Passes of the stack, set narrower for a narrow notch."""
    if stack_mm <= 0.0 or abs(mark.tilt_deg) > 0.1:
        return None
    width_mm = min(stack_mm, mark.length_mm)
    return notch_passes(mark.length_mm, cutter_mm=width_mm, step_mm=max(width_mm - STACK_OVERLAP_MM, 1.0))


def _depth_of(part: Part, mark: Mark) -> float:
    """Depth of the part under the notch: the side of the section its mark does not run across."""
    if abs(mark.width_mm - part.thickness_mm) <= abs(mark.width_mm - part.width_mm):
        return part.width_mm
    return part.thickness_mm
