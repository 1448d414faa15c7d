"""Rough boards as they stand in the rack: size, thickness, price and what is wrong with them.

A board lies with its grain along x. ``x`` runs from its left end, ``y`` from its lower edge, the one that is
straightened first; a tapered board narrows on the far edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from scantling.units import MM_PER_INCH, board_feet, surface_measure_ft2
from scantling.wood.ring import Ring

__all__ = ["QUARTER_MM", "Board", "Defect", "DefectKind", "Face", "FirstCut", "Price", "PriceBasis"]

QUARTER_MM = float(MM_PER_INCH) / 4.0
"""A quarter of an inch, the step of nominal thickness. [mm]"""


class DefectKind(StrEnum):
    """What is wrong with an area of a board."""

    KNOT = "knot"
    SAPWOOD = "sapwood"
    STAIN = "stain"
    CHECK = "check"
    SPLIT = "split"
    WANE = "wane"
    PITH = "pith"
    HOLE = "hole"
    RUN_OUT = "run-out"
    OTHER = "other"

    @property
    def only_looks(self) -> bool:
        """Whether a part nobody sees may contain it (common practice)."""
        return self in (DefectKind.SAPWOOD, DefectKind.STAIN, DefectKind.KNOT)


class Face(StrEnum):
    """Where a defect shows."""

    FACE = "face"
    BACK = "back"
    THROUGH = "through"


class FirstCut(StrEnum):
    """Which saw a board meets first."""

    CROSSCUT = "crosscut"
    RIP = "rip"


class PriceBasis(StrEnum):
    """What a price is for."""

    BOARD = "board"
    BOARD_FOOT = "board foot"
    TALLIED_FOOT = "tallied board foot"
    CUBIC_METER = "m3"


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """An asking price.

    Parameters
    ----------
    amount
        Money, in the currency of the shop.
    basis
        What it buys: the board, a board foot as measured or as the yard tallies it, a cubic meter.
    """

    amount: float
    basis: PriceBasis = PriceBasis.BOARD


@dataclass(frozen=True, slots=True, kw_only=True)
class Defect:
    """A rectangle of a board that a clear blank may not cover.

    Parameters
    ----------
    kind
        What it is.
    x_mm, y_mm
        Corner nearest the board's left end and lower edge. [mm]
    length_mm, width_mm
        Extent along and across the grain. [mm]
    face
        Where it shows.
    """

    kind: DefectKind
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    face: Face = Face.THROUGH


@dataclass(frozen=True, slots=True, kw_only=True)
class Board:
    """One rough board.

    Parameters
    ----------
    name
        What is chalked on it; unique in its rack.
    species
        Name of the wood.
    width_mm, length_mm
        Rough size; ``width_mm`` at the left end. [mm]
    quarters
        Nominal thickness in quarters of an inch (5 for 5/4); None for wood sold by the millimeter. [1/4 in]
    thickness_mm
        Rough thickness; None takes the nominal one. One of the two must be given. [mm]
    far_width_mm
        Width at the right end of a tapered board; None where it is parallel. [mm]
    defects
        Areas that clear blanks must avoid.
    left_trim_mm, right_trim_mm
        Length lost to end checks at each end. [mm]
    moisture_pct
        Measured moisture content. [% of ovendry mass]
    price
        Asking price, or None.
    first_cut
        Which cut comes first; a board that must stay long asks for the rip.
    rings
        How the growth rings stand in the end, where somebody looked; None where not.
    flitch, sequence
        Log or flitch it was sawn from, and its place in it, for matching.
    grade, note, photo
        As the yard or the maker wrote them; ``photo`` names a picture of the board.
    """

    name: str
    species: str
    width_mm: float
    length_mm: float
    quarters: float | None = None
    thickness_mm: float | None = None
    far_width_mm: float | None = None
    defects: tuple[Defect, ...] = ()
    left_trim_mm: float = 0.0
    right_trim_mm: float = 0.0
    moisture_pct: float | None = None
    price: Price | None = None
    first_cut: FirstCut = FirstCut.CROSSCUT
    rings: Ring | None = None
    flitch: str = ""
    sequence: int | None = None
    grade: str = ""
    note: str = ""
    photo: str = ""

    @property
    def rough_thickness_mm(self) -> float:
        """Thickness as sawn. [mm]"""
        if self.thickness_mm is not None:
            return self.thickness_mm
        return (self.quarters or 0.0) * QUARTER_MM

    @property
    def nominal_quarters(self) -> float:
        """Nominal thickness; metric wood counts as the whole quarters it covers (27 mm is 4/4). [1/4 in]"""
        if self.quarters is not None:
            return self.quarters
        return float(math.floor(self.rough_thickness_mm / QUARTER_MM + 0.05))

    @property
    def nominal(self) -> str:
        """Nominal thickness as the trade writes it: ``5/4``, or ``34 mm``."""
        if self.quarters is not None:
            return f"{self.quarters:g}/4"
        return f"{self.rough_thickness_mm:g} mm"

    @property
    def mean_width_mm(self) -> float:
        """Width at the middle, by which a tapered board is tallied. [mm]"""
        return self.width_mm if self.far_width_mm is None else (self.width_mm + self.far_width_mm) / 2.0

    def width_at_mm(self, x_mm: float) -> float:
        """Width at a distance from the left end. [mm]"""
        if self.far_width_mm is None:
            return self.width_mm
        return self.width_mm + (self.far_width_mm - self.width_mm) * x_mm / self.length_mm

    @property
    def board_feet(self) -> float:
        """Board measure at the mean width. [board ft]"""
        return board_feet(
            quarters=self.nominal_quarters, width_mm=self.mean_width_mm, length_mm=self.length_mm
        )

    @property
    def surface_measure_ft2(self) -> int:
        """Surface measure as the yard tallies it: whole feet of length, rounded to the square foot. [ft2]"""
        return surface_measure_ft2(width_mm=self.mean_width_mm, length_mm=self.length_mm)

    @property
    def tally_board_feet(self) -> float:
        """Board feet by the yard's rule: surface measure times nominal inches, at least 1. [board ft]"""
        return self.surface_measure_ft2 * max(self.nominal_quarters, 4.0) / 4.0

    @property
    def volume_m3(self) -> float:
        """Rough volume. [m3]"""
        return self.mean_width_mm * self.length_mm * self.rough_thickness_mm * 1e-9

    @property
    def price_total(self) -> float | None:
        """What the whole board costs, or None where no price is known. [money]"""
        if self.price is None:
            return None
        per = {
            PriceBasis.BOARD: 1.0,
            PriceBasis.BOARD_FOOT: self.board_feet,
            PriceBasis.TALLIED_FOOT: self.tally_board_feet,
            PriceBasis.CUBIC_METER: self.volume_m3,
        }
        return self.price.amount * per[self.price.basis]
