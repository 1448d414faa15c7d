"""Racking in closed form: a push at the top of a portal with springy joints and a rigid rail.

The simple case that the sum for legged frames is held to.
"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Portal", "Rack", "rack"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Portal:
    """A frame pushed one way.

    Parameters
    ----------
    height_mm
        Floor to the middle of the rails. [mm]
    legs, joints
        Legs, and joints that resist turning in this direction. [1]
    leg_side_mm
        Side of a square leg, at its mean section. [mm]
    moe_mpa
        Of the legs. [MPa]
    joint_stiffness_nmm_rad
        Of one joint. [N mm/rad]
    """

    height_mm: float
    legs: int
    joints: int
    leg_side_mm: float
    moe_mpa: float
    joint_stiffness_nmm_rad: float
    push_n: float = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """What the push does.

    Parameters
    ----------
    moment_nmm
        In each joint. [N mm]
    joint_sway_mm, leg_sway_mm, sway_mm
        At the top, from the joints turning, from the legs bending, and together. [mm]
    """

    moment_nmm: float
    joint_sway_mm: float
    leg_sway_mm: float
    sway_mm: float


def rack(portal: Portal) -> Rack:
    r"""Moment per joint and sway of a frame pushed at the top.

    Notes
    -----
    .. math:: M = P h / n, \quad s = \frac{M}{k} h + \frac{(P/l)\,h^3}{3 E I}

    Derived by statics.
    """
    moment = portal.push_n * portal.height_mm / portal.joints
    joint_sway = moment / portal.joint_stiffness_nmm_rad * portal.height_mm
    inertia = portal.leg_side_mm**4 / 12.0
    leg_sway = portal.push_n / portal.legs * portal.height_mm**3 / (3.0 * portal.moe_mpa * inertia)
    return Rack(
        moment_nmm=moment,
        joint_sway_mm=joint_sway,
        leg_sway_mm=leg_sway,
        sway_mm=joint_sway + leg_sway,
    )
