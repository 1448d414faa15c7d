"""A fault in words: the path of a field as its part or joint and what of it, and names in what was found."""

from __future__ import annotations

import re
from typing import Final

from scantling.papers.words.naming import plain_words

__all__ = ["found_in_words", "place_of_field", "remedy_in_words"]

_STEP = re.compile(r"[^.\[\]]+|\[\d+\]")
_ENTRIES: Final = {
    "parts": "part",
    "joints": "joint",
    "values": "value",
    "parameters": "size",
    "boards": "board",
}
"""Sections of a file, or of what is typed, whose entries have names of their own, and what one is called."""
_WRITTEN = re.compile(r"[^\w\s.,;()%×-]|\w\.\w*[A-Za-z_]|\s-\s")
"""What stands in an expression or a reference, and in no sentence."""


def place_of_field(field: str) -> str:
    """A field as a maker names it.

    Parameters
    ----------
    field
        Path of a field, as a fault has it.

    Examples
    --------
    >>> place_of_field("joints.apron_to_leg.width"), place_of_field("parts.leg_fl.section[2]")
    ('Joint apron to leg, width', 'Part front left leg, section 2')
    >>> place_of_field("brief.carried.base[1]"), place_of_field("length"), place_of_field("boards.2.length")
    ('Brief, carried, base 1', 'Length', 'Board 2, length')
    """
    section, *steps = _STEP.findall(field) or [field]
    words = [plain_words(section)]
    if section in _ENTRIES and steps:
        words = [_ENTRIES[section], " ", plain_words(steps.pop(0))]
    for step in steps:
        words += [" ", step[1:-1]] if step.startswith("[") else [", ", plain_words(step)]
    told = "".join(words).replace("_", " ")
    return told[:1].upper() + told[1:]


def found_in_words(value: str) -> str:
    """What was found, as a maker reads it: names in a sentence as words, what was typed as it was typed.

    Parameters
    ----------
    value
        What was found, as a fault has it.

    Examples
    --------
    >>> found_in_words("a 50.0 × 10.0 mm mortise 158.0 mm over the edge of apron_front")
    'a 50.0 × 10.0 mm mortise 158.0 mm over the edge of apron front'
    >>> found_in_words("leg_q"), found_in_words("foot_x + 12 mm"), found_in_words("leg_fl.end and top.left")
    ('leg_q', 'foot_x + 12 mm', 'leg_fl.end and top.left')
    """
    return value if " " not in value.strip() or _WRITTEN.search(value) else plain_words(value)


def remedy_in_words(remedy: str) -> str:
    """What to do, with names as words; where something is to be written, as it is to be written.

    Parameters
    ----------
    remedy
        As a fault has it.

    Examples
    --------
    >>> remedy_in_words("Move it 2.0 mm farther from side_left."), remedy_in_words("Write side_left.FACE.")
    ('Move it 2.0 mm farther from side left.', 'Write side_left.FACE.')
    """
    return remedy if re.search(r"\b([Ww]rite|[Tt]rim|[Rr]epeat)\b", remedy) else found_in_words(remedy)
