"""The milling ledger of one part: every pass, what it takes, and the size after it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from scantling.shop.operations.routing import Machine, Operation, machine_for
from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.gang import Gang
from scantling.shop.sizes.lamination import LaminationPlan
from scantling.shop.sizes.nominal_choice import Fit
from scantling.shop.sizes.size import Size
from scantling.shop.sizes.strips import StripPlan

__all__ = ["LedgerWriter", "MillingLedger", "Pass", "Stage"]

_GLUES = (Operation.GLUE_SUB_PANELS, Operation.GLUE_STRIPS, Operation.GLUE_LAYERS)


class Stage(StrEnum):
    """Names of the stages of a ledger."""

    LENGTH = "several in one length"
    PIECE = "each piece"
    SUB_PANEL = "each sub-panel"
    WHOLE = "whole part"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One operation.

    Parameters
    ----------
    stage
        Whether it is done to a length that holds several parts, to each strip or layer, or to the part once
        glued.
    removes_length_mm, removes_width_mm, removes_thickness_mm
        What it takes, both sides together. [mm]
    before, after
        Sizes of the workpiece.
    cuts
        Times it goes through the machine.
    """

    stage: Stage
    operation: Operation
    machine: Machine
    removes_length_mm: float
    removes_width_mm: float
    removes_thickness_mm: float
    before: Size
    after: Size
    cuts: int = 1
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class MillingLedger:
    """From the rough board to the finished part.

    Parameters
    ----------
    pieces
        Rough blanks for one part: strips, layers, or 1.
    nominal
        Stock they come from; empty where none on offer serves, and for sheets.
    quarters
        Its quarters of an inch; None for metric stock.
    fit
        How the stock suits.
    needed_mm, offered_mm
        Rough thickness the part asks for, and that of the stock (of the thickest on offer where none
        serves). [mm]
    rough
        Size of one rough blank, as cut from the board. For strips of several widths, of the widest.
    milled
        Size of one piece, ready to glue or to cut joints in.
    glued
        Size of the part as glued, before it is flattened and trimmed; None for a stick.
    finished
        Size of the finished part.
    edge_loss_mm
        What jointing and ripping take off the width of each strip. [mm]
    gang
        The length it is milled in with others, ``rough`` then being its share; None for one on its own.
    """

    part: str
    like: str
    species: str
    pieces: int
    nominal: str
    quarters: int | None
    fit: Fit
    needed_mm: float
    offered_mm: float
    rough: Size
    milled: Size
    glued: Size | None
    finished: Size
    passes: tuple[Pass, ...]
    edge_loss_mm: float = 0.0
    strips: StripPlan | None = None
    lamination: LaminationPlan | None = None
    notes: tuple[str, ...] = ()
    gang: Gang | None = None

    @property
    def rough_volume_mm3(self) -> float:
        """Volume of all rough blanks together. [mm3]"""
        return self.rough.length_mm * self.rough.width_mm * self.rough.thickness_mm * self.pieces


class LedgerWriter:
    """Writes passes one after another, keeping the size."""

    def __init__(self, size: Size, shop: Shop) -> None:
        self.size = size
        self.stage = Stage.PIECE
        self._shop = shop
        self._passes: list[Pass] = []

    @property
    def passes(self) -> tuple[Pass, ...]:
        """The passes written."""
        return tuple(self._passes)

    def take(
        self,
        operation: Operation,
        *,
        length_mm: float = 0.0,
        width_mm: float = 0.0,
        thickness_mm: float = 0.0,
        note: str = "",
    ) -> None:
        """One pass that takes so much."""
        after = self.size.less(length_mm=length_mm, width_mm=width_mm, thickness_mm=thickness_mm)
        self._write(operation, after, note)

    def glue(self, operation: Operation, size: Size, *, stage: Stage = Stage.WHOLE, note: str = "") -> None:
        """Pieces become one; from here on that is milled."""
        self.stage = stage
        self._write(operation, size, note)

    def _write(self, operation: Operation, after: Size, note: str) -> None:
        before = self.size
        glues = operation in _GLUES
        machine = machine_for(operation, after if glues else before, self._shop.machines)
        off = (0.0, 0.0, 0.0) if glues else _off(before, after)
        self._passes.append(
            Pass(
                stage=self.stage,
                operation=operation,
                machine=machine,
                removes_length_mm=off[0],
                removes_width_mm=off[1],
                removes_thickness_mm=off[2],
                before=before,
                after=after,
                cuts=_cuts(machine, max(off[1:]), self._shop),
                note=note,
            )
        )
        self.size = after


def _off(before: Size, after: Size) -> tuple[float, float, float]:
    return (
        before.length_mm - after.length_mm,
        before.width_mm - after.width_mm,
        before.thickness_mm - after.thickness_mm,
    )


def _cuts(machine: Machine, removes_mm: float, shop: Shop) -> int:
    """Times through a jointer or planer; 1 for other machines."""
    jointer, planer = shop.machines.jointer, shop.machines.planer
    if machine is Machine.JOINTER and jointer:
        return max(1, math.ceil(removes_mm / jointer.cut_mm - 1e-9))
    if machine in (Machine.PLANER, Machine.PLANER_SLED) and planer:
        return max(1, math.ceil(removes_mm / planer.cut_mm - 1e-9))
    return 1
