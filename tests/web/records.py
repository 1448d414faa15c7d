"""A server with empty records, asked without a network."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from fastapi import FastAPI

from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.web.app import create_app
from scantling.web.designs.session import Session
from scantling.web.guard.network import Network
from scantling.web.kept.desk import Desk
from tests.store.clock import Clock
from tests.web.specimen import DEMO

__all__ = ["STOOL", "app_with_records"]

STOOL = """\
# A stool for the forge.
title: Forge stool
units: mm
"""
"""The beginning of a piece file, which has faults enough to be told."""

_FREE: dict[Network | None, list[tuple[FastAPI, _Desk]]] = {}
"""Servers nobody uses, by the network they are on: to make one takes as long as many a test."""


class _Desk(Desk):
    """A desk that is given other records; what follows from a content alone, its designs, stays at hand."""

    def begin(self, place: Place) -> None:
        """Forget whatever was kept, said and made at the bench."""
        designs = self._sessions, self._planner, self._pictures
        super().__init__(lambda: open_records(place), now=Clock())
        self._sessions, self._planner, self._pictures = designs

    def end(self) -> None:
        """Let go of the records."""
        if self._database is not None:
            self._database.close()


def _made(network: Network | None) -> tuple[FastAPI, _Desk]:
    desk = _Desk(lambda: open_records(Place(file=Path("nowhere"))), now=Clock())
    return create_app(Session(DEMO) if network is None else None, desk, network=network), desk


@contextmanager
def app_with_records(folder: Path, network: Network | None = None) -> Iterator[FastAPI]:
    """The server, its records in a folder; on a network it begins with the list, else with the demo piece.

    Whoever has it has it alone, and its records are empty. Its routes, and the designs of contents it was
    asked for, are those of earlier users; ``test_records.py`` holds that they tell nothing else.
    """
    free = _FREE.setdefault(network, [])
    app, desk = free.pop() if free else _made(network)
    desk.begin(Place(file=folder / "records.db"))
    try:
        yield app
    finally:
        desk.end()
        free.append((app, desk))
