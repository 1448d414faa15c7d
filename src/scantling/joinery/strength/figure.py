"""One figure of a joint's strength or stiffness: what is likely, from where to where, and who says so."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

__all__ = ["NONE", "UNTOLD", "Figure", "JointStrength", "Known", "none", "nothing"]


class Known(StrEnum):
    """How a figure is known, surest first."""

    TESTED = "published test of such joints"
    FORMULA = "published formula"
    RECKONED = "reckoned from published strengths of the wood"
    MEMORY = "from memory"
    NONE = "no published figure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A strength or a stiffness, in the unit of the field that holds it.

    Parameters
    ----------
    likely
        A strength's breaking value, a stiffness's usual one; None where nothing is published.
    low, high
        The range it lies in. Where no range is published both are the likely value.
    may
        What may be counted on for good: the breaking value over the stated factor; None for a stiffness.
    factor
        Breaking value over what may be counted on. [1]
    known
        How it is known.
    source
        Where it stands, or why there is none.
    """

    likely: float | None = None
    low: float | None = None
    high: float | None = None
    may: float | None = None
    factor: float = 1.0
    known: Known = Known.NONE
    source: str = ""


def none(why: str = "") -> Figure:
    """No published figure, and why."""
    return Figure(source=why)


NONE = none()
"""No published figure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointStrength:
    """What a joint bears. Estimates from clear wood: a test house judges what holds people up.

    Parameters
    ----------
    pull_n
        Drawing the first part straight out of the second. [N]
    shear_n
        Pressing the first part across that way, as a rail's end is pressed down in a leg. [N]
    moment_nmm
        Turning the first part in the plane of both grains. [N mm]
    stiffness_nmm_rad
        That moment over the angle it turns the joint by. [N mm/rad]
    """

    pull_n: Figure = NONE
    shear_n: Figure = NONE
    moment_nmm: Figure = NONE
    stiffness_nmm_rad: Figure = NONE


UNTOLD = JointStrength()
"""Nothing told yet."""


def nothing(why: str) -> JointStrength:
    """No published figure for any of it, and why."""
    no = none(why)
    return JointStrength(pull_n=no, shear_n=no, moment_nmm=no, stiffness_nmm_rad=no)
