"""Shops and rooms kept under names, with their versions."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

__all__ = ["down_revision", "revision", "upgrade"]

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "profiles",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("kind", sa.String(8), nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("begun_at", sa.String(27), nullable=False),
        sa.Column("changed_at", sa.String(27), nullable=False),
        sa.Column("current", sa.Integer, nullable=False),
        sa.Column("put_away_at", sa.String(27)),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_profiles")),
        sa.UniqueConstraint("kind", "name", name=op.f("uq_profiles_kind")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "profile_versions",
        sa.Column("profile_id", sa.Integer, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("parent", sa.Integer),
        sa.Column("forward", sa.Integer),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("why", sa.String(500), nullable=False),
        sa.Column("text", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("profile_id", "number", name=op.f("pk_profile_versions")),
        sa.ForeignKeyConstraint(
            ["profile_id"], ["profiles.id"], name=op.f("fk_profile_versions_profile_id_profiles")
        ),
        sa.ForeignKeyConstraint(
            ["profile_id", "parent"],
            ["profile_versions.profile_id", "profile_versions.number"],
            name=op.f("fk_profile_versions_profile_id_profile_versions"),
        ),
        sa.ForeignKeyConstraint(["text"], ["texts.hash"], name=op.f("fk_profile_versions_text_texts")),
    )
    op.create_index(op.f("ix_profile_versions_text"), "profile_versions", ["text"])
