"""Clamps of an assembly: rows of joints pressed together, how far the jaws open, wedges under them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from scantling.checks import limit
from scantling.joinery.work import ClampNeed, JointWork
from scantling.piece.geometry import Vec, add, dot, norm, scale, sub
from scantling.piece.model import Part
from scantling.remembering import remembered
from scantling.shop.gluing.banding import band_clamps, rings_of
from scantling.shop.gluing.glueup import Wedge
from scantling.shop.gluing.pressing import (
    ClampPlan,
    clamp_plan,
    clamps_by_pressure,
    clamps_by_spacing,
    force_of,
    pressure_for,
    reach_wanted_mm,
)
from scantling.shop.profile.glues import GlueKind
from scantling.shop.profile.profile import Shop

__all__ = ["assembly_clamps", "assembly_wedges"]

_ONE_ROW_MM = 60.0
"""Joints whose squeeze lies this close side by side are pressed by the same clamps (common practice). [mm]"""
_ALONG = 0.7
LEAST_WEDGE_DEG = 1.0
"""A slope below this is taken up by the pad of the clamp (common practice). [deg]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """Joints pressed by the same clamps."""

    direction: Vec
    at: Vec
    works: tuple[JointWork, ...]


def assembly_clamps(
    works: Sequence[JointWork],
    body: frozenset[str],
    *,
    parts: Mapping[str, Part],
    shop: Shop,
    glue: GlueKind,
) -> ClampPlan | None:
    """Clamps of one stage; None where no joint asks for any.

    Joints in one row, one behind the other along the squeeze, share their clamps.

    Parameters
    ----------
    works
        The joints closed.
    body
        All parts of the body that results.
    parts
        The parts.
    shop
        Its clamps.
    glue
        Kind of glue.
    """
    members = tuple(part for name, part in parts.items() if name in body)
    return _clamps(tuple(works), members, shop, glue)


@remembered(limit=512)
def _clamps(
    works: tuple[JointWork, ...], members: tuple[Part, ...], shop: Shop, glue: GlueKind
) -> ClampPlan | None:
    parts = {part.name: part for part in members}

    def wanted_mpa(work: JointWork) -> float:
        return pressure_for(parts[work.first].species, glue).least_mpa

    def by_pressure(work: JointWork) -> int:
        area_mm2 = _need(work).area_mm2
        return max(1, clamps_by_pressure(area_mm2, pressure_mpa=wanted_mpa(work), force_n=force_n))

    for ring in rings_of(works):
        return band_clamps(ring, parts=parts, shop=shop, glue=glue)
    rows = _rows([work for work in works if work.clamp is not None])
    if not rows:
        return None
    reach_mm = max(reach_wanted_mm(_outside_mm(row, parts), shop) for row in rows)
    force_n = force_of(reach_mm, shop)
    asked = [
        (max(by_pressure(work) for work in row.works), max(_by_spacing(work, shop) for work in row.works))
        for row in rows
    ]
    area_mm2 = sum(max(_need(work).area_mm2 for work in row.works) for row in rows)
    return clamp_plan(
        sum(max(pair) for pair in asked),
        reach_mm,
        shop,
        area_mm2=area_mm2,
        wanted_mpa=max(wanted_mpa(work) for work in works),
        asked=(sum(pressed for pressed, _ in asked), sum(spaced for _, spaced in asked)),
    )


def assembly_wedges(works: Sequence[JointWork]) -> tuple[Wedge, ...]:
    """Wedges under the clamps of a stage: one to each joint whose outer face slopes, two to a lone miter.

    References
    ----------
    .. [1] A pad slips where tan(slope) exceeds friction: about 8 degrees with wet glue (from memory).
    """
    slips_deg = limit("F32", "slope_deg")
    banded = {work.joint for ring in rings_of(works) for work in ring}
    found = []
    for work in works:
        if work.clamp is None or work.joint in banded:
            continue
        # a corner that no band goes round is pressed across two blocks, one on each outer face
        corner_deg = work.clamp.turn_deg / 2.0
        slope_deg, count = (corner_deg, 2) if corner_deg else (work.clamp.slope_deg, 1)
        if slope_deg >= LEAST_WEDGE_DEG:
            found.append(
                Wedge(joint=work.joint, angle_deg=slope_deg, count=count, needed=slope_deg > slips_deg)
            )
    return tuple(found)


def _need(work: JointWork) -> ClampNeed:
    assert work.clamp is not None
    return work.clamp


def _by_spacing(work: JointWork, shop: Shop) -> int:
    length_mm = max((face.length_mm for face in work.glue), default=0.0)
    pace = shop.clamping
    return clamps_by_spacing(length_mm, spacing_mm=pace.spacing_most_mm, end_mm=pace.end_distance_mm)


def _rows(works: Sequence[JointWork]) -> list[_Row]:
    rows: list[_Row] = []
    for work in works:
        direction = _need(work).direction
        for number, row in enumerate(rows):
            aside = _lateral(sub(work.at, row.at), row.direction)
            if abs(dot(direction, row.direction)) > _ALONG and aside <= _ONE_ROW_MM:
                rows[number] = _Row(direction=row.direction, at=row.at, works=(*row.works, work))
                break
        else:
            rows.append(_Row(direction=direction, at=work.at, works=(work,)))
    return rows


def _lateral(offset: Vec, direction: Vec) -> float:
    return norm(sub(offset, scale(direction, dot(offset, direction))))


def _outside_mm(row: _Row, parts: Mapping[str, Part]) -> float:
    """Outside to outside, along the squeeze, of all parts that stand in the row. [mm]"""
    own = {name for work in row.works for name in (work.first, work.second)}
    spans = [
        span for name, part in parts.items() if (span := _span(part, row, within=name not in own)) is not None
    ]
    return max(high for _, high in spans) - min(low for low, _ in spans)


def _span(part: Part, row: _Row, *, within: bool) -> tuple[float, float] | None:
    """Where a part begins and ends along the row; None for one that stands beside it."""
    nearest, low, high = _axis_points(part, row)
    if within and _lateral(sub(nearest, row.at), row.direction) > _ONE_ROW_MM:
        return None
    frame = part.frame
    half = (
        part.width_mm * abs(dot(frame.width, row.direction))
        + part.thickness_mm * abs(dot(frame.thickness, row.direction))
    ) / 2.0
    along = abs(dot(frame.grain, row.direction)) > _ALONG
    places = [dot(point, row.direction) for point in ((low, high) if along else (nearest,))]
    return min(places) - half, max(places) + half


def _axis_points(part: Part, row: _Row) -> tuple[Vec, Vec, Vec]:
    """The point of a part's axis nearest to the row, and its two ends. World. [mm]"""
    low, high = (part.frame.point((u, 0.0, 0.0)) for u in (part.start_mm, part.end_mm))
    offset, along = sub(low, row.at), sub(high, low)
    a = sub(offset, scale(row.direction, dot(offset, row.direction)))
    b = sub(along, scale(row.direction, dot(along, row.direction)))
    square = dot(b, b)
    share = 0.5 if square < 1e-9 else min(1.0, max(0.0, -dot(a, b) / square))
    return add(low, scale(along, share)), low, high
