"""Gluing: every stage, from strips to the last joint, with glue, clamps, minutes and wedges."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.errors import Finding
from scantling.joinery.work import JointWork
from scantling.piece.model import Piece
from scantling.plan.making.cauls import with_offcuts
from scantling.shop.gluing.assembly import plan_assembly
from scantling.shop.gluing.glue_findings import assembly_findings, glueup_findings
from scantling.shop.gluing.glueup import GlueUp, GlueUpKind
from scantling.shop.gluing.innerglue import inner_glueups
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.profile.profile import Shop
from scantling.stock.layouts.layout import Layout

__all__ = ["Gluing", "plan_gluing"]


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

    @property
    def numbered(self) -> tuple[tuple[int, GlueUp], ...]:
        """Every stage with its number; those that go together dry are no glue-ups and have 0."""
        count, found = 0, []
        for stage in self.stages:
            wet = stage.kind is not GlueUpKind.DRY
            count += wet
            found.append((count if wet else 0, stage))
        return tuple(found)

    @property
    def count(self) -> int:
        """How many glue-ups there are, those that go together dry left out. [1]"""
        return max((number for number, _ in self.numbered), default=0)


def plan_gluing(
    piece: Piece,
    works: tuple[JointWork, ...],
    ledgers: tuple[MillingLedger, ...],
    shop: Shop,
    *,
    layout: Layout | None = None,
) -> Gluing:
    """Stages of gluing, and what speaks against them.

    Parameters
    ----------
    piece, works, ledgers
        The piece, its joints, its parts as milled.
    shop
        Glue, clamps, pace.
    layout
        Parts on boards, whose offcuts become wedges and corner blocks; None without a rack.
    """
    inner = inner_glueups(ledgers, shop)
    assembly = plan_assembly(works, piece.parts, shop, inner=inner)
    first = tuple(stage for stages in inner.values() for stage in stages)
    stages = (*first, *assembly.stages)
    return Gluing(
        inner=first,
        assembly=with_offcuts(assembly.stages, layout),
        glue_g=sum(stage.glue_g for stage in stages),
        findings=(*glueup_findings(first, shop), *assembly_findings(assembly, shop)),
    )
