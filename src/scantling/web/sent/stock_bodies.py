"""The stockroom as it is sent."""

from __future__ import annotations

from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from scantling.stock.boards.tally import tally_stacks
from scantling.store.stock_log import Change
from scantling.store.stockroom import StockAct, StockBoard, StockEvent, StockKind, Stockroom
from scantling.units import LengthStyle, Round, show_number, show_sizes
from scantling.web.sent.bodies import AttachedBody, Body, Word
from scantling.web.sent.numbers import Number, When

__all__ = [
    "ActBack",
    "ActBody",
    "BoardBody",
    "BoardsGoing",
    "BoardsNew",
    "CutBody",
    "HistoryBody",
    "KeptNew",
    "StackBody",
    "StockBody",
    "history_body",
    "offcut_body",
    "stock_body",
    "typed_unit",
]

Cell = Annotated[str, Field(max_length=2000)]
Note = Annotated[str, Field(max_length=1000)]
Units = Literal["mm", "in", "both"]


class ReadingBody(Body):
    """Moisture as it was read. [% of ovendry mass]"""

    at: datetime
    moisture_pct: float


class BoardBody(Body):
    """A board of the stockroom: `size` as shown, `price` of all of it, `cameFrom` its board's number."""

    number: int
    name: str
    species: str
    nominal: str
    size: str
    length_mm: float
    width_mm: float
    board_feet: float
    tally_board_feet: float
    moisture_pct: float | None
    price: float | None
    grade: str
    note: str
    came_in: StockKind
    since: datetime
    party: str
    came_from: int | None
    came_from_name: str
    readings: list[ReadingBody]
    went: StockKind | None
    gone_at: datetime | None
    went_to: str

    @classmethod
    def of(cls, kept: StockBoard, room: Stockroom, *, units: Units) -> BoardBody:
        """As it is sent."""
        board = kept.board
        parent = None if kept.came_from is None else room.boards[kept.came_from]
        return cls(
            number=kept.number,
            name=board.name,
            species=board.species,
            nominal=board.nominal,
            size=_size(board.length_mm, board.width_mm, units),
            length_mm=board.length_mm,
            width_mm=board.width_mm,
            board_feet=board.board_feet,
            tally_board_feet=board.tally_board_feet,
            moisture_pct=board.moisture_pct,
            price=board.price_total,
            grade=board.grade,
            note=board.note,
            came_in=kept.came_in,
            since=kept.since,
            party=kept.party,
            came_from=kept.came_from,
            came_from_name="" if parent is None else parent.board.name,
            readings=[ReadingBody(at=at, moisture_pct=pct) for at, pct in kept.readings],
            went=kept.went,
            gone_at=kept.gone_at,
            went_to=kept.went_to,
        )


class StackBody(Body):
    """Boards of one wood and thickness; `amount` is what they measure, as it is shown."""

    species: str
    nominal: str
    boards: int
    amount: str


class StockBody(Body):
    """The boards that are there, in the order they came in; and their stacks, by wood and thickness."""

    boards: list[BoardBody]
    stacks: list[StackBody]


class EventBody(Body):
    """What happened to one board; `figure` is the moisture read in % or the price it was sold for."""

    board: int
    name: str
    kind: StockKind
    figure: float | None
    party: str
    piece: int | None
    came_from: int | None


class ActBody(Body):
    """What was done at one time; `takesBack` is the act it took back, `counts` whether it stands."""

    number: int
    at: datetime
    note: str
    takes_back: int | None
    counts: bool
    events: list[EventBody]


class HistoryBody(Body):
    """Everything that was done, the last first."""

    acts: list[ActBody]


class Dated(Body):
    """When it happened, if not now, and the maker's words."""

    at: When | None = None
    note: Note = ""


class BoardsNew(Dated):
    """Boards that come in: a rack file, or rows of its columns as a maker writes them.

    `unit` is what a bare number in a row means.
    """

    rack: AttachedBody | None = None
    rows: Annotated[list[dict[Word, Cell]], Field(default_factory=list, max_length=500)]
    unit: Units = "mm"
    party: Word = ""


class OffcutNew(Body):
    """An offcut: its size as a maker writes it, and what is chalked on it."""

    board: Number
    length: Word
    width: Word
    name: Word = ""


class BoardsGoing(Dated):
    """Boards that go out, by their numbers, with the offcuts put back of them; or whose moisture was read.

    `party` is the piece they are used for or whom they are sold to; `figure` the price of each, or the
    moisture.
    """

    kind: Literal["used", "sold", "thrown", "read"]
    boards: Annotated[list[Number], Field(min_length=1, max_length=500)]
    party: Word = ""
    piece: Number | None = None
    figure: Annotated[float, Field(allow_inf_nan=False)] | None = None
    keep: Annotated[list[OffcutNew], Field(default_factory=list, max_length=100)]


class KeptNew(Dated):
    """Offcuts of boards that were used earlier."""

    keep: Annotated[list[OffcutNew], Field(min_length=1, max_length=100)]


class ActBack(Body):
    """Which act is taken back: the one seen as the last, whichever is the last where none is told."""

    act: Number | None = None


class Cutting(Body):
    """Whether what a piece is cut from shall be taken out; else it is only told."""

    really: bool = False


class OffcutBody(Body):
    """An offcut that is put back, as the layout chalks it."""

    name: str
    came_from: int
    size: str


class CutBody(Body):
    """What sawing a piece takes out and puts in.

    `missing` counts the blanks that have no wood yet; `before` are boards that went out for it earlier, so
    that what is sawn is not taken out twice.
    """

    done: bool
    out: list[BoardBody]
    kept: list[OffcutBody]
    missing: int
    before: list[BoardBody]


def stock_body(room: Stockroom, *, units: Units) -> StockBody:
    """The boards that are there."""
    stacks = tally_stacks([kept.board for kept in room.present])
    return StockBody(
        boards=[BoardBody.of(kept, room, units=units) for kept in room.present],
        stacks=[
            StackBody(
                species=stack.species,
                nominal=stack.nominal,
                boards=stack.boards,
                amount=f"{show_number(stack.board_feet, digits=1)} bf"
                + (f", {stack.volume_m3:.3f} m³" if units != "in" else ""),
            )
            for stack in stacks
        ],
    )


def typed_unit(units: Units) -> str:
    """Unit of a bare number typed where lengths are shown so: of both, the one that leads."""
    return "in" if units == "in" else "mm"


def offcut_body(change: Change, *, units: Units) -> OffcutBody:
    """An offcut that a layout leaves."""
    assert change.row is not None, "what comes in is told"
    size = _size(change.row.length_mm, change.row.width_mm, units)
    return OffcutBody(name=change.row.name, came_from=change.came_from or 0, size=size)


def history_body(acts: tuple[StockAct, ...]) -> HistoryBody:
    """Everything that was done, the last first."""
    gone = {act.takes_back for act in acts}
    names = {event.board: event.row.name for act in acts for event in act.events if event.row is not None}
    return HistoryBody(
        acts=[
            ActBody(
                number=act.number,
                at=act.at,
                note=act.note,
                takes_back=act.takes_back,
                counts=act.number not in gone and act.takes_back is None,
                events=[_event(event, names) for event in act.events],
            )
            for act in reversed(acts)
        ]
    )


def _event(event: StockEvent, names: dict[int, str]) -> EventBody:
    return EventBody(
        board=event.board,
        name=names.get(event.board, ""),
        kind=event.kind,
        figure=event.figure,
        party=event.party,
        piece=event.piece,
        came_from=event.came_from,
    )


def _size(length_mm: float, width_mm: float, units: Units) -> str:
    style = LengthStyle.of(units, fractions=8, step_mm=1.0)
    return show_sizes((length_mm, width_mm), style, direction=Round.DOWN, unit=True)
