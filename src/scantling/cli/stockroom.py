"""``scantling stockroom``: boards come in, go out and are told; what each means is in ``store``."""

from __future__ import annotations

import argparse
import json
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from scantling.cli.records import day_told, now, opened
from scantling.errors import InputError

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from scantling.stock.boards.board import Board
    from scantling.store.stock_log import Change
    from scantling.store.stockroom import StockBoard, Stockroom

__all__ = ["stockroom"]


def stockroom(options: argparse.Namespace) -> int:
    """Do what the verb of the stockroom says; returns the exit status."""
    return _ACTS[options.act](options)


def _add(options: argparse.Namespace) -> int:
    from scantling.stock.boards.yardline import board_of_line
    from scantling.stock.racks.rack import read_rack
    from scantling.store.stock_log import Change
    from scantling.store.stockroom import StockKind

    if (options.rack is None) == (options.board is None):
        raise InputError(
            code="one_of_two",
            field="rack",
            value="neither" if options.rack is None else "both",
            rule="must be a rack file, or one board with --board",
            remedy="Write scantling stockroom add RACK.csv.",
        )
    if options.rack is not None:
        boards: Sequence[Board] = read_rack(Path(options.rack)).boards
    else:
        boards = [board_of_line(options.board, wood=options.wood, per=options.price_per)]
    changes = [Change(kind=StockKind.BOUGHT, row=board, party=options.party) for board in boards]
    return _done(options, lambda _room: changes)


def _keep(options: argparse.Namespace) -> int:
    from scantling.store.cutting import offcut_change
    from scantling.units import parse_length_mm

    length = parse_length_mm(options.length, default_unit="mm", field="length")
    width = parse_length_mm(options.width, default_unit="mm", field="width")

    def changes(room: Stockroom) -> list[Change]:
        board = room.find(options.board, gone=True)
        if board.went is None:
            raise InputError(
                code="still_whole",
                field="board",
                value=options.board,
                rule="must have been used; it still stands whole in the stockroom",
                remedy=f"Say scantling stockroom use '{options.board}' --keep '{options.length} x "
                f"{options.width}'.",
            )
        return [offcut_change(board, length_mm=length, width_mm=width, name=options.name or "")]

    return _done(options, changes)


def _use(options: argparse.Namespace) -> int:
    from scantling.store.cutting import offcut_change
    from scantling.store.stock_log import Change
    from scantling.store.stockroom import StockKind

    sizes = [_size(told) for told in options.keep]
    if sizes and len(options.boards) != 1:
        raise InputError(
            code="which_board",
            field="--keep",
            value=f"{len(options.boards)} boards",
            rule="must be of one board",
            remedy="Take the boards out one by one, each with what is kept of it.",
        )

    def changes(room: Stockroom) -> list[Change]:
        boards = _each(room, options.boards)
        out = [Change(kind=StockKind.USED, board=board.number, party=options.party) for board in boards]
        kept = (offcut_change(boards[0], length_mm=length, width_mm=width) for length, width in sizes)
        return [*out, *kept]

    return _done(options, changes)


def _sell(options: argparse.Namespace) -> int:
    from scantling.store.stock_log import Change
    from scantling.store.stockroom import StockKind

    def changes(room: Stockroom) -> list[Change]:
        boards = _each(room, options.boards)
        each = None if options.price is None else options.price / len(boards)
        return [
            Change(kind=StockKind.SOLD, board=board.number, party=options.party, figure=each)
            for board in boards
        ]

    return _done(options, changes)


def _throw(options: argparse.Namespace) -> int:
    from scantling.store.stock_log import Change
    from scantling.store.stockroom import StockKind

    return _done(
        options,
        lambda room: [
            Change(kind=StockKind.THROWN, board=board.number) for board in _each(room, options.boards)
        ],
    )


def _moisture(options: argparse.Namespace) -> int:
    from scantling.store.stock_log import Change
    from scantling.store.stockroom import StockKind
    from scantling.units import Dimension, parse_quantity

    figure = parse_quantity(options.moisture, Dimension.PERCENT, default_unit="%", field="moisture")
    return _done(
        options,
        lambda room: [Change(kind=StockKind.READ, board=room.find(options.board).number, figure=figure)],
    )


def _cut(options: argparse.Namespace) -> int:
    from scantling.cli.job import job_of
    from scantling.cli.stockroom_told import count_line, cutting_lines
    from scantling.plan.planner import make_plan
    from scantling.store.cutting import changes_of_layout
    from scantling.store.stock_log import add_act
    from scantling.store.stock_log import stockroom as there

    plan = make_plan(job_of(options))
    layout = plan.timber.layout
    with opened() as database, database.writing() as records:
        room = there(records)
        changes = changes_of_layout(room, layout, title=plan.title, bench=plan.timber.bench)
        lines = cutting_lines(room, changes, plan)
        if options.yes:
            add_act(records, _with_pieces(records, changes), now=now())
            lines.append(f"Done. {count_line(there(records))}")
        else:
            lines.append("Nothing has been changed. Once it is cut, say so: the same command with --yes.")
    print("\n".join(lines))
    return 0


def _list(options: argparse.Namespace) -> int:
    from scantling.cli.stockroom_told import list_json, print_list
    from scantling.store.stock_log import stockroom as there

    with opened() as database, database.reading() as records:
        room = there(records)
    if options.json:
        print(json.dumps(list_json(room), indent=1))
        return 0
    print_list(room, units=options.units, shop=options.shop)
    return 0


def _history(options: argparse.Namespace) -> int:
    from scantling.cli.stockroom_told import act_lines, history_json, names_in
    from scantling.store.stock_log import list_acts
    from scantling.store.stockroom import stockroom_after

    with opened() as database, database.reading() as records:
        acts = list_acts(records)
    room = stockroom_after(acts)
    one = None if options.board is None else room.find(options.board, gone=True).number
    wanted = [act for act in acts if one is None or any(event.board == one for event in act.events)]
    if options.json:
        print(json.dumps(history_json(wanted), indent=1))
        return 0
    gone = {act.takes_back for act in acts}
    for act in reversed(wanted):
        print("\n".join(act_lines(act, names_in(acts), taken_back=act.number in gone)))
    if not wanted:
        print("Nothing has been done yet.")
    return 0


def _undo(_options: argparse.Namespace) -> int:
    from scantling.cli.stockroom_told import act_lines, count_line, names_in
    from scantling.store.stock_log import list_acts, take_back_act
    from scantling.store.stockroom import stockroom_after

    with opened() as database, database.writing() as records:
        act = take_back_act(records, now=now())
        acts = list_acts(records)
    print("Taken back:")
    print("\n".join([*act_lines(act, names_in(acts)), count_line(stockroom_after(acts))]))
    return 0


def _as_rack(options: argparse.Namespace) -> int:
    from scantling.cli.writing import refuse_output, write_bytes
    from scantling.stock.boards.rack_text import rack_csv
    from scantling.store.stock_log import stockroom as there

    refuse_output(options.output, ending=".csv", force=options.force)
    with opened() as database, database.reading() as records:
        rack = there(records).rack()
    write_bytes(options.output, rack_csv(rack.boards).encode())
    print(f"{options.output}: {len(rack.boards)} board{'s' if len(rack.boards) != 1 else ''}")
    return 0


def _done(options: argparse.Namespace, changes: Callable[[Stockroom], list[Change]]) -> int:
    """Keep an act, whole or not at all, and tell it."""
    from scantling.cli.stockroom_told import act_lines, count_line, names_in
    from scantling.store.stock_log import add_act, list_acts
    from scantling.store.stock_log import stockroom as there
    from scantling.store.stockroom import stockroom_after

    at = day_told(options.on)
    with opened() as database, database.writing() as records:
        wanted = _with_pieces(records, changes(there(records)))
        act = add_act(records, wanted, now=now(), at=at, note=options.note)
        acts = list_acts(records)
    print("\n".join([*act_lines(act, names_in(acts)), count_line(stockroom_after(acts))]))
    return 0


def _with_pieces(records: Connection, changes: list[Change]) -> list[Change]:
    """The changes, those for a piece that is kept with its number."""
    from dataclasses import replace

    from scantling.store.pieces import list_pieces
    from scantling.store.stockroom import StockKind

    numbers = {piece.name: piece.number for piece in list_pieces(records)}
    return [
        replace(change, piece=numbers.get(change.party)) if change.kind is StockKind.USED else change
        for change in changes
    ]


def _each(room: Stockroom, called: Sequence[str]) -> list[StockBoard]:
    """The boards named; every one that is not there is told."""
    from scantling.errors import Telling

    telling = Telling()
    found = [telling.tried(lambda name=name: room.find(name)) for name in called]  # type: ignore[misc]
    telling.refuse()
    return [board for board in found if board is not None]


def _size(told: str) -> tuple[float, float]:
    """Length and width, from ``900 mm x 140 mm``. [mm]"""
    from scantling.units import parse_length_mm

    length, sign, width = told.replace("×", "x").partition("x")
    if not sign:
        raise InputError(
            code="not_a_size",
            field="--keep",
            value=told,
            rule="must be a length and a width",
            remedy="Write '900 mm x 140 mm'.",
        )
    return (
        parse_length_mm(length.strip(), default_unit="mm", field="--keep"),
        parse_length_mm(width.strip(), default_unit="mm", field="--keep"),
    )


def _labels(options: argparse.Namespace) -> int:
    from scantling.cli.stockroom_labels import labels

    return labels(options)


_ACTS: dict[str, Callable[[argparse.Namespace], int]] = {
    "add": _add,
    "keep": _keep,
    "use": _use,
    "sell": _sell,
    "throw": _throw,
    "moisture": _moisture,
    "cut": _cut,
    "list": _list,
    "history": _history,
    "undo": _undo,
    "as-rack": _as_rack,
    "labels": _labels,
}
