"""What is sent to and from the routes that keep records; its schema is at ``/api/openapi.json``."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field
from pydantic.alias_generators import to_camel

from scantling.errors import Fault
from scantling.reading.limits import check_text
from scantling.store.content import Attached, Content
from scantling.store.stale import ClashAt, StaleParentError
from scantling.web.sent.refusing import fault_view

__all__ = [
    "MOVED",
    "NOTHING_BACK",
    "REFUSALS",
    "AttachedBody",
    "Body",
    "ClashBody",
    "ContentBody",
    "DraftBody",
    "FaultBody",
    "FormBody",
    "FormList",
    "MovedOnBody",
    "RefusalBody",
    "Text",
    "Word",
    "moved_on_body",
]

LONGEST = 1_000_000
"""Longest text taken, as of a file. [characters]"""
Text = Annotated[str, Field(max_length=LONGEST)]
Word = Annotated[str, Field(max_length=200)]


class Body(BaseModel):
    """A body: names in camel case, nothing beside them."""

    model_config = ConfigDict(alias_generator=to_camel, populate_by_name=True, extra="forbid", frozen=True)


class FaultBody(Body):
    """One thing wrong; line and column count from 1 and are 0 where it stands in no file."""

    code: str
    field: str
    place: str
    message: str
    rule: str
    remedy: str
    value: str
    found: str
    file: str
    line: int
    column: int

    @classmethod
    def of(cls, fault: Fault) -> FaultBody:
        """As it is sent."""
        return cls.model_validate(fault_view(fault), from_attributes=True)


class RefusalBody(Body):
    """The one body of every error."""

    ok: Literal[False]
    errors: list[FaultBody]
    status: int


class AttachedBody(Body):
    """A file that goes with a piece; without a text, a name alone: a typical room, or `stockroom`."""

    name: Annotated[str, Field(min_length=1, max_length=200)]
    text: Text | None = None

    def attached(self) -> Attached:
        """As it is kept."""
        name = check_text(self.name, file="name")
        return Attached(name=name, text=None if self.text is None else check_text(self.text, file=name))

    @classmethod
    def of(cls, attached: Attached | None) -> AttachedBody | None:
        """As it is sent."""
        return None if attached is None else cls(name=attached.name, text=attached.text)


class ContentBody(Body):
    """Everything a piece is planned from: the piece file's text, parameters set apart, what goes with it."""

    piece: Text
    given: Annotated[dict[Word, Word], Field(max_length=200)] = {}
    shop: AttachedBody | None = None
    rack: AttachedBody | None = None
    room: AttachedBody | None = None
    bench: AttachedBody | None = None

    def content(self) -> Content:
        """As it is kept.

        Raises
        ------
        FileFaults
            ``file_empty``, ``file_too_big``, ``not_text``: what no file may be either. A text with any other
            fault is kept; it is told when it is planned.
        """
        for name, value in self.given.items():
            check_text(f"{name}={value}", file="given")
        return Content(
            piece=check_text(self.piece, file="piece.yaml"),
            given=dict(self.given),
            shop=None if self.shop is None else self.shop.attached(),
            rack=None if self.rack is None else self.rack.attached(),
            room=None if self.room is None else self.room.attached(),
            bench=None if self.bench is None else self.bench.attached(),
        )

    @classmethod
    def of(cls, content: Content) -> ContentBody:
        """As it is sent."""
        return cls(
            piece=content.piece,
            given=dict(content.given),
            shop=AttachedBody.of(content.shop),
            rack=AttachedBody.of(content.rack),
            room=AttachedBody.of(content.room),
            bench=AttachedBody.of(content.bench),
        )


class DraftBody(Body):
    """A text being written, held until the server stops, and what is wrong with it.

    Ask `/drafts/{draft}/api/shape`, `/api/plan`, `/api/scene.glb` and the others about it.
    """

    draft: str
    errors: list[FaultBody]


class FormBody(Body):
    """A form that comes with the program."""

    name: str
    title: str
    about: str


class FormList(Body):
    """The forms there are."""

    forms: list[FormBody]


class ClashBody(Body):
    """Lines two versions changed, each otherwise.

    `where` is piece, shop, rack, room, bench, or `given.NAME`; `line` counts in the text both began from.
    """

    where: str
    line: int
    old: list[str]
    theirs: list[str]
    yours: list[str]

    @classmethod
    def of(cls, found: ClashAt) -> ClashBody:
        """As it is sent."""
        clash = found.clash
        return cls(
            where=found.where,
            line=clash.line,
            old=list(clash.old),
            theirs=list(clash.theirs),
            yours=list(clash.yours),
        )


class MovedOnBody(RefusalBody):
    """A save made from a version that is not the current one any more: both, and the two brought together.

    `merged` holds both changes where they do not touch; save it, or `yours`, with `current` as its parent.
    For a step there is only `current`.
    """

    current: int
    old: ContentBody | None = None
    theirs: ContentBody | None = None
    yours: ContentBody | None = None
    merged: ContentBody | None = None
    clashes: list[ClashBody] = []


def moved_on_body(error: StaleParentError) -> dict[str, Any]:
    """What is told beside the fault."""
    merged = error.merged.content
    return {
        "old": _sent(error.old),
        "theirs": _sent(error.theirs),
        "yours": _sent(error.yours),
        "merged": None if merged is None else _sent(merged),
        "clashes": [ClashBody.of(found).model_dump(by_alias=True) for found in error.merged.clashes],
    }


def _sent(content: Content) -> dict[str, Any]:
    return ContentBody.of(content).model_dump(by_alias=True)


REFUSALS: dict[int | str, dict[str, Any]] = {
    404: {"model": RefusalBody, "description": "There is none."},
    422: {"model": RefusalBody, "description": "Everything wrong with what was asked."},
    503: {"model": RefusalBody, "description": "The records cannot be read or written just now."},
}
"""What any of the routes may refuse."""
MOVED: dict[int | str, dict[str, Any]] = {
    409: {
        "model": MovedOnBody,
        "description": "Another version is the current one, there is no step there, or the name is taken.",
    }
}
"""What a route that changes something kept may refuse besides."""
NOTHING_BACK: dict[int | str, dict[str, Any]] = {
    409: {"model": RefusalBody, "description": "Nothing is there to take back, or more was done since."}
}
"""What a route that takes back may refuse besides."""
