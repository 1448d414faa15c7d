"""Texts kept once each, and the versions that point at them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, Row, Table, insert, select
from sqlalchemy.dialects import postgresql, sqlite

from scantling.store.content import BESIDE, Attached, Content
from scantling.store.tables import TEXTS, VERSION_BENCH

__all__ = [
    "columns_of",
    "content_of",
    "insert_new",
    "keep_bench",
    "keep_text",
    "text_at",
    "text_key",
]

_IN_ROW = tuple(name for name in BESIDE if name != "bench")
"""What has columns of its own in the row of a version."""


def insert_new(records: Connection, table: Table, rows: Iterable[dict[str, Any]]) -> None:
    """Add rows, but for those whose key is there already."""
    made = (postgresql if records.dialect.name == "postgresql" else sqlite).insert(table)
    for row in rows:
        records.execute(made.values(**row).on_conflict_do_nothing())


def columns_of(records: Connection, content: Content) -> dict[str, object]:
    """The columns of a version that say what it holds; texts not there yet are kept."""
    texts = {text_key(content.piece): content.piece}
    columns: dict[str, object] = {
        "digest": content.digest,
        "given": json.dumps(dict(content.given), ensure_ascii=False, sort_keys=True),
        "piece_text": text_key(content.piece),
    }
    for name in _IN_ROW:
        one = content.beside(name)
        if one is None:
            continue
        columns[f"{name}_name"] = one.name
        if one.text is not None:
            texts[text_key(one.text)] = one.text
            columns[f"{name}_text"] = text_key(one.text)
    insert_new(records, TEXTS, ({"hash": key, "text": text} for key, text in texts.items()))
    return columns


def content_of(records: Connection, version: Row[Any]) -> Content:
    """What a version holds, from its row."""
    beside: dict[str, Attached | None] = {}
    for name in _IN_ROW:
        called, key = getattr(version, f"{name}_name"), getattr(version, f"{name}_text")
        text = None if key is None else text_at(records, key)
        beside[name] = None if called is None else Attached(name=called, text=text)
    beside["bench"] = _bench_of(records, version)
    return Content(piece=text_at(records, version.piece_text), given=json.loads(version.given), **beside)


def keep_bench(records: Connection, content: Content, *, piece: int, number: int) -> None:
    """Keep the notes from the bench of a version, where it has some."""
    notes = content.bench
    if notes is None:
        return
    row: dict[str, object] = {"piece_id": piece, "number": number, "name": notes.name}
    if notes.text is not None:
        row["text"] = text_key(notes.text)
        insert_new(records, TEXTS, [{"hash": row["text"], "text": notes.text}])
    records.execute(insert(VERSION_BENCH).values(**row))


def _bench_of(records: Connection, version: Row[Any]) -> Attached | None:
    own = (VERSION_BENCH.c.piece_id == version.piece_id, VERSION_BENCH.c.number == version.number)
    found = records.execute(select(VERSION_BENCH).where(*own)).one_or_none()
    if found is None:
        return None
    return Attached(name=found.name, text=None if found.text is None else text_at(records, found.text))


def text_at(records: Connection, key: str) -> str:
    """A text by its hash."""
    return str(records.execute(select(TEXTS.c.text).where(TEXTS.c.hash == key)).scalar_one())


def keep_text(records: Connection, text: str) -> str:
    """Keep a text if it is not there yet; its hash."""
    insert_new(records, TEXTS, [{"hash": text_key(text), "text": text}])
    return text_key(text)


def text_key(text: str) -> str:
    """SHA-256 of a text, by which it is kept. 64 hexadecimal digits."""
    return hashlib.sha256(text.encode()).hexdigest()
