"""What lies on a board and what its joints may carry; what holds a top that is lifted or leaned on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from math import ceil, floor

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding
from scantling.structure.gravity import GRAVITY_M_S2

__all__ = ["Carried", "CarriedKind", "Fastened", "Topped", "check_carried", "check_topped"]


class CarriedKind(StrEnum):
    """What a joint carries."""

    BOARD = "board"
    RAIL = "rail"


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """One end of a board or rail, and the joint that carries it there.

    Parameters
    ----------
    kind
        Whether it carries a board or a rail under a top.
    joint, part, by
        The joint, what it carries, and the part that carries it.
    load_kg
        What lies on the board with the board itself. [kg]
    own_kg
        Of that, the board itself. [kg]
    share
        Of that, on this joint at the worst. [1]
    may_n
        What the joint may carry so; None where nothing is published. [N]
    """

    kind: CarriedKind
    joint: str
    part: str
    by: str
    load_kg: float
    own_kg: float
    share: float
    may_n: float | None

    @property
    def asked_n(self) -> float:
        """What the joint is asked to carry. [N]"""
        return self.load_kg * self.share * GRAVITY_M_S2


def check_carried(carried: Carried) -> list[Finding]:
    """F75 where a joint is asked to carry more than it may."""
    if carried.may_n is None or carried.asked_n <= carried.may_n:
        return []
    allowed = max(0, floor(carried.may_n / carried.share / GRAVITY_M_S2 - carried.own_kg))
    times = _told_up(carried.asked_n / carried.may_n)
    return [
        finding(
            "F75",
            where=carried.joint,
            message=f"{carried.joint} carries {carried.asked_n:.0f} N of {carried.part} and what lies on it, "
            f"and may carry {carried.may_n:.0f} N",
            numbers={
                "asked_n": carried.asked_n,
                "may_n": carried.may_n,
                "times": times,
                "allowed_kg": float(allowed),
            },
        )
    ]


def _told_up(times: float) -> float:
    """How many times as strong it must be, to the tenth above: what is told is enough."""
    return ceil(10.0 * times - 1e-9) / 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastened:
    """A row of a top's fasteners.

    Parameters
    ----------
    joint
        Its name.
    at_mm
        Its middle, seen from above. [mm]
    may_n
        What it may carry, drawn straight down out of the top. [N]
    """

    joint: str
    at_mm: tuple[float, float]
    may_n: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Topped:
    """A top that is held by clips, buttons or screws alone.

    Parameters
    ----------
    top
        Its name.
    top_kg, below_kg
        Its mass, and that of all that hangs on it when it is lifted by it. [kg]
    fasteners
        What holds it.
    top_mm, rests_mm
        Least and greatest corner of the top and of what it rests on, seen from above. [mm]
    leaned_on
        Whether people lean on it.
    """

    top: str
    top_kg: float
    below_kg: float
    fasteners: tuple[Fastened, ...]
    top_mm: tuple[tuple[float, float], tuple[float, float]]
    rests_mm: tuple[tuple[float, float], tuple[float, float]]
    leaned_on: bool

    @property
    def holds_n(self) -> float:
        """What all of them may carry. [N]"""
        return sum(one.may_n for one in self.fasteners)

    def lifted_n(self, *, jerk: float, share: float) -> float:
        """What they are asked to hold in all when it is snatched up by a part of them. [N]"""
        return self.below_kg * GRAVITY_M_S2 * jerk / share

    def pried(self, force_n: float) -> tuple[float, float] | None:
        r"""Moment of someone who leans on its worst overhang, about the edge it rests on, and what resists.

        .. math:: M = F o, \quad M_r = m g \, b + \sum p_i a_i^2 / a_{max}

        with the overhang o, the top's own weight at b inside the edge, and each row's p at a from it: the
        farthest at its limit, the others in proportion. [N mm] None where it overhangs nowhere.
        """
        worst: tuple[float, float] | None = None
        for axis in (0, 1):
            for side in (0, 1):
                sign = 1.0 if side else -1.0
                edge = self.rests_mm[side][axis]
                overhang = sign * (self.top_mm[side][axis] - edge)
                if overhang <= 0.0:
                    continue
                arms = [max(sign * (edge - one.at_mm[axis]), 0.0) for one in self.fasteners]
                far = max(arms, default=0.0)
                held = (
                    sum(one.may_n * arm**2 for one, arm in zip(self.fasteners, arms, strict=True)) / far
                    if far
                    else 0.0
                )
                middle = (self.top_mm[0][axis] + self.top_mm[1][axis]) / 2.0
                weight = self.top_kg * GRAVITY_M_S2 * max(sign * (edge - middle), 0.0)
                if worst is None or force_n * overhang / (held + weight + 1e-9) > worst[0] / worst[1]:
                    worst = (force_n * overhang, held + weight + 1e-9)
        return worst


def check_topped(topped: Topped) -> list[Finding]:
    """F76 where a top would be torn off by lifting the piece by it, or by leaning on its overhang."""
    jerk, share = limit("F76", "jerk"), limit("F76", "share")
    asked = topped.lifted_n(jerk=jerk, share=share)
    reasons, more = [], 1.0
    if asked > topped.holds_n:
        more = asked / topped.holds_n
        reasons.append(
            f"lifted by its top, {topped.below_kg:.0f} kg hang on {100.0 * share:.0f} % of its fasteners, "
            f"{jerk:g} times as heavy when it is snatched up: {asked * share:.0f} N, and they may carry "
            f"{topped.holds_n * share:.0f} N"
        )
    force = limit("F40", "force_n")
    pried = topped.pried(force) if topped.leaned_on else None
    if pried is not None and pried[0] > pried[1]:
        more = max(more, pried[0] / pried[1])
        reasons.append(
            f"{force:.0f} N on its overhang pry it up with {pried[0] / 1000.0:.0f} N m, and it is held by "
            f"{pried[1] / 1000.0:.0f} N m"
        )
    if not reasons:
        return []
    numbers = {"asked_n": asked, "holds_n": topped.holds_n, "times": _told_up(more)}
    return [finding("F76", where=topped.top, message="; ".join(reasons), numbers=numbers)]
