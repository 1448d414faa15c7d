"""The tables, as the newest migration leaves them; a test compares the two."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import (
    Column,
    Dialect,
    Float,
    ForeignKey,
    ForeignKeyConstraint,
    Integer,
    MetaData,
    String,
    Table,
    Text,
    TypeDecorator,
    UniqueConstraint,
)

__all__ = [
    "BENCH_EVENTS",
    "BOARDS",
    "METADATA",
    "PICTURES",
    "PIECES",
    "PROFILES",
    "PROFILE_VERSIONS",
    "STOCK_ACTS",
    "STOCK_EVENTS",
    "TEXTS",
    "VERSIONS",
    "VERSION_BENCH",
    "Moment",
]

METADATA = MetaData(
    naming_convention={
        "ix": "ix_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s_%(referred_table_name)s",
        "pk": "pk_%(table_name)s",
    }
)


class Moment(TypeDecorator[datetime]):
    """A time in UTC, as text that sorts: the same in every database, to the microsecond."""

    impl = String(27)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> str | None:
        """As it is kept; a time without a zone is a defect of ours."""
        if value is None:
            return None
        assert value.tzinfo is not None, "times are passed in with their zone"
        return value.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S.%fZ")

    def process_result_value(self, value: Any | None, dialect: Dialect) -> datetime | None:
        """As it was."""
        return None if value is None else datetime.fromisoformat(value)


TEXTS = Table(
    "texts",
    METADATA,
    Column("hash", String(64), primary_key=True),  # SHA-256 of the text in UTF-8
    Column("text", Text, nullable=False),
)
"""Every text once, however many versions hold it."""

PIECES = Table(
    "pieces",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("name", String(200), nullable=False, unique=True),
    Column("begun_at", Moment, nullable=False),
    Column("changed_at", Moment, nullable=False),
    Column("current", Integer, nullable=False),  # number of the version
    Column("put_away_at", Moment),
    sqlite_autoincrement=True,  # a number once given never means another piece
)

VERSIONS = Table(
    "versions",
    METADATA,
    Column("piece_id", Integer, ForeignKey("pieces.id"), primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("parent", Integer),
    Column("forward", Integer),  # the version redo leads to
    Column("restores", Integer),  # the older version this one brought back
    Column("made_at", Moment, nullable=False),
    Column("why", String(500), nullable=False),
    Column("digest", String(64), nullable=False),
    Column("given", Text, nullable=False),  # JSON: parameters set apart from the text
    Column("piece_text", String(64), ForeignKey("texts.hash"), nullable=False),
    Column("shop_name", String(200)),
    Column("shop_text", String(64), ForeignKey("texts.hash")),
    Column("rack_name", String(200)),
    Column("rack_text", String(64), ForeignKey("texts.hash")),
    Column("room_name", String(200)),
    Column("room_text", String(64), ForeignKey("texts.hash")),
    ForeignKeyConstraint(["piece_id", "parent"], ["versions.piece_id", "versions.number"]),
)
"""Every version for ever: rows are added and never taken away; of a row only ``forward`` ever changes."""

VERSION_BENCH = Table(
    "version_bench",
    METADATA,
    Column("piece_id", Integer, primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("name", String(200), nullable=False),
    Column("text", String(64), ForeignKey("texts.hash")),
    ForeignKeyConstraint(["piece_id", "number"], ["versions.piece_id", "versions.number"]),
)
"""Notes from the bench beside the rack of a version, of those that have some; kept as versions are."""

PICTURES = Table(
    "pictures",
    METADATA,
    Column("digest", String(64), primary_key=True),  # of the version's content
    Column("made_by", String(40), nullable=False),  # the program's version
    Column("svg", Text, nullable=False),
)
"""Pictures for the list, drawn once; nothing is lost with them."""

BENCH_EVENTS = Table(
    "bench_events",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("piece_id", Integer, nullable=False),
    Column("version", Integer, nullable=False),  # the one current then
    Column("at", Moment, nullable=False),
    Column("kind", String(20), nullable=False),
    Column("subject", String(300), nullable=False),  # title of a step, a part's size, a timer
    Column("figure", Float),
    Column("unit", String(8), nullable=False),
    Column("note", String(1000), nullable=False),
    Column("key", String(64)),  # of whoever sent it, so that sent twice it counts once
    Column("takes_back", Integer, ForeignKey("bench_events.id"), unique=True),
    ForeignKeyConstraint(["piece_id", "version"], ["versions.piece_id", "versions.number"]),
    UniqueConstraint("piece_id", "key"),
    sqlite_autoincrement=True,
)
"""What happened at the bench; rows are added and never changed."""

STOCK_ACTS = Table(
    "stock_acts",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("at", Moment, nullable=False),  # when it happened, as the maker tells it
    Column("kept_at", Moment, nullable=False),  # when he told it
    Column("note", String(1000), nullable=False),
    Column("takes_back", Integer, ForeignKey("stock_acts.id"), unique=True),
    sqlite_autoincrement=True,
)
"""What was done to the timber, all of one act together."""

BOARDS = Table(
    "boards",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("came_from", Integer, ForeignKey("boards.id")),  # the board an offcut was cut from
    sqlite_autoincrement=True,  # what stands on a label never means another board
)

STOCK_EVENTS = Table(
    "stock_events",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("act_id", Integer, ForeignKey("stock_acts.id"), nullable=False),
    Column("board_id", Integer, ForeignKey("boards.id"), nullable=False, index=True),
    Column("kind", String(20), nullable=False),
    Column("row", Text),  # JSON: the board as a line of a rack, where it comes in or is corrected
    Column("figure", Float),  # moisture read [%], or what it was sold for [money]
    Column("party", String(200), nullable=False),  # whom it came from or went to; what piece it is for
    Column("piece_id", Integer, ForeignKey("pieces.id")),
    sqlite_autoincrement=True,
)
"""What happened to one board; rows are added and never changed."""

PROFILES = Table(
    "profiles",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("kind", String(8), nullable=False),  # shop or room
    Column("name", String(200), nullable=False),
    Column("begun_at", Moment, nullable=False),
    Column("changed_at", Moment, nullable=False),
    Column("current", Integer, nullable=False),  # number of the version
    Column("put_away_at", Moment),
    UniqueConstraint("kind", "name"),
    sqlite_autoincrement=True,
)
"""Shops and rooms kept under their names."""

PROFILE_VERSIONS = Table(
    "profile_versions",
    METADATA,
    Column("profile_id", Integer, ForeignKey("profiles.id"), primary_key=True),
    Column("number", Integer, primary_key=True),
    Column("parent", Integer),
    Column("forward", Integer),  # the version redo leads to
    Column("made_at", Moment, nullable=False),
    Column("why", String(500), nullable=False),
    Column("text", String(64), ForeignKey("texts.hash"), nullable=False, index=True),
    ForeignKeyConstraint(
        ["profile_id", "parent"], ["profile_versions.profile_id", "profile_versions.number"]
    ),
)
"""Every version for ever; a piece's copy is known by its text."""
