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
from scantling.shop.profile import Shop

__all__ = ["Gluing", "plan_gluing"]

ENOUGH_SHARE = 0.4
"""Share of the published pressure that well planed, well fitted joints still close at: small, well planed areas
manage with less (Wood Handbook ch. 10; the share itself is from memory). [1]"""


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
        found.append(
            finding(
                "F29",
                where=stage.name,
                message=f"{stage.name} wants clamps that open {clamps.reach_mm:.0f} mm; the longest owned "
                f"opens {clamps.longest_mm:.0f} mm",
                numbers={"reach_mm": clamps.reach_mm, "longest_mm": clamps.longest_mm},
            )
        )
    elif clamps is not None and clamps.count > clamps.owned:
        share = clamps.owned / clamps.count
        found.append(
            finding(
                "F30",
                where=stage.name,
                message=f"{stage.name} wants {clamps.count} clamps that open {clamps.reach_mm:.0f} mm; "
                f"{clamps.owned} are owned, which give {share * clamps.pressure_mpa:.2f} of "
                f"{clamps.wanted_mpa:.2f} MPa",
                numbers={"wanted": float(clamps.count), "owned": float(clamps.owned), "share": share},
                severity=None if share < ENOUGH_SHARE else Severity.MEDIUM,
            )
        )
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
