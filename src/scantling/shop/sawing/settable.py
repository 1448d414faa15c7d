"""Angles as a saw's scale takes them, what that leaves open at the joint, and the trial that proves them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.shop.operations.routing import Machine
from scantling.shop.profile.machines import Machines
from scantling.shop.sawing.laydown import LayDown

__all__ = ["Setting", "gap_mm", "ring_of", "setting_of", "trial_words"]

_WHOLE = 0.02
_MOST_SIDES = 24
"""A ring of more test pieces than this is no trial any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """A setting of the scale.

    Parameters
    ----------
    miter_deg, bevel_deg
        The nearest the scale can be set to. [deg]
    reads_to_deg
        How finely it can be set. [deg]
    gap_mm
        What the difference leaves open at the joint: where both parts are cut so, of both. [mm] Straight
        geometry; the saw's own errors and the wood's come on top.
    """

    miter_deg: float
    bevel_deg: float
    reads_to_deg: float
    gap_mm: float


def setting_of(lay: LayDown, machines: Machines, *, mitered: bool) -> Setting:
    """The setting of the scale for one way of sawing an end.

    Parameters
    ----------
    lay
        The angles, and how the part lies.
    machines
        How finely each saw can be set.
    mitered
        Whether both parts of the joint are cut at these angles, so that their errors add up.
    """
    step = _reads_to(lay.machine, machines)
    if not step or lay.angles == 0:
        return Setting(miter_deg=lay.miter_deg, bevel_deg=lay.bevel_deg, reads_to_deg=step, gap_mm=0.0)
    miter, bevel = (round(angle / step) * step for angle in (lay.miter_deg, lay.bevel_deg))
    gap = gap_mm(
        (lay.miter_deg, lay.bevel_deg), (miter, bevel), across_mm=lay.across_mm, height_mm=lay.height_mm
    )
    return Setting(
        miter_deg=miter, bevel_deg=bevel, reads_to_deg=step, gap_mm=gap * (2.0 if mitered else 1.0)
    )


def _reads_to(machine: Machine, machines: Machines) -> float:
    """How finely a saw is set; 0 for hand tools, which follow a line. [deg]"""
    saws = {
        Machine.MITER_SAW: machines.miter_saw,
        Machine.TABLE_SAW: machines.table_saw,
        Machine.TRACK_SAW: machines.track_saw,
    }
    saw = saws.get(machine)
    return 0.0 if saw is None else saw.reads_to_deg


def gap_mm(
    exact: tuple[float, float], found: tuple[float, float], *, across_mm: float, height_mm: float
) -> float:
    r"""Opening at the far corner of an end that is sawn at other angles than it should be. [mm]

    Parameters
    ----------
    exact, found
        Miter and bevel wanted and sawn. [deg]
    across_mm, height_mm
        Of the part as it lies. [mm]

    Notes
    -----
    The end touches at one corner of its section; the opposite one stands off, square to the cut, by

    .. math:: (|\Delta \tan m| \, a + |\Delta (\tan b / \cos m)| \, h) \cos m \cos b

    Examples
    --------
    An end 60 mm wide sawn at 44.5 in place of 45 degrees:

    >>> round(gap_mm((45.0, 0.0), (44.5, 0.0), across_mm=60.0, height_mm=20.0), 2)
    0.73
    """
    (m, b), (m1, b1) = (tuple(math.radians(a) for a in pair) for pair in (exact, found))
    across = abs(math.tan(m) - math.tan(m1)) * across_mm
    through = abs(math.tan(b) / math.cos(m) - math.tan(b1) / math.cos(m1)) * height_mm
    return (across + through) * math.cos(m) * math.cos(b)


def ring_of(lay: LayDown) -> int:
    r"""Sides of the ring that ends sawn so close to; 0 where they close to none. [1]

    Notes
    -----
    With miter m and bevel b an end stands off square by h, cos h = cos m cos b, and 180 / h sides close.

    Examples
    --------
    Ends at 45 degrees close to four sides; so do the 18.88 and 41.64 of sides that lean by 20.
    """
    cosine = math.cos(math.radians(lay.miter_deg)) * math.cos(math.radians(lay.bevel_deg))
    half = math.degrees(math.acos(min(1.0, cosine)))
    if half < 180.0 / _MOST_SIDES:
        return 0
    sides = 180.0 / half
    return round(sides) if abs(sides - round(sides)) < _WHOLE else 0


def trial_words(lay: LayDown, *, mitered: bool) -> str:
    """The trial cut that proves a setting, and how to read it; empty for a square one."""
    sides = ring_of(lay) if mitered else 0
    if sides > 2:
        last = "too large where it is open inside, too small where it is open outside"
        which = "the tilt, then the turn" if lay.angles == 2 else "the angle"
        return (
            f"trial: saw both ends of {sides} scraps of this section, {2 * sides} cuts, and stand them in a "
            f"ring; what is open at the last corner is {2 * sides} times the error of one cut "
            f"({which}: {last})"
        )
    if lay.angles == 1:
        angle = lay.miter_deg or lay.bevel_deg
        return (
            "trial: saw a scrap in two at this setting and turn one half over on the cut; together they "
            f"stand at {180.0 - 2.0 * angle:.1f}°, and what is off is twice the error"
        )
    if lay.angles == 2:
        return "trial: saw a scrap, lay it on the drawing or the sliding bevel on both faces, then the parts"
    return ""
