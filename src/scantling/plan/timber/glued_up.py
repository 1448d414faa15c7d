"""Sticks wider than any board: glued up from narrower strips, and said so."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from scantling.errors import Finding, Severity
from scantling.joinery.work import JointWork
from scantling.piece.model import PartKind
from scantling.plan.job import Job
from scantling.plan.timber.needs import cutting_of
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.sizes.seamlines import seam_lines
from scantling.shop.sizes.size import FinishedSize, Section
from scantling.stock.boards.board import Board
from scantling.units import show_number

__all__ = ["glued_if_too_wide", "widening_findings"]


def glued_if_too_wide(
    job: Job,
    boards: Sequence[Board] | None,
    finished: tuple[FinishedSize, ...],
    wanted: tuple[MillingLedger, ...],
    *,
    works: tuple[JointWork, ...],
) -> tuple[FinishedSize, ...]:
    """The parts, sticks that no board is wide enough for as panels of strips.

    A part that must be one board (``whole``), a round one and one that a wish of the piece names stay sticks.

    Parameters
    ----------
    job
        The piece and its shop.
    boards
        The rack, with its woods named in full; None without one: then the shop's widest board counts.
    finished, wanted
        Parts and their milling as drawn, in the same order.
    works
        Joints, for the lines no seam should come near.
    """
    wished = {name for wish in job.piece.matching for name in wish.parts}
    found = []
    for size, ledger in zip(finished, wanted, strict=True):
        part = job.piece.parts[size.name]
        stays = part.whole or size.name in wished or size.section is Section.ROUND
        if size.kind is not PartKind.STICK or stays or _holds(job, boards, ledger):
            found.append(size)
            continue
        found.append(replace(size, kind=PartKind.PANEL, seam_avoid_mm=seam_lines(part, works)))
    return tuple(found)


def _holds(job: Job, boards: Sequence[Board] | None, ledger: MillingLedger) -> bool:
    """Whether some board is wide enough; also where none of its wood is there, which is told otherwise."""
    widest = _widest_mm(job, boards, ledger)
    return widest is None or ledger.rough.width_mm <= widest + 1e-6


def _widest_mm(job: Job, boards: Sequence[Board] | None, ledger: MillingLedger) -> float | None:
    """Usable width of the widest board long and thick enough; None where there is none at all. [mm]"""
    cutting = cutting_of(job.shop)
    lost = cutting.straight_edge_mm + cutting.far_edge_mm
    if boards is None:
        return job.shop.yard.widest_board_mm - lost
    rooms = [
        max(b.width_mm, b.far_width_mm or 0.0) - lost
        for b in boards
        if b.species == ledger.species
        and b.rough_thickness_mm >= ledger.needed_mm - 1e-6
        and b.length_mm - b.left_trim_mm - b.right_trim_mm >= ledger.rough.length_mm
    ]
    return max(rooms, default=None)


def widening_findings(
    job: Job,
    boards: Sequence[Board] | None,
    drawn: tuple[FinishedSize, ...],
    made: tuple[MillingLedger, ...],
    wanted: tuple[MillingLedger, ...],
) -> tuple[Finding, ...]:
    """Parts drawn as sticks that are planned as panels of strips (T12).

    Parameters
    ----------
    job, boards
        As of :func:`glued_if_too_wide`.
    drawn
        Parts as drawn.
    made, wanted
        Their milling as planned, and as one board each, all in the same order.
    """
    found = []
    for size, ledger, whole in zip(drawn, made, wanted, strict=True):
        if size.kind is not PartKind.STICK or ledger.strips is None:
            continue
        widest = _widest_mm(job, boards, whole) or 0.0
        found.append(
            Finding(
                code="T12",
                severity=Severity.MEDIUM,
                where=size.name,
                message=(
                    f"One board of {show_number(whole.rough.width_mm)} mm is wanted; the widest that is long "
                    f"and thick enough gives {show_number(widest)} mm. It is planned as a panel of "
                    f"{ledger.strips.count} strips."
                ),
                advice=(
                    "Write kind: panel if that is right, make it narrower, or write whole: true and bring a "
                    "board wide enough."
                ),
                numbers={"wanted_mm": whole.rough.width_mm, "widest_mm": widest},
            )
        )
    return tuple(found)
