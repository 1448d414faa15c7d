"""Racking in closed form: a push at the top of a portal with springy joints and a rigid rail.

The simple case that :mod:`scantling.structure.legged` is held to; a piece is judged by that.
"""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import InputError

__all__ = ["JOINT_STIFFNESS_NMM_RAD", "Portal", "Rack", "rack", "tenon_allowable_nmm"]

JOINT_STIFFNESS_NMM_RAD = 8.0e6
"""Turning stiffness of one glued mortise and tenon. [N mm/rad] From memory."""


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
    allowable_nmm
        Moment one joint may carry; None leaves strength unjudged. [N mm]
    """

    height_mm: float
    legs: int
    joints: int
    leg_side_mm: float
    moe_mpa: float
    push_n: float = 300.0
    joint_stiffness_nmm_rad: float = JOINT_STIFFNESS_NMM_RAD
    allowable_nmm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rack:
    """What the push does.

    Parameters
    ----------
    moment_nmm
        In each joint. [N mm]
    joint_sway_mm, leg_sway_mm, sway_mm
        At the top, from the joints turning, from the legs bending, and together. [mm]
    use
        Moment over what a joint may carry; None where that is not known. [1]
    """

    moment_nmm: float
    joint_sway_mm: float
    leg_sway_mm: float
    sway_mm: float
    use: float | None


def tenon_allowable_nmm(
    thickness_mm: float, width_mm: float, *, mor_mpa: float, factor: float = 4.0
) -> float:
    """Moment a tenon may carry as a beam on edge, over a factor. [N mm]

    Examples
    --------
    >>> tenon_allowable_nmm(8, 60, mor_mpa=90)
    108000.0
    """
    return thickness_mm * width_mm**2 / 6.0 * mor_mpa / factor


def rack(portal: Portal) -> Rack:
    r"""Moment per joint and sway of a frame pushed at the top.

    Notes
    -----
    .. math:: M = P h / n, \quad s = \frac{M}{k} h + \frac{(P/l)\,h^3}{3 E I}

    Derived by statics; ``k`` from memory.
    """
    if portal.joints < 1 or portal.legs < 1:
        raise InputError(
            code="no_joints",
            field="joints",
            value=portal.joints,
            rule="must be at least one joint and one leg",
        )
    moment = portal.push_n * portal.height_mm / portal.joints
    joint_sway = moment / portal.joint_stiffness_nmm_rad * portal.height_mm
    inertia = portal.leg_side_mm**4 / 12.0
    leg_sway = portal.push_n / portal.legs * portal.height_mm**3 / (3.0 * portal.moe_mpa * inertia)
    use = None if portal.allowable_nmm is None else moment / portal.allowable_nmm
    return Rack(
        moment_nmm=moment,
        joint_sway_mm=joint_sway,
        leg_sway_mm=leg_sway,
        sway_mm=joint_sway + leg_sway,
        use=use,
    )
