"""How a hinged door swings: the way its closing edge wants clear, and the bevel that gives it."""

from __future__ import annotations

import math

__all__ = ["swing_bevel_deg", "swing_clearance_mm"]


def swing_clearance_mm(width_mm: float, *, thickness_mm: float, pin_out_mm: float) -> float:
    r"""Gap that a square closing edge wants to pass the case it closes against. [mm]

    The back arris of the edge lies :math:`W` beside the pin and :math:`p + t` behind it, so it swings on a
    circle a little wider than the door. It leaves the opening where it comes level with the door's front,
    :math:`p` behind the pin, and stands there

    .. math:: \sqrt{W^2 + t^2 + 2 t p}

    beside the pin; what that is more than :math:`W` must be clear. Derived: a point turned about the pin.

    Parameters
    ----------
    width_mm
        From the pin's axis to the closing edge. [mm]
    thickness_mm
        Of the door at that edge. [mm]
    pin_out_mm
        How far the pin's axis stands in front of the door's face. [mm]

    Examples
    --------
    A door 22 mm thick and 440 mm wide, its pin 3 mm out: (484 + 132) over twice 440, nearly.

    >>> round(swing_clearance_mm(440.0, thickness_mm=22.0, pin_out_mm=3.0), 3)
    0.699
    """
    behind = thickness_mm * (thickness_mm + 2.0 * pin_out_mm)
    return math.sqrt(width_mm**2 + behind) - width_mm


def swing_bevel_deg(width_mm: float, *, thickness_mm: float, pin_out_mm: float, gap_mm: float) -> float:
    r"""Bevel of the closing edge, its back planed off, with which a door passes a narrower gap. [deg]

    The back arris must stand :math:`W - s` beside the pin, so that it comes by at :math:`W + g`:
    :math:`s = W - \sqrt{(W + g)^2 - t^2 - 2 t p}`, over the thickness.

    Parameters
    ----------
    width_mm, thickness_mm, pin_out_mm
        As for :func:`swing_clearance_mm`. [mm]
    gap_mm
        The gap there is. [mm]

    Examples
    --------
    >>> round(swing_bevel_deg(100.0, thickness_mm=22.0, pin_out_mm=3.0, gap_mm=1.5), 2)
    4.11
    >>> swing_bevel_deg(440.0, thickness_mm=22.0, pin_out_mm=3.0, gap_mm=1.0)
    0.0
    """
    behind = thickness_mm * (thickness_mm + 2.0 * pin_out_mm)
    reach = (width_mm + gap_mm) ** 2 - behind
    back = width_mm - math.sqrt(max(reach, 0.0))
    return math.degrees(math.atan2(max(back, 0.0), thickness_mm))
