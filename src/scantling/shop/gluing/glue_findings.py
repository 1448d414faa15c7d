"""Findings: glue-ups that lack clamps, time, wedges or a way in."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from scantling.checks import finding
from scantling.errors import Finding, Severity
from scantling.shop.gluing.assembly import Assembly
from scantling.shop.gluing.glueup import GlueUp, GlueUpKind
from scantling.shop.gluing.pressing import HAND_SHARE, ClampPlan, owned_of
from scantling.shop.profile.profile import Shop

__all__ = ["assembly_findings", "glueup_findings"]

SLIGHTLY = 1.1
"""Over the time kept by no more than this, the reserve of open time still covers it (common practice). [1]"""
LEAST_CAUL_MM = 18.0
"""Thinnest caul that still spreads the force (common practice). [mm]"""
JOINED_LOSS_MM = 150.0
"""What two clamps joined head to head lose of their reach together (common practice). [mm]"""


def assembly_findings(assembly: Assembly, shop: Shop) -> tuple[Finding, ...]:
    """Findings of every stage, and joints that cannot be entered (F33)."""
    blocked = [
        finding(
            "F33",
            where=joint,
            message="When its turn comes its parts are held already or close another way.",
        )
        for joint in assembly.blocked
    ]
    return (*glueup_findings(assembly.stages, shop), *blocked)


def glueup_findings(stages: Iterable[GlueUp], shop: Shop) -> tuple[Finding, ...]:
    """Clamps too short or too few, stages too long, clamps that slip (F29 to F32)."""
    return tuple(item for stage in stages for item in _stage_findings(stage, shop))


def _stage_findings(stage: GlueUp, shop: Shop) -> Iterator[Finding]:
    if stage.clamps is not None and stage.clamps.too_short:
        yield _too_short(stage.name, stage.clamps, shop)
    elif stage.clamps is not None and stage.clamps.settable:
        yield _too_few_in_time(stage, stage.clamps, shop)
    elif stage.clamps is not None and stage.clamps.count > stage.clamps.owned:
        yield _too_few(stage, stage.clamps)
    if not stage.time.in_time:
        yield _too_long(stage, shop)
    for wedge in stage.wedges:
        if wedge.needed:
            yield finding(
                "F32",
                where=wedge.joint,
                message=(
                    f"The faces under the clamp are {wedge.angle_deg:.1f}° out of parallel; beyond about 8° "
                    "a pad slips."
                ),
                numbers={"slope_deg": wedge.angle_deg},
            )


def _too_short(where: str, clamps: ClampPlan, shop: Shop) -> Finding:
    """No clamp opens so far; less grave where thinner cauls, or clamps two by two, get there."""
    if clamps.band:
        return _no_band(where, clamps)
    way = _thinner_cauls(clamps, shop) or _head_to_head(clamps, shop)
    return finding(
        "F29",
        where=where,
        message=(
            f"The jaws must open {clamps.reach_mm:.0f} mm, cauls and margin included; the longest clamp "
            f"opens {clamps.longest_mm:.0f} mm."
        ),
        advice=way or None,
        numbers={"wanted_mm": clamps.reach_mm, "longest_mm": clamps.longest_mm},
        severity=Severity.MEDIUM if way else None,
    )


def _no_band(where: str, clamps: ClampPlan) -> Finding:
    """No band goes round; less grave, for a cord wound tight does it."""
    owned = f"the longest owned is {clamps.longest_mm:.0f} mm" if clamps.longest_mm else "none is owned"
    return finding(
        "F29",
        where=where,
        message=f"A band of {clamps.reach_mm:.0f} mm must go round all corners at once; {owned}.",
        advice=(
            "Borrow one, or wind a strong cord several times round the blocks on the corners and twist it "
            "tight with a stick; tape across every corner, pulled tight, holds light parts."
        ),
        numbers={"wanted_mm": clamps.reach_mm, "longest_mm": clamps.longest_mm},
        severity=Severity.MEDIUM,
    )


def _thinner_cauls(clamps: ClampPlan, shop: Shop) -> str:
    caul_mm = shop.clamping.caul_mm - (clamps.reach_mm - clamps.longest_mm) / 2.0
    if caul_mm < LEAST_CAUL_MM or owned_of(clamps.longest_mm, shop) < clamps.count:
        return ""
    return f"Use cauls of at most {math.floor(caul_mm):.0f} mm in place of {shop.clamping.caul_mm:.0f} mm."


def _head_to_head(clamps: ClampPlan, shop: Shop) -> str:
    half_mm = (clamps.reach_mm + JOINED_LOSS_MM) / 2.0
    owned = owned_of(half_mm, shop)
    if owned // 2 < clamps.count:
        return ""
    return (
        f"Join clamps head to head: {2 * clamps.count} of at least {half_mm:.0f} mm make {clamps.count}, "
        f"and the shop has {owned}."
    )


def _too_few(stage: GlueUp, clamps: ClampPlan) -> Finding:
    """Fewer clamps than the pressure asks for; less grave where they still hold a well-fitted joint."""
    short = clamps.count - clamps.owned
    what, how = ("bands", "go round") if clamps.band else ("clamps", "open")
    enough = clamps.owned >= clamps.by_spacing and clamps.reached_mpa >= HAND_SHARE * clamps.wanted_mpa
    return finding(
        "F30",
        where=stage.name,
        message=(
            f"{clamps.count} {what} are wanted ({clamps.by_pressure} for the pressure, {clamps.by_spacing} "
            f"for the spacing); {clamps.owned} {how} {clamps.reach_mm:.0f} mm and give "
            f"{clamps.reached_mpa:.2f} of {clamps.wanted_mpa:.2f} MPa."
        ),
        advice=(
            "Plane the joint until it closes under hand pressure, use stiff cauls, and put every clamp on it."
            if enough
            else _one_seam_at_a_time(stage, short) or None
        ),
        numbers={
            "wanted": clamps.count,
            "free": clamps.owned,
            "short": short,
            "reached_mpa": clamps.reached_mpa,
        },
        severity=Severity.MEDIUM if enough else None,
    )


def _too_few_in_time(stage: GlueUp, clamps: ClampPlan, shop: Shop) -> Finding:
    """Fewer clamps than the pressure asks for, since the glue leaves no time for more; they hold."""
    wanted_min = stage.time.total_min + stage.time.clamp_min * (
        min(clamps.count, clamps.owned) / clamps.used - 1.0
    )
    slower = _slower_glues(wanted_min, shop)
    more = f"; a glue that stays open longer ({slower}) leaves time for more" if slower else ""
    return finding(
        "F30",
        where=stage.name,
        message=(
            f"{clamps.count} clamps are wanted ({clamps.by_pressure} for the pressure, {clamps.by_spacing} "
            f"for the spacing); the glue's {stage.time.allowed_min:.1f} min leave time for {clamps.used}, "
            f"which give {clamps.reached_mpa:.2f} of {clamps.wanted_mpa:.2f} MPa."
        ),
        advice=f"Plane the joint until it closes under hand pressure, and use stiff cauls{more}.",
        numbers={
            "wanted": clamps.count,
            "free": clamps.owned,
            "short": clamps.count - clamps.used,
            "reached_mpa": clamps.reached_mpa,
        },
        severity=Severity.MEDIUM,
    )


def _slower_glues(minutes: float, shop: Shop) -> str:
    """Glues of the shop that stay open so long in its air."""
    return ", ".join(
        glue.name
        for glue in shop.known_glues()
        if glue.working_min * shop.clamping.open_share >= minutes
        and glue.min_temperature_c <= shop.climate.temperature_c
    )


def _one_seam_at_a_time(stage: GlueUp, short: int) -> str:
    """The way out for a panel: a seam alone wants as many clamps, but over a narrower body shorter ones."""
    if stage.kind is not GlueUpKind.STRIPS:
        return ""
    way = f"Borrow {short} more that open so far, and use stiff cauls"
    if len(stage.bodies) < 3:
        return f"{way}."
    what = "sub-panels" if any("sub-panel" in name for body in stage.bodies for name in body) else "strips"
    return f"{way}; glue the {what} one seam at a time: the narrower ones need not open so far."


def _too_long(stage: GlueUp, shop: Shop) -> Finding:
    slower = _slower_glues(stage.time.total_min, shop)
    over = stage.time.total_min / stage.time.allowed_min
    ways = f"Use a glue that stays open longer ({slower})" if slower else "Get a helper"
    single = stage.kind is not GlueUpKind.ASSEMBLY and len(stage.bodies) == 2
    split = "" if single else ", or split the joint so that fewer parts close at once"
    return finding(
        "F31",
        where=stage.name,
        message=(
            f"Spreading, placing and clamping take {stage.time.total_min:.1f} min; "
            f"{stage.time.allowed_min:.1f} min of the glue's time may be used."
        ),
        advice=f"{ways}{split}.",
        numbers={"minutes": stage.time.total_min, "allowed_min": stage.time.allowed_min},
        severity=Severity.HIGH if over <= SLIGHTLY else None,
    )
