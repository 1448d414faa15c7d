"""A version saved over another's head: both are told, and brought together where they do not touch."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from scantling.errors import InputError
from scantling.store.content import BESIDE, Attached, Content
from scantling.store.merging import Clash, merge_texts

__all__ = ["ClashAt", "Merged", "MovedOnError", "StaleParentError", "merge_contents"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ClashAt:
    """Lines two versions changed, each otherwise.

    Parameters
    ----------
    where
        ``piece``, ``shop``, ``rack``, ``room``, ``bench``, or ``given.width`` for a parameter.
    """

    where: str
    clash: Clash


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """Two versions brought together; no content where they clash."""

    content: Content | None
    clashes: tuple[ClashAt, ...] = ()


class MovedOnError(InputError):
    """Another version is the current one.

    Parameters
    ----------
    parent
        The version that was thought to be current.
    current
        The one that is.
    """

    def __init__(self, *, parent: int, current: int, remedy: str) -> None:
        super().__init__(
            code="moved_on",
            field="parent",
            value=f"version {parent}",
            rule=f"must be the current version, which is {current}",
            remedy=remedy,
        )
        self.parent, self.current = parent, current


class StaleParentError(MovedOnError):
    """A save that would have passed over another.

    Parameters
    ----------
    parent, current
        As in :class:`MovedOnError`.
    old, theirs, yours
        What was begun from, what is kept now, and what was to be saved; nothing of it is lost.
    merged
        A proposal; saved with the current version as its parent, it keeps both changes.
    """

    def __init__(
        self, *, parent: int, current: int, old: Content, theirs: Content, yours: Content, merged: Merged
    ) -> None:
        remedy = (
            "The two changes do not touch: save the proposal that holds both, or one of the two."
            if merged.content is not None
            else "Both changed the same lines: choose for each which to keep, and save that."
        )
        super().__init__(parent=parent, current=current, remedy=remedy)
        self.old, self.theirs, self.yours, self.merged = old, theirs, yours, merged


def merge_contents(old: Content, theirs: Content, yours: Content) -> Merged:
    """Bring two versions together: texts line by line, parameters and names one by one.

    Parameters
    ----------
    old, theirs, yours
        What both began from, and what each made of it.
    """
    piece = merge_texts(old.piece, theirs.piece, yours.piece)
    clashes = [ClashAt(where="piece", clash=clash) for clash in piece.clashes]
    beside: dict[str, Attached | None] = {}
    for name in BESIDE:
        beside[name] = _attached(name, old.beside(name), theirs.beside(name), yours.beside(name), clashes)
    given = _given(old.given, theirs.given, yours.given, clashes)
    if clashes or piece.text is None:
        return Merged(content=None, clashes=tuple(clashes))
    return Merged(content=Content(piece=piece.text, given=given, **beside))


def _attached(
    name: str, old: Attached | None, theirs: Attached | None, yours: Attached | None, clashes: list[ClashAt]
) -> Attached | None:
    if theirs == yours or yours == old:
        return theirs
    if theirs == old:
        return yours
    both = [one for one in (old, theirs, yours) if one is not None and one.text is not None]
    if len(both) < 3 or len({one.name for one in both}) > 1:
        told = [(one.name,) if one is not None else () for one in (old, theirs, yours)]
        clashes.append(ClashAt(where=name, clash=Clash(line=1, old=told[0], theirs=told[1], yours=told[2])))
        return theirs
    merged = merge_texts(*(str(one.text) for one in both))
    clashes += [ClashAt(where=name, clash=clash) for clash in merged.clashes]
    return replace(both[1], text=merged.text)


def _given(
    old: Mapping[str, str], theirs: Mapping[str, str], yours: Mapping[str, str], clashes: list[ClashAt]
) -> dict[str, str]:
    kept: dict[str, str] = {}
    for name in dict.fromkeys([*old, *theirs, *yours]):
        values = [side.get(name) for side in (old, theirs, yours)]
        before, one, other = values
        if one != other and before not in {one, other}:
            told = [() if value is None else (value,) for value in values]
            clash = Clash(line=0, old=told[0], theirs=told[1], yours=told[2])
            clashes.append(ClashAt(where=f"given.{name}", clash=clash))
        value = other if one == before else one
        if value is not None:
            kept[name] = value
    return kept
