"""Shops and rooms as they are sent, and what is asked of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict
from datetime import datetime
from typing import Annotated, Literal

from pydantic import Field

from scantling.reading import Path, field_name
from scantling.reading.setting import Changed, Setting
from scantling.shop.profile.settings import Adding, Chapter, Section
from scantling.store.profiles import ProfileRecord, ProfileVersion
from scantling.web.sent.bodies import Body, Text, Word
from scantling.web.sent.numbers import Number

__all__ = [
    "AddingBody",
    "AirChange",
    "ChangedBody",
    "ChapterBody",
    "EntryNew",
    "EntryOut",
    "KnownRoom",
    "KnownRooms",
    "MachineChange",
    "ProfileBody",
    "ProfileChange",
    "ProfileList",
    "ProfileNew",
    "ProfileText",
    "ProfileVersionBody",
    "ProfileVersions",
    "RoomOpen",
    "RoomYearBody",
    "SectionBody",
    "SettingBody",
    "SettingChange",
    "SettingChanges",
    "ShopOpen",
    "chapter_body",
    "profile_body",
    "section_of",
    "setting_body",
]

_Step = Annotated[str, Field(max_length=200)] | Annotated[int, Field(ge=0, le=100_000)]
_Path = Annotated[list[_Step], Field(min_length=1, max_length=6)]


class ProfileBody(Body):
    """A shop or room on the list; `undo` and `redo` are the versions a step leads to."""

    number: int
    name: str
    version: int
    versions: int
    undo: int | None
    redo: int | None
    changed_at: datetime
    put_away: bool


class ProfileList(Body):
    """Shops or rooms by name."""

    kept: list[ProfileBody]


class ProfileNew(Body):
    """One to begin: from a text, as a copy of another, or of a room that is known by name.

    With none of them a shop begins at the defaults, a room as the usual one. Without a name it takes that in
    its text, with a number where that is taken.
    """

    name: Word | None = None
    text: Text | None = None
    like: Number | None = None
    known: Word | None = None


class ProfileChange(Body):
    """What is to be otherwise; what is left out stays."""

    put_away: bool | None = None


class ProfileText(Body):
    """Its whole text, and the version it was made from."""

    text: Text
    parent: Number
    why: Annotated[str, Field(max_length=500)] = ""


class ProfileVersionBody(Body):
    """One version."""

    number: int
    parent: int | None
    made_at: datetime
    why: str
    current: bool

    @classmethod
    def of(cls, version: ProfileVersion, current: int) -> ProfileVersionBody:
        """As it is sent."""
        return cls(
            number=version.number,
            parent=version.parent,
            made_at=version.made_at,
            why=version.why,
            current=version.number == current,
        )


class ProfileVersions(Body):
    """Every version, the newest first."""

    versions: list[ProfileVersionBody]


class SettingBody(Body):
    """One setting: what holds if nothing is `written`, and where that `default` comes from.

    `field` is what faults call it; `kind` is quantity, number, text, list or choice; `unit` is that of a bare
    number.
    """

    path: list[str | int]
    field: str
    label: str
    about: str
    kind: str
    default: str
    needed: bool
    written: str | None
    line: int
    choices: list[str]
    unit: str


class SectionBody(Body):
    """Settings that belong together; `owned` is of machines, `entry` of what may be taken out of a list."""

    path: list[str | int]
    label: str
    about: str
    owned: bool | None
    entry: bool
    own: bool
    settings: list[SettingBody]


class AddingBody(Body):
    """A list that takes another entry; `named` says what it is called by, where it stands under a name."""

    path: list[str | int]
    label: str
    about: str
    named: str
    known: list[str]
    settings: list[SettingBody]


class ChapterBody(Body):
    """A chapter of a shop profile."""

    name: str
    title: str
    about: str
    sections: list[SectionBody]
    adding: list[AddingBody]


class ShopOpen(Body):
    """A shop with its file and its settings."""

    profile: ProfileBody
    text: str
    chapters: list[ChapterBody]


class RoomYearBody(Body):
    """The year of a room: rows of month, air, humidity and moisture of the wood, as shown, and a drawing."""

    title: str
    about: str
    words: str
    picture: str
    months: list[tuple[str, str, str, str]]
    notes: list[str]


class RoomOpen(Body):
    """A room with its file, its figures and its year; `kind` says how its air is known."""

    profile: ProfileBody
    text: str
    kind: str
    kinds: list[tuple[str, str]]
    sections: list[SectionBody]
    year: RoomYearBody


class KnownRoom(Body):
    """A room known by its name; between which moistures its wood goes. [%]"""

    name: str
    title: str
    about: str
    driest_pct: float
    wettest_pct: float


class KnownRooms(Body):
    """Typical rooms, and heated houses in the towns of the table."""

    typical: list[KnownRoom]
    towns: list[KnownRoom]


class SettingChange(Body):
    """A setting as typed; nothing puts the default back."""

    path: _Path
    text: Word


class SettingChanges(Body):
    """Settings to be written otherwise, all or none."""

    changes: Annotated[list[SettingChange], Field(min_length=1, max_length=300)]
    parent: Number


class MachineChange(Body):
    """Whether a machine is in the shop."""

    machine: Word
    owned: bool
    parent: Number


class EntryNew(Body):
    """An entry for one of the lists: what is typed, by the keys of the file."""

    path: _Path
    name: Word = ""
    fields: Annotated[dict[Word, Word], Field(max_length=40)]
    parent: Number


class EntryOut(Body):
    """An entry to be taken out of its list."""

    path: _Path
    parent: Number


class AirChange(Body):
    """How the air of a room is to be known; a town where that is asked for."""

    kind: Literal["range", "months", "moisture", "climate"]
    place: Word = ""
    parent: Number


class ChangedBody(Body):
    """A setting that two have otherwise."""

    label: str
    then: str
    now: str

    @classmethod
    def of(cls, change: Changed) -> ChangedBody:
        """As it is sent."""
        return cls(**asdict(change))


def profile_body(profile: ProfileRecord) -> ProfileBody:
    """A shop or room as it is sent."""
    return ProfileBody(
        number=profile.number,
        name=profile.name,
        version=profile.current,
        versions=profile.versions,
        undo=profile.undo,
        redo=profile.redo,
        changed_at=profile.changed_at,
        put_away=profile.put_away_at is not None,
    )


def chapter_body(chapter: Chapter) -> ChapterBody:
    """A chapter as it is sent."""
    return ChapterBody(
        name=chapter.name,
        title=chapter.title,
        about=chapter.about,
        sections=[_section(section) for section in chapter.sections],
        adding=[_adding(adding) for adding in chapter.adding],
    )


def setting_body(setting: Setting) -> SettingBody:
    """A setting as it is sent."""
    return SettingBody(
        path=list(setting.path),
        field=field_name(setting.path),
        label=setting.label,
        about=setting.about,
        kind=setting.kind.value,
        default=setting.default,
        needed=setting.needed,
        written=setting.written,
        line=setting.line,
        choices=list(setting.choices),
        unit=setting.unit,
    )


def section_of(label: str, about: str, settings: Iterable[Setting], path: Path = ()) -> SectionBody:
    """Settings that belong together, of what is no list."""
    return SectionBody(
        path=list(path),
        label=label,
        about=about,
        owned=None,
        entry=False,
        own=False,
        settings=[setting_body(one) for one in settings],
    )


def _section(section: Section) -> SectionBody:
    made = section_of(section.label, section.about, section.settings, section.path)
    return made.model_copy(update={"owned": section.owned, "entry": section.entry, "own": section.own})


def _adding(adding: Adding) -> AddingBody:
    return AddingBody(
        path=list(adding.path),
        label=adding.label,
        about=adding.about,
        named=adding.named,
        known=list(adding.known),
        settings=[setting_body(one) for one in adding.settings],
    )
