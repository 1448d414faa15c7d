"""What a piece asks of the boards: its parts as blanks, panels and sheets, and how this shop cuts."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.model import Part, PartKind, Piece
from scantling.plan.job import Job
from scantling.plan.timber.matching import looks_of, wishes_of
from scantling.plan.timber.sawing import sawn_for
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.size import FinishedSize
from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import QUARTER_MM
from scantling.stock.layouts.aim import Aim
from scantling.stock.racks.rack import Rack
from scantling.stock.solving.solve import LayoutRequest

__all__ = ["SheetNeed", "aim_of", "cutting_of", "needs_of", "request_of"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetNeed:
    """A part to be cut from a sheet. [mm]"""

    part: str
    material: str
    length_mm: float
    width_mm: float
    thickness_mm: float


def request_of(
    job: Job, rack: Rack, finished: tuple[FinishedSize, ...], ledgers: tuple[MillingLedger, ...]
) -> LayoutRequest:
    """Everything a piece asks of a whole rack.

    Parameters
    ----------
    job
        The piece and its shop.
    rack
        The boards, with their woods named in full.
    finished, ledgers
        Parts and their milling, in the same order.
    """
    blanks, panels, _ = needs_of(job.piece, finished, ledgers)
    return LayoutRequest(
        boards=rack.boards,
        blanks=blanks,
        panels=panels,
        cutting=cutting_of(job.shop),
        wishes=wishes_of(job.piece, blanks, panels),
        aim=aim_of(job.shop),
    )


def aim_of(shop: Shop) -> Aim:
    """What counts in this shop when boards are laid out."""
    weights = shop.layout
    return Aim(
        price=weights.price,
        waste=weights.waste,
        cut=weights.cut,
        offcut=weights.offcut,
        looks=weights.looks,
    )


def cutting_of(shop: Shop) -> Cutting:
    """The shop's saws at the rough stage."""
    saw = shop.machines.bandsaw
    return Cutting(
        crosscut_kerf_mm=shop.machines.miter_saw.kerf_mm if shop.machines.miter_saw else shop.kerf_mm,
        rip_kerf_mm=shop.kerf_mm,
        resaw_kerf_mm=saw.kerf_mm if saw else 0.0,
        resaw_most_mm=saw.resaw_mm if saw else 0.0,
    )


def needs_of(
    piece: Piece, finished: tuple[FinishedSize, ...], ledgers: tuple[MillingLedger, ...]
) -> tuple[tuple[Blank, ...], tuple[FreeWidthPanel, ...], tuple[SheetNeed, ...]]:
    """Blanks, panels of free width, and sheet parts of a piece.

    Parameters
    ----------
    piece
        Its wishes for the wood's looks and rings.
    finished, ledgers
        Parts and their milling, in the same order.
    """
    blanks: list[Blank] = []
    panels: list[FreeWidthPanel] = []
    sheets: list[SheetNeed] = []
    for size, ledger in zip(finished, ledgers, strict=True):
        if size.kind is PartKind.SHEET:
            sheets.append(
                SheetNeed(
                    part=size.name,
                    material=size.species,
                    length_mm=ledger.rough.length_mm,
                    width_mm=ledger.rough.width_mm,
                    thickness_mm=size.thickness_mm,
                )
            )
        elif ledger.strips is not None and size.strip_count is None:
            panels.append(_panel(size, ledger, part=piece.parts[size.name]))
        else:
            blanks.extend(_blanks(size, ledger, part=piece.parts[size.name]))
    return tuple(blanks), tuple(panels), tuple(sheets)


def _quarters(ledger: MillingLedger) -> tuple[float, ...]:
    return (float(ledger.quarters),) if ledger.quarters else ()


def _thickness_mm(ledger: MillingLedger) -> float:
    """What the rough board must have: the nominal where there is one, for that is how it is sold. [mm]"""
    return ledger.quarters * QUARTER_MM if ledger.quarters else ledger.needed_mm


def _panel(size: FinishedSize, ledger: MillingLedger, *, part: Part) -> FreeWidthPanel:
    assert ledger.strips is not None
    least = size.strip_least_mm or min(ledger.strips.widths_mm)
    return FreeWidthPanel(
        name=size.name,
        part=size.name,
        species=size.species,
        length_mm=ledger.rough.length_mm,
        total_width_mm=ledger.strips.total_mm,
        thickness_mm=_thickness_mm(ledger),
        least_strip_mm=least,
        greatest_strip_mm=size.strip_most_mm or max(ledger.strips.widths_mm),
        edge_loss_mm=ledger.edge_loss_mm,
        quarters=_quarters(ledger),
        looks=looks_of(part),
        sawn=sawn_for(part),
    )


def _blanks(size: FinishedSize, ledger: MillingLedger, *, part: Part) -> list[Blank]:
    widths = [ledger.rough.width_mm] * ledger.pieces
    what = "layer" if ledger.lamination else "strip"
    if ledger.strips is not None:
        widths = [w + ledger.edge_loss_mm for w in ledger.strips.widths_mm]
    return [
        Blank(
            name=size.name if ledger.pieces == 1 else f"{size.name} {what} {k + 1}",
            part=size.name,
            species=size.species,
            length_mm=ledger.rough.length_mm,
            width_mm=width,
            thickness_mm=_thickness_mm(ledger),
            quarters=_quarters(ledger),
            looks=looks_of(part),
            sawn=sawn_for(part, k if ledger.strips is not None else None),
            needed_mm=ledger.needed_mm,
        )
        for k, width in enumerate(widths)
    ]
