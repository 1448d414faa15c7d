"""A file that is taken away: bytes with a name."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["TakenFile"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenFile:
    """A file to take away."""

    name: str
    media_type: str
    content: bytes
