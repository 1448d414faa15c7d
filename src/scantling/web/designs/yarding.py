"""Boards judged as they are lifted, for the page carried to the yard: the pile comes with every question.

The browser keeps the pile, so nothing is lost when the signal, the server or the battery goes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from pydantic import BaseModel, ConfigDict, Field

from scantling.errors import FileFaults, Telling
from scantling.papers.sheets.show import Show
from scantling.papers.words.naming import label_of
from scantling.papers.words.sentence_units import in_style
from scantling.plan.job import Job
from scantling.plan.result import Plan
from scantling.plan.timber.timber import yard_needs
from scantling.stock.boards.board import Board
from scantling.stock.boards.rack_text import rack_csv
from scantling.stock.boards.rackrow import RackRow, board_of_row
from scantling.stock.boards.tally import tally_stacks
from scantling.stock.buying.yard import (
    Asked,
    Needs,
    YardAnswer,
    asked_of,
    covered_pct_of,
    judge_board,
    lay_pile,
    missing_of,
    spare_of,
    thicker_words,
)
from scantling.stock.checking.rings_told import sawn_words
from scantling.stock.layouts.layout import Layout

__all__ = [
    "AskedView",
    "BoardIn",
    "MissingView",
    "YardIn",
    "YardView",
    "answer_yard",
    "rack_file",
]

_Text = Field(default="", max_length=300)


class BoardIn(BaseModel):
    """A board as it was typed; lengths as a maker writes them, a bare number in the unit on show."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    name: str = Field(min_length=1, max_length=40)
    species: str = _Text
    thickness: str = _Text
    length: str = _Text
    width: str = _Text
    price: str = _Text
    price_per: str = Field(default="board", max_length=40)
    rings: str = _Text
    defects: str = Field(default="", max_length=2000)


class YardIn(BaseModel):
    """The pile so far, and the board in hand; without one the pile alone is told."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    pile: list[BoardIn] = Field(default_factory=list, max_length=120)
    lifted: BoardIn | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedView:
    """A wood and thickness to look for.

    Parameters
    ----------
    amount
        What is cut from it, net of every loss at the boards, as it is shown.
    """

    species: str
    thickness: str
    amount: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MissingView:
    """Something without wood: what, and its rough size as it is shown."""

    label: str
    size: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class YardView:
    """What is said to a board, and how the pile stands.

    Parameters
    ----------
    units
        ``in`` or ``mm``: what a bare number means.
    verdict
        ``take``, ``swap``, ``put back``; empty where no board was in hand.
    give_back
        Names of boards of the pile that nothing is cut from any more.
    covered_pct
        Share of the face area asked for that has wood. [%]
    spare
        What is taken from thicker boards than usual, and which of the pile may go back, in words.
    gains
        What gets wood, or more of it, with the board.
    stacks
        The pile, tallied, a line each wood and thickness.
    """

    ok: bool
    units: str
    verdict: str
    reason: str
    gains: tuple[str, ...]
    give_back: tuple[str, ...]
    covered_pct: float
    enough: bool
    spare: str
    missing: tuple[MissingView, ...]
    stacks: tuple[str, ...]
    asked: tuple[AskedView, ...]


def answer_yard(asked: YardIn, plan: Plan, job: Job) -> YardView:
    """Judge the board in hand against the pile.

    Raises
    ------
    FileFaults
        Everything wrong with the boards as typed.
    """
    boards, lifted = _boards(asked, plan.units)
    needs, show = yard_needs(plan.timber, job.shop, piece=job.piece), Show.of(plan)
    before = lay_pile(boards, needs)
    if lifted is None:
        return _view(None, before, boards, needs=needs, show=show)
    answer = judge_board(lifted, boards, needs=needs, before=before)
    kept = [b for b in boards if b.name not in answer.give_back]
    taken = [*kept, lifted] if answer.verdict.value != "put back" else boards
    view = _view(answer, answer.layout, taken, needs=needs, show=show)
    return in_style(view, plan.style)


def rack_file(asked: YardIn, plan: Plan) -> str:
    """The pile as a rack file; raises as :func:`answer_yard`."""
    boards, _ = _boards(asked, plan.units)
    return rack_csv(boards)


def _boards(asked: YardIn, units: str) -> tuple[list[Board], Board | None]:
    telling = Telling()
    pile = [telling.tried(partial(_board, row, units)) for row in asked.pile]
    lifted = None if asked.lifted is None else telling.tried(partial(_board, asked.lifted, units))
    telling.refuse()
    return [board for board in pile if board is not None], lifted


def _board(row: BoardIn, unit: str) -> Board:
    values = {name: value.strip() for name, value in row.model_dump().items() if value.strip()}
    if "price" not in values:
        values.pop("price_per", None)
    typed = RackRow(
        values=values,
        units=dict.fromkeys(("length", "width", "defects"), unit),
        file="",
        number=1,
        places={},
        place=(0, 0),
    )
    board = board_of_row(typed)
    if typed.faults:
        raise FileFaults(typed.faults)
    return board


def _view(
    answer: YardAnswer | None, layout: Layout, pile: Sequence[Board], *, needs: Needs, show: Show
) -> YardView:
    missing: dict[tuple[str, str], int] = {}
    for name, *sizes in missing_of(layout, needs):
        key = (label_of(name), show.by(*sizes, unit=True))
        missing[key] = missing.get(key, 0) + 1
    return YardView(
        ok=True,
        units=show.lead_unit,
        verdict="" if answer is None else answer.verdict.value,
        reason="" if answer is None else answer.reason,
        gains=() if answer is None else tuple(dict.fromkeys(label_of(name) for name in answer.gains)),
        give_back=() if answer is None else answer.give_back,
        covered_pct=covered_pct_of(layout, needs),
        enough=layout.complete,
        spare=" ".join(
            filter(
                None,
                (
                    thicker_words(layout, needs) if layout.complete else "",
                    (answer.spare if answer is not None else spare_of(layout, pile)).words,
                ),
            )
        ),
        missing=tuple(MissingView(label=a, size=b, count=n) for (a, b), n in missing.items()),
        stacks=tuple(_stack(pile, show)),
        asked=tuple(
            AskedView(species=one.species, thickness=one.thickness, amount=_amount(one))
            for one in asked_of(needs)
        ),
    )


def _amount(asked: Asked) -> str:
    """Net board feet, and how much of them is to be sawn one way."""
    sawn = sawn_words(asked.sawn, asked.board_feet)
    return f"{asked.board_feet:.1f} bf net" + (f", {sawn}" if sawn else "")


def _stack(pile: Sequence[Board], show: Show) -> list[str]:
    lines = []
    for stack in tally_stacks(pile):
        many = "1 board" if stack.boards == 1 else f"{stack.boards} boards"
        amount = f"{stack.tally_board_feet:g} bf" if show.style.inch else f"{stack.volume_m3:.3f} m³"
        price = "" if stack.price is None else f", {stack.price:,.2f}"
        lines.append(f"{stack.nominal} {stack.species}: {many}, {amount}{price}")
    return lines
