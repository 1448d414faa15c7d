"""What is told when the database itself cannot do what is asked."""

from __future__ import annotations

import sqlite3

from sqlalchemy.exc import DBAPIError, IntegrityError

from scantling.errors import InputError, ModelError, ScantlingError
from scantling.store.place import VARIABLE, Place

__all__ = ["damaged", "foreign", "newer", "shown", "trouble_of"]


def shown(place: Place) -> str:
    """A place in words; the address of a server without what stands before its name."""
    if place.file is not None:
        return str(place.file)
    scheme, _, rest = place.address.partition("://")
    return f"{scheme.partition('+')[0]}://{rest.rpartition('@')[2].partition('?')[0]}"


def damaged(place: Place, reason: str) -> InputError:
    """A file that is no database any more."""
    return InputError(
        code="records_damaged",
        field="records",
        value=reason,
        rule=f"must be a whole database; {shown(place)} is not, and has been left as it is",
        remedy=f"Put back a copy (records.before-*.db beside it, or your own backup), or name another folder "
        f"with {VARIABLE}.",
    )


def foreign(place: Place, reason: str) -> InputError:
    """A database of something else."""
    return InputError(
        code="records_foreign",
        field="records",
        value=reason,
        rule=f"must hold records of this program; {shown(place)} holds others, and has been left as it is",
        remedy=f"Name another folder with {VARIABLE}.",
    )


def newer(place: Place, revision: str, known: str) -> InputError:
    """A database a newer program has written."""
    return InputError(
        code="records_newer",
        field="records",
        value=f"form {revision}",
        rule=f"must be of a form this program knows, up to {known}; {shown(place)} has been left as it is",
        remedy=f"Use the newer Scantling that wrote it, or name another folder with {VARIABLE}.",
    )


def trouble_of(error: DBAPIError, place: Place) -> ScantlingError:
    """What is told of an error of the database.

    Parameters
    ----------
    error
        As the library raised it.
    place
        Of the database.

    Returns
    -------
    ScantlingError
        InputError ``records_damaged``, ``records_busy``, ``records_full``, ``records_closed`` (not to be
        written to or reached); ModelError for anything else: that is a defect of ours.
    """
    reason = str(error.orig).strip().partition("\n")[0]
    code = getattr(error.orig, "sqlite_errorcode", 0) & 0xFF
    if code in {sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB}:
        return damaged(place, reason)
    if code in {sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED}:
        rule, remedy = "must be free to be changed", "Another Scantling is writing to it: try again."
        name = "records_busy"
    elif code == sqlite3.SQLITE_FULL:
        rule, remedy, name = (
            "must have room on its disk",
            "Free some room; nothing was changed.",
            "records_full",
        )
    elif isinstance(error, IntegrityError) and not code:  # a server, where two may change a thing at once
        rule, remedy, name = (
            "must be free to be changed",
            "Somebody changed it just now: try again.",
            "records_busy",
        )
    elif code or error.connection_invalidated or type(error.orig).__name__ == "OperationalError":
        rule, name = "must be there to be read and written", "records_closed"
        remedy = f"Look at its folder, permissions and server, or name another folder with {VARIABLE}."
        if code not in {0, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_READONLY, sqlite3.SQLITE_IOERR,
                        sqlite3.SQLITE_PERM, sqlite3.SQLITE_AUTH}:  # fmt: skip
            return ModelError(f"records: {reason}")
    else:
        return ModelError(f"records: {reason}")
    return InputError(code=name, field="records", value=reason, rule=f"{shown(place)} {rule}", remedy=remedy)
