"""The stockroom in words: lists, history, and what an act does."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from scantling.units import show_number

if TYPE_CHECKING:
    from scantling.papers.sheets.show import Show
    from scantling.plan.result import Plan
    from scantling.stock.boards.board import Board
    from scantling.store.stock_log import Change
    from scantling.store.stockroom import StockAct, StockBoard, Stockroom

__all__ = [
    "act_lines",
    "count_line",
    "cutting_lines",
    "history_json",
    "list_json",
    "names_in",
    "print_list",
]


def names_in(acts: Sequence[StockAct]) -> dict[int, str]:
    """What was chalked on each board there has been, by its number."""
    return {event.board: event.row.name for act in acts for event in act.events if event.row is not None}


def act_lines(act: StockAct, names: Mapping[int, str], *, taken_back: bool = False) -> list[str]:
    """An act, one line a board.

    Parameters
    ----------
    act
        What was done.
    names
        What is chalked on each board, by its number.
    taken_back
        Whether it was taken back since.
    """
    head = f"{act.at:%Y-%m-%d}"
    if act.takes_back is not None:
        return [f"{head}  taken back: act {act.takes_back}"]
    lines = [f"{head}  act {act.number}{', taken back since' if taken_back else ''}"]
    if act.note:
        lines[0] += f": {act.note}"
    for event in act.events:
        told = "" if event.row is None else f"  {_size_mm(event.row)}"
        for_whom = {"bought": "from", "used": "for", "sold": "to"}.get(event.kind.value, "")
        if event.party and for_whom:
            told += f"  {for_whom} {event.party}"
        if event.came_from is not None:
            told += f"  from {names.get(event.came_from, '')} (#{event.came_from})"
        if event.figure is not None:
            unit = " %" if event.kind.value == "read" else ""
            told += f"  {show_number(event.figure, digits=2)}{unit}"
        lines.append(f"    {event.kind.value:9} #{event.board} {names.get(event.board, '')}{told}".rstrip())
    return lines


def count_line(room: Stockroom) -> str:
    """How many boards there are now."""
    count = len(room.present)
    return f"There {'are' if count != 1 else 'is'} now {count} board{'s' if count != 1 else ''}."


def cutting_lines(room: Stockroom, changes: Sequence[Change], plan: Plan) -> list[str]:
    """What sawing a layout takes out and puts in."""
    from scantling.papers.sheets.show import Show
    from scantling.store.cutting import gone_for

    show = Show.of(plan)
    lines = [f"{plan.title}:"]
    for change in changes:
        if change.board is not None:
            lines.append(f"  out  #{change.board} {_size(room.boards[change.board].board, show)}")
        elif change.row is not None:
            lines.append(f"  in   {_size(change.row, show)}")
    layout = plan.timber.layout
    missing = 0 if layout is None else layout.missing_count
    gone = gone_for(room, plan.title)
    if gone:
        day = max(kept.gone_at for kept in gone if kept.gone_at is not None)
        names = ", ".join(kept.board.name for kept in gone)
        lines.append(
            f"  Boards went out for it before, the last on {day:%Y-%m-%d}: {names}. Is this another one?"
        )
    if missing:
        lines.append(f"  {missing} blank{'s have' if missing != 1 else ' has'} no wood in the stockroom yet.")
    return lines


def print_list(room: Stockroom, *, units: str, shop: str | None) -> None:
    """Print the boards that are there, tallied, and where they came from."""
    from scantling.cli.show import print_sheets
    from scantling.papers.sheets.model import Column, Sheet, Table
    from scantling.papers.sheets.rack import rack_sheet
    from scantling.papers.sheets.show import Show
    from scantling.shop.profile.profile_file import default_shop, read_shop

    if not room.present:
        print("The stockroom is empty. Take boards in with: scantling stockroom add RACK.csv")
        return
    rates = (read_shop(shop) if shop else default_shop()).rates
    sheet = rack_sheet(room.rack(), show=Show.in_units(units), currency=rates.currency)
    table = Table(
        title="Where they are from",
        columns=tuple(Column(title=title) for title in ("Number", "Board", "Since", "From", "Moisture read")),
        rows=tuple(_origin(kept, room) for kept in room.present),
    )
    print_sheets((Sheet(id="stockroom", title="Stockroom", lead=sheet.lead, blocks=(*sheet.blocks, table)),))


def _origin(kept: StockBoard, room: Stockroom) -> tuple[str, ...]:
    came = kept.party
    if kept.came_from is not None:
        came = f"{room.boards[kept.came_from].board.name} (#{kept.came_from})"
    readings = [f"{show_number(pct, digits=1)} % on {at:%Y-%m-%d}" for at, pct in kept.readings]
    return f"#{kept.number}", kept.board.name, f"{kept.since:%Y-%m-%d}", came, "; ".join(readings)


def list_json(room: Stockroom) -> list[dict[str, Any]]:
    """The boards that are there, for programs."""
    return [
        {
            "number": kept.number,
            **asdict(kept.board),
            "came_in": kept.came_in.value,
            "since": kept.since.isoformat(),
            "party": kept.party,
            "came_from": kept.came_from,
            "readings": [{"at": at.isoformat(), "moisture_pct": pct} for at, pct in kept.readings],
            "board_feet": kept.board.board_feet,
            "price_total": kept.board.price_total,
        }
        for kept in room.present
    ]


def history_json(acts: Sequence[StockAct]) -> list[dict[str, Any]]:
    """What was done, for programs; oldest first."""
    return [
        {
            "number": act.number,
            "at": act.at.isoformat(),
            "kept_at": act.kept_at.isoformat(),
            "note": act.note,
            "takes_back": act.takes_back,
            "events": [asdict(event) for event in act.events],
        }
        for act in acts
    ]


def _size(board: Board, show: Show) -> str:
    size = show.by(board.length_mm, board.width_mm, unit=True)
    return f"{board.name}: {board.nominal} {board.species}, {size}"


def _size_mm(board: Board) -> str:
    return f"{board.nominal} {board.species}, {board.length_mm:.0f} × {board.mean_width_mm:.0f} mm"
