"""A legged frame pushed sideways: legs and rails as bars, their joints as springs of a stated range.

The joints' stiffness decides the sway and differs several times between joints that look alike, so the
sway is told from the stiffest to the softest joints published. Joints of one's own, measured, are better.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from math import inf

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding
from scantling.structure.frame import Bar, Node, Solved, solve_frame

__all__ = [
    "Legged",
    "Racked",
    "Rail",
    "RailJoint",
    "Upright",
    "check_legged",
    "check_unbraced",
    "rack_legged",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Upright:
    """A leg, seen square to the push.

    Parameters
    ----------
    foot_mm, head_mm
        Its axis at the floor and at its top: along the push, and up. [mm]
    moe_mpa
        Of its wood. [MPa]
    inertia_mm4
        Second moment of equal lengths of it, from the foot up. [mm4]
    area_mm2
        Of its thinnest section. [mm2]
    """

    name: str
    foot_mm: tuple[float, float]
    head_mm: tuple[float, float]
    moe_mpa: float
    inertia_mm4: tuple[float, ...]
    area_mm2: float

    def along_mm(self, up_mm: float) -> float:
        """Where its axis is at a height. [mm]"""
        (x0, z0), (x1, z1) = self.foot_mm, self.head_mm
        return x0 + (x1 - x0) * (up_mm - z0) / (z1 - z0)

    def inertia_at(self, up_mm: float) -> float:
        """Second moment at a height. [mm4]"""
        share = (up_mm - self.foot_mm[1]) / (self.head_mm[1] - self.foot_mm[1])
        return self.inertia_mm4[min(max(int(share * len(self.inertia_mm4)), 0), len(self.inertia_mm4) - 1)]


@dataclass(frozen=True, slots=True, kw_only=True)
class RailJoint:
    """A rail's end in a leg.

    Parameters
    ----------
    joint
        Its name.
    up_mm
        Its height. [mm]
    stiffness_nmm_rad
        Least, usual and greatest published; None where none is. [N mm/rad]
    may_nmm
        Moment it may carry; None where it is not reckoned. [N mm]
    """

    joint: str
    up_mm: float
    stiffness_nmm_rad: tuple[float, float, float] | None = None
    may_nmm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Rail:
    """A rail between two legs, by their numbers."""

    name: str
    legs: tuple[int, int]
    joints: tuple[RailJoint, RailJoint]
    moe_mpa: float
    inertia_mm4: float
    area_mm2: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Legged:
    """Legs on a floor that keeps their feet in place and lets them turn, under a top that ties them."""

    uprights: tuple[Upright, ...]
    rails: tuple[Rail, ...]

    @property
    def joints(self) -> tuple[RailJoint, ...]:
        """Every joint of a rail and a leg."""
        return tuple(joint for rail in self.rails for joint in rail.joints)


@dataclass(frozen=True, slots=True, kw_only=True)
class Racked:
    """What a push does.

    Parameters
    ----------
    push_n, height_mm
        The push, and the height of the highest rails it is applied at. [N], [mm]
    joints
        Joints that resist it. [1]
    joint, moment_nmm, may_nmm
        The one nearest its limit, its moment, and what it may carry. [N mm]
    use
        That moment over what the joint may carry; None where that is not known. [1]
    sway_mm, sway_least_mm, sway_most_mm
        Of the highest rails: with joints of usual stiffness, of the stiffest and the softest. [mm]
    rigid_sway_mm
        What is left of it were the joints rigid: legs and rails that bend. [mm]
    untold
        Joints of which no stiffness is published; they are taken as rigid, so that it sways at least so far.
    """

    push_n: float
    height_mm: float
    joints: int
    joint: str
    moment_nmm: float
    may_nmm: float | None
    use: float | None
    sway_mm: float
    sway_least_mm: float
    sway_most_mm: float
    rigid_sway_mm: float
    untold: int


def rack_legged(frame: Legged, *, push_n: float) -> Racked:
    """Moments and sway of a legged frame pushed at its highest rails.

    Parameters
    ----------
    frame
        Its legs and rails; every leg has a rail.
    push_n
        The push, shared by the legs as the top ties them. [N]

    Raises
    ------
    InputError
        ``frame_moves`` where the rails hold nothing upright.
    """
    softest, usual, stiffest, rigid = (_pushed(frame, push_n=push_n, which=each) for each in (0, 1, 2, None))
    moments = _moments(frame, usual)
    worst = max(frame.joints, key=lambda joint: _asked(joint, moments))
    carried = worst.may_nmm
    moment = moments[worst.joint]
    return Racked(
        push_n=push_n,
        height_mm=_sways_at_mm(frame),
        joints=len(moments),
        joint=worst.joint,
        moment_nmm=moment,
        may_nmm=carried,
        use=None if carried is None else moment / carried,
        sway_mm=_sway_mm(usual),
        sway_least_mm=_sway_mm(stiffest),
        sway_most_mm=_sway_mm(softest),
        rigid_sway_mm=_sway_mm(rigid),
        untold=len({joint.joint for joint in frame.joints if joint.stiffness_nmm_rad is None}),
    )


def _asked(joint: RailJoint, moments: dict[str, float]) -> tuple[float, float]:
    """How much is asked of a joint: of what it may carry where that is known, else its moment."""
    moment = moments[joint.joint]
    return (moment / joint.may_nmm if joint.may_nmm else 0.0, moment)


def _sways_at_mm(frame: Legged) -> float:
    """Mean height of the highest rail at each leg. [mm]"""
    tops = _tops(frame)
    return sum(tops.values()) / len(tops)


def _tops(frame: Legged) -> dict[int, float]:
    tops: dict[int, float] = {}
    for rail in frame.rails:
        for leg, joint in zip(rail.legs, rail.joints, strict=True):
            tops[leg] = max(tops.get(leg, 0.0), joint.up_mm)
    return tops


@dataclass(frozen=True, slots=True, kw_only=True)
class _Standing:
    """The legs as nodes and bars; where each rail ends, and the node that is pushed."""

    nodes: list[Node]
    bars: list[Bar]
    at: dict[tuple[int, float], int]
    pushed: int


def _pushed(frame: Legged, *, push_n: float, which: int | None) -> tuple[Solved, int, dict[str, int]]:
    """The frame solved with its joints soft, usual, stiff or rigid, its pushed node and bar of each rail.

    Spans of a rail that runs on past a leg turn as one there: half of the joint's stiffness is each one's.
    """
    standing = _standing(frame, push_n=push_n)
    spans = Counter(joint.joint for joint in frame.joints)
    bars, rails = list(standing.bars), {}
    for rail in frame.rails:
        first, second = (
            standing.at[leg, joint.up_mm] for leg, joint in zip(rail.legs, rail.joints, strict=True)
        )
        one, other = (_spring(joint, which) / spans[joint.joint] for joint in rail.joints)
        rails[rail.name] = len(bars)
        bars.append(
            Bar(
                first=first,
                second=second,
                ea_n=rail.moe_mpa * rail.area_mm2,
                ei_nmm2=rail.moe_mpa * rail.inertia_mm4,
                spring_first=one,
                spring_second=other,
            )
        )
    return solve_frame(standing.nodes, bars), standing.pushed, rails


def _standing(frame: Legged, *, push_n: float) -> _Standing:
    nodes: list[Node] = []
    bars: list[Bar] = []
    tops, at = _tops(frame), dict[tuple[int, float], int]()
    first = min(tops)
    for number in sorted(tops):
        leg = frame.uprights[number]
        for up in _stations(frame, number):
            foot, top = up == leg.foot_mm[1], up == tops[number]
            at[number, up] = len(nodes)
            node = Node(x_mm=leg.along_mm(up), y_mm=up, held=(foot, foot, False))
            if top and number == first:
                node = replace(node, push_n=push_n)
            elif top:
                node = replace(node, sways_with=at[first, tops[first]])
            nodes.append(node)
            if not foot:
                bending = leg.moe_mpa * leg.inertia_at((nodes[-2].y_mm + up) / 2.0)
                stretching = leg.moe_mpa * leg.area_mm2
                bars.append(
                    Bar(first=len(nodes) - 2, second=len(nodes) - 1, ea_n=stretching, ei_nmm2=bending)
                )
    return _Standing(nodes=nodes, bars=bars, at=at, pushed=at[first, tops[first]])


def _spring(joint: RailJoint, which: int | None) -> float:
    return inf if which is None or joint.stiffness_nmm_rad is None else joint.stiffness_nmm_rad[which]


def _stations(frame: Legged, number: int) -> list[float]:
    """Heights of a leg's nodes: its foot, its rails, and between them the ends of its equal lengths. [mm]"""
    leg, top = frame.uprights[number], _tops(frame)[number]
    low, high = leg.foot_mm[1], leg.head_mm[1]
    count = len(leg.inertia_mm4)
    cuts = {low + (high - low) * k / count for k in range(count)}
    joints = {
        joint.up_mm
        for rail in frame.rails
        for each, joint in zip(rail.legs, rail.joints, strict=True)
        if each == number
    }
    spaced = {cut for cut in cuts if cut == low or (cut < top and all(abs(cut - up) > 1.0 for up in joints))}
    return sorted(spaced | joints)


def _sway_mm(solved: tuple[Solved, int, dict[str, int]]) -> float:
    return abs(solved[0].nodes[solved[1]].x_mm)


def _moments(frame: Legged, solved: tuple[Solved, int, dict[str, int]]) -> dict[str, float]:
    """Moment between leg and rail in every joint; where a rail runs on, what both its spans bring. [N mm]"""
    found: dict[str, float] = {}
    for rail in frame.rails:
        ends = solved[0].bars[solved[2][rail.name]]
        for joint, moment in zip(rail.joints, (ends.first_nmm, ends.second_nmm), strict=True):
            found[joint.joint] = found.get(joint.joint, 0.0) + moment
    return {joint: abs(moment) for joint, moment in found.items()}


def check_legged(where: str, racked: Racked) -> list[Finding]:
    """F47 where a push at the top overloads a joint or sways too far."""
    allowed = limit("F47", "sway_mm")
    reasons = []
    if racked.sway_mm > allowed:
        spread = f"{racked.sway_least_mm:.1f} to {racked.sway_most_mm:.1f} mm as stiff as its joints are"
        reasons.append(f"sways {racked.sway_mm:.1f} mm ({spread}), at most {allowed:.0f} mm")
    if racked.use is not None and racked.use > 1.0 and racked.may_nmm is not None:
        reasons.append(
            f"puts {racked.moment_nmm / 1000:.0f} N m on {racked.joint}, which may carry "
            f"{racked.may_nmm / 1000:.0f} N m"
        )
    if not reasons:
        return []
    numbers = {"sway_mm": racked.sway_mm, "moment_nmm": racked.moment_nmm, "use": racked.use or 0.0}
    return [
        finding(
            "F47",
            where=where,
            message=f"a push of {racked.push_n:.0f} N at the top {' and '.join(reasons)}",
            advice=_way_out(racked, allowed),
            numbers=numbers | _wanted(racked, allowed),
        )
    ]


def check_unbraced(where: str, direction: str) -> list[Finding]:
    """F47 for legs that nothing holds upright one way.

    Parameters
    ----------
    where
        The frame and the way.
    direction
        ``along the piece`` or ``across the piece``.
    """
    push_n = limit("F47", "push_n")
    way = direction.split()[0]
    return [
        finding(
            "F47",
            where=where,
            message=f"no rail holds it {way}: nothing joined to its legs keeps them upright under a push of "
            f"{push_n:.0f} N {direction}",
            advice=f"Join its legs {way} with rails or stretchers, or with a panel let into them.",
            numbers={"push_n": push_n},
        )
    ]


def _wanted(racked: Racked, allowed_mm: float) -> dict[str, float]:
    """What would do: a moment for each joint to carry, or so many joints of this kind (M is P h / n)."""
    more = max(racked.sway_mm / allowed_mm, racked.use or 0.0)
    return {"wanted_nm": racked.moment_nmm / 1000.0, "more_joints": float(-(-racked.joints * more // 1))}


def _way_out(racked: Racked, allowed_mm: float) -> str:
    """By what it would hold: stronger joints where they are overloaded, stiffer or more where it sways."""
    wanted = _wanted(racked, allowed_mm)
    doubled = wanted["more_joints"] > 2.0 * racked.joints  # so many do not fit; then they are not counted
    count = "more joints" if doubled else f"about {wanted['more_joints']:.0f} such joints in all"
    more = f"{count}, with a lower rail or stretchers"
    if racked.use is not None and racked.use > 1.0:
        return (
            f"Give each joint {wanted['wanted_nm']:.0f} N m to carry, by wider or thicker tenons or by "
            f"dowels farther apart, or share it among {more}."
        )
    return f"Make the legs stouter, or have {more}."
