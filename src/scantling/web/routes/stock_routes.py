"""The stockroom: boards in and out, told as they happen; what is there, as a list, a rack and labels."""

from __future__ import annotations

from datetime import datetime
from functools import partial
from typing import Annotated, Literal

from fastapi import APIRouter, Query, Response

from scantling.errors import FileFaults, InputError, Telling
from scantling.reading import did_you_mean
from scantling.stock.boards.board import Board
from scantling.stock.boards.rack_text import rack_csv
from scantling.stock.boards.rackrow import FIELDS, RackRow, board_of_row
from scantling.stock.racks.rack import parse_rack
from scantling.store.cutting import changes_of_layout, gone_for, offcut_change
from scantling.store.pieces import find_piece
from scantling.store.stock_log import Change, add_act, list_acts, stockroom, take_back_act
from scantling.store.stockroom import StockBoard, StockKind, Stockroom
from scantling.units import parse_length_mm
from scantling.web.kept.desk import Desk
from scantling.web.routes.origins import origin_of
from scantling.web.sent.bodies import NOTHING_BACK, REFUSALS
from scantling.web.sent.numbers import PieceNumber
from scantling.web.sent.stock_bodies import (
    ActBack,
    BoardBody,
    BoardsGoing,
    BoardsNew,
    CutBody,
    Cutting,
    HistoryBody,
    KeptNew,
    OffcutNew,
    StockBody,
    history_body,
    offcut_body,
    stock_body,
    typed_unit,
)

__all__ = ["stock_routes"]

Units = Annotated[Literal["mm", "in", "both"], Query()]


class _Rack(Response):
    media_type = "text/csv"


class _Labels(Response):
    media_type = "application/pdf"


def stock_routes(desk: Desk) -> APIRouter:
    """Routes for the timber there is.

    Parameters
    ----------
    desk
        Where it is kept.
    """
    routes = APIRouter(tags=["stockroom"], responses=REFUSALS)
    _telling(routes, desk)
    _changing(routes, desk)
    _cutting(routes, desk)
    return routes


def _telling(routes: APIRouter, desk: Desk) -> None:
    @routes.get("/stockroom")
    def show_stock(units: Units = "mm") -> StockBody:
        """The boards that are there."""
        return _stock(desk, units)

    @routes.get("/stockroom/history")
    def show_history() -> HistoryBody:
        """Everything that was done, the last first, also what was taken back."""
        with desk.reading() as records:
            return history_body(list_acts(records))

    @routes.get("/stockroom/rack.csv", response_class=_Rack)
    def take_rack() -> Response:
        """What is there as a rack file."""
        headers = {"content-disposition": 'attachment; filename="stockroom.csv"'}
        return _Rack(rack_csv(desk.rack().boards), headers=headers)

    @routes.get("/stockroom/labels.pdf", response_class=_Labels)
    def take_labels(
        board: Annotated[list[int] | None, Query(max_length=500)] = None,
        paper: Literal["a4", "letter"] = "a4",
        units: Units = "mm",
    ) -> Response:
        """Labels at 1:1 for the boards named, for all that are there if none is."""
        from scantling.papers.labels import board_label, labels_pdf
        from scantling.papers.packet import Paper

        with desk.reading() as records:
            room = stockroom(records)
            room.rack()  # an empty one says how to fill it
        wanted = [_known(room, number) for number in board or ()] or list(room.present)
        made = [board_label(kept.board, origin_of(kept, room), units=units) for kept in wanted]
        sheet = labels_pdf(made, paper=Paper.LETTER if paper == "letter" else Paper.A4)
        return _Labels(sheet, headers={"content-disposition": 'inline; filename="labels.pdf"'})


def _changing(routes: APIRouter, desk: Desk) -> None:
    @routes.post("/stockroom/add", status_code=201)
    def take_in(new: BoardsNew, units: Units = "mm") -> StockBody:
        """Boards come in."""
        boards = _boards(new)
        changes = [Change(kind=StockKind.BOUGHT, row=board, party=new.party) for board in boards]
        return _done(desk, changes, at=new.at, note=new.note, units=units)

    @routes.post("/stockroom/go", status_code=201)
    def let_go(going: BoardsGoing, units: Units = "mm") -> StockBody:
        """Boards go out, or their moisture was read."""
        kind = StockKind(going.kind)
        changes = [
            Change(kind=kind, board=number, party=going.party, piece=going.piece, figure=going.figure)
            for number in going.boards
        ]
        return _done(desk, changes, keep=going.keep, at=going.at, note=going.note, units=units)

    @routes.post("/stockroom/keep", status_code=201)
    def put_back(kept: KeptNew, units: Units = "mm") -> StockBody:
        """Offcuts come back in, of boards that have gone."""
        return _done(desk, [], keep=kept.keep, at=kept.at, note=kept.note, units=units)

    @routes.post("/stockroom/take-back", status_code=201, responses=NOTHING_BACK)
    def take_back(back: ActBack, units: Units = "mm") -> StockBody:
        """Take back the last that was done; refused where something else was done since."""
        with desk.writing() as records:
            take_back_act(records, now=desk.now(), number=back.act)
        return _stock(desk, units)


def _cutting(routes: APIRouter, desk: Desk) -> None:
    @routes.post("/pieces/{number}/cut", status_code=201)
    def cut(number: PieceNumber, cutting: Cutting, units: Units = "mm") -> CutBody:
        """What sawing a piece takes out of the stockroom and puts in; done where it is really asked for.

        Its rack must be the stockroom: `{rack: {name: "stockroom"}}` in its content.
        """
        timber = desk.session_of(number).design({}).plan.timber
        layout, bench = timber.layout, timber.bench
        with desk.writing() as records:
            room, name = stockroom(records), find_piece(records, number).name
            changes = changes_of_layout(room, layout, title=name, piece=number, bench=bench)
            if cutting.really:
                add_act(records, changes, now=desk.now())
        before = gone_for(room, name)
        going = [room.boards[change.board] for change in changes if change.board is not None]
        return CutBody(
            done=cutting.really,
            out=[BoardBody.of(kept, room, units=units) for kept in going],
            kept=[offcut_body(change, units=units) for change in changes if change.row is not None],
            missing=0 if layout is None else layout.missing_count,
            before=[BoardBody.of(kept, room, units=units) for kept in before],
        )


def _stock(desk: Desk, units: Literal["mm", "in", "both"]) -> StockBody:
    with desk.reading() as records:
        return stock_body(stockroom(records), units=units)


def _done(
    desk: Desk,
    changes: list[Change],
    *,
    units: Literal["mm", "in", "both"],
    at: datetime | None,
    note: str,
    keep: list[OffcutNew] | None = None,
) -> StockBody:
    """Keep an act, whole or not at all."""
    with desk.writing() as records:
        room = stockroom(records)
        going = {change.board for change in changes if change.kind.goes_out}
        kept = _offcuts(room, keep or [], going, units)
        add_act(records, [*changes, *kept], now=desk.now(), at=at, note=note)
    return _stock(desk, units)


def _offcuts(
    room: Stockroom, keep: list[OffcutNew], going: set[int | None], units: Literal["mm", "in", "both"]
) -> list[Change]:
    """Offcuts as they were measured; every fault of them at once."""
    telling = Telling()
    made = [telling.tried(partial(_offcut, room, offcut, going=going, units=units)) for offcut in keep]
    telling.refuse()
    return [change for change in made if change is not None]


def _offcut(
    room: Stockroom, offcut: OffcutNew, *, going: set[int | None], units: Literal["mm", "in", "both"]
) -> Change:
    board = _known(room, offcut.board)
    if board.went is None and offcut.board not in going:
        raise InputError(
            code="still_whole",
            field="keep.board",
            value=f"#{offcut.board}",
            rule="must be a board that goes out, or that has gone",
            remedy="Let the board go out with its offcut in one act.",
        )
    return offcut_change(
        board,
        length_mm=parse_length_mm(offcut.length, default_unit=typed_unit(units), field="keep.length"),
        width_mm=parse_length_mm(offcut.width, default_unit=typed_unit(units), field="keep.width"),
        name=offcut.name,
    )


def _known(room: Stockroom, number: int) -> StockBoard:
    board = room.boards.get(number)
    if board is None:
        raise InputError(
            code="unknown_board",
            field="board",
            value=f"#{number}",
            rule="must be the number of a board",
            remedy="Look at what is in the stockroom.",
        )
    return board


def _boards(new: BoardsNew) -> list[Board]:
    """The boards as they were sent; everything wrong with them at once."""
    if (new.rack is None) == (not new.rows):
        raise InputError(
            code="one_of_two",
            field="rack",
            value="neither" if new.rack is None else "both",
            rule="must be given, or rows, and not both",
            remedy="Send {rack: {name, text}}, or {rows: [{name, species, thickness, length, width}]}.",
        )
    if new.rack is not None:
        rack = new.rack.attached()
        return list(parse_rack(rack.text or "", file=rack.name).boards)
    telling = Telling()
    read = [
        telling.tried(partial(_row, values, n, typed_unit(new.unit)))
        for n, values in enumerate(new.rows, start=1)
    ]
    telling.refuse()
    return [board for board in read if board is not None]


def _row(values: dict[str, str], number: int, unit: str) -> Board:
    row = RackRow(
        values={name: value for name, value in values.items() if value.strip()},
        units=dict.fromkeys(FIELDS, unit),
        file="",
        number=number,
        places={},
        place=(0, 0),
    )
    for name in values:
        if name not in FIELDS:
            rule, remedy = f"must be one of {', '.join(FIELDS)}", did_you_mean(name, FIELDS)
            row.fault(name, name, code="unknown_field", rule=rule, remedy=remedy)
    board = board_of_row(row)
    if row.faults:
        raise FileFaults(row.faults)
    return board
