"""Notes from the bench beside the rack of a version."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

__all__ = ["down_revision", "revision", "upgrade"]

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Make the table; versions kept before have no notes."""
    op.create_table(
        "version_bench",
        sa.Column("piece_id", sa.Integer, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("text", sa.String(64)),
        sa.PrimaryKeyConstraint("piece_id", "number", name=op.f("pk_version_bench")),
        sa.ForeignKeyConstraint(["text"], ["texts.hash"], name=op.f("fk_version_bench_text_texts")),
        sa.ForeignKeyConstraint(
            ["piece_id", "number"],
            ["versions.piece_id", "versions.number"],
            name=op.f("fk_version_bench_piece_id_versions"),
        ),
    )
