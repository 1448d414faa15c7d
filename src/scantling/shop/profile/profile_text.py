"""A shop profile changed as a form changes it: setting by setting, comments and all else left alone."""

from __future__ import annotations

from collections.abc import Mapping

from scantling.errors import InputError
from scantling.reading import Path, did_you_mean, field_name, parse_on
from scantling.reading.nodes import source_of
from scantling.reading.putting import appended, put, standing, taken_out
from scantling.reading.setting import Changed, Setting, differing, held_by, source_for
from scantling.shop.profile.clamps import USUAL_CLAMPS
from scantling.shop.profile.machines import USUAL_MACHINES, Machines
from scantling.shop.profile.settings import LISTS, shop_chapters
from scantling.shop.profile.surfacing import shipped_abrasives

__all__ = [
    "changes_between",
    "with_entry",
    "with_machine",
    "with_settings",
    "without_entry",
]

_MACHINES = ("machines",)
_KEPT: tuple[Path, ...] = (_MACHINES, *((*_MACHINES, name) for name in Machines.model_fields), ("clamps",))
"""Blocks that mean something empty: no machine is owned, nothing is said of this one, there is no clamp."""


def with_settings(text: str, changes: Mapping[Path, str]) -> str:
    r"""The profile with settings written otherwise.

    Parameters
    ----------
    changes
        What is typed, by path; nothing puts the default back.

    Raises
    ------
    InputError
        ``unknown_setting``; ``not_a_value`` where a file is so written that one place cannot change alone.
        Whether the values will do is told by :func:`scantling.shop.profile.profile_file.parse_shop`.

    Examples
    --------
    >>> with_settings("name: Mine # our own", {("yard", "widest_board"): "12 in"})
    'name: Mine # our own\nyard:\n  widest_board: 12 in\n'
    """
    for path, typed in changes.items():
        setting = _known(text, path)
        if typed.strip():
            text = _spelled_out(text, path)
            text = put(text, path, source_for(setting, typed))
        elif setting.written is not None:
            text = taken_out(text, path, keep=_KEPT)
    return text


def with_machine(text: str, name: str, *, owned: bool) -> str:
    """The profile with a machine the shop has, or has not; without it goes what was said of it.

    Raises
    ------
    InputError
        ``unknown_setting``.

    Examples
    --------
    >>> with_machine("machines: {planer: {}, lathe: {swing: 12 in}}", "lathe", owned=False)
    'machines: {planer: {}}'
    """
    path: Path = (*_MACHINES, name)
    if name not in Machines.model_fields:
        raise _unknown(path, list(Machines.model_fields))
    text = _spelled_out(text, path)
    machines = parse_on(text, file="shop").get(_MACHINES)
    there = isinstance(machines, dict) and machines.get(name) is not None
    if owned and not there:
        return put(text, path, "{}")
    if not owned and isinstance(machines, dict) and name in machines:
        return taken_out(text, path, keep=_KEPT)
    return text


def with_entry(text: str, path: Path, fields: Mapping[str, str], *, name: str = "") -> str:
    """The profile with one more entry in one of its lists.

    Parameters
    ----------
    path
        Of the list, such as ``("clamps",)``.
    fields
        What is typed, by the keys of the file; what is left empty is left out.
    name
        What a price is for, where the list is by name.

    Raises
    ------
    InputError
        ``unknown_setting``, ``name_missing``, ``name_twice``, ``not_a_value``.
    """
    text = _spelled_out(text, path)
    if path == ("rates", "hardware"):
        return put(text, (*path, _free(text, path, name)), source_of(fields.get("price", "").strip() or '""'))
    known = {str(one.path[-1]): one for one in _entry_settings(path)}
    for key in fields:
        if key not in known:
            raise _unknown((*path, key), list(known))
    written = {key: typed for key, typed in fields.items() if typed.strip()}
    value = f"{{{', '.join(f'{key}: {source_for(known[key], typed)}' for key, typed in written.items())}}}"
    if path == ("rates", "timber"):
        return put(text, (*path, _free(text, path, name)), value)
    return appended(text, path, value)


def without_entry(text: str, path: Path) -> str:
    """The profile without one entry of a list; raises InputError ``no_such_field``, ``not_a_value``."""
    return taken_out(_spelled_out(text, path), path, keep=_KEPT)


def changes_between(then: str, now: str) -> tuple[Changed, ...]:
    """The settings two profiles have otherwise, in the order of the chapters.

    Parameters
    ----------
    then, now
        Their texts.

    Raises
    ------
    FileFaults
        What keeps either from being read.
    """
    return differing(_all_of(then), _all_of(now))


def _all_of(text: str) -> dict[str, str]:
    """What holds for each setting, machine and entry, by its name with what it belongs to."""
    held: dict[str, str] = {}
    for chapter in shop_chapters(text):
        for section in chapter.sections:
            where = f"{section.label}: " if section.label else ""
            if section.owned is not None:
                held[section.label] = "here" if section.owned else "not here"
            for setting in section.settings:
                held[f"{where}{setting.label.lower() if where else setting.label}"] = held_by(setting)
    return held


def _known(text: str, path: Path) -> Setting:
    """The setting at a path; an entry of a list that stands for itself, or a machine's that is here."""
    found = [
        setting
        for chapter in shop_chapters(text)
        for section in chapter.sections
        for setting in section.settings
    ]
    for setting in found:
        if setting.path == path:
            return setting
    raise _unknown(path, [field_name(setting.path) for setting in found])


def _entry_settings(path: Path) -> tuple[Setting, ...]:
    if path not in LISTS:
        raise _unknown(path, [field_name(each) for each in LISTS])
    adding = [one for chapter in shop_chapters("name: x") for one in chapter.adding]
    return next(one.settings for one in adding if one.path == path)


def _spelled_out(text: str, path: Path) -> str:
    """The text with a section written out that holds while it is missing: one line of it would end that."""
    block = str(path[0])
    if block == _MACHINES[0] and not _has(text, block):
        usual = [name for name in Machines.model_fields if getattr(USUAL_MACHINES, name) is not None]
        for name in usual:
            text = put(text, (*_MACHINES, name), "{}")
    rows: list[str] = []
    if block == "clamps" and not _has(text, block):
        rows = [f"kind: {c.kind.value}, reach: {c.reach_mm:g} mm, count: {c.count}" for c in USUAL_CLAMPS]
    if block == "abrasives" and not _has(text, block):
        rows = [
            f"grit: {a.grit}, minutes_per_m2: {a.minutes_per_m2:g}, m2_per_sheet: {a.m2_per_sheet:g}"
            for a in shipped_abrasives()
        ]
    for row in rows:
        text = appended(text, (block,), f"{{{row}}}")
    return text


def _has(text: str, block: str) -> bool:
    data = parse_on(text, file="shop").data
    return isinstance(data, dict) and block in data and bool(data[block] or block != "abrasives")


def _free(text: str, path: Path, name: str) -> str:
    """A name for an entry, which none has yet."""
    if not name.strip():
        raise InputError(
            code="name_missing",
            field=field_name(path),
            value="nothing",
            rule="must be by name",
            remedy="Write what it is a price of.",
        )
    if any(one[: len(path) + 1] == (*path, name.strip()) for one in standing(text)):
        raise InputError(
            code="name_twice",
            field=field_name((*path, name.strip())),
            value=name.strip(),
            rule="must be a name that is not there yet",
            remedy="Change the price that is there.",
        )
    return name.strip()


def _unknown(path: Path, known: list[str]) -> InputError:
    name = field_name(path)
    return InputError(
        code="unknown_setting",
        field=name,
        value=name[:80],
        rule="must be a setting of a shop profile, of what is in it",
        remedy=did_you_mean(name, known) or "docs/shop-settings.md lists them.",
    )
