"""The log of the bench: what happened is added, and what was wrong is taken back; no line is ever changed."""

from __future__ import annotations

import math
from collections import defaultdict
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, insert, select

from scantling.errors import InputError
from scantling.store.bench import BenchEvent, BenchKind, BenchState, bench_state
from scantling.store.pieces import bounded, find_piece, locked_piece
from scantling.store.tables import BENCH_EVENTS
from scantling.store.versions import find_version

__all__ = ["add_bench_event", "bench_events", "bench_states", "take_back_bench_event", "take_back_measured"]

_LONGEST_SUBJECT, _LONGEST_NOTE, _LONGEST_KEY, _LONGEST_UNIT = 300, 1000, 64, 8
"""Characters. [1]"""


def add_bench_event(records: Connection, piece: int, event: BenchEvent) -> BenchEvent:
    """Keep what happened.

    Parameters
    ----------
    records
        A transaction that writes.
    piece
        Number of the piece.
    event
        What happened; its number and ``takes_back`` are given here, and the current version where it names
        none.

    Returns
    -------
    BenchEvent
        As it is kept; the one kept before, if it was sent under the same key already.

    Raises
    ------
    InputError
        ``unknown_piece``, ``unknown_version``, ``subject_missing``, ``figure_missing``, ``figure_unwanted``,
        ``too_long``, ``not_text``.
    """
    current = locked_piece(records, piece).current
    before = _kept_under(records, piece, event.key)
    if before is not None:
        return before
    _check(event)
    if event.version:
        find_version(records, piece, event.version)
    return _add(records, piece, event, version=event.version or current, takes_back=None)


def take_back_bench_event(
    records: Connection, piece: int, *, now: datetime, number: int | None = None
) -> BenchEvent:
    """Take back an event, the last one if none is named; what happened and its taking back both stay told.

    Raises
    ------
    InputError
        ``unknown_piece``, ``nothing_to_take_back``, ``unknown_event``, ``taken_back_already``.
    """
    current = locked_piece(records, piece).current
    events = bench_events(records, piece)
    gone = {event.takes_back for event in events}
    standing = [e for e in events if e.kind is not BenchKind.TAKEN_BACK and e.number not in gone]
    if number is None and not standing:
        raise _refused("nothing_to_take_back", "event", "nothing", "must have happened", "")
    wanted = standing[-1].number if number is None else number
    if wanted in gone:
        raise _refused(
            "taken_back_already", "event", str(number), "must not be taken back already", "It does not count."
        )
    if wanted not in {event.number for event in standing}:
        raise _refused(
            "unknown_event", "event", str(number), "must be the number of an event of this piece", ""
        )
    event = BenchEvent(kind=BenchKind.TAKEN_BACK, at=now)
    return _add(records, piece, event, version=current, takes_back=wanted)


def take_back_measured(
    records: Connection,
    piece: int,
    subject: str,
    *,
    now: datetime,
    up_to: datetime | None = None,
    key: str = "",
) -> None:
    """Take back what was measured of a size or a name: with all of it gone, it is as planned again.

    Parameters
    ----------
    records
        A transaction that writes.
    piece
        Number of the piece.
    subject
        What was measured.
    now
        When it is taken back.
    up_to
        What was measured later stands: whoever took it back had not seen it. None takes back all there is.
    key
        Sent again under the same key, it takes nothing more back. Empty for none.

    Raises
    ------
    InputError
        ``unknown_piece``, ``nothing_to_take_back``, ``too_long``, ``not_text``.
    """
    current = locked_piece(records, piece).current
    bounded(key, "key", _LONGEST_KEY)
    if _kept_under(records, piece, key) is not None:
        return
    events = bench_events(records, piece)
    gone = {event.takes_back for event in events}
    own = (e for e in events if e.kind is BenchKind.MEASURED and e.subject == subject)
    seen = (e for e in own if up_to is None or e.at <= up_to)
    standing = [event.number for event in seen if event.number not in gone]
    if not standing:
        raise _refused(
            "nothing_to_take_back",
            "subject",
            subject,
            "must have been measured at the bench",
            "Reload the page.",
        )
    for number in standing:
        told = BenchEvent(kind=BenchKind.TAKEN_BACK, at=now, key=key if number == standing[-1] else "")
        _add(records, piece, told, version=current, takes_back=number)


def bench_events(records: Connection, piece: int) -> tuple[BenchEvent, ...]:
    """All that happened to a piece at the bench, oldest first; raises ``unknown_piece``."""
    find_piece(records, piece)
    rows = records.execute(
        select(BENCH_EVENTS).where(BENCH_EVENTS.c.piece_id == piece).order_by(BENCH_EVENTS.c.id)
    )
    return tuple(_event(row) for row in rows)


def bench_states(records: Connection) -> dict[int, BenchState]:
    """How things stand for every piece that something has happened to, by its number."""
    events: dict[int, list[BenchEvent]] = defaultdict(list)
    for row in records.execute(select(BENCH_EVENTS).order_by(BENCH_EVENTS.c.id)):
        events[row.piece_id].append(_event(row))
    return {piece: bench_state(listed) for piece, listed in events.items()}


_OF_THE_PIECE = {BenchKind.NOTED, BenchKind.FINISHED}
"""Kinds that need no subject."""


def _check(event: BenchEvent) -> None:
    bounded(event.subject, "subject", _LONGEST_SUBJECT)
    bounded(event.note, "note", _LONGEST_NOTE)
    bounded(event.key, "key", _LONGEST_KEY)
    bounded(event.unit, "unit", _LONGEST_UNIT)
    if event.kind is BenchKind.TAKEN_BACK:
        raise _refused("wrong_kind", "kind", event.kind.value, "must be something that happened", "")
    if not event.subject.strip() and event.kind not in _OF_THE_PIECE:
        raise _refused(
            "subject_missing", "subject", "nothing", "must name what it was done to", "Name the step or size."
        )
    if event.kind is BenchKind.NOTED and not event.note.strip():
        raise _refused("note_missing", "note", "nothing", "must say something", "")
    measured = event.kind is BenchKind.MEASURED
    if measured and (event.figure is None or not math.isfinite(event.figure) or not event.unit.strip()):
        told = f"{event.figure} {event.unit}".strip()
        raise _refused(
            "figure_missing", "figure", told, "must be a number with its unit", "Write what was measured."
        )
    if not measured and event.figure is not None:
        raise _refused(
            "figure_unwanted",
            "figure",
            f"{event.figure:g}",
            "belongs to what was measured only",
            "Leave it out.",
        )


def _refused(code: str, field_name: str, value: str, rule: str, remedy: str) -> InputError:
    return InputError(code=code, field=field_name, value=value, rule=rule, remedy=remedy)


def _add(
    records: Connection, piece: int, event: BenchEvent, *, version: int, takes_back: int | None
) -> BenchEvent:
    made = records.execute(
        insert(BENCH_EVENTS).values(
            piece_id=piece,
            version=version,
            at=event.at,
            kind=event.kind.value,
            subject=event.subject,
            figure=event.figure,
            unit=event.unit,
            note=event.note,
            key=event.key or None,
            takes_back=takes_back,
        )
    )
    (number,) = made.inserted_primary_key or (0,)
    kept = _one(records, piece, BENCH_EVENTS.c.id == number)
    assert kept is not None, "what was added is there"
    return kept


def _kept_under(records: Connection, piece: int, key: str) -> BenchEvent | None:
    return _one(records, piece, BENCH_EVENTS.c.key == key) if key else None


def _one(records: Connection, piece: int, which: Any) -> BenchEvent | None:
    row = records.execute(select(BENCH_EVENTS).where(BENCH_EVENTS.c.piece_id == piece, which)).one_or_none()
    return None if row is None else _event(row)


def _event(row: Row[Any]) -> BenchEvent:
    return BenchEvent(
        kind=BenchKind(row.kind),
        at=row.at,
        subject=row.subject,
        figure=row.figure,
        unit=row.unit,
        note=row.note,
        key=row.key or "",
        number=row.id,
        version=row.version,
        takes_back=row.takes_back,
    )
