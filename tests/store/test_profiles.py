"""Shops and rooms keep every version; a piece's copy is known by its text."""

from __future__ import annotations

import pytest

from scantling.errors import InputError
from scantling.store.database import Database
from scantling.store.profiles import (
    ProfileKind,
    ProfileRecord,
    begin_profile,
    find_profile,
    list_profile_versions,
    list_profiles,
    profile_of_text,
    profile_text,
    put_away_profile,
    redo_profile,
    restore_profile,
    save_profile,
    take_out_profile,
    undo_profile,
)
from scantling.store.stale import MovedOnError
from tests.store.clock import Clock

SHOP, ROOM = ProfileKind.SHOP, ProfileKind.ROOM


def _begun(database: Database, clock: Clock, *texts: str, name: str = "Mine") -> ProfileRecord:
    """A shop with a version for each text."""
    with database.writing() as records:
        profile = begin_profile(records, SHOP, name, texts[0], now=clock())
        for text in texts[1:]:
            profile = save_profile(
                records, profile, text, parent=profile.current, now=clock(), why=f"Now {text}"
            )
    return profile


def test_every_version_is_kept_and_steps_go_back_and_forth(database: Database) -> None:
    """Undo to the first, redo to the last, a save from the middle, and an old one brought back."""
    clock = Clock()
    profile = _begun(database, clock, "name: a # ü\n", "name: b\n", "name: c\n")
    with database.writing() as records:
        for wanted in ("name: b\n", "name: a # ü\n"):
            profile = undo_profile(records, profile, parent=profile.current, now=clock())
            assert profile_text(records, SHOP, profile.number) == wanted
        with pytest.raises(InputError, match="must have a version before it"):
            undo_profile(records, profile, parent=profile.current, now=clock())
        profile = redo_profile(records, profile, parent=profile.current, now=clock())
        assert (profile.current, profile.redo) == (2, 3)
        profile = save_profile(records, profile, "name: d\n", parent=2, now=clock())
        assert (profile.current, profile.undo, profile.versions) == (4, 2, 4)
        profile = restore_profile(records, profile, 3, parent=4, now=clock())
        assert profile_text(records, SHOP, profile.number) == "name: c\n"
        assert list_profile_versions(records, profile)[0].why == "Version 3 again"
        assert save_profile(records, profile, "name: c\n", parent=5, now=clock()).current == 5


def test_it_is_called_as_its_text_says_whichever_way_it_comes_to_it(database: Database) -> None:
    """By a save, a step or an old version; a step to a name that is another's by now puts a number to it."""
    clock = Clock()
    profile = _begun(database, clock, "name: The barn\n", "name: The loft # now\n", name="The barn")
    other = _begun(database, clock, "name: x\n", name="The barn")
    with database.writing() as records:
        assert find_profile(records, SHOP, profile.number).name == "The loft"
        with pytest.raises(InputError) as refused:
            save_profile(records, other, "name: The loft\n", parent=1, now=clock())
        assert (refused.value.code, find_profile(records, SHOP, other.number).current) == ("name_taken", 1)
        profile = undo_profile(records, profile, parent=2, now=clock())
        assert profile.name == "The barn 2"
        profile = save_profile(records, profile, "name: The barn 2\n", parent=1, now=clock())
        profile = save_profile(records, profile, "glue: hide\n", parent=3, now=clock())
        assert profile.name == "The barn 2"
        profile = restore_profile(records, profile, 2, parent=4, now=clock())
        assert profile.name == "The loft"
        profile = undo_profile(records, profile, parent=5, now=clock())
        profile = undo_profile(records, profile, parent=4, now=clock())
        assert profile.name == "The barn 2"
        assert redo_profile(records, profile, parent=3, now=clock()).name == "The barn 2"


def test_nobody_saves_over_another(database: Database) -> None:
    """A save or a step from a version that is not the current one is refused with the current one."""
    clock = Clock()
    profile = _begun(database, clock, "name: a\n", "name: b\n")
    with database.writing() as records:
        for doing in (
            lambda: save_profile(records, profile, "name: x\n", parent=1, now=clock()),
            lambda: undo_profile(records, profile, parent=1, now=clock()),
        ):
            with pytest.raises(MovedOnError) as refused:
                doing()
            assert refused.value.current == 2
        assert profile_text(records, SHOP, profile.number) == "name: b\n"


def test_shops_and_rooms_have_names_of_their_own_kind(database: Database) -> None:
    """One name may be a shop's and a room's; two shops cannot have it."""
    clock = Clock()
    profile = _begun(database, clock, "name: a\n")
    with database.writing() as records:
        room = begin_profile(records, ROOM, "Mine", "room: x\n", now=clock())
        with pytest.raises(InputError, match="Call it Mine 2"):
            begin_profile(records, SHOP, " Mine ", "name: b\n", now=clock())
        with pytest.raises(InputError, match="must say something"):
            begin_profile(records, SHOP, "  ", "name: b\n", now=clock())
        assert [one.name for one in list_profiles(records, SHOP)] == [profile.name] == ["Mine"]
        assert [one.name for one in list_profiles(records, ROOM)] == ["Mine"]
        with pytest.raises(InputError) as refused:
            find_profile(records, SHOP, room.number)
        assert refused.value.code == "unknown_profile"


def test_put_away_it_is_off_the_list_and_comes_back_whole(database: Database) -> None:
    """Its text and its versions stay."""
    clock = Clock()
    profile = _begun(database, clock, "name: a\n", "name: b\n")
    with database.writing() as records:
        put_away_profile(records, profile, now=clock())
        assert list_profiles(records, SHOP) == ()
        (away,) = list_profiles(records, SHOP, put_away=True)
        assert away.put_away_at is not None
        assert profile_text(records, SHOP, profile.number, 1) == "name: a\n"
        take_out_profile(records, profile)
        assert [one.versions for one in list_profiles(records, SHOP)] == [2]


def test_a_text_tells_whose_copy_it_is_and_how_old(database: Database) -> None:
    """Any version of it; of two with the same text the one called so; none for a text nobody kept."""
    clock = Clock()
    mine = _begun(database, clock, "# a\n", "# b\n", "# a\n")
    other = _begun(database, clock, "# b\n", name="Other")
    with database.writing() as records:

        def told(text: str, name: str = "") -> tuple[str, int] | None:
            found = profile_of_text(records, SHOP, text, name=name)
            return None if found is None else (found[0].name, found[1])

        assert told("# a\n") == ("Mine", 3)
        assert told("# b\n") == ("Other", 1)
        assert told("# b\n", "Mine") == ("Mine", 2)
        assert told("# c\n") is None
        undo_profile(records, mine, parent=3, now=clock())
        assert told("# a\n", "Mine") == ("Mine", 3)
        assert profile_of_text(records, ROOM, "# a\n") is None
        put_away_profile(records, other, now=clock())
        assert told("# b\n") == ("Mine", 2)
