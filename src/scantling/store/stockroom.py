"""The timber there is: worked out from what happened to each board, so that nothing is ever written over."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from enum import StrEnum
from pathlib import Path

from scantling.errors import InputError
from scantling.stock.boards.board import Board
from scantling.stock.racks.notes_file import notes_path, stockroom_notes_path
from scantling.stock.racks.rack import Rack

__all__ = [
    "STOCKROOM",
    "StockAct",
    "StockBoard",
    "StockEvent",
    "StockKind",
    "Stockroom",
    "notes_place",
    "stockroom_after",
    "takes_stockroom",
]

STOCKROOM = "stockroom"
"""Name under which the timber there is stands for a rack."""


def takes_stockroom(rack: str | Path) -> bool:
    """Whether a rack named so is the timber there is; a file or folder of that name comes first."""
    return str(rack) == STOCKROOM and not Path(rack).exists()


def notes_place(rack: str | Path | None, *, piece: Path) -> Path | None:
    """Where notes from the bench are: beside the rack file, else beside the piece; None without a rack."""
    if rack is None or not str(rack).strip():
        return None
    return stockroom_notes_path(piece) if takes_stockroom(rack) else notes_path(Path(rack))


class StockKind(StrEnum):
    """What happened to a board."""

    BOUGHT = "bought"
    KEPT = "kept"
    USED = "used"
    SOLD = "sold"
    THROWN = "thrown"
    READ = "read"
    CORRECTED = "corrected"

    @property
    def comes_in(self) -> bool:
        """Whether there is a board more after it."""
        return self in (StockKind.BOUGHT, StockKind.KEPT)

    @property
    def goes_out(self) -> bool:
        """Whether there is a board less after it."""
        return self in (StockKind.USED, StockKind.SOLD, StockKind.THROWN)


@dataclass(frozen=True, slots=True, kw_only=True)
class StockEvent:
    """What happened to one board.

    Parameters
    ----------
    board
        Its number.
    row
        The board, where it comes in or is corrected; else None.
    figure
        Moisture read [% of ovendry mass], or what it was sold for [money]; else None.
    party
        Whom it was bought from or sold to; the piece it was used for.
    piece
        Number of that piece, where it is kept here.
    came_from
        Number of the board an offcut came from.
    """

    board: int
    kind: StockKind
    row: Board | None = None
    figure: float | None = None
    party: str = ""
    piece: int | None = None
    came_from: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StockAct:
    """What was done at one time, which is taken back together.

    Parameters
    ----------
    number
        Its number.
    at, kept_at
        When it happened, and when it was told.
    takes_back
        Number of the act it takes back; then it has no events.
    """

    number: int
    at: datetime
    kept_at: datetime
    note: str = ""
    events: tuple[StockEvent, ...] = ()
    takes_back: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StockBoard:
    """A board with what happened to it.

    Parameters
    ----------
    number
        Its number, which no other board ever gets.
    board
        As it is now; its moisture is the last that was read.
    came_in, since
        How and when it came in.
    party
        Whom it was bought from.
    came_from
        Number of the board it was cut from; None for one that was bought.
    readings
        When and what moisture was read. [% of ovendry mass]
    went, gone_at, went_to
        How it left, when, and to whom or for what; None and empty while it is there.
    """

    number: int
    board: Board
    came_in: StockKind
    since: datetime
    party: str = ""
    came_from: int | None = None
    readings: tuple[tuple[datetime, float], ...] = ()
    went: StockKind | None = None
    gone_at: datetime | None = None
    went_to: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stockroom:
    """The timber there is, and all there has been.

    Parameters
    ----------
    boards
        By number: every board there has been.
    acts
        What counts of what was done, oldest first.
    """

    boards: dict[int, StockBoard] = field(default_factory=dict)
    acts: tuple[StockAct, ...] = ()

    @property
    def present(self) -> tuple[StockBoard, ...]:
        """The boards that are there, in the order they came in."""
        return tuple(board for board in self.boards.values() if board.went is None)

    def rack(self) -> Rack:
        """The boards that are there, as a rack to lay a piece out on.

        Raises
        ------
        InputError
            ``stockroom_empty``.
        """
        boards = tuple(kept.board for kept in self.present)
        if not boards:
            raise InputError(
                code="stockroom_empty",
                field="rack",
                value="no board",
                rule="must hold at least one board",
                remedy="Take boards in first.",
            )
        return Rack(name=STOCKROOM, boards=boards)

    def find(self, called: str, *, gone: bool = False) -> StockBoard:
        """A board by what is chalked on it, or by its number with a ``#`` before it.

        Parameters
        ----------
        called
            The name, or ``#17``.
        gone
            Whether one that has left will do too; of several of a name, the last.

        Raises
        ------
        InputError
            ``unknown_board``.
        """
        among = self.boards.values() if gone else self.present
        by_number = called.strip().removeprefix("#") if called.strip().startswith("#") else ""
        found = [
            kept
            for kept in among
            if kept.board.name == called.strip() or (by_number and str(kept.number) == by_number)
        ]
        if not found:
            left = [kept for kept in self.boards.values() if kept.board.name == called.strip()]
            value = called.strip() or "nothing"
            if left and left[-1].went is not None:
                value += f", which was {left[-1].went.value} {_day(left[-1].gone_at)}"
            raise InputError(
                code="unknown_board",
                field="board",
                value=value,
                rule="must be in the stockroom",
                remedy="The list of the stockroom shows what is there.",
            )
        return found[-1]


def _day(at: datetime | None) -> str:
    return "" if at is None else f"on {at:%Y-%m-%d}"


def stockroom_after(acts: Iterable[StockAct]) -> Stockroom:
    """The timber there is after some acts, in the order they were kept."""
    listed = tuple(acts)
    gone = {act.takes_back for act in listed}
    counts = tuple(act for act in listed if act.takes_back is None and act.number not in gone)
    boards: dict[int, StockBoard] = {}
    for act in counts:
        for event in act.events:
            boards[event.board] = _after(boards.get(event.board), event, act.at)
    return Stockroom(boards=boards, acts=counts)


def _after(board: StockBoard | None, event: StockEvent, at: datetime) -> StockBoard:
    """A board after what happened to it."""
    if event.kind.comes_in or board is None:
        assert event.row is not None, "what comes in is told"
        moisture = event.row.moisture_pct if event.kind is StockKind.BOUGHT else None
        return StockBoard(
            number=event.board,
            board=event.row,
            came_in=event.kind,
            since=at,
            party=event.party,
            came_from=event.came_from,
            readings=() if moisture is None else ((at, moisture),),
        )
    if event.kind.goes_out:
        return replace(board, went=event.kind, gone_at=at, went_to=event.party)
    if event.kind is StockKind.CORRECTED and event.row is not None:
        return replace(board, board=replace(event.row, moisture_pct=board.board.moisture_pct))
    if event.figure is None:
        return board
    return replace(
        board,
        board=replace(board.board, moisture_pct=event.figure),
        readings=(*board.readings, (at, event.figure)),
    )
