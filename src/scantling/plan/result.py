"""The plan: everything computed from one piece, for one shop, rack and room."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.checks.offers import Meets
from scantling.errors import Finding
from scantling.joinery.work import JointWork
from scantling.piece.built import AsBuilt
from scantling.piece.model import ParameterValue
from scantling.plan.making.finishing import Finishing
from scantling.plan.making.gluing import Gluing
from scantling.plan.making.hardware import HardwareLine
from scantling.plan.parts import PlannedPart
from scantling.plan.pricing import Pricing
from scantling.plan.standing.moving import Moving
from scantling.plan.standing.strength import Strength
from scantling.plan.steps.order import Order
from scantling.plan.timber.drying import Drying
from scantling.plan.timber.timber import Timber
from scantling.plan.year.seasons import Seasons
from scantling.plan.year.year_rooms import YearRooms
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.sawing.kerf import NotchSawing
from scantling.shop.sawing.saw import PartSawing
from scantling.shop.sawing.sawsetup import SawSetup
from scantling.units import LengthStyle

__all__ = ["Plan"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything computed from one piece. Lengths in mm, masses in kg, moisture in percent, times as named.

    Parameters
    ----------
    version
        Of this layout of the plan; grows with every change that a reader of the JSON would notice.
    title, about
        Of the piece.
    units, fractions, both_units
        Unit lengths are shown in, ``mm`` or ``in``, the smallest fraction of an inch (16, 32 or 64), and
        whether the other unit follows in square brackets.
    shop, room
        Names of the shop and the room it was planned for.
    parameters
        With the values in force.
    parts
        Finished sizes, weight, area.
    milling
        Part by part: rough, milled and finished size, pass by pass; strips of panels, layers of laminations.
    sawing, setups, notches
        How every end is sawn, cuts grouped by setting, and notches.
    joints
        All that follows from each joint: cuts, marks, connectors, glue, freedom to move.
    hardware
        Loose tenons, pins, dowels, clips, screws, wedges.
    timber
        Parts on boards, or what to buy.
    drying
        How long boards that are too wet wait before they are cut; None where none is known to be.
    seasons
        The year in the room.
    year
        The same month by month, for what moves.
    gluing, finishing, order, pricing, moving, strength
        As their names say.
    findings
        What the design rules say, worst first.
    touching
        Parts that meet with no joint between them, and the joints that fit there.
    built
        What is measured and made already, and what follows it; None where nothing was told.
    """

    version: int
    title: str
    about: str
    units: str
    shop: str
    room: str
    parameters: tuple[ParameterValue, ...]
    parts: tuple[PlannedPart, ...]
    milling: tuple[MillingLedger, ...]
    sawing: tuple[PartSawing, ...]
    setups: tuple[SawSetup, ...]
    notches: tuple[NotchSawing, ...]
    joints: tuple[JointWork, ...]
    hardware: tuple[HardwareLine, ...]
    timber: Timber
    drying: Drying | None
    seasons: Seasons
    year: YearRooms
    gluing: Gluing
    finishing: Finishing
    order: Order
    pricing: Pricing
    moving: Moving
    strength: Strength
    findings: tuple[Finding, ...]
    touching: tuple[Meets, ...] = ()
    built: AsBuilt | None = None
    fractions: int = 32
    both_units: bool = False

    @property
    def style(self) -> LengthStyle:
        """How its lengths are shown."""
        return LengthStyle.of(self.units, fractions=self.fractions, both=self.both_units)

    @property
    def errors(self) -> tuple[Finding, ...]:
        """Serious findings, for which ``scantling check`` refuses the piece."""
        return tuple(finding for finding in self.findings if finding.is_error)
