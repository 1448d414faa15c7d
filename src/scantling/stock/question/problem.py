"""The layout question in whole thousandths of a millimeter, as the search sees it.

Blanks of one size and one set of demands are one *kind*; blanks round up and boards down, so that what the
search finds can be cut.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.piece.matching import Looks
from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_board
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import Board, FirstCut
from scantling.stock.boards.looks import SIDES, harmless
from scantling.stock.layouts.aim import Aim

__all__ = ["UNITS_PER_MM", "Kind", "PanelNeed", "Problem", "Stock", "build_problem"]

UNITS_PER_MM = 1000
_MOST_CUTS = 1000
"""More cuts than a blank left out could spare."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """Blanks alike in size, wood and wishes; sizes in units."""

    blanks: tuple[Blank, ...]
    length: int
    width: int
    turnable: bool
    sides: tuple[int, ...]
    """How it may lie, as numbers of the :data:`~scantling.stock.boards.looks.SIDES`."""
    boards: frozenset[int]
    same_board: str
    penalty: float

    @property
    def area(self) -> int:
        """Face area of one blank. [units2]"""
        return self.length * self.width


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelNeed:
    """A free-width panel; sizes in units, strip widths with their edge loss.

    A least count of strips is kept by holding every strip to that share of the width.
    """

    panel: FreeWidthPanel
    length: int
    total: int
    least: int
    greatest: int
    loss: int
    most: int
    """Greatest number of strips."""
    sides: tuple[int, ...]
    boards: frozenset[int]
    penalty: float
    """Penalty for the whole width missing. [money]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """The part of a board that may be used; sizes in units.

    ``top`` and ``slope`` give the far edge: a blank from x to x + l must stay below it at both ends.
    ``defects`` are (x0, y0, x1, y1, sides they do no harm to, as bits).
    """

    board: Board
    x0: int
    x1: int
    y0: int
    top_left: int
    top_right: int
    defects: tuple[tuple[int, int, int, int, int], ...]
    cost: float
    rip_first: bool

    def top(self, x: int, end: int) -> int:
        """Usable far edge over a stretch of the length. [units]"""
        if self.top_left == self.top_right:
            return self.top_left
        return min(self._top_at(x), self._top_at(end))

    def _top_at(self, x: int) -> int:
        length = round(self.board.length_mm * UNITS_PER_MM)
        return self.top_left + (self.top_right - self.top_left) * x // length

    @property
    def area(self) -> int:
        """Usable face area, defects included. [units2]"""
        return (self.x1 - self.x0) * max(0, (self.top_left + self.top_right) // 2 - self.y0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Everything the search needs."""

    stocks: tuple[Stock, ...]
    kinds: tuple[Kind, ...]
    panels: tuple[PanelNeed, ...]
    cross: int
    rip: int
    groups: tuple[str, ...]
    keep: tuple[int, int] = (0, 0)
    """Least length and width of an offcut worth keeping."""
    cut_cost: float = 0.0
    """What a cut counts. [money]"""
    offcut_worth: float = 0.0
    """What the largest offcut is worth. [money/units2]"""

    @property
    def largest_face(self) -> int:
        """Usable face of the largest board: no offcut is larger. [units2]"""
        return max((s.area for s in self.stocks), default=0)


def _up(mm: float) -> int:
    return math.ceil(mm * UNITS_PER_MM - 1e-6)


def _down(mm: float) -> int:
    return math.floor(mm * UNITS_PER_MM + 1e-6)


def _stock(board: Board, cutting: Cutting, cost: float) -> Stock:
    far_width = board.width_mm if board.far_width_mm is None else board.far_width_mm
    defects = tuple(
        (
            _down(d.x_mm),
            _down(d.y_mm),
            _up(d.x_mm + d.length_mm),
            _up(d.y_mm + d.width_mm),
            harmless(d),
        )
        for d in board.defects
    )
    return Stock(
        board=board,
        x0=_up(board.left_trim_mm),
        x1=_down(board.length_mm - board.right_trim_mm),
        y0=_up(cutting.straight_edge_mm),
        top_left=_down(board.width_mm - cutting.far_edge_mm),
        top_right=_down(far_width - cutting.far_edge_mm),
        defects=defects,
        cost=cost,
        rip_first=board.first_cut is FirstCut.RIP,
    )


def _sides(looks: Looks) -> tuple[int, ...]:
    return tuple(n for n, (kind, _) in enumerate(SIDES) if kind is looks)


def _compatible(need: Blank | FreeWidthPanel, boards: tuple[Board, ...]) -> frozenset[int]:
    return frozenset(i for i, board in enumerate(boards) if accepts_board(need, board))


def _kinds(blanks: tuple[Blank, ...], boards: tuple[Board, ...], per_area: float) -> tuple[Kind, ...]:
    alike: dict[tuple[object, ...], list[Blank]] = {}
    for blank in blanks:
        key = (
            _up(blank.length_mm),
            _up(blank.width_mm),
            not blank.grain_fixed,
            blank.looks,
            _compatible(blank, boards),
            blank.same_board,
        )
        alike.setdefault(key, []).append(blank)
    return tuple(
        Kind(
            blanks=tuple(members),
            length=key[0],  # type: ignore[arg-type]
            width=key[1],  # type: ignore[arg-type]
            turnable=bool(key[2]),
            sides=_sides(members[0].looks),
            boards=key[4],  # type: ignore[arg-type]
            same_board=str(key[5]),
            penalty=per_area * members[0].area_mm2,
        )
        for key, members in alike.items()
    )


def _panel(panel: FreeWidthPanel, boards: tuple[Board, ...], per_area: float) -> PanelNeed:
    loss = _up(panel.edge_loss_mm)
    return PanelNeed(
        panel=panel,
        length=_up(panel.length_mm),
        total=_up(panel.total_width_mm),
        least=_up(panel.least_strip_mm) + loss,
        greatest=_down(min(panel.greatest_strip_mm, panel.total_width_mm / panel.least_count)) + loss,
        loss=loss,
        most=panel.greatest_count,
        sides=_sides(panel.looks),
        boards=_compatible(panel, boards),
        penalty=per_area * panel.area_mm2,
    )


def board_costs(boards: tuple[Board, ...]) -> tuple[float, ...]:
    """What each board counts in the search: its price, or its board feet at the mean price of the others."""
    priced = [(price, b.board_feet) for b in boards if (price := b.price_total) is not None]
    feet = sum(f for _, f in priced)
    rate = sum(p for p, _ in priced) / feet if feet > 0 else 1.0
    prices = (b.price_total for b in boards)
    return tuple(b.board_feet * rate if p is None else p for b, p in zip(boards, prices, strict=True))


def _face_m2(board: Board) -> float:
    return board.mean_width_mm * board.length_mm * 1e-6


def weighed_costs(boards: tuple[Board, ...], aim: Aim) -> tuple[float, ...]:
    """What cutting each board counts: its price, and its face where waste counts. [money]"""
    costs = board_costs(boards)
    return tuple(aim.price * c + aim.waste * _face_m2(b) for c, b in zip(costs, boards, strict=True))


def build_problem(
    boards: tuple[Board, ...],
    blanks: tuple[Blank, ...],
    panels: tuple[FreeWidthPanel, ...],
    *,
    cutting: Cutting,
    aim: Aim | None = None,
) -> Problem:
    """Turn boards and needs into whole numbers.

    The penalty of a blank left out is in proportion to its face area and so high that no saving on boards can
    pay for leaving out even the smallest.
    """
    aim = aim or Aim()
    costs = weighed_costs(boards, aim)
    areas = [b.area_mm2 for b in blanks] + [p.least_strip_mm * p.length_mm for p in panels]
    saved = sum(costs) + aim.offcut * sum(_face_m2(b) for b in boards) + aim.cut * _MOST_CUTS + 1.0
    per_area = saved / min(areas, default=1.0)
    return Problem(
        stocks=tuple(_stock(b, cutting, c) for b, c in zip(boards, costs, strict=True)),
        kinds=_kinds(blanks, boards, per_area),
        panels=tuple(_panel(p, boards, per_area) for p in panels),
        cross=_up(cutting.crosscut_kerf_mm),
        rip=_up(cutting.rip_kerf_mm),
        keep=(_up(cutting.keep_length_mm), _up(cutting.keep_width_mm)),
        cut_cost=aim.cut,
        offcut_worth=aim.offcut * 1e-6 / UNITS_PER_MM**2,
        groups=tuple(sorted(({b.same_board for b in blanks} | {p.same_board for p in panels}) - {""})),
    )
