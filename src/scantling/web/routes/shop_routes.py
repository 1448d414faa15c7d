"""Shops that are kept: their settings by chapters, changed one by one."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter

from scantling.errors import InputError
from scantling.reading import Path, field_name
from scantling.reading.nodes import source_of
from scantling.shop.profile.profile_file import parse_shop
from scantling.shop.profile.profile_text import with_entry, with_machine, with_settings, without_entry
from scantling.shop.profile.settings import shop_chapters
from scantling.store.profiles import ProfileKind, ProfileRecord
from scantling.web.kept.desk import Desk
from scantling.web.routes.profile_routes import Profiles, add_profile_routes
from scantling.web.sent.bodies import MOVED, REFUSALS
from scantling.web.sent.numbers import ProfileNumber
from scantling.web.sent.profile_bodies import (
    EntryNew,
    EntryOut,
    MachineChange,
    ProfileNew,
    SettingChanges,
    ShopOpen,
    chapter_body,
    profile_body,
)

__all__ = ["shop_routes"]


def shop_routes(desk: Desk) -> APIRouter:
    """The routes.

    Parameters
    ----------
    desk
        Where they are kept.
    """
    kept = Profiles(
        desk=desk,
        kind=ProfileKind.SHOP,
        body=ShopOpen,
        begun=_begun,
        name_in=lambda text: parse_shop(text, file="shop.yaml").name.strip() or "Shop",
        opened=_opened,
    )
    routes = APIRouter(prefix="/shops", tags=["shops"], responses=REFUSALS)
    add_profile_routes(routes, kept)
    _changing(routes, kept)
    return routes


def _changing(routes: APIRouter, kept: Profiles[ShopOpen]) -> None:
    @routes.post("/{number}/settings", status_code=201, response_model=ShopOpen, responses=MOVED)
    def change_settings(number: ProfileNumber, asked: SettingChanges) -> Any:
        """Write settings otherwise, all or none; what the file may not hold is told, each at its field."""
        changes: dict[Path, str] = {tuple(change.path): change.text for change in asked.changes}
        why = "; ".join(f"{field_name(path)}: {text.strip() or 'default'}" for path, text in changes.items())
        return kept.edit(number, asked.parent, why, lambda text: with_settings(text, changes))

    @routes.post("/{number}/machines", status_code=201, response_model=ShopOpen, responses=MOVED)
    def change_machine(number: ProfileNumber, asked: MachineChange) -> Any:
        """Say that a machine is in the shop, or is not."""
        words = asked.machine.replace("_", " ")
        why = f"{'With' if asked.owned else 'Without'} {words}"
        return kept.edit(
            number, asked.parent, why, lambda text: with_machine(text, asked.machine, owned=asked.owned)
        )

    @routes.post("/{number}/entries", status_code=201, response_model=ShopOpen, responses=MOVED)
    def add_entry(number: ProfileNumber, asked: EntryNew) -> Any:
        """Add clamps, a glue, a price."""
        path = tuple(asked.path)
        why = f"More {field_name(path)}: {asked.name or ' '.join(asked.fields.values())}"
        return kept.edit(
            number, asked.parent, why, lambda text: with_entry(text, path, asked.fields, name=asked.name)
        )

    @routes.post("/{number}/entries/remove", status_code=201, response_model=ShopOpen, responses=MOVED)
    def take_out(number: ProfileNumber, asked: EntryOut) -> Any:
        """Take an entry out of its list."""
        path = tuple(asked.path)
        if len(path) < 2 or path[0] not in {"clamps", "glues", "finishes", "abrasives", "rates"}:
            raise InputError(
                code="unknown_setting",
                field=field_name(path),
                value=field_name(path)[:80],
                rule="must be an entry of a list",
                remedy="Look at the shop as it is now.",
            )
        why = f"Without {field_name(path)}"
        return kept.edit(number, asked.parent, why, lambda text: without_entry(text, path))


def _begun(new: ProfileNew) -> str:
    if new.known is not None:
        raise InputError(
            code="unknown_profile",
            field="known",
            value=new.known[:80],
            rule="must be left out: only rooms are known by name",
            remedy="Begin a shop from a text, or as a copy of another.",
        )
    if new.text is not None:
        return new.text
    return f"name: {source_of(new.name or 'My shop', text=True)}\n"


def _opened(profile: ProfileRecord, text: str) -> ShopOpen:
    return ShopOpen(
        profile=profile_body(profile),
        text=text,
        chapters=[chapter_body(chapter) for chapter in shop_chapters(text)],
    )
