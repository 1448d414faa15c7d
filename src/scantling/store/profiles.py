"""Shops and rooms kept under names: their texts in versions, gone back and forth along as a piece's are.

A piece holds a copy of the text it is planned with. Which kept shop that is, and in which of its versions, is
told by the text itself, so nothing has to be kept beside it. Whichever way it comes to a text with another
name in it, a shop or room is called so.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select, update

from scantling.errors import InputError
from scantling.store.pieces import bounded
from scantling.store.stale import MovedOnError
from scantling.store.tables import PROFILE_VERSIONS, PROFILES
from scantling.store.texts import keep_text, text_at, text_key
from scantling.store.titles import named_anew

__all__ = [
    "ProfileKind",
    "ProfileRecord",
    "ProfileVersion",
    "begin_profile",
    "find_profile",
    "list_profile_versions",
    "list_profiles",
    "profile_of_text",
    "profile_text",
    "put_away_profile",
    "redo_profile",
    "restore_profile",
    "save_profile",
    "spare_profile_name",
    "take_out_profile",
    "undo_profile",
]

_LONGEST_NAME, _LONGEST_WHY, _NUMBERS = 190, 500, 2**31
"""Characters, characters, and a number no database counts as far as. [1]"""


class ProfileKind(StrEnum):
    """What is kept."""

    SHOP = "shop"
    ROOM = "room"

    @property
    def name_field(self) -> str:
        """The field of its file that says what it is called."""
        return "name" if self is ProfileKind.SHOP else "room"


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileRecord:
    """A shop or room as it is kept.

    Parameters
    ----------
    number
        Its number, never given to another.
    current
        Number of the version it is at.
    undo, redo
        Versions a step back and a step forward lead to; None where there is none.
    versions
        How many there are.
    put_away_at
        When it was put away; None for one on the list.
    """

    number: int
    kind: ProfileKind
    name: str
    begun_at: datetime
    changed_at: datetime
    current: int
    undo: int | None
    redo: int | None
    versions: int
    put_away_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ProfileVersion:
    """One version, and what it was made for."""

    number: int
    parent: int | None
    made_at: datetime
    why: str


def list_profiles(
    records: Connection, kind: ProfileKind, *, put_away: bool = False
) -> tuple[ProfileRecord, ...]:
    """The shops or rooms by name; those put away are another list."""
    kept = PROFILES.c.put_away_at.is_not(None) if put_away else PROFILES.c.put_away_at.is_(None)
    rows = records.execute(_PROFILES.where(PROFILES.c.kind == kind.value, kept).order_by(PROFILES.c.id))
    return tuple(sorted(map(_profile, rows), key=lambda one: (one.name.casefold(), one.number)))


def find_profile(records: Connection, kind: ProfileKind, number: int) -> ProfileRecord:
    """One of them; raises InputError ``unknown_profile``."""
    asked = number if 0 < number < _NUMBERS else 0
    row = records.execute(
        _PROFILES.where(PROFILES.c.id == asked, PROFILES.c.kind == kind.value)
    ).one_or_none()
    if row is None:
        raise InputError(
            code="unknown_profile",
            field=kind.value,
            value=str(number),
            rule=f"must be the number of a {kind.value} that is kept",
            remedy=f"Look at the list of {kind.value}s.",
        )
    return _profile(row)


def profile_text(records: Connection, kind: ProfileKind, number: int, version: int | None = None) -> str:
    """The text of a version, the current one if left out; ``unknown_profile``, ``unknown_version``."""
    profile = find_profile(records, kind, number)
    return _text(records, profile, version or profile.current)


def profile_of_text(
    records: Connection, kind: ProfileKind, text: str, *, name: str = ""
) -> tuple[ProfileRecord, int] | None:
    """The kept shop or room that has, or once had, this text, with its last version of it; None if none has.

    Parameters
    ----------
    name
        What it is called where the text is; of several with the text the one called so goes before.
    """
    rows = records.execute(
        select(PROFILE_VERSIONS.c.profile_id, func.max(PROFILE_VERSIONS.c.number))
        .join(PROFILES, PROFILES.c.id == PROFILE_VERSIONS.c.profile_id)
        .where(PROFILE_VERSIONS.c.text == text_key(text), PROFILES.c.kind == kind.value)
        .group_by(PROFILE_VERSIONS.c.profile_id)
    )
    found = [(find_profile(records, kind, number), int(version)) for number, version in rows]
    for profile, version in found:
        if _text(records, profile, profile.current) == text:
            found[found.index((profile, version))] = (profile, profile.current)
    order = sorted(
        found,
        key=lambda one: (
            one[0].name != name,
            one[0].put_away_at is not None,
            one[1] != one[0].current,
            -one[0].number,
        ),
    )
    return order[0] if order else None


def begin_profile(
    records: Connection, kind: ProfileKind, name: str, text: str, *, now: datetime, why: str = "Begun"
) -> ProfileRecord:
    """Keep a new one with its first version; ``name_taken``, ``name_missing``, ``too_long``.

    Parameters
    ----------
    records
        A transaction that writes.
    name
        What it is called; no other of its kind may be.
    text
        Its file.
    """
    called = _free_name(records, kind, name)
    values = {"kind": kind.value, "name": called, "begun_at": now, "changed_at": now, "current": 1}
    (number,) = records.execute(insert(PROFILES).values(**values)).inserted_primary_key or (0,)
    _add(records, number, text, why=why, now=now, number=1, parent=None)
    return find_profile(records, kind, number)


def save_profile(
    records: Connection, profile: ProfileRecord, text: str, *, parent: int, now: datetime, why: str = ""
) -> ProfileRecord:
    """Keep a new version made from the current one; a text that is as it was makes none.

    Parameters
    ----------
    parent
        The version it was made from; raises MovedOnError where another is the current one.

    Raises
    ------
    InputError
        ``name_taken`` where it has another name in it, and that is another's.
    """
    profile = _unmoved(records, profile, parent)
    if name := named_anew(_text(records, profile, profile.current), text, profile.kind.name_field):
        _refuse_taken(records, profile.kind, name, number=profile.number)
    return _step(records, profile, text, why=why, now=now)


def restore_profile(
    records: Connection, profile: ProfileRecord, version: int, *, parent: int, now: datetime
) -> ProfileRecord:
    """Bring an older version back, as a new one; ``unknown_version``, ``moved_on``."""
    text = _text(records, profile, version)
    profile = _unmoved(records, profile, parent)
    return _step(records, profile, text, why=f"Version {version} again", now=now)


def undo_profile(records: Connection, profile: ProfileRecord, *, parent: int, now: datetime) -> ProfileRecord:
    """Go back to the version the current one was made from; ``nothing_to_undo``, ``moved_on``."""
    profile = _unmoved(records, profile, parent)
    if profile.undo is None:
        raise _end("nothing_to_undo", profile, "must have a version before it", "It is at its first version.")
    back = (PROFILE_VERSIONS.c.profile_id == profile.number) & (PROFILE_VERSIONS.c.number == profile.undo)
    records.execute(update(PROFILE_VERSIONS).where(back).values(forward=profile.current))
    return _at(records, profile, profile.undo, now)


def redo_profile(records: Connection, profile: ProfileRecord, *, parent: int, now: datetime) -> ProfileRecord:
    """Go forward again to where an undo came from; ``nothing_to_redo``, ``moved_on``."""
    profile = _unmoved(records, profile, parent)
    if profile.redo is None:
        raise _end("nothing_to_redo", profile, "must have been gone back from", "Nothing was undone here.")
    return _at(records, profile, profile.redo, now)


def list_profile_versions(records: Connection, profile: ProfileRecord) -> tuple[ProfileVersion, ...]:
    """Every version, the newest first."""
    rows = records.execute(
        select(PROFILE_VERSIONS)
        .where(PROFILE_VERSIONS.c.profile_id == profile.number)
        .order_by(PROFILE_VERSIONS.c.number.desc())
    )
    return tuple(
        ProfileVersion(number=row.number, parent=row.parent, made_at=row.made_at, why=row.why) for row in rows
    )


def put_away_profile(records: Connection, profile: ProfileRecord, *, now: datetime) -> ProfileRecord:
    """Take it off the list; everything of it stays, and pieces keep their copies."""
    records.execute(update(PROFILES).where(PROFILES.c.id == profile.number).values(put_away_at=now))
    return find_profile(records, profile.kind, profile.number)


def take_out_profile(records: Connection, profile: ProfileRecord) -> ProfileRecord:
    """Put it back on the list."""
    records.execute(update(PROFILES).where(PROFILES.c.id == profile.number).values(put_away_at=None))
    return find_profile(records, profile.kind, profile.number)


def spare_profile_name(records: Connection, kind: ProfileKind, name: str, *, number: int = 0) -> str:
    """The name, with a number behind it where another of its kind has it than the one of that number."""
    others = (PROFILES.c.kind == kind.value) & (PROFILES.c.id != number)
    taken = set(records.execute(select(PROFILES.c.name).where(others)).scalars())
    numbered = (f"{name} {number}" for number in range(2, len(taken) + 3))
    return next(one for one in (name, *numbered) if one not in taken)


def _free_name(records: Connection, kind: ProfileKind, name: str) -> str:
    name = bounded(" ".join(name.split()), "name", _LONGEST_NAME)
    if not name:
        raise InputError(
            code="name_missing",
            field="name",
            value="nothing",
            rule="must say something",
            remedy=f"Call the {kind.value} what you would call it.",
        )
    _refuse_taken(records, kind, name)
    return name


def _refuse_taken(records: Connection, kind: ProfileKind, name: str, *, number: int = 0) -> None:
    if name != (spare := spare_profile_name(records, kind, name, number=number)):
        raise InputError(
            code="name_taken",
            field="name",
            value=name,
            rule=f"must be the name of no other {kind.value}, one put away included",
            remedy=f"Call it {spare}, or put a word to it.",
        )


_COUNT = (
    select(func.count())
    .where(PROFILE_VERSIONS.c.profile_id == PROFILES.c.id)
    .correlate(PROFILES)
    .scalar_subquery()
)
_PROFILES = select(
    PROFILES, PROFILE_VERSIONS.c.parent, PROFILE_VERSIONS.c.forward, _COUNT.label("versions")
).join(
    PROFILE_VERSIONS,
    (PROFILE_VERSIONS.c.profile_id == PROFILES.c.id) & (PROFILE_VERSIONS.c.number == PROFILES.c.current),
)


def _profile(row: Row[Any]) -> ProfileRecord:
    return ProfileRecord(
        number=row.id,
        kind=ProfileKind(row.kind),
        name=row.name,
        begun_at=row.begun_at,
        changed_at=row.changed_at,
        current=row.current,
        undo=row.parent,
        redo=row.forward,
        versions=row.versions,
        put_away_at=row.put_away_at,
    )


def _add(
    records: Connection, profile: int, text: str, *, why: str, now: datetime, **links: int | None
) -> None:
    told = bounded(why.strip(), "why", _LONGEST_WHY)
    values = {"profile_id": profile, "made_at": now, "why": told, "text": keep_text(records, text)}
    records.execute(insert(PROFILE_VERSIONS).values(**values, **links))


def _step(
    records: Connection, profile: ProfileRecord, text: str, *, why: str, now: datetime
) -> ProfileRecord:
    """Add a version after the current one and go there, unless the text is as it is."""
    if _text(records, profile, profile.current) == text:
        return profile
    greatest = select(func.max(PROFILE_VERSIONS.c.number)).where(
        PROFILE_VERSIONS.c.profile_id == profile.number
    )
    number = int(records.execute(greatest).scalar_one()) + 1
    _add(records, profile.number, text, why=why, now=now, number=number, parent=profile.current)
    return _at(records, profile, number, now)


def _at(records: Connection, profile: ProfileRecord, number: int, now: datetime) -> ProfileRecord:
    """Make a version the current one; where it has another name in it, call it so."""
    before, after = (_text(records, profile, n) for n in (profile.current, number))
    told = named_anew(before, after, profile.kind.name_field)
    name = spare_profile_name(records, profile.kind, told, number=profile.number) if told else profile.name
    values = {"current": number, "changed_at": now, "name": name}
    records.execute(update(PROFILES).where(PROFILES.c.id == profile.number).values(**values))
    return find_profile(records, profile.kind, profile.number)


def _unmoved(records: Connection, profile: ProfileRecord, parent: int) -> ProfileRecord:
    """It as it is now, which nobody else changes until the transaction ends."""
    records.execute(select(PROFILES.c.id).where(PROFILES.c.id == profile.number).with_for_update())
    profile = find_profile(records, profile.kind, profile.number)
    if parent != profile.current:
        remedy = "It was changed elsewhere meanwhile: look at it as it is now."
        raise MovedOnError(parent=parent, current=profile.current, remedy=remedy)
    return profile


def _text(records: Connection, profile: ProfileRecord, number: int) -> str:
    return text_at(records, str(_row(records, profile, number).text))


def _row(records: Connection, profile: ProfileRecord, number: int) -> Row[Any]:
    asked = number if 0 < number < _NUMBERS else 0
    row = records.execute(
        select(PROFILE_VERSIONS).where(
            PROFILE_VERSIONS.c.profile_id == profile.number, PROFILE_VERSIONS.c.number == asked
        )
    ).one_or_none()
    if row is None:
        raise InputError(
            code="unknown_version",
            field="version",
            value=str(number),
            rule=f"must be the number of a version of this {profile.kind.value}",
            remedy="Look at the list of its versions.",
        )
    return row


def _end(code: str, profile: ProfileRecord, rule: str, remedy: str) -> InputError:
    return InputError(
        code=code, field="version", value=f"version {profile.current}", rule=rule, remedy=remedy
    )
