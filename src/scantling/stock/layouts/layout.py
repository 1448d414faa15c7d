"""Layouts: which blank comes from where on which board, by which cuts, and how good that is."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from scantling.stock.asked.blank import Blank
from scantling.stock.asked.wish import WishAnswer
from scantling.stock.boards.board import Board, Face

__all__ = ["BoardLayout", "Cut", "CutKind", "Layout", "Offcut", "Placed", "StripWidths"]


class CutKind(StrEnum):
    """What is done to a piece of board at the rough stage."""

    CROSSCUT = "crosscut"
    STRAIGHTEN = "straighten edge"
    RIP = "rip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A blank in its place.

    Parameters
    ----------
    blank
        What is cut; a panel's strip is a blank with the width it was given.
    board
        Name of the board.
    x_mm, y_mm
        Corner nearest the board's left end and lower edge. [mm]
    length_mm, width_mm
        Extent along and across the board's grain. [mm]
    stage
        How many times the saw changed direction to free it.
    shows
        The face of the board that is to show, for a blank with a hidden side; None where either will do.
    """

    blank: Blank
    board: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    stage: int
    shows: Face | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One cut at the rough stage.

    Parameters
    ----------
    order
        Number in the order of work on this board, from 1.
    kind
        The saw, or the straightening of an edge.
    piece
        Name of the piece cut.
    at_mm
        Where the near side of the kerf lies: from the piece's left end for a crosscut, from its lower edge
        for a rip. [mm]
    yields
        Names of the two pieces left, near one first; empty for a piece that is thrown away.
    x_mm, y_mm, length_mm, width_mm
        The kerf, as a rectangle on the board. [mm]
    stage
        1 for the first direction, 2 for the next...
    """

    order: int
    kind: CutKind
    piece: str
    at_mm: float
    yields: tuple[str, str]
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    stage: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """What is left over of a board.

    Parameters
    ----------
    name
        Name chalked on it.
    x_mm, y_mm, length_mm, width_mm
        Rectangle on the board. [mm]
    usable
        Whether it is large enough to keep.
    """

    name: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    usable: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardLayout:
    """One board, and all that comes out of it.

    Parameters
    ----------
    board
        The board.
    placed
        Blanks in reading order.
    cuts
        In the order of work.
    offcuts
        Pieces left over, usable or not.
    """

    board: Board
    placed: tuple[Placed, ...]
    cuts: tuple[Cut, ...]
    offcuts: tuple[Offcut, ...]

    @property
    def used_pct(self) -> float:
        """Share of the board's face that becomes blanks. [%]"""
        face = self.board.mean_width_mm * self.board.length_mm
        return 100.0 * sum(p.length_mm * p.width_mm for p in self.placed) / face


@dataclass(frozen=True, slots=True, kw_only=True)
class StripWidths:
    """The strips a panel got.

    Parameters
    ----------
    panel
        Name of the panel.
    widths_mm
        Jointed width of each strip, in the order of their names. [mm]
    missing_mm
        Width the panel still lacks; 0 where it is whole. [mm]
    """

    panel: str
    widths_mm: tuple[float, ...]
    missing_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A whole rack laid out.

    Parameters
    ----------
    boards
        Boards that are cut, in the order of the rack.
    unplaced
        Blanks no board had room for.
    strips
        What each free-width panel got.
    unused
        Boards left alone.
    price
        Price of the boards cut; None where one of them has none. [money]
    waste_pct
        Share of the cut boards' volume that does not become blanks. [%]
    bound_price
        No layout of all blanks from this rack costs less; None where prices are missing. [money]
    gap_pct
        How far the price may lie above the best possible one; None where that has no meaning. [%]
    short_proven
        Whether it is proven that this rack cannot yield all the blanks.
    seed
        Seed of the search.
    wishes
        Each wish with whether it is granted.
    """

    boards: tuple[BoardLayout, ...]
    unplaced: tuple[Blank, ...]
    strips: tuple[StripWidths, ...]
    unused: tuple[Board, ...]
    price: float | None
    waste_pct: float
    bound_price: float | None
    gap_pct: float | None
    short_proven: bool
    seed: int
    wishes: tuple[WishAnswer, ...] = ()

    @property
    def missing_count(self) -> int:
        """Blanks, and panels of free strips, that have no wood or not enough of it. [1]"""
        return len(self.unplaced) + sum(strips.missing_mm > 1e-6 for strips in self.strips)

    @property
    def musts_broken(self) -> int:
        """Wishes that must be granted whose members lie otherwise. [1]"""
        return sum(answer.wish.worth is None and answer.broken for answer in self.wishes)

    @property
    def complete(self) -> bool:
        """Whether every blank and every panel has its wood."""
        return not self.unplaced and all(s.missing_mm <= 1e-6 for s in self.strips)
