"""A server with empty records, asked without a network."""

from __future__ import annotations

from pathlib import Path

from fastapi import FastAPI

from scantling.store.opening import open_records
from scantling.store.place import Place
from scantling.web.app import create_app
from scantling.web.designs.session import Session
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


def app_with_records(folder: Path) -> FastAPI:
    """The server, its records in a folder."""
    place = Place(file=folder / "records.db")
    return create_app(Session(DEMO), Desk(lambda: open_records(place), now=Clock()))
