"""Names of a piece file as words: one naming for the page, the command line and the packet."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby

__all__ = ["joints_words", "knowing", "label_of", "listed", "names_of", "place_words", "plain_words"]

_SIDES = {"fl": "front left", "fr": "front right", "bl": "back left", "br": "back right", "mid": "middle"}
_SIDES |= {"l": "left", "r": "right", "f": "front", "b": "back"}
_FOUR = frozenset(_SIDES[each] for each in ("fl", "fr", "bl", "br"))
_WAYS = frozenset({"left", "right", "front", "back", "middle", "top", "bottom", "inner", "outer"})
_NAME = re.compile(r"\b[a-z][a-z0-9]*(?:_[a-z0-9]+)+\b")
_LIST = re.compile(r"\b[a-z][a-z0-9_]*(?:(?:, [a-z][a-z0-9_]*){2,}|(?: \+ [a-z][a-z0-9_]*){2,})")
_PLACES = re.compile(r", (?=\S+(?:,|/|$))")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """The names of one piece: each is read among its siblings, and a joint by its two parts."""

    parts: frozenset[str] = frozenset()
    joints: Mapping[str, str] = field(default_factory=dict)
    any: re.Pattern[str] | None = None
    entries: Mapping[str, list[str]] = field(default_factory=dict)
    """Joints by the entry they come from."""
    told: dict[str | tuple[str, ...], str] = field(default_factory=dict)
    """Sentences and lists of names lately put into words: the same parts and joints give the same words."""

    def joints_in(self, text: str) -> str:
        """A text with each joint's identity as words; one that may be a word of the language only alone."""
        if text in self.joints:
            return self.joints[text]
        return text if self.any is None else self.any.sub(lambda found: self.joints[found[1]], text)

    def once(self, names: str | tuple[str, ...], words: Callable[[], str]) -> str:
        """What is told of a sentence or of names, put into words when it is asked for first."""
        told = self.told.get(names)
        if told is None:
            told = words()
            if len(self.told) >= _MOST_TOLD:
                self.told.clear()
            self.told[names] = told
        return told


_MOST_TOLD = 4096
"""Sentences kept in words for one piece."""
_NOTHING = _Known()
_known: ContextVar[_Known] = ContextVar("known")


@contextmanager
def knowing(parts: Iterable[str], joints: Mapping[str, str] | None = None) -> Iterator[None]:
    """Read names as those of one piece, until the block ends.

    Parameters
    ----------
    parts
        Names of all parts.
    joints
        Identities of all joints, with their words.

    Examples
    --------
    >>> with knowing(["leg_a", "leg_b"], {"rail_to_leg.2": "rail (back end) to leg b"}):
    ...     label_of("leg_b"), plain_words("Close rail_to_leg.2.")
    ('Leg b', 'Close rail (back end) to leg b.')
    """
    mark = _known.set(_known_of(frozenset(parts), tuple((joints or {}).items())))
    try:
        yield
    finally:
        _known.reset(mark)


@lru_cache(maxsize=8)
def _known_of(parts: frozenset[str], joints: tuple[tuple[str, str], ...]) -> _Known:
    """The names of one piece; those of a piece whose sizes alone have changed are the same."""
    known = dict(joints)
    entries: dict[str, list[str]] = {}
    for joint in known:
        entries.setdefault(joint.partition(".")[0], []).append(joint)
    return _Known(parts=parts, joints=known, entries=entries, any=_any_of(known))


def _any_of(joints: Mapping[str, str]) -> re.Pattern[str] | None:
    """What finds the identity of any of the joints in a text; made once for a piece, it is long."""
    listed = sorted((each for each in joints if "_" in each or "." in each), key=len, reverse=True)
    return re.compile(rf"(?<![\w.])({'|'.join(map(re.escape, listed))})(?!\.?\w)") if listed else None


def label_of(name: str) -> str:
    """A name as words, to stand alone.

    Examples
    --------
    >>> label_of("leg_fl"), label_of("top_thickness"), label_of("shelf_2")
    ('Front left leg', 'Top thickness', 'Shelf 2')
    """
    return _capital(plain_words(name))


def plain_words(text: str) -> str:
    """A name, or a sentence with names in it, without underscores and short forms.

    Examples
    --------
    >>> plain_words("leg_bl leans 7 degrees"), plain_words("loose_tenon")
    ('back left leg leans 7 degrees', 'loose tenon')

    Names one after the other that differ only in side or number share the rest:

    >>> plain_words("sand top, slat_1, slat_2, slat_3 now")
    'sand top, slat 1 to 3 now'
    >>> plain_words("glue up rail + slat_9 + slat_10 + slat_11")
    'glue up rail + slat 9 to 11'

    What is to be written in a file stays as it is written there:

    >>> plain_words("leg_bl: write `feet_trim: 4 mm`")
    'back left leg: write `feet_trim: 4 mm`'
    """
    return _known.get(_NOTHING).once(text, lambda: _plain(text))


def _plain(text: str) -> str:
    if text.count("`") % 2 or "`" not in text:
        return _worded(text)
    pieces = text.split("`")
    return "`".join(piece if at % 2 else _worded(piece) for at, piece in enumerate(pieces))


def _worded(text: str) -> str:
    joined = _LIST.sub(lambda found: _in_a_row(found[0]), _known.get(_NOTHING).joints_in(text))
    return _NAME.sub(lambda found: _lone(found[0]), joined).replace("_", " ")


def _in_a_row(text: str) -> str:
    """Names with commas or pluses, neighbors of one stem told together where more than two make a run."""
    told: list[str] = []
    between = " + " if " + " in text else ", "
    for stem, run in groupby(text.split(between), key=lambda name: _parted(name)[0]):
        names = list(run)
        sides = [_parted(name)[1] for name in names]
        told += [stem.format(listed(sides))] if len(names) > 2 and _is_run(sides) else names
    return between.join(told)


def place_words(where: str) -> str:
    """Where something was found, as words; all joints of an entry are told by its name.

    Parameters
    ----------
    where
        A part, a joint, or both with a slash; several with commas.

    Examples
    --------
    >>> place_words("leg_fl, leg_fr, leg_bl, leg_br"), place_words("top/shrinks across the grain")
    ('Leg, all four', 'Top: shrinks across the grain')
    >>> place_words("S1, S2, S3 and 13 more")
    'S1, S2, S3 and 13 more'
    """
    found = _PLACES.split(where)
    if len(found) > 1 and not all(re.fullmatch(r"[\w.]+(/.+)?", each) for each in found):
        return label_of(where)
    if all(re.fullmatch(r"\w+", each) and each not in _known.get(_NOTHING).joints for each in found):
        return names_of(found)
    return _capital("; ".join(_places(found)))


def joints_words(joints: Iterable[str], *, most: int = 3) -> str:
    """Joints as words, all of an entry by its name, no more of them than ``most`` and how many more."""
    told = _places(list(dict.fromkeys(joints)))
    return _capital("; ".join(told[:most])) + (f"; and {len(told) - most} more" if len(told) > most else "")


def _places(found: list[str]) -> list[str]:
    """Parts, joints, or both with a slash, as words; where an entry's joints are all there, its name once."""
    joints, entries, told = _known.get(_NOTHING).joints, _known.get(_NOTHING).entries, []
    last = {place.rpartition("/")[2] for place in found}
    for place in found:
        joint = place.rpartition("/")[2]
        entry = joint.partition(".")[0]
        own = entries.get(entry, [])
        if joint in joints and len(own) > 1 and last.issuperset(own):
            told.append(f"{plain_words(entry)}, {'both' if len(own) == 2 else f'all {len(own)}'}")
        else:
            told.append(_place(place.split("/")))
    return list(dict.fromkeys(told))


def _place(place: list[str]) -> str:
    """A part and what of it; the part is left out where the words of a joint name it."""
    words = [plain_words(each) for each in place]
    if len(words) > 1 and place[-1] in _known.get(_NOTHING).joints and words[0] in words[-1]:
        words = words[1:]
    return ": ".join(words)


def names_of(names: Iterable[str]) -> str:
    """Several names as words; those that differ only in their side or number share the rest.

    Examples
    --------
    >>> names_of(["top"]), names_of(["end_left", "end_right"]), names_of(["shelf_1", "shelf_2"])
    ('Top', 'End left and right', 'Shelf 1 and 2')
    >>> names_of(["shelf_1", "shelf_2", "shelf_3"]), names_of(["shelf_1", "shelf_2", "shelf_4"])
    ('Shelf 1 to 3', 'Shelf 1, 2 and 4')
    >>> names_of(["leg_fl", "leg_fr", "leg_bl", "leg_br"]), names_of(["leg_fl", "leg_bl", "top"])
    ('Leg, all four', 'Front left and back left leg; Top')
    """
    together = tuple(names)
    return _known.get(_NOTHING).once(together, lambda: _names(together))


def _names(names: tuple[str, ...]) -> str:
    groups: dict[str, list[str]] = {}
    for name in names:
        stem, side = _parted(name)
        groups.setdefault(stem, []).append(side)
    told = [_told(stem, sides) for stem, sides in groups.items()]
    texts = [text for each in told for text in each]
    return ("; " if any("," in text or " and " in text for text in texts) else ", ").join(texts)


def _told(stem: str, sides: list[str]) -> list[str]:
    """One group: what they share with their sides, or each name for itself where there are none."""
    if "{}" not in stem:
        return [_capital(stem)] * len(sides)
    if frozenset(sides) == _FOUR and stem.startswith("{}"):
        return [_capital(f"{stem.removeprefix('{} ')}, all four")]
    return [_capital(stem.format(listed(sides)))]


def listed(words: Sequence[str]) -> str:
    """Sides or numbers one after the other; numbers in their order, and without a gap as a run.

    Examples
    --------
    >>> listed(["left", "right"]), listed(["1", "10", "2"]), listed(["1", "2", "3"])
    ('left and right', '1, 2 and 10', '1 to 3')
    """
    if all(word.isdecimal() for word in words):
        words = sorted(words, key=int)
    if len(words) > 2 and _is_run(words):
        return f"{words[0]} to {words[-1]}"
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def _is_run(sides: Sequence[str]) -> bool:
    """Whether these are numbers, each one more than the one before."""
    if not all(side.isdigit() for side in sides):
        return False
    return [int(side) for side in sides] == list(range(int(sides[0]), int(sides[0]) + len(sides)))


def _parted(name: str) -> tuple[str, str]:
    """What a name shares with others, and its side: ``{} leg``, ``front left``; ``end {}``, ``left``."""
    words = _words(name)
    if " " in name or name in _known.get(_NOTHING).joints:
        return plain_words(name), ""
    if _has_side(words):
        return f"{{}} {' '.join(words[:-1])}", _SIDES[words[-1]]
    if len(words) > 1 and (words[-1] in _WAYS or words[-1].isdigit()):
        return f"{' '.join(words[:-1])} {{}}", words[-1]
    return _lone(name), ""


def _lone(name: str) -> str:
    words = _words(name)
    if _has_side(words):
        return f"{_SIDES[words[-1]]} {' '.join(words[:-1])}"
    return " ".join(words)


def _has_side(words: tuple[str, ...]) -> bool:
    """Whether the last word of a name is a short form of a side: so it is where all its siblings' are.

    A single letter with no sibling is a letter: ``leg_b`` may be the second leg, or the one of sort b.
    """
    if len(words) < 2 or words[-1] not in _SIDES:
        return False
    stem = words[:-1]
    siblings = {_words(each)[-1] for each in _known.get(_NOTHING).parts if _words(each)[:-1] == stem}
    return siblings <= _SIDES.keys() | _WAYS and (len(words[-1]) > 1 or len(siblings) > 1)


@lru_cache(maxsize=4096)
def _words(name: str) -> tuple[str, ...]:
    return tuple(word for word in re.split(r"[_\s]+", name) if word)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
