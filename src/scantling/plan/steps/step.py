"""One step of the work, what steps are made from, and the list they are collected in."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from scantling.joinery.work import JointWork
from scantling.piece.model import Piece
from scantling.plan.making.finishing import Finishing
from scantling.plan.making.gluing import Gluing
from scantling.plan.making.hardware import HardwareLine
from scantling.plan.timber.drying import Drying
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.sawing.saw import PartSawing
from scantling.shop.sawing.sawsetup import SawSetup

__all__ = ["CURED", "GLUE_UP", "Phase", "Step", "Steps", "Work"]

GLUE_UP = "Glue up "
CURED = " cured"
"""How the titles of a glue-up and of the cure after it begin and end, around the name of its stage."""

Phase = str
"""Part of the job: design, timber, milling, joints, gluing, surface, finish, delivery."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the work.

    Parameters
    ----------
    title
        What is done; unique.
    hands_on_min, wait_min
        Work, and drying or rest after it. [min]
    needs
        Titles of the steps before it.
    parts
        Parts it is done to.
    details
        How, in order.
    cautions
        The usual ones; the machine's manual and the product's label come first.
    once
        Whether it happens only once and cannot be photographed again.
    clamps
        Clamps it keeps while it dries.
    prefers
        Titles of steps better done before it, where that costs no day: a machine set in one order.
    """

    title: str
    phase: Phase
    hands_on_min: float
    wait_min: float = 0.0
    needs: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()
    details: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    once: bool = False
    clamps: int = 0
    prefers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What the steps are made from."""

    piece: Piece
    works: tuple[JointWork, ...]
    ledgers: tuple[MillingLedger, ...]
    sawings: tuple[PartSawing, ...]
    setups: tuple[SawSetup, ...]
    hardware: tuple[HardwareLine, ...]
    gluing: Gluing
    finishing: Finishing
    buys_timber: bool
    mass_kg: float
    """What the finished piece weighs. [kg]"""
    drying: Drying | None = None
    """The wait of boards that are too wet."""
    loose: tuple[str, ...] = ()
    """What is made here of pins, tenons and the like, and out of which lengths."""


class Steps:
    """Collects steps, and remembers which step a part last came out of."""

    def __init__(self) -> None:
        self.all: list[Step] = []
        self.last: dict[str, str] = {}
        self.glued: dict[str, str] = {}
        self.loose: tuple[str, ...] = ()
        """The step that makes tenons, pins and wedges, if there is one."""

    def add(self, step: Step) -> str:
        """Put a step at the end; gives its title."""
        self.all.append(step)
        for part in step.parts:
            self.last[part] = step.title
        return step.title

    def ancestors(self, titles: Iterable[str]) -> frozenset[str]:
        """Steps and all that must be done before them."""
        needs = {step.title: step.needs for step in self.all}
        found: set[str] = set()
        left = list(titles)
        while left:
            title = left.pop()
            if title not in found:
                found.add(title)
                left += needs[title]
        return frozenset(found)

    def before(self, parts: Iterable[str]) -> tuple[str, ...]:
        """The last step of each part, each named once."""
        return tuple(dict.fromkeys(self.last[part] for part in parts if part in self.last))
