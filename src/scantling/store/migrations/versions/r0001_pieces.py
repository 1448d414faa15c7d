"""Pieces, their versions, and the pictures of the list."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

__all__ = ["down_revision", "revision", "upgrade"]

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "texts",
        sa.Column("hash", sa.String(64), nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("hash", name=op.f("pk_texts")),
    )
    op.create_table(
        "pieces",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("begun_at", sa.String(27), nullable=False),
        sa.Column("changed_at", sa.String(27), nullable=False),
        sa.Column("current", sa.Integer, nullable=False),
        sa.Column("put_away_at", sa.String(27)),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_pieces")),
        sa.UniqueConstraint("name", name=op.f("uq_pieces_name")),
        sqlite_autoincrement=True,
    )
    _versions()
    op.create_table(
        "pictures",
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("made_by", sa.String(40), nullable=False),
        sa.Column("svg", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("digest", name=op.f("pk_pictures")),
    )


def _versions() -> None:
    texts = ("piece_text", "shop_text", "rack_text", "room_text")
    op.create_table(
        "versions",
        sa.Column("piece_id", sa.Integer, nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("parent", sa.Integer),
        sa.Column("forward", sa.Integer),
        sa.Column("restores", sa.Integer),
        sa.Column("made_at", sa.String(27), nullable=False),
        sa.Column("why", sa.String(500), nullable=False),
        sa.Column("digest", sa.String(64), nullable=False),
        sa.Column("given", sa.Text, nullable=False),
        sa.Column("piece_text", sa.String(64), nullable=False),
        sa.Column("shop_name", sa.String(200)),
        sa.Column("shop_text", sa.String(64)),
        sa.Column("rack_name", sa.String(200)),
        sa.Column("rack_text", sa.String(64)),
        sa.Column("room_name", sa.String(200)),
        sa.Column("room_text", sa.String(64)),
        sa.PrimaryKeyConstraint("piece_id", "number", name=op.f("pk_versions")),
        sa.ForeignKeyConstraint(["piece_id"], ["pieces.id"], name=op.f("fk_versions_piece_id_pieces")),
        sa.ForeignKeyConstraint(
            ["piece_id", "parent"],
            ["versions.piece_id", "versions.number"],
            name=op.f("fk_versions_piece_id_versions"),
        ),
        *(
            sa.ForeignKeyConstraint([name], ["texts.hash"], name=op.f(f"fk_versions_{name}_texts"))
            for name in texts
        ),
    )
