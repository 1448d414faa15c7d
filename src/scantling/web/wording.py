"""Names of a piece file as words for the page."""

from __future__ import annotations

import re

__all__ = ["label_of"]

_SIDES = {"fl": "front left", "fr": "front right", "bl": "back left", "br": "back right", "mid": "middle"}
_SIDES |= {"l": "left", "r": "right", "f": "front", "b": "back"}


def label_of(name: str) -> str:
    """A name as words.

    Examples
    --------
    >>> label_of("leg_fl"), label_of("top_thickness"), label_of("shelf_2")
    ('Leg, front left', 'Top thickness', 'Shelf 2')
    """
    words = [word for word in re.split(r"[_\s]+", name) if word]
    if len(words) > 1 and words[-1] in _SIDES:
        return f"{' '.join(words[:-1]).capitalize()}, {_SIDES[words[-1]]}"
    text = " ".join(words)
    return text[:1].upper() + text[1:]
