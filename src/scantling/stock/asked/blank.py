"""What a piece asks of the boards: blanks of fixed size, and panels glued up from strips of any width."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.matching import Looks
from scantling.stock.boards.board import Board
from scantling.wood.ring import Sawn

__all__ = ["AND", "Blank", "FreeWidthPanel", "accepts_board", "accepts_rings"]


AND = " + "
"""Between the names of blanks that are cut as one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """One rough blank, allowances already in its sizes.

    Parameters
    ----------
    name
        Unique name, the one chalked on the board.
    part
        Part of the piece it becomes.
    species
        Name of the wood.
    length_mm, width_mm
        Rough size along and across the grain. [mm]
    thickness_mm
        Rough thickness needed. [mm]
    quarters
        Nominal thicknesses it may be cut from; empty takes any board thick enough. [1/4 in]
    grain_fixed
        Whether its length must follow the board's grain.
    same_board
        Blanks with the same word here come from one board; empty for no wish.
    looks
        Which knots, sapwood and stain it may hold; other defects never.
    boards
        Names of the boards it may come from; empty for any.
    sawn
        How a board may be sawn that it comes from, where somebody looked at its rings; empty for any way.
    needed_mm
        Thickness it asks of a board before the step up to a nominal one; 0 for ``thickness_mm``. [mm]
    members
        Blanks cut out of it later, where it stands for several in one: along the grain in a blank that is
        asked for so, and as a wish says in one that the search has folded.
    """

    name: str
    part: str
    species: str
    length_mm: float
    width_mm: float
    thickness_mm: float
    quarters: tuple[float, ...] = ()
    grain_fixed: bool = True
    same_board: str = ""
    looks: Looks = Looks.CLEAR
    boards: tuple[str, ...] = ()
    sawn: tuple[Sawn, ...] = ()
    needed_mm: float = 0.0
    members: tuple[Blank, ...] = ()

    @property
    def area_mm2(self) -> float:
        """Face area. [mm2]"""
        return self.length_mm * self.width_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeWidthPanel:
    """A panel whose strips may take any widths that add up.

    Parameters
    ----------
    name
        Unique name; its strips are called ``<name> strip 1`` and so on.
    part
        Part of the piece it becomes.
    species, thickness_mm, quarters, same_board, looks, boards, sawn
        As of :class:`Blank`.
    length_mm
        Rough length of every strip. [mm]
    total_width_mm
        Width the strips must add up to once their edges are jointed. [mm]
    least_strip_mm, greatest_strip_mm
        Limits on the width of a strip after jointing. [mm]
    edge_loss_mm
        Extra width of every rough strip that jointing its two edges takes off. [mm]
    least_count, greatest_count
        Limits on the number of strips.
    """

    name: str
    part: str
    species: str
    length_mm: float
    total_width_mm: float
    thickness_mm: float
    least_strip_mm: float
    greatest_strip_mm: float
    edge_loss_mm: float = 0.0
    least_count: int = 1
    greatest_count: int = 99
    quarters: tuple[float, ...] = ()
    same_board: str = ""
    looks: Looks = Looks.CLEAR
    boards: tuple[str, ...] = ()
    sawn: tuple[Sawn, ...] = ()

    @property
    def area_mm2(self) -> float:
        """Face area of the jointed strips. [mm2]"""
        return self.length_mm * self.total_width_mm


def accepts_board(need: Blank | FreeWidthPanel, board: Board) -> bool:
    """Whether a board has the species, thickness and rings a blank or panel asks for, and may be taken."""
    if not accepts_rings(need, board):
        return False
    if need.boards and board.name not in need.boards:
        return False
    if need.species != board.species or board.rough_thickness_mm < need.thickness_mm - 1e-6:
        return False
    return not need.quarters or board.nominal_quarters in need.quarters


def accepts_rings(need: Blank | FreeWidthPanel, board: Board) -> bool:
    """Whether a board is sawn as a blank or panel asks for; one whose rings nobody told may be."""
    return not need.sawn or board.rings is None or board.rings.sawn in need.sawn
