"""A clock that ticks when it is read, and contents to keep."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from scantling.store.content import Attached, Content

__all__ = ["Clock", "content"]


class Clock:
    """A minute passes between two readings."""

    def __init__(self) -> None:
        self.at = datetime(2026, 3, 1, 8, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        """The time."""
        self.at += timedelta(minutes=1)
        return self.at


def content(text: str, **given: str) -> Content:
    """A piece with a rack, made of a few words."""
    rack = Attached(name="cherry.csv", text="name,species\nA1,cherry\n")
    return Content(piece=f"title: Bench\n# {text}\n", given=given, rack=rack)
