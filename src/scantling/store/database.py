"""The open database: transactions, and what it says when something is wrong with it."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import DBAPIError, NoSuchModuleError, SQLAlchemyError

from scantling.errors import InputError
from scantling.store.place import VARIABLE, Place
from scantling.store.trouble import trouble_of

__all__ = ["BUSY_S", "Database", "engine_for"]

BUSY_S = 10.0
"""How long a change waits for another to end before it is refused. [s]"""
_WRITES = "scantling_writes"


class Database:
    """Records, open.

    Parameters
    ----------
    place
        Where they are.
    engine
        Connects to them.
    """

    def __init__(self, place: Place, engine: Engine) -> None:
        self.place, self.engine = place, engine

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A view of the records as they are at one moment.

        Raises
        ------
        InputError
            As :func:`~scantling.store.trouble.trouble_of` tells.
        """
        with self._begun(writes=False) as records:
            yield records

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """One transaction: all that is changed in it is kept, or nothing is; raises as :meth:`reading`."""
        with self._begun(writes=True) as records:
            yield records

    @contextmanager
    def _begun(self, *, writes: bool) -> Iterator[Connection]:
        try:
            with self.engine.connect() as connection:
                records = connection.execution_options(**{_WRITES: writes})
                with records.begin():
                    yield records
        except DBAPIError as error:
            raise trouble_of(error, self.place) from error
        except sqlite3.Error as error:  # while connecting, where nothing wraps it
            raise trouble_of(DBAPIError("", None, error), self.place) from error

    def close(self) -> None:
        """Let go of the file or server."""
        self.engine.dispose()


def engine_for(place: Place, *, foreign_keys: bool = True, wait_s: float = BUSY_S) -> Engine:
    """What connects to a database.

    Parameters
    ----------
    place
        Where it is.
    foreign_keys
        Whether references are checked at each statement; a migration that rebuilds a table checks them at
        its end.
    wait_s
        How long a change of a file waits for another to end. [s]

    Raises
    ------
    InputError
        ``driver_missing``, ``bad_address``.
    """
    if place.file is None:
        return _server(place.address)
    engine = create_engine(f"sqlite:///{place.file}", connect_args={"timeout": wait_s})

    @event.listens_for(engine, "connect")
    def connected(connection: Any, _record: object) -> None:
        # The driver begins no transaction of its own: every one is begun below, so that a change of the
        # tables is undone too if it breaks off.
        connection.isolation_level = None
        connection.execute(f"pragma foreign_keys={'on' if foreign_keys else 'off'}")
        connection.execute("pragma journal_mode=wal")  # who reads does not wait for who writes
        connection.execute("pragma synchronous=full")  # on the disk when it is said to be kept

    @event.listens_for(engine, "begin")
    def begun(connection: Connection) -> None:
        # A change takes its turn at once: two that begin by reading could not both go on to write.
        writes = connection.get_execution_options().get(_WRITES, True)
        connection.exec_driver_sql("begin immediate" if writes else "begin")

    return engine


def _server(address: str) -> Engine:
    try:
        return create_engine(make_url(address), pool_pre_ping=True)
    except (ModuleNotFoundError, NoSuchModuleError) as error:
        raise InputError(
            code="driver_missing",
            field=VARIABLE,
            value=address.partition("://")[0],
            rule="needs the driver of its database, which is not installed",
            remedy="Install it with: pip install 'scantling[postgresql]'.",
        ) from error
    except (SQLAlchemyError, ValueError) as error:
        raise InputError(
            code="bad_address",
            field=VARIABLE,
            value=f"{address.partition('://')[0]}://...",
            rule="must be the address of a database",
            remedy="Write postgresql://maker@host:5432/records.",
        ) from error
