"""The records of whoever runs the command, opened when a verb asks for them and not before."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from scantling.errors import InputError

if TYPE_CHECKING:
    from scantling.stock.racks.rack import Rack
    from scantling.store.database import Database

__all__ = ["day_told", "now", "opened", "rack_of"]


@contextmanager
def opened() -> Iterator[Database]:
    """The records, in the user's data folder or where ``SCANTLING_DATA`` says."""
    from scantling.store.opening import open_records
    from scantling.store.place import find_place

    database = open_records(find_place(os.environ, home=Path.home()))
    try:
        yield database
    finally:
        database.close()


def now() -> datetime:
    """The time."""
    return datetime.now(UTC)


def rack_of(named: str | Path, *, piece: Path | None = None) -> Rack:
    """The rack of that name with its notes: a file, or for a piece the timber there is (``stockroom``)."""
    from scantling.stock.racks.rack import read_notes, read_rack
    from scantling.store.stockroom import notes_place, takes_stockroom

    if not takes_stockroom(named):
        return read_rack(Path(named))
    from scantling.store.stock_log import stockroom

    with opened() as database, database.reading() as records:
        rack = stockroom(records).rack()
    place = None if piece is None else notes_place(named, piece=piece)
    return rack if place is None else read_notes(rack, place, gone=True)


def day_told(told: str | None) -> datetime | None:
    """A day as it is written, at noon in UTC, which is that day for nearly everybody; None for none.

    Raises
    ------
    InputError
        ``not_a_day``, ``day_to_come``.
    """
    if told is None:
        return None
    try:
        at = datetime.fromisoformat(told).replace(hour=12, minute=0, second=0, microsecond=0, tzinfo=UTC)
    except ValueError as error:
        raise InputError(
            code="not_a_day",
            field="--on",
            value=told,
            rule="must be a day",
            remedy="Write year, month and day: 2026-03-05.",
        ) from error
    if at > now() + timedelta(days=1):
        raise InputError(
            code="day_to_come",
            field="--on",
            value=told,
            rule="must not be to come",
            remedy="Leave it out for today.",
        )
    return at
