"""The log of the stockroom: boards that come in, go out and are measured; each act whole or not at all."""

from __future__ import annotations

import json
import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select

from scantling.errors import Fault, FileFaults, InputError, ModelError
from scantling.stock.boards.board import Board
from scantling.stock.boards.rack_text import rack_row
from scantling.stock.boards.rackrow import RackRow, board_of_row
from scantling.store.pieces import bounded, find_piece
from scantling.store.stockroom import StockAct, StockEvent, StockKind, Stockroom, stockroom_after
from scantling.store.tables import BOARDS, STOCK_ACTS, STOCK_EVENTS

__all__ = ["Change", "add_act", "list_acts", "stockroom", "take_back_act"]

_LONGEST_NOTE, _LONGEST_PARTY = 1000, 200
"""Characters. [1]"""
_LOCK = 5346502


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What happens to one board in an act.

    Parameters
    ----------
    kind
        What happens.
    board
        Number of the board; None for one that comes in.
    row
        The board that comes in, or the board as it is corrected.
    figure
        Moisture read [% of ovendry mass], or what it was sold for [money].
    party
        Whom it comes from or goes to; the piece it is used for.
    piece
        Number of that piece, where it is kept here.
    came_from
        Number of the board an offcut comes from.
    """

    kind: StockKind
    board: int | None = None
    row: Board | None = None
    figure: float | None = None
    party: str = ""
    piece: int | None = None
    came_from: int | None = None


def add_act(
    records: Connection,
    changes: Sequence[Change],
    *,
    now: datetime,
    at: datetime | None = None,
    note: str = "",
) -> StockAct:
    """Keep an act: all of its changes, in their order, or none.

    Parameters
    ----------
    records
        A transaction that writes.
    changes
        What happens; boards go out before others come in under their names.
    now
        The time.
    at
        When it happened; now if left out.
    note
        In the maker's words.

    Returns
    -------
    StockAct
        As it is kept. An offcut whose name another board has gets a number behind it.

    Raises
    ------
    FileFaults
        ``name_taken`` and ``unknown_board``, for each; ``figure_missing``, ``out_of_range``.
    InputError
        ``nothing_to_do``, ``unknown_piece``, ``too_long``, ``not_text``.
    """
    _locked(records)
    before = stockroom(records)
    if not changes:
        raise InputError(
            code="nothing_to_do", field="boards", value="none", rule="must name a board", remedy="Name one."
        )
    wanted = _checked(before, changes)
    for piece in {change.piece for change in wanted if change.piece is not None}:
        find_piece(records, piece)
    happened = now if at is None else at
    number = _act(records, at=happened, now=now, note=bounded(note, "note", _LONGEST_NOTE))
    events = tuple(_add(records, number, change) for change in wanted)
    return StockAct(number=number, at=happened, kept_at=now, note=note, events=events)


def take_back_act(records: Connection, *, now: datetime, number: int | None = None) -> StockAct:
    """Take back the last act that counts; it and its taking back both stay told.

    Parameters
    ----------
    records
        A transaction that writes.
    now
        When.
    number
        Of the act that was seen as the last; whichever is the last where none is told.

    Raises
    ------
    InputError
        ``nothing_to_take_back``, ``not_the_last``.
    """
    _locked(records)
    acts = stockroom(records).acts
    if not acts:
        raise InputError(
            code="nothing_to_take_back",
            field="stockroom",
            value="nothing",
            rule="must have been done",
            remedy="",
        )
    if number not in {None, acts[-1].number}:
        raise InputError(
            code="not_the_last",
            field="act",
            value=f"no. {number}",
            rule="must be the last that was done",
            remedy=f"No. {acts[-1].number} is the last that counts by now: look at it first.",
        )
    _act(records, at=now, now=now, note="", takes_back=acts[-1].number)
    return acts[-1]


def stockroom(records: Connection) -> Stockroom:
    """The timber there is."""
    return stockroom_after(list_acts(records))


def list_acts(records: Connection) -> tuple[StockAct, ...]:
    """All that was done, oldest first, also what was taken back."""
    events: dict[int, list[StockEvent]] = defaultdict(list)
    rows = records.execute(
        select(STOCK_EVENTS, BOARDS.c.came_from)
        .join(BOARDS, BOARDS.c.id == STOCK_EVENTS.c.board_id)
        .order_by(STOCK_EVENTS.c.id)
    )
    for row in rows:
        events[row.act_id].append(_event(row))
    acts = records.execute(select(STOCK_ACTS).order_by(STOCK_ACTS.c.id))
    return tuple(
        StockAct(
            number=act.id,
            at=act.at,
            kept_at=act.kept_at,
            note=act.note,
            events=tuple(events[act.id]),
            takes_back=act.takes_back,
        )
        for act in acts
    )


def _locked(records: Connection) -> None:
    """One change of the stockroom at a time; a file lets only one through anyway."""
    if records.dialect.name == "postgresql":
        records.execute(select(func.pg_advisory_xact_lock(_LOCK)))


def _checked(before: Stockroom, changes: Sequence[Change]) -> list[Change]:
    """The changes as they can be made; every fault of them at once."""
    faults: list[Fault] = []
    names = {kept.board.name: kept.number for kept in before.present}
    there = {kept.number for kept in before.present}
    wanted: list[Change] = []
    for change in changes:
        bounded(change.party, "party", _LONGEST_PARTY)
        if change.kind.comes_in:
            wanted.append(_coming(change, names, faults))
            continue
        if change.board not in there:
            faults.append(_fault("unknown_board", "board", f"#{change.board}", "must be in the stockroom"))
            continue
        faults += _figure_faults(change)
        if change.kind.goes_out:
            there.discard(change.board)
            names = {name: number for name, number in names.items() if number != change.board}
        wanted.append(change)
    if faults:
        raise FileFaults(faults)
    return wanted


def _coming(change: Change, names: dict[str, int], faults: list[Fault]) -> Change:
    assert change.row is not None, "what comes in is told"
    name = change.row.name
    if name in names and change.kind is StockKind.KEPT:
        name = next(free for n in range(2, len(names) + 3) if (free := f"{name} {n}") not in names)
    elif name in names:
        rule = f"must be no other board's in the stockroom; #{names[name]} has it"
        faults.append(_fault("name_taken", "name", name, rule, "Chalk another name on it."))
    names[name] = 0
    row = replace(change.row, name=name)
    line = _line(rack_row(row))
    board_of_row(line)
    faults += _broken(line)  # one that cannot be read again would keep all others from it
    return replace(change, row=row)


def _figure_faults(change: Change) -> list[Fault]:
    figure = change.figure
    if figure is not None and change.kind not in {StockKind.READ, StockKind.SOLD}:
        rule = "belongs to moisture that was read, or to a price"
        return [_fault("figure_unwanted", "figure", f"{figure:g}", rule, "Leave it out.")]
    if change.kind is StockKind.READ and (figure is None or not 0.0 <= figure <= 200.0):
        rule = "must lie in 0..200 % of the dry mass"
        return [_fault("out_of_range", "moisture", f"{figure} %", rule, "Read the meter again.")]
    if change.kind is StockKind.SOLD and figure is not None and not (math.isfinite(figure) and figure >= 0):
        return [_fault("out_of_range", "price", f"{figure}", "must be 0 or more", "Write what was paid.")]
    return []


def _fault(code: str, field: str, value: str, rule: str, remedy: str = "") -> Fault:
    return Fault(code=code, field=field, value=value, rule=rule, remedy=remedy)


def _act(
    records: Connection, *, at: datetime, now: datetime, note: str, takes_back: int | None = None
) -> int:
    made = records.execute(insert(STOCK_ACTS).values(at=at, kept_at=now, note=note, takes_back=takes_back))
    (number,) = made.inserted_primary_key or (0,)
    return int(number)


def _add(records: Connection, act: int, change: Change) -> StockEvent:
    number = change.board
    if number is None:
        made = records.execute(insert(BOARDS).values(came_from=change.came_from))
        (number,) = made.inserted_primary_key or (0,)
    row = None if change.row is None else json.dumps(rack_row(change.row), ensure_ascii=False)
    records.execute(
        insert(STOCK_EVENTS).values(
            act_id=act,
            board_id=number,
            kind=change.kind.value,
            row=row,
            figure=change.figure,
            party=change.party,
            piece_id=change.piece,
        )
    )
    return StockEvent(
        board=number,
        kind=change.kind,
        row=change.row,
        figure=change.figure,
        party=change.party,
        piece=change.piece,
        came_from=change.came_from,
    )


def _event(row: Row[Any]) -> StockEvent:
    return StockEvent(
        board=row.board_id,
        kind=StockKind(row.kind),
        row=None if row.row is None else _board(json.loads(row.row)),
        figure=row.figure,
        party=row.party,
        piece=row.piece_id,
        came_from=row.came_from,
    )


def _board(values: dict[str, str]) -> Board:
    """A board from its line; a wood of the maker's own that is not at hand now keeps its name."""
    row = _line(values)
    board = board_of_row(row)
    broken = [fault for fault in _broken(row) if fault.code != "not_text"]
    if broken:
        raise ModelError(f"a board was kept that cannot be read: {broken[0]}")
    return board


def _line(values: dict[str, str]) -> RackRow:
    return RackRow(values=values, units={}, file="", number=1, places={}, place=(0, 0))


def _broken(row: RackRow) -> list[Fault]:
    """What keeps a line that was read from being a board; a wood that is not known here does not."""
    return [fault for fault in row.faults if not fault.field.endswith(".species")]
