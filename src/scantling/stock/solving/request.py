"""What is asked of a search for a layout, when it stops, and what it answers."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.board import Board
from scantling.stock.layouts.aim import Aim
from scantling.stock.layouts.layout import Layout
from scantling.stock.solving.doing import Doing
from scantling.stock.solving.engine import Method

__all__ = ["LayoutAnswer", "LayoutRequest", "StopRule"]


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutRequest:
    """What to cut from what.

    Parameters
    ----------
    boards
        The rack.
    blanks, panels
        What the piece asks for.
    cutting
        Kerfs, edges and what is worth keeping.
    wishes
        Blanks that belong together.
    aim
        What counts, and how much.
    """

    boards: tuple[Board, ...]
    blanks: tuple[Blank, ...]
    panels: tuple[FreeWidthPanel, ...] = ()
    cutting: Cutting = field(default_factory=Cutting)
    wishes: tuple[Wish, ...] = ()
    aim: Aim = field(default_factory=Aim)


@dataclass(frozen=True, slots=True, kw_only=True)
class StopRule:
    """When to stop; the first limit reached counts.

    Parameters
    ----------
    rounds
        Rounds of the search. The same rounds and seed give the same bytes.
    seconds
        Time by ``clock``. [s]
    gap_pct
        Stop once the gap is no larger. [%]
    method
        How hard to search: ``quick`` keeps to hand rules and needs no linear program.
    clock
        Clock the seconds are read from, in seconds: of the wall, or of the processor.
    """

    rounds: int | None = 12
    seconds: float | None = None
    gap_pct: float = 0.0
    method: Method = Method.THOROUGH
    clock: Callable[[], float] = time.monotonic


@dataclass(frozen=True, slots=True, kw_only=True)
class LayoutAnswer:
    """The best layout so far.

    Parameters
    ----------
    layout
        The layout, with its bound.
    round
        Round in which it was found.
    proven
        Whether nothing better exists.
    cost, bound
        What the search weighs, and what no layout of all blanks undercuts. [money]
    news
        Whether layout or bound are not those of the answer before; else it is only told that the search goes
        on.
    doing
        What the search is at.
    """

    layout: Layout
    round: int
    proven: bool
    cost: float = 0.0
    bound: float = 0.0
    news: bool = True
    doing: Doing = Doing.BOTH
