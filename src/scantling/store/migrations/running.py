"""Running the steps inside the program, in the caller's transaction."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from sqlalchemy import Connection

if TYPE_CHECKING:
    from alembic.config import Config

__all__ = ["steps", "upgrade"]


def upgrade(records: Connection, *, to: str = "head") -> None:
    """Bring a database from its form to another; nothing is kept unless the caller keeps it.

    Parameters
    ----------
    records
        A connection inside a transaction.
    to
        Number of the form; the newest if left out.
    """
    from alembic import command

    config = _config()
    config.attributes["connection"] = records
    command.upgrade(config, to)


def steps() -> tuple[str, ...]:
    """The numbers of all forms, oldest first."""
    from alembic.script import ScriptDirectory

    found = ScriptDirectory.from_config(_config()).walk_revisions()
    return tuple(sorted(step.revision for step in found))


def _config() -> Config:
    from alembic.config import Config

    config = Config()
    folder = str(Path(__file__).parent).replace("%", "%%")
    config.set_main_option("script_location", folder)
    config.set_main_option("path_separator", "os")
    return config
