"""What was done at the bench, for each piece."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

__all__ = ["down_revision", "revision", "upgrade"]

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the table."""
    op.create_table(
        "bench_events",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("piece_id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("subject", sa.String(300), nullable=False),
        sa.Column("figure", sa.Float),
        sa.Column("unit", sa.String(8), nullable=False),
        sa.Column("note", sa.String(1000), nullable=False),
        sa.Column("key", sa.String(64)),
        sa.Column("takes_back", sa.Integer),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_bench_events")),
        sa.UniqueConstraint("piece_id", "key", name=op.f("uq_bench_events_piece_id")),
        sa.UniqueConstraint("takes_back", name=op.f("uq_bench_events_takes_back")),
        sa.ForeignKeyConstraint(
            ["piece_id", "version"],
            ["versions.piece_id", "versions.number"],
            name=op.f("fk_bench_events_piece_id_versions"),
        ),
        sa.ForeignKeyConstraint(
            ["takes_back"], ["bench_events.id"], name=op.f("fk_bench_events_takes_back_bench_events")
        ),
        sqlite_autoincrement=True,
    )
