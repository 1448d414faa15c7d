"""What Alembic runs: the steps, on the connection it is handed."""

from __future__ import annotations

from alembic import context

from scantling.store.tables import METADATA

__all__: list[str] = []

# SQLite changes a column only by building its table anew, which render_as_batch does.
context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=METADATA,
    render_as_batch=True,
    transaction_per_migration=False,
)
context.run_migrations()
