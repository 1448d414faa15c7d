"""Changes of the piece file that make a finding go away, where a plain one follows from its figures."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from scantling.checks.catalogue import limit
from scantling.checks.subject import Subject
from scantling.errors import Finding, Remedy
from scantling.joinery.breadboard_options import BreadboardEndOptions
from scantling.joinery.loose_tenon import LooseTenonOptions
from scantling.joinery.mortise_tenon_options import MortiseTenonOptions
from scantling.joinery.tenon_layout import CUTTERS_MM
from scantling.piece.model import JointRequest

__all__ = ["REMEDIED", "length_text", "with_remedies"]

_STEP_MM, _STEP_IN = 0.5, Fraction(1, 16)
"""Sizes are set to whole steps, always on the side that mends."""
_PIN_MM = 2.0
"""Least wood a pin keeps to the shoulder, in diameters (common practice). [1]"""
_BEHIND_MM = 6.0
"""Wood left behind a mortise that is made deeper (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wish:
    """An option of a joint that should be at least, or at most, so large. [mm]"""

    option: str
    mm: float
    at_least: bool
    limit_mm: float | None = None
    """Of a tenon's thickness: how far it may go past that for the sake of a usual cutter. [mm]"""


_Wishes = Callable[[Finding, Subject, JointRequest], Iterable[_Wish]]


def with_remedies(found: Iterable[Finding], subject: Subject) -> list[Finding]:
    """Findings with what would mend them, where that is plain; what they bring of their own stays.

    Several findings of one rule may ask for one option: the largest, or the smallest, mends them all. Where
    they ask for opposite things nothing is offered.
    """
    joints = {joint.name: joint for joint in subject.piece.joints}
    items = list(found)
    asked: dict[tuple[str, str, str], list[_Wish]] = {}
    wishes: list[tuple[str, list[_Wish]]] = []
    for item in items:
        joint = joints.get(item.where.rpartition("/")[2])
        own = list(_WISHES[item.code](item, subject, joint)) if item.code in _WISHES and joint else []
        wishes.append((joint.like if joint else "", own))
        for wish in own:
            asked.setdefault((item.code, wishes[-1][0], wish.option), []).append(wish)
    told = []
    for item, (like, own) in zip(items, wishes, strict=True):
        remedies = [_settled(like, asked[item.code, like, wish.option], subject) for wish in own]
        if item.code == "F52":
            remedies = list(_coats(item, subject))
        found_now = (each for each in remedies if each is not None)
        told.append(replace(item, remedies=(*item.remedies, *found_now)))
    return told


def _settled(like: str, wishes: list[_Wish], subject: Subject) -> Remedy | None:
    """One size that grants all wishes for an option; None where they are opposed."""
    up = wishes[0].at_least
    if any(wish.at_least is not up for wish in wishes):
        return None
    mm = _cutter_mm(wishes) if subject.piece.units != "in" else None
    if mm is None:
        mm = (max if up else min)(wish.mm for wish in wishes)
    text, option = length_text(mm, subject.piece.units, up=up), wishes[0].option
    words = f"Set {option.replace('_', ' ')} of {like.replace('_', ' ')} to {text}"
    return Remedy(words=words, path=("joints", like, option), text=text)


def _cutter_mm(wishes: list[_Wish]) -> float | None:
    """The usual cutter that grants all wishes for a tenon's thickness; None where there is none. [mm]"""
    limits = [wish.limit_mm for wish in wishes if wish.limit_mm is not None]
    if len(limits) < len(wishes):
        return None
    if wishes[0].at_least:
        fit = [size for size in CUTTERS_MM if max(w.mm for w in wishes) <= size + 1e-6 <= min(limits) + 2e-6]
        return min(fit, default=None)
    fit = [size for size in CUTTERS_MM if max(limits) <= size + 1e-6 <= min(w.mm for w in wishes) + 2e-6]
    return max(fit, default=None)


def length_text(mm: float, units: str, *, up: bool) -> str:
    """A size as it is written in a piece file, to the next half millimeter or sixteenth.

    Parameters
    ----------
    mm
        The size. [mm]
    units
        Of the file, ``mm`` or ``in``.
    up
        Whether it is rounded up.

    Examples
    --------
    >>> length_text(9.7, "mm", up=True), length_text(9.7, "mm", up=False)
    ('10 mm', '9.5 mm')
    >>> length_text(9.7, "in", up=True), length_text(30.0, "in", up=False)
    ('7/16 in', '1 1/8 in')
    """
    turn: Callable[[float], int] = math.ceil if up else math.floor
    near = -1e-6 if up else 1e-6
    if units != "in":
        return f"{turn(mm / _STEP_MM + near) * _STEP_MM:g} mm"
    whole, rest = divmod(turn(mm / 25.4 / float(_STEP_IN) + near) * _STEP_IN, 1)
    return f"{' '.join(str(each) for each in (whole, rest) if each)} in"


def _thickness(options: object) -> str:
    """The option that says how thick a tenon is; empty for a joint without."""
    if isinstance(options, BreadboardEndOptions):
        return "tongue_thickness"
    return "thickness" if isinstance(options, MortiseTenonOptions | LooseTenonOptions) else ""


def _abreast(options: object) -> int:
    return int(options.abreast) if isinstance(options, MortiseTenonOptions) else 1


def _share(item: Finding, _: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F17: as thick as the nearer limit allows."""
    option = _thickness(joint.options)
    if option:
        thin = item.numbers["thickness_mm"] < item.numbers["least_mm"]
        near, far = ("least_mm", "most_mm") if thin else ("most_mm", "least_mm")
        limit, past = (item.numbers[name] / _abreast(joint.options) for name in (near, far))
        cutter = past if option == "thickness" else None
        yield _Wish(option=option, mm=limit, at_least=thin, limit_mm=cutter)


def _depth(item: Finding, subject: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F18: deeper, where the part is thick enough; else thinner, where the tenon stays strong enough."""
    wanted, thinner = item.numbers["wanted_mm"], item.numbers["thinner_mm"]
    into = subject.part(joint.second.part)
    room = min(into.width_mm, into.thickness_mm) - _BEHIND_MM
    deeper, behind = "length", 0.0
    if isinstance(joint.options, LooseTenonOptions):
        deeper, behind = "depth_second", joint.options.end_room
    if _thickness(joint.options) == "thickness" and wanted <= room and not _shared(joint, subject):
        yield _Wish(option=deeper, mm=wanted + behind, at_least=True)
    option, of = _thickness(joint.options), subject.part(joint.first.part)
    least = limit("F17", "least_share") * min(of.width_mm, of.thickness_mm)
    least /= _abreast(joint.options)
    if option == "thickness" and thinner - _STEP_MM >= least:
        yield _Wish(option=option, mm=thinner, at_least=False, limit_mm=least)


def _shared(joint: JointRequest, subject: Subject) -> bool:
    """Whether another joint's mortise lies in the part that receives: a deeper one could run into it."""
    return any(
        cut.part == joint.second.part and "mortise" in cut.what
        for work in subject.works
        if work.joint != joint.name
        for cut in work.cuts
    )


def _wall(item: Finding, subject: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F15: thinner, so that both the wall grows and less of it is wanted."""
    option = _thickness(joint.options)
    thick = getattr(joint.options, option) if option else 0.0
    if not thick or _shifted(joint.options) or _abreast(joint.options) > 1:
        return
    wall, floor = item.numbers["wall_mm"], limit("F15", "wall_mm")
    share = limit("F15", "wall_share")
    less = max(2.0 * (floor - wall), (share * thick - wall) / (0.5 + share))
    breadboard = isinstance(joint.options, BreadboardEndOptions)
    of = subject.part((joint.second if breadboard else joint.first).part)
    least = limit("F17", "least_share") * min(of.width_mm, of.thickness_mm)
    if thick - less - _STEP_MM >= least:
        cutter = None if breadboard else least
        yield _Wish(option=option, mm=thick - less, at_least=False, limit_mm=cutter)


def _shifted(options: object) -> bool:
    shift = getattr(options, "shift", 0.0)
    return any(shift) if isinstance(shift, tuple) else bool(shift)


def _slot(item: Finding, _: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F05, F08: a slot as long as the travel asks for; shifted travel wants it longer on its shorter side."""
    slot, n = getattr(joint.options, "slot", None), item.numbers
    if slot and "slot_wanted_mm" in n:
        short = max(n["shrink_travel_mm"] - n["shrink_room_mm"], n["swell_travel_mm"] - n["swell_room_mm"])
        yield _Wish(option="slot", mm=float(slot) + 2.0 * short, at_least=True)


def _over(item: Finding, _: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F06: a longer mortise, where the file says how long."""
    over = getattr(joint.options, "mortise_over", None)
    if over is not None:
        n = item.numbers
        short = max(n["shrink_travel_mm"] - n["shrink_room_mm"], n["swell_travel_mm"] - n["swell_room_mm"])
        yield _Wish(option="mortise_over", mm=float(over) + 2.0 * short, at_least=True)


def _deeper(item: Finding, _: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F02, F09: a deeper groove, where the file says how deep."""
    depth = getattr(joint.options, "depth", None)
    if depth:
        yield _Wish(option="depth", mm=float(depth) + item.numbers["shortfall_mm"], at_least=True)


def _engaged(item: Finding, _: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F10: the tongue farther in; a groove whose depth is left out gets deeper with it."""
    engaged = getattr(joint.options, "engaged", None)
    if engaged and not getattr(joint.options, "depth", None):
        yield _Wish(option="engaged", mm=float(engaged) + item.numbers["shortfall_mm"], at_least=True)


def _pin(item: Finding, _: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F19: the pin nearer the shoulder, while there is wood for it."""
    at, pin = (getattr(joint.options, name, None) for name in ("pin_from_shoulder", "pin"))
    nearer = float(at or 0.0) - item.numbers["shortfall_mm"]
    if at and pin and nearer - _STEP_MM >= _PIN_MM * float(pin):
        yield _Wish(option="pin_from_shoulder", mm=nearer, at_least=False)


def _gap(item: Finding, _: Subject, joint: JointRequest) -> Iterable[_Wish]:
    """F49: the gap as wide as the dampest season asks for, where the file says how wide."""
    if "gap_wanted_mm" in item.numbers and getattr(joint.options, "gap", None) is not None:
        yield _Wish(option="gap", mm=item.numbers["gap_wanted_mm"], at_least=True)


def _coats(item: Finding, subject: Subject) -> tuple[Remedy, ...]:
    """F52: coats on the hidden faces too, as many as are wanted."""
    most, finish = item.numbers["most"], subject.piece.finish
    wanted = math.ceil(limit("F52", "share") * most - 1e-9)
    if finish is None or finish.hidden_coats >= wanted:
        return ()
    coats = f"{wanted} coat{'s' if wanted > 1 else ''}"
    words = f"Give the hidden faces {coats}"
    return (Remedy(words=words, path=("finish", "hidden_coats"), text=str(wanted)),)


_WISHES: dict[str, _Wishes] = {
    "F02": _deeper,
    "F05": _slot,
    "F06": _over,
    "F08": _slot,
    "F09": _deeper,
    "F10": _engaged,
    "F15": _wall,
    "F17": _share,
    "F18": _depth,
    "F19": _pin,
    "F49": _gap,
}
REMEDIED: dict[str, str] = {
    "F02": "groove deeper, where its depth is written",
    "F05": "slot longer, where its length is written",
    "F06": "mortise longer, where `mortise_over` is written",
    "F08": "slot longer, where its length is written",
    "F09": "groove deeper, where its depth is written",
    "F10": "tongue farther in, where the groove's depth is left out",
    "F15": "tenon thinner, down to F17's least",
    "F17": "tenon as thick as the nearer limit",
    "F18": "tenon deeper, where the part is thick enough; or thinner, down to F17's least",
    "F19": "pin nearer the shoulder, where its place is written",
    "F49": "gap wider, where it is written",
    "F52": "coats on the hidden faces",
}
"""Rules with a remedy that one key sets, and what it does."""
