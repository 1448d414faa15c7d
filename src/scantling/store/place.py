"""Where the records are kept: a database in the user's data folder, unless told otherwise."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from scantling.errors import InputError

__all__ = ["FILE", "VARIABLE", "Place", "find_place"]

VARIABLE = "SCANTLING_DATA"
"""Variable of the environment that names another folder, or a database by its address."""
FILE = "records.db"
"""Name of the database in its folder."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a database is.

    Parameters
    ----------
    file
        A file on this computer; None for a database server.
    address
        Of a database server (``postgresql://maker@host/records``); empty for a file.
    """

    file: Path | None = None
    address: str = ""


def find_place(environment: Mapping[str, str], *, home: Path) -> Place:
    """Where the records are kept.

    Parameters
    ----------
    environment
        Variables: ``SCANTLING_DATA`` (a folder, or the address of a database), else ``XDG_DATA_HOME`` [1]_.
    home
        The user's folder.

    Raises
    ------
    InputError
        ``unknown_database`` for an address that is not of PostgreSQL.

    References
    ----------
    .. [1] XDG Base Directory Specification, version 0.8: data belongs in ``$XDG_DATA_HOME``, by default
       ``$HOME/.local/share``; a relative path there is invalid and is to be ignored.

    Examples
    --------
    >>> str(find_place({}, home=Path("/u/ann")).file)
    '/u/ann/.local/share/scantling/records.db'
    >>> str(find_place({"SCANTLING_DATA": "~/wood"}, home=Path("/u/ann")).file)
    '/u/ann/wood/records.db'
    """
    told = environment.get(VARIABLE, "").strip()
    if "://" in told:
        return Place(address=_address(told))
    if told:
        folder = home / told[2:] if told.startswith("~/") else Path(told)
        return Place(file=folder / FILE)
    shared = Path(environment.get("XDG_DATA_HOME", ""))
    if not shared.is_absolute():
        shared = home / ".local" / "share"
    return Place(file=shared / "scantling" / FILE)


def _address(told: str) -> str:
    scheme = told.partition("://")[0]
    if scheme.partition("+")[0] in {"postgresql", "postgres"}:
        return told.replace("postgres://", "postgresql://", 1) if scheme == "postgres" else told
    raise InputError(
        code="unknown_database",
        field=VARIABLE,
        value=f"{scheme}://...",
        rule="must be a folder, or the address of a PostgreSQL database (postgresql://...)",
        remedy="Name a folder; the records are then a file in it.",
    )
