"""Opening the records: looked at first, brought to today's form, left alone where something is wrong."""

from __future__ import annotations

import sqlite3
from contextlib import ExitStack, closing
from pathlib import Path
from urllib.parse import quote

from sqlalchemy import Connection, inspect, text
from sqlalchemy.exc import DBAPIError

from scantling.errors import InputError
from scantling.store.database import Database, engine_for
from scantling.store.place import VARIABLE, Place
from scantling.store.trouble import damaged, foreign, newer, trouble_of

__all__ = ["NEWEST", "open_records"]

NEWEST = "0005"
"""The form of the records this program writes: the last of ``migrations/versions``."""
_LOCK = 5346501
"""Number of the lock under which one program at a time changes the form of a server's records."""
_MAGIC = b"SQLite format 3\0"


def open_records(place: Place) -> Database:
    """Open the records; a place with none gets an empty database.

    An older form is brought to today's, in one transaction; of a file a copy is kept beside it first
    (``records.before-0002.db``).

    Raises
    ------
    InputError
        ``records_damaged``, ``records_newer``, ``records_foreign``, ``records_closed``, ``records_busy``,
        ``driver_missing``: the file is left as it is.
    """
    revision = _form_of_file(place.file, place) if place.file is not None else None
    database = Database(place, engine_for(place))
    with ExitStack() as on_refusal:
        on_refusal.callback(database.close)
        if place.file is None:
            with database.reading() as records:
                revision = _form(records)
        if revision != NEWEST:
            _known(revision, place)
            if place.file is not None and revision:
                _keep_copy(place.file)
            _renew(place)
        on_refusal.pop_all()
    return database


def _form_of_file(file: Path, place: Place) -> str:
    """The form of a file, looked at without changing it; empty where there is nothing yet."""
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        if not file.exists() or not file.stat().st_size:
            return ""
        with file.open("rb") as stream:
            head = stream.read(len(_MAGIC))
    except OSError as error:
        raise InputError(
            code="records_closed",
            field="records",
            value=(error.strerror or str(error)).lower(),
            rule=f"{file} must be a file that can be read and written",
            remedy=f"Look at its folder and permissions, or name another folder with {VARIABLE}.",
        ) from error
    if head != _MAGIC:
        raise damaged(place, "does not begin as a database does")
    if not file.with_name(f"{file.name}-wal").exists():
        try:  # nobody has it open: looked at like this, not even a file beside it is made
            return _looked_at(file, place, "immutable=1")
        except InputError:
            if not file.with_name(f"{file.name}-wal").exists():
                raise
    return _looked_at(file, place, "mode=ro")


def _looked_at(file: Path, place: Place, how: str) -> str:
    try:
        with closing(sqlite3.connect(f"file:{quote(str(file))}?{how}", uri=True)) as look:
            (sound,) = look.execute("pragma quick_check(1)").fetchone()
            if sound != "ok":
                raise damaged(place, str(sound).replace("\n", " "))
            tables = {name for (name,) in look.execute("select name from sqlite_master where type='table'")}
            if "alembic_version" not in tables:
                return "" if not tables else _foreign(place, tables)
            found = look.execute("select version_num from alembic_version").fetchone()
    except sqlite3.DatabaseError as error:
        raise trouble_of(DBAPIError("", None, error), place) from error
    return str(found[0]) if found else ""


def _foreign(place: Place, tables: set[str]) -> str:
    raise foreign(place, f"tables {', '.join(sorted(tables)[:3])}")


def _form(records: Connection) -> str:
    """The form of a server's records."""
    if not inspect(records).has_table("alembic_version"):
        return ""
    return str(records.execute(text("select version_num from alembic_version")).scalar() or "")


def _known(revision: str | None, place: Place) -> None:
    """Refuse a form that is none of ours."""
    if revision and not (revision.isdecimal() and revision < NEWEST):
        raise newer(place, revision, NEWEST)


def _keep_copy(file: Path) -> Path:
    """A copy of a database as it is, complete on the disk before it gets its name."""
    copy = file.with_name(f"{file.stem}.before-{NEWEST}{file.suffix}")
    number = 1
    while copy.exists():
        number += 1
        copy = file.with_name(f"{file.stem}.before-{NEWEST}-{number}{file.suffix}")
    beside = copy.with_name(f".{copy.name}.part")
    try:
        beside.unlink(missing_ok=True)
        with closing(sqlite3.connect(file)) as old, closing(sqlite3.connect(beside)) as new:
            new.execute("pragma synchronous=full")
            old.backup(new)
        beside.replace(copy)
    except (OSError, sqlite3.Error) as error:
        raise InputError(
            code="records_full",
            field="records",
            value=str(error),
            rule=f"must be copied to {copy} before an update changes it, and that cannot be written",
            remedy="Free some room in its folder; nothing was changed.",
        ) from error
    return copy


def _renew(place: Place) -> None:
    """Bring the records to today's form, in one transaction; whoever comes second finds it done."""
    from scantling.store.migrations.running import upgrade

    database = Database(place, engine_for(place, foreign_keys=False))
    try:
        with database.writing() as records:
            if place.file is None:
                records.execute(text("select pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
            revision = _form(records)
            if revision != NEWEST:
                _known(revision, place)
                upgrade(records)
                _refer(records, place)
    finally:
        database.close()


def _refer(records: Connection, place: Place) -> None:
    """Refuse records in which a row refers to one that is not there; a server looks after that itself."""
    if place.file is None:
        return
    broken = records.exec_driver_sql("pragma foreign_key_check").fetchone()
    if broken is not None:
        raise damaged(place, f"a row of {broken[0]} refers to nothing")
