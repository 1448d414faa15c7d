"""Gluing: every stage, from strips to the last joint, with glue, clamps, minutes and wedges."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.checks.catalogue import finding
from scantling.errors import Finding, Severity
from scantling.joinery.work import JointWork
from scantling.piece.model import Piece
from scantling.shop.assembly import plan_assembly
from scantling.shop.glueup import GlueUp, GlueUpKind
from scantling.shop.innerglue import inner_glueups
from scantling.shop.ledger import MillingLedger
from scantling.shop.pressing import ClampPlan
from scantling.shop.profile import Shop

__all__ = ["Gluing", "plan_gluing"]

ENOUGH_MPA = 0.35
"""Pressure at which well planed, well fitted faces still close. [MPa] The Wood Handbook (ch. 10) says that
small, well planed areas manage with less than the published range; the figure itself is from memory."""
HEAD_TO_HEAD_MM = 100.0
"""What is lost of two clamps joined head to head (common practice). [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gluing:
    """All glue-ups in order.

    Parameters
    ----------
    inner
        Panels and laminations.
    assembly
        Parts to each other, then what goes on dry.
    glue_g
        Wet glue in all. [g]
    """

    inner: tuple[GlueUp, ...]
    assembly: tuple[GlueUp, ...]
    glue_g: float
    findings: tuple[Finding, ...]

    @property
    def stages(self) -> tuple[GlueUp, ...]:
        """Every stage."""
        return (*self.inner, *self.assembly)


def plan_gluing(
    piece: Piece, works: tuple[JointWork, ...], ledgers: tuple[MillingLedger, ...], shop: Shop
) -> Gluing:
    """Stages of gluing, and what speaks against them.

    Parameters
    ----------
    piece, works, ledgers
        The piece, its joints, its parts as milled.
    shop
        Glue, clamps, pace.
    """
    inner = inner_glueups(ledgers, shop)
    assembly = plan_assembly(works, piece.parts, shop, inner=inner)
    first = tuple(stage for stages in inner.values() for stage in stages)
    stages = (*first, *assembly.stages)
    findings = [found for stage in stages for found in _faults(stage)]
    findings += [
        finding(
            "F33",
            where=joint,
            message=f"{joint} joins two parts that are one body already when its turn comes",
        )
        for joint in assembly.blocked
    ]
    return Gluing(
        inner=first,
        assembly=assembly.stages,
        glue_g=sum(stage.glue_g for stage in stages),
        findings=tuple(findings),
    )


def _faults(stage: GlueUp) -> list[Finding]:
    """Clamps too short or too few, and glue that would set first: F29, F30, F31."""
    if stage.kind is GlueUpKind.DRY:
        return []
    found = []
    clamps, time = stage.clamps, stage.time
    if clamps is not None and clamps.too_short:
        found.append(_too_short(stage, clamps))
    elif clamps is not None and clamps.count > clamps.owned:
        found.append(_too_few(stage, clamps))
    if not time.in_time:
        found.append(
            finding(
                "F31",
                where=stage.name,
                message=f"{stage.name} takes {time.total_min:.1f} min from the first bead to the last clamp; "
                f"{time.allowed_min:.1f} min may be used",
                numbers={"total_min": time.total_min, "allowed_min": time.allowed_min},
            )
        )
    return found


def _too_short(stage: GlueUp, clamps: ClampPlan) -> Finding:
    """F29, less grave where two clamps owned reach when joined head to head."""
    joined = 2.0 * clamps.longest_mm - HEAD_TO_HEAD_MM
    reaches = joined >= clamps.reach_mm
    return finding(
        "F29",
        where=stage.name,
        message=f"{stage.name} wants clamps that open {clamps.reach_mm:.0f} mm; the longest owned opens "
        f"{clamps.longest_mm:.0f} mm",
        advice=f"Join clamps in pairs head to head: two reach {joined:.0f} mm. Or borrow "
        f"{clamps.count} longer ones."
        if reaches
        else None,
        numbers={"reach_mm": clamps.reach_mm, "longest_mm": clamps.longest_mm},
        severity=Severity.MEDIUM if reaches else None,
    )


def _too_few(stage: GlueUp, clamps: ClampPlan) -> Finding:
    """F30, less grave where those owned press enough for a well planed joint."""
    gives = clamps.pressure_mpa * clamps.owned / clamps.count
    return finding(
        "F30",
        where=stage.name,
        message=f"{stage.name} wants {clamps.count} clamps that open {clamps.reach_mm:.0f} mm; "
        f"{clamps.owned} are "
        f"owned, which give {gives:.2f} of {clamps.wanted_mpa:.2f} MPa",
        numbers={"wanted": float(clamps.count), "owned": float(clamps.owned), "gives_mpa": gives},
        severity=Severity.MEDIUM if gives >= ENOUGH_MPA else None,
    )
