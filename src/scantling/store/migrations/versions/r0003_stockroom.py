"""The timber there is, as what happened to it."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

__all__ = ["down_revision", "revision", "upgrade"]

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Make the tables."""
    op.create_table(
        "stock_acts",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("at", sa.String(27), nullable=False),
        sa.Column("kept_at", sa.String(27), nullable=False),
        sa.Column("note", sa.String(1000), nullable=False),
        sa.Column("takes_back", sa.Integer),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stock_acts")),
        sa.UniqueConstraint("takes_back", name=op.f("uq_stock_acts_takes_back")),
        sa.ForeignKeyConstraint(
            ["takes_back"], ["stock_acts.id"], name=op.f("fk_stock_acts_takes_back_stock_acts")
        ),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "boards",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("came_from", sa.Integer),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_boards")),
        sa.ForeignKeyConstraint(["came_from"], ["boards.id"], name=op.f("fk_boards_came_from_boards")),
        sqlite_autoincrement=True,
    )
    op.create_table(
        "stock_events",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("act_id", sa.Integer, nullable=False),
        sa.Column("board_id", sa.Integer, nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("row", sa.Text),
        sa.Column("figure", sa.Float),
        sa.Column("party", sa.String(200), nullable=False),
        sa.Column("piece_id", sa.Integer),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_stock_events")),
        sa.ForeignKeyConstraint(
            ["act_id"], ["stock_acts.id"], name=op.f("fk_stock_events_act_id_stock_acts")
        ),
        sa.ForeignKeyConstraint(["board_id"], ["boards.id"], name=op.f("fk_stock_events_board_id_boards")),
        sa.ForeignKeyConstraint(["piece_id"], ["pieces.id"], name=op.f("fk_stock_events_piece_id_pieces")),
        sqlite_autoincrement=True,
    )
    op.create_index(op.f("ix_stock_events_board_id"), "stock_events", ["board_id"])
