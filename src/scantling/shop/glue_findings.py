"""Findings: glue-ups that lack clamps, time, wedges or a way in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from scantling.checks import finding
from scantling.errors import Finding
from scantling.shop.assembly import Assembly
from scantling.shop.glueup import GlueUp
from scantling.shop.profile import Shop

__all__ = ["assembly_findings", "glueup_findings"]


def assembly_findings(assembly: Assembly, shop: Shop) -> tuple[Finding, ...]:
    """Findings of every stage, and joints that cannot be entered (F33)."""
    blocked = [
        finding(
            "F33",
            where=joint,
            message="Its two parts are one body already when their turn comes, and close another way.",
        )
        for joint in assembly.blocked
    ]
    return (*glueup_findings(assembly.stages, shop), *blocked)


def glueup_findings(stages: Iterable[GlueUp], shop: Shop) -> tuple[Finding, ...]:
    """Clamps too short or too few, stages too long, clamps that slip, a shop too cold (F29 to F32)."""
    return tuple(item for stage in stages for item in _stage_findings(stage, shop))


def _stage_findings(stage: GlueUp, shop: Shop) -> Iterator[Finding]:
    clamps = stage.clamps
    if clamps is not None and clamps.too_short:
        yield finding(
            "F29",
            where=stage.name,
            message=(
                f"The jaws must open {clamps.reach_mm:.0f} mm, cauls and margin included; the longest clamp "
                f"opens {clamps.longest_mm:.0f} mm."
            ),
            numbers={"wanted_mm": clamps.reach_mm, "longest_mm": clamps.longest_mm},
        )
    elif clamps is not None and clamps.count > clamps.owned:
        yield finding(
            "F30",
            where=stage.name,
            message=(
                f"{clamps.count} clamps are wanted ({clamps.by_pressure} for the pressure, "
                f"{clamps.by_spacing} for the spacing); {clamps.owned} open {clamps.reach_mm:.0f} mm."
            ),
            numbers={"wanted": clamps.count, "free": clamps.owned},
        )
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


def _too_long(stage: GlueUp, shop: Shop) -> Finding:
    slower = [
        glue.name
        for glue in shop.known_glues()
        if glue.working_min * shop.clamping.open_share >= stage.time.total_min
        and glue.min_temperature_c <= shop.climate.temperature_c
    ]
    ways = f"Use a glue that stays open longer ({', '.join(slower)})" if slower else "Get a helper"
    return finding(
        "F31",
        where=stage.name,
        message=(
            f"Spreading, placing and clamping take {stage.time.total_min:.1f} min; "
            f"{stage.time.allowed_min:.1f} min of the glue's time may be used."
        ),
        advice=f"{ways}, or split the joint so that fewer parts close at once.",
        numbers={"minutes": stage.time.total_min, "allowed_min": stage.time.allowed_min},
    )
