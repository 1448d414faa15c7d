"""A pattern brought down to what is wanted, and its empty places filled again by hand rules."""

from __future__ import annotations

from collections.abc import Sequence

from scantling.stock.handrules.fill import Demand, Entry, Filler
from scantling.stock.question.pattern import Pattern, Segment, Spot, Strip
from scantling.stock.question.problem import Problem

__all__ = ["kept", "refilled"]


def _still_wanted(spot: Spot, problem: Problem, demand: Demand) -> bool:
    """Whether a spot is still wanted; spends it, and narrows a panel strip to what the panel lacks."""
    base = len(problem.kinds)
    if spot.kind < base:
        if demand.counts[spot.kind] < 1:
            return False
        demand.counts[spot.kind] -= 1
        return True
    panel = spot.kind - base
    need = problem.panels[panel]
    if demand.widths[panel] <= 0 or demand.strips[panel] <= 0:
        return False
    spot.width = max(need.least, min(spot.width, demand.widths[panel] + need.loss))
    demand.widths[panel] = max(0, demand.widths[panel] - (spot.width - need.loss))
    demand.strips[panel] -= 1
    return True


def kept(pattern: Pattern, problem: Problem, demand: Demand) -> Pattern:
    """A pattern without blanks that are not wanted any more, panel strips no wider than needed.

    Parameters
    ----------
    pattern
        Is left as it is.
    problem
        The question.
    demand
        What is wanted; what the pattern yields is taken off it.
    """
    pattern = pattern.copy()
    for segment in pattern.segments:
        for strip in segment.strips:
            strip.spots = [spot for spot in strip.spots if _still_wanted(spot, problem, demand)]
            strip.width = max((s.y + s.width for s in strip.spots), default=strip.y) - strip.y
        segment.strips = [s for s in segment.strips if s.spots]
    pattern.segments = [s for s in pattern.segments if s.strips]
    return pattern


def refilled(
    pattern: Pattern, problem: Problem, demand: Demand, order: Sequence[tuple[int, bool]]
) -> Pattern:
    """A pattern brought down to what is wanted, with blanks added wherever there is room for one.

    Parameters
    ----------
    pattern
        Is left as it is.
    problem
        The question.
    demand
        What is wanted; what the pattern yields is taken off it.
    order
        Kinds (then panels) allowed on this board in the order they are tried, each with whether it is turned.
    """
    pattern = kept(pattern, problem, demand)
    filler = Filler(
        problem=problem,
        stock=problem.stocks[pattern.stock],
        index=pattern.stock,
        demand=demand,
        order=order,
    )
    entries = filler.candidates()
    if not entries:
        return pattern
    for segment in pattern.segments:
        for strip in segment.strips:
            _fill_gaps(filler, strip, segment, entries)
        segment.strips = _with_strips_between(filler, segment, entries)
    if not filler.stock.rip_first:
        ends = [s.x + s.length + problem.cross for s in pattern.segments]
        x = max([filler.stock.x0, *ends])
        while (fresh := filler.next_segment(x)) is not None:
            pattern.segments.append(fresh)
            x = fresh.x + fresh.length + problem.cross
    return pattern


def _limits(filler: Filler, segment: Segment) -> tuple[int, int]:
    return max(segment.x, filler.stock.x0), min(segment.x + segment.length, filler.stock.x1)


def _fill_gaps(filler: Filler, strip: Strip, segment: Segment, entries: Sequence[Entry]) -> None:
    """Put blanks between, before and behind those of a strip."""
    narrow = [e for e in entries if e[2] <= strip.width]
    x, end = _limits(filler, segment)
    cross, top = filler.problem.cross, strip.y + strip.width
    spots: list[Spot] = []
    for follower in [*sorted(strip.spots, key=lambda s: s.x), None]:
        limit = end if follower is None else follower.x - cross
        while (spot := filler.first_spot(narrow, x, strip.y, end=limit, top=top)) is not None:
            spots.append(spot)
            x = spot.x + spot.length + cross
        if follower is not None:
            spots.append(follower)
            x = follower.x + follower.length + cross
    strip.spots = spots


def _with_strips_between(filler: Filler, segment: Segment, entries: Sequence[Entry]) -> list[Strip]:
    """The strips of a segment, with more of them wherever there is room across."""
    x, end = _limits(filler, segment)
    rip, y = filler.problem.rip, filler.stock.y0
    far = max(filler.stock.top_left, filler.stock.top_right)
    strips: list[Strip] = []
    for follower in [*sorted(segment.strips, key=lambda s: s.y), None]:
        limit = far if follower is None else follower.y - rip
        while (strip := _strip_under(filler, entries, (x, end), y=y, top=limit)) is not None:
            strips.append(strip)
            y = strip.y + strip.width + rip
        if follower is not None:
            strips.append(follower)
            y = follower.y + follower.width + rip
    return strips


def _strip_under(
    filler: Filler, entries: Sequence[Entry], span: tuple[int, int], *, y: int, top: int
) -> Strip | None:
    """A strip between two heights, led by the first blank that fits."""
    for level in filler.levels(*span, y):
        spot = filler.first_spot(entries, span[0], level, end=span[1], top=top)
        if spot is not None:
            strip = Strip(y=spot.y, width=spot.width, spots=[spot])
            filler.fill_strip(strip, spot.x + spot.length + filler.problem.cross, span[1])
            return strip
    return None
