"""What is asked of kept shops and kept rooms alike: the list, versions, steps, the file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Annotated, Any, Generic, TypeVar

from fastapi import APIRouter, Query, Response

from scantling.errors import FileFaults
from scantling.papers.exports import file_stem
from scantling.reading.limits import check_text
from scantling.store.profiles import (
    ProfileKind,
    ProfileRecord,
    begin_profile,
    find_profile,
    list_profile_versions,
    list_profiles,
    profile_text,
    put_away_profile,
    redo_profile,
    restore_profile,
    save_profile,
    spare_profile_name,
    take_out_profile,
    undo_profile,
)
from scantling.store.titles import with_name
from scantling.web.kept.desk import Desk
from scantling.web.sent.bodies import MOVED, Body
from scantling.web.sent.numbers import ProfileNumber
from scantling.web.sent.piece_bodies import Restoring, Stepping
from scantling.web.sent.profile_bodies import (
    ProfileBody,
    ProfileChange,
    ProfileList,
    ProfileNew,
    ProfileText,
    ProfileVersionBody,
    ProfileVersions,
    profile_body,
)

__all__ = ["Profiles", "add_profile_routes"]

Opened = TypeVar("Opened", bound=Body)


class _File(Response):
    media_type = "application/yaml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Profiles(Generic[Opened]):
    """The shops, or the rooms, that are kept.

    Parameters
    ----------
    desk
        Where they are kept.
    begun
        The text one begins with, from what was asked.
    name_in
        The name in a text, which raises FileFaults for one that cannot be read: none such is kept.
    opened
        One as it is sent, with its text.
    """

    desk: Desk
    kind: ProfileKind
    body: type[Opened]
    begun: Callable[[ProfileNew], str]
    name_in: Callable[[str], str]
    opened: Callable[[ProfileRecord, str], Opened]

    def open(self, number: int) -> Opened:
        """One as it is kept."""
        with self.desk.reading() as records:
            profile = find_profile(records, self.kind, number)
            return self.opened(profile, profile_text(records, self.kind, number))

    def begin(self, new: ProfileNew) -> Opened:
        """Keep a new one."""
        with self.desk.reading() as records:
            text = profile_text(records, self.kind, new.like) if new.like is not None else None
        text = check_text(self.begun(new) if text is None else text, file=f"{self.kind.value}.yaml")
        named = self.name_in(text)
        with self.desk.writing() as records:
            name = new.name if new.name is not None else spare_profile_name(records, self.kind, named)
            called = self._called(text, " ".join(name.split()))
            profile = begin_profile(records, self.kind, name, called, now=self.desk.now())
        return self.open(profile.number)

    def edit(self, number: int, parent: int, why: str, edit: Callable[[str], str]) -> Opened:
        """Keep the edited text as the next version; one that cannot be read is refused and not kept."""
        with self.desk.reading() as records:
            text = edit(profile_text(records, self.kind, number, parent))
        self.name_in(text)
        with self.desk.writing() as records:
            profile = find_profile(records, self.kind, number)
            save_profile(records, profile, text, parent=parent, now=self.desk.now(), why=why[:200])
        return self.open(number)

    def _called(self, text: str, name: str) -> str:
        """The text with the name it is kept under in it, which papers say; as it is where it is too long."""
        if not name or name == self.name_in(text):
            return text
        called = with_name(text, self.kind.name_field, name)
        try:
            self.name_in(called)
        except FileFaults:
            return text
        return called


def add_profile_routes(routes: APIRouter, kept: Profiles[Opened]) -> None:
    """Add the routes of the list, of steps and of the file.

    Parameters
    ----------
    routes
        Those of their kind.
    kept
        The shops, or the rooms.
    """
    _listing(routes, kept)
    _stepping(routes, kept)


def _listing(routes: APIRouter, kept: Profiles[Opened]) -> None:
    desk, kind = kept.desk, kept.kind

    @routes.get("")
    def list_kept(away: Annotated[bool, Query(alias="putAway")] = False) -> ProfileList:
        """Those that are kept, by name; those put away are a list of their own."""
        with desk.reading() as records:
            listed = list_profiles(records, kind, put_away=away)
        return ProfileList(kept=[profile_body(profile) for profile in listed])

    @routes.post("", status_code=201, response_model=kept.body, responses=MOVED)
    def begin(new: ProfileNew) -> Any:
        """Begin one; a text with faults is refused with all of them, and not kept."""
        return kept.begin(new)

    @routes.get("/{number}", response_model=kept.body)
    def open_kept(number: ProfileNumber) -> Any:
        """One with its file and all that can be set in it."""
        return kept.open(number)

    @routes.patch("/{number}")
    def change(number: ProfileNumber, change: ProfileChange) -> ProfileBody:
        """Put it away, or take it out again; pieces keep the copies they are planned with."""
        with desk.writing() as records:
            profile = find_profile(records, kind, number)
            if change.put_away is not None and change.put_away:
                profile = put_away_profile(records, profile, now=desk.now())
            elif change.put_away is not None:
                profile = take_out_profile(records, profile)
        return profile_body(profile)

    @routes.get("/{number}/file", response_class=_File)
    def take_file(number: ProfileNumber) -> Response:
        """Its file, as it was written, to take away."""
        with desk.reading() as records:
            profile, text = find_profile(records, kind, number), profile_text(records, kind, number)
        name = f"{file_stem(profile.name)}.yaml"
        return _File(text, headers={"content-disposition": f'attachment; filename="{name}"'})


def _stepping(routes: APIRouter, kept: Profiles[Opened]) -> None:
    desk, kind = kept.desk, kept.kind

    @routes.post("/{number}/versions", status_code=201, response_model=kept.body, responses=MOVED)
    def save(number: ProfileNumber, new: ProfileText) -> Any:
        """Save its whole text; one with faults is refused with all of them, and not kept."""
        text = check_text(new.text, file=f"{kind.value}.yaml")
        return kept.edit(number, new.parent, new.why or "Written by hand", lambda _old: text)

    @routes.get("/{number}/versions")
    def list_versions(number: ProfileNumber) -> ProfileVersions:
        """All versions, the newest first."""
        with desk.reading() as records:
            profile = find_profile(records, kind, number)
            listed = list_profile_versions(records, profile)
        return ProfileVersions(
            versions=[ProfileVersionBody.of(version, profile.current) for version in listed]
        )

    @routes.post("/{number}/undo", response_model=kept.body, responses=MOVED)
    def undo(number: ProfileNumber, step: Stepping) -> Any:
        """A step back."""
        with desk.writing() as records:
            profile = find_profile(records, kind, number)
            undo_profile(records, profile, parent=step.parent, now=desk.now())
        return kept.open(number)

    @routes.post("/{number}/redo", response_model=kept.body, responses=MOVED)
    def redo(number: ProfileNumber, step: Stepping) -> Any:
        """A step forth."""
        with desk.writing() as records:
            profile = find_profile(records, kind, number)
            redo_profile(records, profile, parent=step.parent, now=desk.now())
        return kept.open(number)

    @routes.post("/{number}/restore", status_code=201, response_model=kept.body, responses=MOVED)
    def restore(number: ProfileNumber, restoring: Restoring) -> Any:
        """An older version again, as a new one."""
        with desk.writing() as records:
            profile = find_profile(records, kind, number)
            restore_profile(records, profile, restoring.version, parent=restoring.parent, now=desk.now())
        return kept.open(number)
