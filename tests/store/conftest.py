"""Empty records, and a clock that ticks when it is read."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from scantling.store.database import Database
from scantling.store.opening import open_records
from scantling.store.place import Place

__all__: list[str] = []


@pytest.fixture
def place(tmp_path: Path) -> Place:
    """A file that is not there yet, in a folder that is not there yet; its name needs care in an address."""
    return Place(file=tmp_path / "wood & 100%" / "records.db")


@pytest.fixture
def database(place: Place) -> Iterator[Database]:
    """Empty records."""
    opened = open_records(place)
    yield opened
    opened.close()
