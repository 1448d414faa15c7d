"""Strips of a panel: how many, how wide, where the seams fall, in which sub-panels they are glued."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise, product

from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.seams import seams_clear_of
from scantling.shop.sizes.size import FinishedSize

__all__ = ["SEAM_CLEAR_MM", "StripPlan", "plan_strips", "strips_needed", "sub_panels_needed"]

SEAM_CLEAR_MM = 25.0
"""Least distance of a seam from an edge, a mortise or a fastener line (common practice). [mm]"""
HALF_HOLE_MM = 4.0
"""A line stands for a row of holes or slots this far to each side (screws up to 8 mm). [mm]"""
PLANER_MARGIN_MM = 6.35
"""A sub-panel is kept this much narrower than the planer: 1/4 in (common practice). [mm]"""
_SPREAD_STEPS = (0, 5, -5, 10, -10, 15, -15, 20, -20, 25, -25, 30, -30, 35, -35)
_SHIFTS = (0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95)


@dataclass(frozen=True, slots=True, kw_only=True)
class StripPlan:
    """Strips chosen for one panel.

    Parameters
    ----------
    count
        Strips.
    widths_mm
        Width of each strip when glued, from the edge of negative v on. [mm]
    total_mm, trim_mm
        Glued width, and what is trimmed off it. [mm]
    trim_first_mm
        Part of the trim that comes off the edge of negative v. [mm]
    seams_mm
        Seams from the finished edge of negative v. [mm]
    seam_clearance_mm
        Least distance of a seam from an edge or a line to avoid. [mm]
    sub_panels
        Strips (counted from 1) glued in each first stage, so that each goes through the planer.
    last_joints
        Seams glued after that, cleaned up by hand.
    """

    part: str
    count: int
    widths_mm: tuple[float, ...]
    total_mm: float
    trim_mm: float
    trim_first_mm: float
    seams_mm: tuple[float, ...]
    seam_clearance_mm: float
    sub_panels: tuple[tuple[int, ...], ...]
    last_joints: int
    reason: str


def strips_needed(total_mm: float, most_mm: float) -> int:
    r"""Fewest equal strips, none wider than the stock gives.

    Notes
    -----
    .. math:: n = \lceil (W + trim) / w_{use} \rceil

    Examples
    --------
    >>> strips_needed(36.5, 5.25)
    7
    """
    return max(1, math.ceil(total_mm / most_mm - 1e-9))


def sub_panels_needed(count: int, strip_mm: float, planer_mm: float) -> int:
    r"""Sub-panels of whole strips that go through the planer.

    Parameters
    ----------
    count
        Strips.
    strip_mm
        Width of one. [mm]
    planer_mm
        Widest the planer takes, less the margin. [mm]

    Notes
    -----
    .. math:: \lceil n / \lfloor P / strip \rfloor \rceil

    Examples
    --------
    >>> sub_panels_needed(7, 36.5 / 7, 12.75), sub_panels_needed(6, 36.5 / 6, 12.75)
    (4, 3)
    """
    each = max(1, math.floor(planer_mm / strip_mm + 1e-9))
    return math.ceil(count / each)


def plan_strips(finished: FinishedSize, shop: Shop) -> StripPlan:
    """Strips, seams and sub-panels of a panel.

    Seams are kept :data:`SEAM_CLEAR_MM` from edges and lines to avoid: by shifting the trim, by making the
    outer strips wider or narrower, by one or two strips more, and at last by strips as uneven as it takes.

    Parameters
    ----------
    finished
        The panel; its strip limits go before the shop's.
    shop
        Allowances, usual widths, planer.
    """
    if finished.settled_strips is not None:
        settled = finished.settled_strips
        trims = (settled.trim_first_mm, settled.trim_last_mm)
        return _laid(finished, shop, settled.glued_mm, trims, len(settled.glued_mm))
    if finished.strip_widths_mm:
        return _given_strips(finished, shop)
    trim_mm = shop.allowances.panel_trim_width_mm
    total_mm = finished.width_mm + trim_mm
    most_mm = shop.yard.strip_most_mm if finished.strip_most_mm is None else finished.strip_most_mm
    least_mm = shop.yard.strip_least_mm if finished.strip_least_mm is None else finished.strip_least_mm
    fewest = finished.strip_count or strips_needed(total_mm, most_mm)
    counts = (fewest,) if finished.strip_count else (fewest, fewest + 1, fewest + 2)
    widths, shift = _layout(finished, total_mm, trim_mm, (least_mm, most_mm), counts)
    return _laid(finished, shop, widths, (trim_mm * shift, trim_mm * (1.0 - shift)), fewest)


def _laid(
    finished: FinishedSize,
    shop: Shop,
    widths: tuple[float, ...],
    trims_mm: tuple[float, float],
    fewest: int,
) -> StripPlan:
    """The plan of strips whose widths, and trims at both edges, are chosen."""
    trim_mm = sum(trims_mm)
    seams = _seams(widths, trims_mm[0])
    sub_panels = _sub_panels(widths, shop)
    return StripPlan(
        part=finished.name,
        count=len(widths),
        widths_mm=widths,
        total_mm=finished.width_mm + trim_mm,
        trim_mm=trim_mm,
        trim_first_mm=trims_mm[0],
        seams_mm=seams,
        seam_clearance_mm=_clearance(seams, finished),
        sub_panels=sub_panels,
        last_joints=len(sub_panels) - 1,
        reason=_reason(widths, fewest, sub_panels, shop) + _rings(finished),
    )


def _given_strips(finished: FinishedSize, shop: Shop) -> StripPlan:
    """Seams and sub-panels of strips whose widths the boards decide; the trim is shifted to clear seams."""
    widths = finished.strip_widths_mm
    total_mm = sum(widths)
    trim_mm = total_mm - finished.width_mm
    shifts = _SHIFTS if trim_mm > 0.0 else (0.5,)
    clear = {shift: _clearance(_seams(widths, trim_mm * shift), finished) for shift in shifts}
    shift = next((s for s in shifts if clear[s] >= SEAM_CLEAR_MM), max(shifts, key=lambda s: clear[s]))
    laid = _laid(finished, shop, widths, (trim_mm * shift, trim_mm * (1.0 - shift)), len(widths))
    bought = f"the last {finished.strips_to_buy} still to buy; " if finished.strips_to_buy else ""
    return replace(laid, reason=f"widths as the boards gave them; {bought}{laid.reason}")


def _layout(
    finished: FinishedSize,
    total_mm: float,
    trim_mm: float,
    limits_mm: tuple[float, float],
    counts: tuple[int, ...],
) -> tuple[tuple[float, ...], float]:
    """The first layout, plainest first, with every seam clear; else the clearest of all."""
    best: tuple[float, tuple[float, ...], float] | None = None
    for widths, shift in _candidates(total_mm, trim_mm, limits_mm, counts):
        clear = _clearance(_seams(widths, trim_mm * shift), finished)
        if clear >= SEAM_CLEAR_MM:
            return widths, shift
        if best is None or clear > best[0] + 1e-9:
            best = (clear, widths, shift)
    for count in counts:
        uneven = _placed(finished, trim_mm, limits_mm, count)
        if uneven is not None:
            return uneven, 0.5
    assert best is not None
    return best[1], best[2]


def _placed(
    finished: FinishedSize, trim_mm: float, limits_mm: tuple[float, float], count: int
) -> tuple[float, ...] | None:
    """Strips of uneven widths whose seams are clear, trimmed alike on both sides; None if there are none."""
    if count < 2:
        return None
    seams = seams_clear_of(
        finished.width_mm,
        finished.seam_avoid_mm,
        count=count,
        clear_mm=SEAM_CLEAR_MM + HALF_HOLE_MM,
        ends_mm=trim_mm / 2.0,
        limits_mm=limits_mm,
    )
    if seams is None:
        return None
    edges = (-trim_mm / 2.0, *seams, finished.width_mm + trim_mm / 2.0)
    return tuple(b - a for a, b in pairwise(edges))


def _candidates(
    total_mm: float, trim_mm: float, limits_mm: tuple[float, float], counts: tuple[int, ...]
) -> Iterator[tuple[tuple[float, ...], float]]:
    shifts = _SHIFTS if trim_mm > 0.0 else (0.5,)
    for count, spread in product(counts, _SPREAD_STEPS):
        widths = _widths(total_mm, count, float(spread))
        fits = limits_mm[0] <= min(widths) and max(widths) <= limits_mm[1]
        if spread == 0 or (count > 2 and fits):
            for shift in shifts:
                yield widths, shift


def _widths(total_mm: float, count: int, spread_mm: float) -> tuple[float, ...]:
    """Equal strips, the two outer ones wider by ``spread_mm`` and the inner ones narrower for it."""
    equal = total_mm / count
    if count < 3 or spread_mm == 0.0:
        return (equal,) * count
    inner = equal - 2.0 * spread_mm / (count - 2)
    return (equal + spread_mm, *((inner,) * (count - 2)), equal + spread_mm)


def _seams(widths: tuple[float, ...], first_mm: float) -> tuple[float, ...]:
    return tuple(edge - first_mm for edge in list(accumulate(widths))[:-1])


def _clearance(seams: tuple[float, ...], finished: FinishedSize) -> float:
    """Least distance of a seam from an edge or a line; negative for a seam that is trimmed off."""
    edges = (min(seam, finished.width_mm - seam) for seam in seams)
    lines = (abs(seam - line) - HALF_HOLE_MM for seam in seams for line in finished.seam_avoid_mm)
    return min((*edges, *lines), default=finished.width_mm)


def _sub_panels(widths: tuple[float, ...], shop: Shop) -> tuple[tuple[int, ...], ...]:
    """Strips shared out evenly over the fewest sub-panels the planer takes."""
    count = len(widths)
    planer = shop.machines.planer
    if planer is None:
        return (tuple(range(1, count + 1)),)
    groups = sub_panels_needed(count, max(widths), planer.max_width_mm - PLANER_MARGIN_MM)
    sizes = [count // groups + (1 if i < count % groups else 0) for i in range(groups)]
    starts = [0, *accumulate(sizes)]
    return tuple(tuple(range(starts[i] + 1, starts[i + 1] + 1)) for i in range(groups))


def _rings(finished: FinishedSize) -> str:
    """Which strip must have which rings."""
    if not finished.strip_rings:
        return ""
    edge, *rings = finished.strip_rings
    return f"; rings from the {edge} edge on: {', '.join(rings)}"


def _reason(
    widths: tuple[float, ...], fewest: int, sub_panels: tuple[tuple[int, ...], ...], shop: Shop
) -> str:
    text = f"{len(widths)} {'strip' if len(widths) == 1 else 'strips'}"
    if len(widths) > fewest:
        text += f" ({fewest} would put a seam too near an edge or a fastener)"
    planer = shop.machines.planer
    if planer is None:
        return text + "; no planer: glued in one and flattened by hand"
    if len(sub_panels) == 1:
        return text + f"; the whole panel goes through the {planer.max_width_mm:.0f} mm planer"
    last = len(sub_panels) - 1
    return (
        text
        + f"; glued as {len(sub_panels)} sub-panels that go through the {planer.max_width_mm:.0f} mm planer, "
        + f"then {last} last joint{'s' if last > 1 else ''} cleaned up by hand"
    )
