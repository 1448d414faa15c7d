"""A shop or a room that is chosen for a piece."""

from __future__ import annotations

from typing import Literal, Self

from pydantic import model_validator

from scantling.web.sent.bodies import Body, Word
from scantling.web.sent.numbers import Number

__all__ = ["Choice"]


class Choice(Body):
    """A shop or a room: a kept one by its number, a room known by its name, or with neither the usual one."""

    what: Literal["shop", "room"]
    kept: Number | None = None
    known: Word | None = None

    @model_validator(mode="after")
    def _one(self) -> Self:
        if self.known is not None and (self.kept is not None or self.what == "shop"):
            raise ValueError("only a room is known by its name, and then it is no kept one")
        return self
