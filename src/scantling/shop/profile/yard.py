"""What the yard sells: nominal thicknesses, rough and surfaced, and what a shop buys of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import Self

from pydantic import Field, model_validator

from scantling.reading import custom_error
from scantling.shop.profile.section import PositiveMm, ProfileSection
from scantling.shop.profile.tables import table

__all__ = [
    "BoardScatter",
    "BoughtAs",
    "Nominal",
    "SoldSheet",
    "StockSystem",
    "Yard",
    "nominals",
    "nominals_in",
]


class StockSystem(StrEnum):
    """Which row of sizes the yard sells."""

    INCH = "inch"
    METRIC = "metric"


class BoughtAs(StrEnum):
    """How boards come from the yard."""

    ROUGH = "rough"
    SURFACED = "surfaced"


@dataclass(frozen=True, slots=True, kw_only=True)
class Nominal:
    """One thickness of the yard.

    Parameters
    ----------
    name
        What it is called: ``8/4``, ``54 mm``.
    quarters
        Quarters of an inch; None for metric sizes. [1/4 in]
    usual
        Whether yards list it; the others come now and then, or are cut to order.
    rough_mm, surfaced_mm
        As sawn; planed on two sides by the yard. [mm]
    source
        Where the sizes come from.
    """

    name: str
    system: StockSystem
    quarters: int | None
    usual: bool
    rough_mm: float
    surfaced_mm: float
    source: str

    def bought_mm(self, bought_as: BoughtAs) -> float:
        """Thickness as it comes from the yard. [mm]"""
        return self.rough_mm if bought_as is BoughtAs.ROUGH else self.surfaced_mm


class BoardScatter(ProfileSection):
    """How the boards of this yard scatter: what the curves of how much to ask for are drawn with."""

    name: str = "FAS"
    """What the yard calls the grade."""
    narrowest_mm: PositiveMm = 152.4
    """6 in: the least an FAS board may be by the grading rules."""
    usual_mm: PositiveMm = 190.5
    """7 1/2 in, the width most are near; from memory."""
    widest_mm: PositiveMm = 279.4
    """11 in; from memory."""
    shortest_mm: PositiveMm = 2438.4
    """8 ft: the least an FAS board may be by the grading rules."""
    longest_mm: PositiveMm = 3657.6
    """12 ft; from memory. Every whole foot between is taken to be as likely."""
    fewest_marks: int = Field(default=0, ge=0, le=20)
    """Knots, checks and wane on a board, at least; from memory."""
    most_marks: int = Field(default=2, ge=0, le=20)
    """And at most; from memory."""

    @model_validator(mode="after")
    def _rising(self) -> Self:
        """Refuses a least above its greatest."""
        rows = (
            ("narrowest, usual and widest", (self.narrowest_mm, self.usual_mm, self.widest_mm)),
            ("shortest and longest", (self.shortest_mm, self.longest_mm)),
            ("fewest_marks and most_marks", (self.fewest_marks, self.most_marks)),
        )
        for names, values in rows:
            if list(values) != sorted(values):
                raise custom_error(
                    code="scatter_order",
                    rule=f"must have {names} in rising order, got {', '.join(f'{v:g}' for v in values)}",
                    remedy="Correct the order; what is left out is that of FAS boards.",
                )
        return self


class SoldSheet(ProfileSection):
    """A size in which this yard sells a sheet material, in place of the usual sizes of that material."""

    material: str
    """As piece files name it, such as birch plywood."""
    length_mm: PositiveMm
    """Along the grain of the face, whichever side is longer."""
    width_mm: PositiveMm


class Yard(ProfileSection):
    """What this shop buys."""

    system: StockSystem = StockSystem.INCH
    """Where the shop is decides."""
    bought_as: BoughtAs = BoughtAs.ROUGH
    """Common practice in a one-person shop with a planer."""
    names: tuple[str, ...] = ()
    """Thicknesses bought (``[4/4, 5/4, 8/4]``); empty for those yards usually list."""
    widest_board_mm: PositiveMm = 300.0
    """Common practice: wider boards are rare and dear."""
    usual_board_mm: PositiveMm = 190.0
    """Common practice: 6 to 9 in boards after wane and jointing. Nothing is computed from it yet."""
    strip_least_mm: PositiveMm = 50.0
    """Common practice: narrower strips cost glue lines and look busy."""
    strip_most_mm: PositiveMm = 140.0
    """Common practice: wider flat-sawn strips cup."""
    boards: BoardScatter = BoardScatter()
    sheets: tuple[SoldSheet, ...] = ()
    """Sizes of sheets it sells; of a material without any, those usually sold."""


@cache
def nominals() -> tuple[Nominal, ...]:
    """Every thickness shipped, thinnest first within its system."""
    return tuple(
        Nominal(
            name=row["name"],
            system=StockSystem(row["system"]),
            quarters=int(row["quarters"]) if row["quarters"] else None,
            usual=row["usual"] == "yes",
            rough_mm=float(row["rough_mm"]),
            surfaced_mm=float(row["surfaced_mm"]),
            source=f"{row['source']} ({row['provenance']})",
        )
        for row in table("nominal_stock")
    )


def nominals_in(quarters: Iterable[float]) -> tuple[Nominal, ...]:
    """The nominal thicknesses of boards at hand, thinnest first.

    Parameters
    ----------
    quarters
        Nominal thickness of each board; those no table knows are left out. [1/4 in]

    Examples
    --------
    >>> [nominal.name for nominal in nominals_in([8, 5, 5, 4.5])]
    ['5/4', '8/4']
    """
    wanted = set(quarters)
    return tuple(nominal for nominal in nominals() if nominal.quarters in wanted)
