"""Names of a piece file as words: one naming for the page, the command line and the packet."""

from __future__ import annotations

import re
from collections.abc import Iterable

__all__ = ["label_of", "names_of", "plain_words"]

_SIDES = {"fl": "front left", "fr": "front right", "bl": "back left", "br": "back right", "mid": "middle"}
_SIDES |= {"l": "left", "r": "right", "f": "front", "b": "back"}
_FOUR = frozenset(_SIDES[each] for each in ("fl", "fr", "bl", "br"))
_WAYS = frozenset({"left", "right", "front", "back", "middle", "top", "bottom", "inner", "outer"})
_NAME = re.compile(r"\b[a-z][a-z0-9]*(?:_[a-z0-9]+)+\b")


def label_of(name: str) -> str:
    """A name as words, to stand alone.

    Examples
    --------
    >>> label_of("leg_fl"), label_of("top_thickness"), label_of("shelf_2")
    ('Front left leg', 'Top thickness', 'Shelf 2')
    """
    return _capital(_lone(name))


def plain_words(text: str) -> str:
    """A name, or a sentence with names in it, without underscores and short forms.

    Examples
    --------
    >>> plain_words("leg_bl leans 7 degrees"), plain_words("loose_tenon")
    ('back left leg leans 7 degrees', 'loose tenon')
    """
    return _NAME.sub(lambda found: _lone(found[0]), text).replace("_", " ")


def names_of(names: Iterable[str]) -> str:
    """Several names as words; those that differ only in their side share the rest.

    Examples
    --------
    >>> names_of(["top"]), names_of(["end_left", "end_right"]), names_of(["shelf_1", "shelf_2"])
    ('Top', 'End left and right', 'Shelf 1, Shelf 2')
    >>> names_of(["leg_fl", "leg_fr", "leg_bl", "leg_br"]), names_of(["leg_fl", "leg_bl", "top"])
    ('Leg, all four', 'Front left and back left leg; Top')
    """
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
    together = sides[0] if len(sides) == 1 else f"{', '.join(sides[:-1])} and {sides[-1]}"
    return [_capital(stem.format(together))]


def _parted(name: str) -> tuple[str, str]:
    """What a name shares with others, and its side: ``{} leg``, ``front left``; ``end {}``, ``left``."""
    words = _words(name)
    if len(words) > 1 and words[-1] in _SIDES:
        return f"{{}} {' '.join(words[:-1])}", _SIDES[words[-1]]
    if len(words) > 1 and words[-1] in _WAYS:
        return f"{' '.join(words[:-1])} {{}}", words[-1]
    return _lone(name), ""


def _lone(name: str) -> str:
    words = _words(name)
    if len(words) > 1 and words[-1] in _SIDES:
        return f"{_SIDES[words[-1]]} {' '.join(words[:-1])}"
    return " ".join(words)


def _words(name: str) -> list[str]:
    return [word for word in re.split(r"[_\s]+", name) if word]


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
