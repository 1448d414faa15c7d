"""A program killed in the middle of a save loses nothing it said was kept, and leaves nothing half done.

What is killed here is the program (SIGKILL), not the machine: that the disk keeps what it says it has written
is the file system's promise, asked for by ``synchronous=full``.
"""

from __future__ import annotations

import multiprocessing
import os
import random
import signal
import sqlite3
import time
from contextlib import closing
from multiprocessing.connection import Connection as Pipe
from pathlib import Path

import pytest
from sqlalchemy import Engine, event

from scantling.store.opening import NEWEST, open_records
from scantling.store.pieces import find_piece, list_pieces
from scantling.store.place import Place
from scantling.store.versions import begin_piece, content_at, list_versions, save, undo
from tests.store.clock import Clock, content

DATA = Path(__file__).parent / "data"
FORK = multiprocessing.get_context("fork")


def _begun(place: Place) -> None:
    database = open_records(place)
    with database.writing() as records:
        begin_piece(records, "Bench", content("0"), now=Clock()())
    database.close()


def _saving(place: Place, told: Pipe) -> None:
    """Save without end, with a step back now and then, and tell every version once it is kept."""
    database, clock = open_records(place), Clock()
    told.send("open")
    while True:
        with database.writing() as records:
            piece = find_piece(records, 1)
            if piece.versions % 5 == 0 and piece.undo is not None:
                piece = undo(records, 1, parent=piece.current, now=clock())
            number = piece.versions + 1
            big = f"{number} " + "wood " * 2000
            save(records, 1, content(big), parent=piece.current, now=clock())
        told.send((number, content(big).digest))


def _sound(place: Place, kept: dict[int, str]) -> int:
    """Assert that the records are whole and hold all that was told; how many versions there are."""
    assert place.file is not None
    with closing(sqlite3.connect(place.file)) as raw:
        assert raw.execute("pragma integrity_check").fetchall() == [("ok",)]
        assert raw.execute("pragma foreign_key_check").fetchall() == []
    database = open_records(place)
    with database.reading() as records:
        (piece,) = list_pieces(records)
        versions = list_versions(records, 1)
        assert [v.number for v in versions] == list(range(len(versions), 0, -1))
        digests = {v.number: v.digest for v in versions}
        assert {number: digests[number] for number in kept} == kept
        for version in versions[:3]:
            assert content_at(records, 1, version.number).digest == version.digest
        assert piece.current in digests
    database.close()
    return len(versions)


def test_killed_at_any_moment_everything_told_is_there(place: Place) -> None:
    """Forty programs, each killed some thousandths of a second on; only what nobody was told may be gone."""
    _begun(place)
    moments, there = random.Random(7), 1
    kept: dict[int, str] = {}
    for _ in range(40):
        before = len(kept)
        ours, theirs = FORK.Pipe(duplex=False)
        saving = FORK.Process(target=_saving, args=(place, theirs))
        saving.start()
        theirs.close()
        assert ours.recv() == "open"
        kept |= dict(ours.recv() for _ in range(moments.randrange(3)))
        time.sleep(moments.uniform(0.0, 0.04))  # about what a save takes
        os.kill(saving.pid or 0, signal.SIGKILL)
        saving.join()
        assert saving.exitcode == -signal.SIGKILL
        while True:
            try:
                number, digest = ours.recv()
            except EOFError:
                break
            kept[number] = digest
        added = _sound(place, kept) - there
        assert added - (len(kept) - before) in {0, 1}
        there += added
    assert len(kept) >= 30, "the programs must have got round to saving"


def _renewing(place: Place, statement: int) -> None:
    """Open records of an older form, and die just before one of the statements that change it."""
    seen = 0

    def count(*_: object) -> None:
        nonlocal seen
        seen += 1
        if seen == statement:
            os.kill(os.getpid(), signal.SIGKILL)

    event.listen(Engine, "before_cursor_execute", count)
    event.listen(Engine, "commit", count)
    open_records(place)
    os._exit(0)


@pytest.mark.parametrize("statement", range(1, 15))
def test_killed_in_the_middle_of_an_update_nothing_is_lost(place: Place, statement: int) -> None:
    """The records are wholly of the old form or the new one, a copy lies beside, the next opening ends it."""
    assert place.file is not None
    place.file.parent.mkdir(parents=True)
    with closing(sqlite3.connect(place.file)) as raw:
        raw.executescript((DATA / "form-0001.sql").read_text(encoding="utf-8"))
    renewing = FORK.Process(target=_renewing, args=(place, statement))
    renewing.start()
    renewing.join()
    assert renewing.exitcode == -signal.SIGKILL, "an update takes more statements than this"
    with closing(sqlite3.connect(place.file)) as raw:
        assert raw.execute("pragma integrity_check").fetchall() == [("ok",)]
        (form,) = raw.execute("select version_num from alembic_version").fetchone()
        tables = {name for (name,) in raw.execute("select name from sqlite_master where type='table'")}
    assert (form, "boards" in tables) in {("0001", False), (NEWEST, True)}
    assert place.file.with_name(f"records.before-{NEWEST}.db").exists()
    database = open_records(place)
    with database.reading() as records:
        assert [piece.name for piece in list_pieces(records)] == ["Hall chair — Esche", "Bench"]
    database.close()


def _dying(place: Place, statement: int) -> None:
    """Save once, and die just before one of the statements of it, or before it is kept."""
    database, seen = open_records(place), 0

    def count(*_: object) -> None:
        nonlocal seen
        seen += 1
        if seen == statement:
            os.kill(os.getpid(), signal.SIGKILL)

    event.listen(database.engine, "before_cursor_execute", count)
    event.listen(database.engine, "commit", count)
    with database.writing() as records:
        save(records, 1, content("new"), parent=1, now=Clock()())
    os._exit(0)


@pytest.mark.parametrize("statement", range(1, 12))
def test_killed_before_any_statement_of_a_save_nothing_has_changed(place: Place, statement: int) -> None:
    """From the first to the last and before the end; the records are as they were, or the save is whole."""
    _begun(place)
    dying = FORK.Process(target=_dying, args=(place, statement))
    dying.start()
    dying.join()
    versions = _sound(place, {1: content("0").digest})
    assert (dying.exitcode, versions) in {(-signal.SIGKILL, 1), (0, 2)}
    assert dying.exitcode == -signal.SIGKILL or statement > 9, "a save takes more statements than this"
