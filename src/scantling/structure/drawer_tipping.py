"""Tipping by open drawers: every drawer out, what lies in them, and a child on the farthest one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from scantling.checks.catalogue import finding
from scantling.errors import Finding, Severity
from scantling.structure.gravity import GRAVITY_M_S2
from scantling.units.show import show_number

__all__ = ["Drawer", "DrawerTip", "check_drawers", "drawer_margin_kg_mm"]

SCOPE_HEIGHT_MM, SCOPE_MASS_KG, SCOPE_STORAGE_DM3 = 686.0, 13.6, 90.6
"""ASTM F2057-23, 1.1: from 27 in. high, 30 lb and 3.2 cubic feet of enclosed storage on."""
_STANDARD = "ASTM F2057-23, clothing storage from 686 mm high, 13.6 kg and 90.6 L of storage on"


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawer:
    """An open drawer with what lies in it.

    Parameters
    ----------
    mass_kg
        Drawer and contents. [kg]
    arm_mm
        How far its center stands in front of the front feet; negative behind them. [mm]
    shut_arm_mm
        The same when it is shut. [mm]
    """

    mass_kg: float
    arm_mm: float
    shut_arm_mm: float = 0.0
    name: str = ""


def drawer_margin_kg_mm(
    mass_kg: float,
    center_behind_mm: float,
    *,
    drawers: Sequence[Drawer],
    child_kg: float,
    child_arm_mm: float,
) -> float:
    """Moment that holds a case back, less what pulls it over its front feet. [kg mm] Negative tips.

    Examples
    --------
    >>> round(drawer_margin_kg_mm(45, 215, drawers=[Drawer(mass_kg=9, arm_mm=150)] * 3,
    ...     child_kg=27.2, child_arm_mm=300))
    -2535
    """
    over = sum(drawer.mass_kg * drawer.arm_mm for drawer in drawers)
    return mass_kg * center_behind_mm - over - child_kg * child_arm_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawerTip:
    """A case with every drawer out and a child's weight on one.

    Parameters
    ----------
    mass_kg, behind_mm
        The case without its drawers and doors, and its center behind the front feet. [kg], [mm]
    drawers
        Out as far as they go, filled.
    doors
        Turned square to the case.
    child_kg, child_arm_mm
        A child's weight, and how far in front of the feet it presses. [kg], [mm]
    back_mm
        From the front feet to the back of the case, where ballast would lie. [mm]
    height_mm, storage_dm3
        Of the piece, and of what its drawers hold. [mm], [dm3]
    whole_kg
        The piece, empty. [kg]

    Examples
    --------
    A chest of 52 kg, three drawers of 9 kg each 150 mm in front, 27.2 kg at 300 mm: 11 700 - 4 050 - 8 160.

    >>> chest = DrawerTip(mass_kg=52, behind_mm=225, drawers=(Drawer(mass_kg=9, arm_mm=150),) * 3,
    ...     child_kg=27.2, child_arm_mm=300, back_mm=400)
    >>> round(chest.margin_kg_mm), round(chest.forward_mm, 1), round(chest.ballast_kg, 1)
    (-510, 4.8, 1.3)
    >>> round(chest.interlocked_kg_mm)
    2190
    """

    mass_kg: float
    behind_mm: float
    drawers: tuple[Drawer, ...]
    child_kg: float
    child_arm_mm: float
    back_mm: float
    doors: tuple[Drawer, ...] = ()
    height_mm: float = 0.0
    storage_dm3: float = 0.0
    whole_kg: float = 0.0

    @property
    def margin_kg_mm(self) -> float:
        """What holds it back less what pulls it over. [kg mm]"""
        return drawer_margin_kg_mm(
            self.mass_kg,
            self.behind_mm,
            drawers=(*self.drawers, *self.doors),
            child_kg=self.child_kg,
            child_arm_mm=self.child_arm_mm,
        )

    @property
    def forward_mm(self) -> float:
        """How much farther in front the feet must stand for it to stay: every arm gets shorter by it. [mm]"""
        loads = self.mass_kg + self.child_kg + sum(one.mass_kg for one in (*self.drawers, *self.doors))
        return max(0.0, -self.margin_kg_mm / loads)

    @property
    def farther_in_mm(self) -> float:
        """How much sooner the drawers must stop for it to stay. [mm]"""
        loads = self.child_kg + sum(drawer.mass_kg for drawer in self.drawers)
        return max(0.0, -self.margin_kg_mm / loads)

    @property
    def ballast_kg(self) -> float:
        """Weight along the back of the case that holds it. [kg]"""
        return max(0.0, -self.margin_kg_mm / self.back_mm)

    @property
    def interlocked_kg_mm(self) -> float:
        """The least margin with one drawer out, the others shut. [kg mm]"""
        shut = sum(drawer.mass_kg * drawer.shut_arm_mm for drawer in self.drawers)
        return min(
            self.mass_kg * self.behind_mm
            - (shut - one.mass_kg * one.shut_arm_mm)
            - one.mass_kg * one.arm_mm
            - self.child_kg * self.child_arm_mm
            - sum(door.mass_kg * door.arm_mm for door in self.doors)
            for one in self.drawers
        )

    @property
    def in_scope(self) -> bool:
        """Whether it is as high, heavy and roomy as what the standard covers (other uses are not)."""
        return (
            self.height_mm >= SCOPE_HEIGHT_MM
            and self.whole_kg >= SCOPE_MASS_KG
            and self.storage_dm3 >= SCOPE_STORAGE_DM3
        )

    @property
    def low_and_small(self) -> bool:
        """Whether it is both lower and less roomy than what the standard covers, as a bedside table is."""
        return 0.0 < self.height_mm < SCOPE_HEIGHT_MM and self.storage_dm3 < SCOPE_STORAGE_DM3


def check_drawers(where: str, case: DrawerTip) -> list[Finding]:
    """F41 where open drawers tip a case, a note to anchor it where they do not.

    It stops the job but for what is both low and small, which is serious. Compliance is the standard's own
    test, not this sum.
    """
    margin = case.margin_kg_mm
    out = "its drawer" if len(case.drawers) == 1 else "every drawer"
    pulled = "on it" if len(case.drawers) == 1 else "on a drawer"
    sum_ = (
        f"{out} out and filled{', its doors open' if case.doors else ''} and "
        f"{case.child_kg:.1f} kg {pulled}, "
        f"{_turning(case.mass_kg * case.behind_mm)} hold it back and "
        f"{_turning(case.mass_kg * case.behind_mm - margin)} pull it over its front feet"
    )
    numbers = {
        "farther_in_mm": case.farther_in_mm,
        "margin_kg_mm": margin,
        "forward_mm": case.forward_mm,
        "ballast_kg": case.ballast_kg,
        "interlocked_kg_mm": case.interlocked_kg_mm,
        "storage_dm3": case.storage_dm3,
    }
    anchor = "Anchor it to the wall in any case, and put the anchor on the bill."
    verify = f"Verify against the standard that applies ({_STANDARD}; this one is {_size(case)})."
    if margin >= 0.0:
        return [
            finding(
                "F41",
                where=where,
                message=f"{sum_}: {_turning(margin)} to spare",
                advice=f"{anchor} {verify}",
                severity=Severity.NOTE,
                numbers=numbers,
            )
        ]
    return [
        finding(
            "F41",
            where=where,
            message=f"{sum_}: {_turning(-margin)} too much",
            advice=f"{anchor} {_ways(case)} {verify}",
            severity=Severity.HIGH if case.low_and_small else None,
            numbers=numbers,
        )
    ]


def _ways(case: DrawerTip) -> str:
    """What would hold it without an anchor, each by itself."""
    feet = f"its front feet, or a plinth, {case.forward_mm:.0f} mm farther forward"
    ballast = f"{case.ballast_kg:.1f} kg of ballast along its back"
    if len(case.drawers) == 1:
        rest = f"a drawer that stops {case.farther_in_mm:.0f} mm sooner, or {ballast}."
    else:
        rest = (
            f"drawers that stop {case.farther_in_mm:.0f} mm sooner, or {ballast}, "
            f"or an interlock that lets out one drawer at a time ({_interlock(case)})."
        )
    return f"To stand by itself it also wants {feet}, or {rest}"


def _interlock(case: DrawerTip) -> str:
    left = case.interlocked_kg_mm
    return f"{_turning(left)} to spare" if left >= 0.0 else f"by itself not enough: {_turning(-left)} short"


def _turning(kg_mm: float) -> str:
    """A moment as statics has it: 1 000 kg mm are 9.8 N m."""
    return f"{kg_mm * GRAVITY_M_S2 * 1e-3:.1f} N m"


def _size(case: DrawerTip) -> str:
    high = show_number(case.height_mm)
    return f"{high} mm, {case.whole_kg:.0f} kg and {case.storage_dm3:.0f} L in its drawers"
