"""A new part as it is sent: what is asked about it, and what it comes to."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from scantling.piece.adding import Way
from scantling.piece.model import PartKind
from scantling.web.sent.bodies import Body, FaultBody, Word
from scantling.web.sent.numbers import Number

__all__ = ["ChoiceBody", "PartChoices", "PartNew", "PartTried", "SlotBody"]

_Name = Annotated[str, Field(max_length=100)]


class ChoiceBody(Body):
    """One of several that may be chosen."""

    value: str
    label: str


class PartChoices(Body):
    """What a new part can be, of what, and how it can be told where it stands."""

    kinds: list[ChoiceBody]
    ways: list[ChoiceBody]
    woods: list[str]
    sheets: list[str]


class PartNew(Body):
    """A new part; what is not said, or left empty, is filled up with what is usual.

    `at` is the part it is near, `typed` what was written or chosen by the name of its slot.
    """

    kind: PartKind
    name: _Name = ""
    species: Word = ""
    way: Way
    at: _Name = ""
    typed: dict[_Name, Word] = Field(default_factory=dict, max_length=40)
    parent: Number


class SlotBody(Body):
    """One thing asked about a part: a length, with what it comes to, or one of several choices."""

    name: str
    label: str
    text: str
    choices: list[ChoiceBody]
    group: str
    result: str


class PartTried(Body):
    """A new part as it would be written and drawn; nothing is kept.

    Each fault names its slot (or `name`, `species`); one that names nothing is about the whole. `draft` is
    the name to ask for its picture by, empty where there are faults.
    """

    name: str
    species: str
    slots: list[SlotBody]
    entry: str
    draft: str
    meets: str
    errors: list[FaultBody]
