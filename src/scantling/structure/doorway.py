"""Whether a piece reaches its place: whole or in parts, how it is held, when it is turned."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import permutations

from scantling.checks.catalogue import finding
from scantling.errors import Finding, Severity
from scantling.piece.geometry import Vec
from scantling.structure.passage import (
    Corner,
    Doorway,
    Limit,
    Passage,
    longest_round_corner_mm,
    tilted_spare_mm,
)

__all__ = ["PADDING_MM", "Step", "Thing", "Way", "check", "find_way"]

PADDING_MM = 25.0
"""Wrapping on every side. [mm] Common practice gives 25 to 40."""
_PADDING = f"{PADDING_MM:.0f} mm ({PADDING_MM / 25.4:.0f} in)"
_UP = ("on its end", "on its back", "upright")
_LEADING = ("an end first", "front or back first", "top or feet first")
_TURN_COST = 1.0
_TIP_COST = 1.5
_TILT_COST = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing to carry.

    Parameters
    ----------
    size_mm
        Length, depth, height of its box as it stands in the piece. [mm]
    corners_mm
        Corners of its hull; empty takes the box. [mm] (n, 3)
    """

    name: str
    size_mm: tuple[float, float, float]
    corners_mm: tuple[Vec, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Stance:
    """Which of the box's three sizes is up, and which leads. 0 length, 1 depth, 2 height."""

    up: int
    along: int

    @property
    def across(self) -> int:
        """The size that lies across the way."""
        return 3 - self.up - self.along

    @property
    def words(self) -> str:
        """How it is held."""
        return f"{_UP[self.up]}, {_LEADING[self.along]}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """How one opening is passed.

    Parameters
    ----------
    passage
        Name of the opening.
    stance
        How the thing is held.
    spare_mm
        Room left at the tightest place, wrapping on. [mm]
    before
        What to do before it: nothing, turn, or tip.
    """

    passage: str
    stance: str
    spare_mm: float
    before: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """The way in of one thing.

    Parameters
    ----------
    passes
        Whether there is one.
    steps
        Each opening in order, as far as it gets.
    blocked_at
        The opening that stops it; empty where none does.
    short_by_mm
        What is missing there in the best attitude. [mm] 0 where it passes
    spare_mm
        Least room left on the way. [mm]
    bare_spare_mm
        Least room left where it passes only with its wrapping off; None where it does not. [mm]
    """

    thing: str
    passes: bool
    steps: tuple[Step, ...] = ()
    blocked_at: str = ""
    short_by_mm: float = 0.0
    spare_mm: float = 0.0
    bare_spare_mm: float | None = None


_STANCES = tuple(Stance(up=up, along=along) for up, along in permutations(range(3), 2))


def spare_mm(size_mm: tuple[float, float, float], stance: Stance, passage: Passage) -> float:
    """Room left when a box passes an opening in a stance; negative when it does not. [mm]"""
    long, across, up = (size_mm[axis] for axis in (stance.along, stance.across, stance.up))
    if isinstance(passage, Doorway):
        return min(passage.width_mm - across, passage.height_mm - up)
    if isinstance(passage, Limit):
        limits = (passage.shortest_mm, passage.middle_mm, passage.longest_mm)
        return min(limit - size for limit, size in zip(limits, sorted(size_mm), strict=True))
    p, q = passage.first_mm, passage.second_mm
    turned = min(longest_round_corner_mm(p, q, thick_mm=across) - long, min(p, q) - across)
    sideways = max(min(p - across, q - long), min(q - across, p - long))
    return min(max(turned, sideways), passage.ceiling_mm - up)


def find_way(thing: Thing, route: Sequence[Passage], *, padding_mm: float = PADDING_MM) -> Way:
    """The easiest way through every opening in order: fewest turns, tips only where the ceiling allows.

    A box is held square to the way, or, at a doorway where that fails, in any attitude of its hull. Space
    to turn it between openings is taken as given. The body is taken as convex: a table whose legs are
    worked round the frame one by one may still pass where this says no.

    Parameters
    ----------
    thing
        What is carried.
    route
        Openings in order.
    padding_mm
        Wrapping on every side. [mm]
    """
    a, b, c = (side + 2.0 * padding_mm for side in thing.size_mm)
    size = (a, b, c)
    ceiling = min((p.ceiling_mm for p in route if isinstance(p, Corner)), default=math.inf)
    paths: dict[Stance, tuple[float, tuple[Step, ...]]] = dict.fromkeys(_STANCES, (0.0, ()))
    for passage in route:
        options = _options(thing, size, passage, padding_mm=padding_mm)
        following = _advance(paths, options, passage=passage, size=size, ceiling_mm=ceiling)
        if not following:
            short = _short_mm(paths, options, size=size, ceiling_mm=ceiling)
            _, steps = min(paths.values(), key=lambda path: path[0])
            return Way(
                thing=thing.name,
                passes=False,
                steps=steps,
                blocked_at=passage.name,
                short_by_mm=short,
                bare_spare_mm=_bare_spare_mm(thing, route) if padding_mm > 0.0 else None,
            )
        paths = following
    _, steps = min(paths.values(), key=lambda path: path[0])
    least = min((step.spare_mm for step in steps), default=0.0)
    return Way(thing=thing.name, passes=True, steps=steps, spare_mm=least)


def _short_mm(
    paths: dict[Stance, tuple[float, tuple[Step, ...]]],
    options: dict[Stance, tuple[float, bool]],
    *,
    size: tuple[float, float, float],
    ceiling_mm: float,
) -> float:
    """By how much the opening is missed, or the ceiling where only tipping before it is in the way. [mm]"""
    best = max(room for room, _ in options.values())
    if best < 0.0:
        return -best
    fits = [stance for stance, (room, _) in options.items() if room >= 0.0]
    starts = [before if steps else Stance(up=2, along=0) for before, (_, steps) in paths.items()]
    swings = [math.hypot(size[a.up], size[b.up]) for a in starts for b in fits if a.up != b.up]
    return max(min(swings) - ceiling_mm, 0.0)


def _bare_spare_mm(thing: Thing, route: Sequence[Passage]) -> float | None:
    """Least room left with no wrapping on; None where it sticks so too, or where a limit was found bare."""
    if any(isinstance(passage, Limit) for passage in route):
        return None
    way = find_way(thing, route, padding_mm=0.0)
    return way.spare_mm if way.passes else None


def _options(
    thing: Thing, size: tuple[float, float, float], passage: Passage, *, padding_mm: float
) -> dict[Stance, tuple[float, bool]]:
    """Room left in each stance, and whether it had to be tilted for it."""
    options = {stance: (spare_mm(size, stance, passage), False) for stance in _STANCES}
    if isinstance(passage, Doorway) and all(room < 0.0 for room, _ in options.values()):
        corners = thing.corners_mm or _box(thing.size_mm)
        room = tilted_spare_mm(corners, passage) - 2.0 * padding_mm
        options = dict.fromkeys(_STANCES, (room, True))
    return options


def _box(size: tuple[float, float, float]) -> tuple[Vec, ...]:
    return tuple((x, y, z) for x in (0.0, size[0]) for y in (0.0, size[1]) for z in (0.0, size[2]))


def _advance(
    paths: dict[Stance, tuple[float, tuple[Step, ...]]],
    options: dict[Stance, tuple[float, bool]],
    *,
    passage: Passage,
    size: tuple[float, float, float],
    ceiling_mm: float,
) -> dict[Stance, tuple[float, tuple[Step, ...]]]:
    """Cheapest path to each stance in which the next opening is passed."""
    following: dict[Stance, tuple[float, tuple[Step, ...]]] = {}
    for stance, (room, tilted) in options.items():
        if room < 0.0:
            continue
        for before, (cost, steps) in paths.items():
            change = _change(before, stance, size=size, ceiling_mm=ceiling_mm, first=not steps)
            if change is None:
                continue
            words, price = change
            total = cost + price + (_TILT_COST if tilted else 0.0) - 1e-6 * min(room, 1e3)
            held = "tilted in the opening until it slips through" if tilted else stance.words
            step = Step(passage=passage.name, stance=held, spare_mm=room, before=words)
            if stance not in following or total < following[stance][0]:
                following[stance] = (total, (*steps, step))
    return following


def _change(
    before: Stance, after: Stance, *, size: tuple[float, float, float], ceiling_mm: float, first: bool
) -> tuple[str, float] | None:
    """What to do between two stances, with its cost; None where the ceiling forbids it."""
    start = Stance(up=2, along=0) if first else before
    if start.up == after.up:
        turned = start.along != after.along and not first  # before the first opening it starts either way
        return ("turn it round", _TURN_COST) if turned else ("", 0.0)
    swing = math.hypot(size[start.up], size[after.up])
    if swing > ceiling_mm:
        return None
    return f"tip it {_UP[after.up]} (swings {swing:.0f} mm high)", _TIP_COST


def check(
    whole: Way,
    apart: Sequence[Way] = (),
    *,
    sizes_mm: Mapping[str, tuple[float, float, float]] | None = None,
    largest_mm: Mapping[str, tuple[float, float, float]] | None = None,
) -> list[Finding]:
    """F56 where neither the whole piece nor its parts reach the place.

    Parameters
    ----------
    whole, apart
        The way of the whole piece, and of the things it comes apart into.
    sizes_mm
        Box of each thing by its name. [mm] (3,)
    largest_mm
        What each stair or lift takes, unwrapped, by its name. [mm] (3,)
    """
    if whole.passes or (apart and all(way.passes for way in apart)):
        return []
    stuck = [way for way in apart if not way.passes] or [whole]
    return [
        _stuck(way, (sizes_mm or {}).get(way.thing), (largest_mm or {}).get(way.blocked_at)) for way in stuck
    ]


def _stuck(
    way: Way, size_mm: tuple[float, float, float] | None, largest_mm: tuple[float, float, float] | None
) -> Finding:
    if way.bare_spare_mm is not None:
        return finding(
            "F56",
            where=way.thing,
            severity=Severity.MEDIUM,
            message=f"{way.thing} does not pass the {way.blocked_at} wrapped: with {_PADDING} on "
            f"every side it is {math.ceil(way.short_by_mm):d} mm too big in the best attitude",
            advice=f"Bare it has {math.floor(way.bare_spare_mm):d} mm to spare: guard the jambs, take the "
            "blankets off in front of it, or make it knock-down.",
            numbers={"short_by_mm": way.short_by_mm, "bare_spare_mm": way.bare_spare_mm},
        )
    if size_mm is None or largest_mm is None:
        return finding(
            "F56",
            where=way.thing,
            message=f"{way.thing} does not pass the {way.blocked_at}: {math.ceil(way.short_by_mm):d} mm "
            f"too big in the best attitude, with {_PADDING} of wrapping on every side",
            numbers={"short_by_mm": way.short_by_mm},
        )
    sides = list(zip(sorted(size_mm, reverse=True), sorted(largest_mm, reverse=True), strict=True))
    over = [(side, most) for side, most in sides if side > most]
    made = " and ".join(f"of its {side:.0f} mm make {most:.0f} mm at most" for side, most in over)
    side, most = over[0]
    pieces = math.ceil(side / most)
    return finding(
        "F56",
        where=way.thing,
        message=f"{way.thing} does not pass the {way.blocked_at}: it measures "
        f"{' × '.join(f'{side:.0f}' for side, _ in sides)} mm, and "
        f"{' × '.join(f'{most:.0f}' for _, most in sides)} mm is the most that goes through",
        advice=f"{made[0].upper()}{made[1:]}, build it in {pieces} pieces of {side / pieces:.0f} mm that are "
        "joined in the room, or find another way in, such as a hoist to a window. Settle it with whoever "
        "asked for the size before anything is cut.",
        numbers={"short_by_mm": way.short_by_mm, "size_mm": side, "most_mm": most, "pieces": float(pieces)},
    )
