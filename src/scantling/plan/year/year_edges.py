"""Breadboard ends through the year: how far the panel's edges stand out of line with the ends' own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from scantling.joinery.travel import travel
from scantling.joinery.work import JointWork
from scantling.piece.convex import body_of, face_direction
from scantling.piece.geometry import scale
from scantling.piece.model import Direction, Part
from scantling.plan.year.season_parts import SeasonPart
from scantling.plan.year.seasons import Seasons
from scantling.seasons.air import Month
from scantling.wood.moisture import MoistureRange

__all__ = ["FELT_MM", "EdgeYear", "edge_years"]

FELT_MM = 0.2
"""A step a fingertip does not find; nearer is flush (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeYear:
    """One edge of a panel beside its breadboard ends.

    Parameters
    ----------
    panel
        The panel.
    edge
        Its edge, by where it looks.
    built_mm
        How far it stands out beyond the ends when built; negative = back. [mm]
    steps_mm
        The same in the middle of each month of a settled year, late and damped. [mm]
    driest_mm, wettest_mm
        The same if the wood came to rest with the driest and the wettest month. [mm]
    flush_months
        Months in which a fingertip does not find the step.
    """

    panel: str
    edge: Direction
    built_mm: float
    steps_mm: tuple[float, ...]
    driest_mm: float
    wettest_mm: float
    flush_months: tuple[Month, ...]


def edge_years(
    parts: Mapping[str, Part], works: Iterable[JointWork], seasons: Seasons, *, fixed_mm: Mapping[str, float]
) -> tuple[EdgeYear, ...]:
    """Both edges of every panel between breadboard ends, panel by panel.

    Parameters
    ----------
    parts, works, seasons
        Of the plan.
    fixed_mm
        Where each part is held, across from its middle. [mm]
    """
    caps = {work.second: work.first for work in works if work.family == "breadboard_end"}
    by_name = {season.part: season for season in seasons.parts}
    return tuple(
        _edge(parts[panel], parts[cap], by_name[panel], seasons.moisture, held_mm=fixed_mm[panel], side=side)
        for panel, cap in caps.items()
        if panel in by_name
        for side in (-1.0, 1.0)
    )


def _edge(
    panel: Part, cap: Part, season: SeasonPart, moisture: MoistureRange, *, held_mm: float, side: float
) -> EdgeYear:
    way = scale(panel.frame.width, side)
    built = body_of(panel).extent(way)[1] - body_of(cap).extent(way)[1]
    moves = travel(panel, side * panel.width_mm / 2.0 - held_mm, moisture, fixed_at_mm=held_mm)

    def step(change_mm: float) -> float:
        """The edge goes its share of the panel's change."""
        if change_mm < 0.0 and season.narrowest_mm < 0.0:
            return built - moves.shrink_mm * change_mm / season.narrowest_mm
        if change_mm > 0.0 and season.widest_mm > 0.0:
            return built + moves.swell_mm * change_mm / season.widest_mm
        return built

    steps = tuple(step(month.width_change_mm) for month in season.months)
    return EdgeYear(
        panel=panel.name,
        edge=face_direction(way),
        built_mm=built,
        steps_mm=steps,
        driest_mm=built - moves.shrink_mm,
        wettest_mm=built + moves.swell_mm,
        flush_months=tuple(m for m, mm in zip(Month, steps, strict=True) if abs(mm) <= FELT_MM),
    )
