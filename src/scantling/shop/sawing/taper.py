"""Tapers: the setting of the sled, and what to measure on the part."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.piece.model import Direction, End, Part
from scantling.shop.operations.routing import Machine

__all__ = ["TaperCut", "taper_angle_deg", "taper_cuts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TaperCut:
    """One face tapered on a sled, after the ends and the joints are cut.

    Parameters
    ----------
    face
        The face that is cut away.
    toward
        The end that gets thin.
    angle_deg
        Of the part on the sled against the blade. [deg]
    begin_mm
        Where it begins, from the other end's square line. [mm]
    run_mm
        Length of the taper along the grain. [mm]
    loss_mm
        Taken off at the thin end. [mm]
    left_mm
        Size across that face left at the thin end, with this and the other tapers of the pair cut. [mm]
    """

    part: str
    like: str
    face: Direction
    toward: End
    angle_deg: float
    begin_mm: float
    run_mm: float
    loss_mm: float
    left_mm: float
    machine: Machine


def taper_angle_deg(wide_mm: float, narrow_mm: float, *, run_mm: float) -> float:
    r"""Setting of a sled for a taper of one face. [deg]

    Notes
    -----
    .. math:: \arctan((w_1 - w_2) / L)

    Examples
    --------
    >>> round(taper_angle_deg(45, 28, run_mm=560), 2)
    1.74
    """
    return math.degrees(math.atan2(wide_mm - narrow_mm, run_mm))


def taper_cuts(part: Part, machine: Machine) -> tuple[TaperCut, ...]:
    """Every taper of a part, in the order of the piece.

    The run follows from the loss and the slope of the plane itself, so a taper that would run past the
    end is told as it is cut.

    Parameters
    ----------
    part
        The part.
    machine
        The saw that carries the sled.
    """
    return tuple(_cut(part, number, machine) for number in range(len(part.tapers)))


def _cut(part: Part, number: int, machine: Machine) -> TaperCut:
    taper = part.tapers[number]
    nu, nv, nw = taper.plane.normal
    across_width = abs(nv) >= abs(nw)
    size_mm = part.width_mm if across_width else part.thickness_mm
    slope = abs(nu) / max(abs(nv), abs(nw))
    lost_mm = sum(
        other.loss_mm
        for other in part.tapers
        if other.toward is taper.toward
        and (abs(other.plane.normal[1]) >= abs(other.plane.normal[2])) is across_width
    )
    return TaperCut(
        part=part.name,
        like=part.like,
        face=taper.face,
        toward=taper.toward,
        angle_deg=math.degrees(math.atan(slope)),
        begin_mm=taper.begin_mm,
        run_mm=taper.loss_mm / slope,
        loss_mm=taper.loss_mm,
        left_mm=size_mm - lost_mm,
        machine=machine,
    )
