"""Where a fault stands, in words: the path of a field as the name of its part or joint, and the field."""

from __future__ import annotations

import re
from typing import Final

from scantling.papers.naming import plain_words

__all__ = ["place_of_field"]

_STEP = re.compile(r"[^.\[\]]+|\[\d+\]")
_ENTRIES: Final = {"parts": "part", "joints": "joint", "values": "value", "parameters": "size"}
"""Sections of a piece file whose entries have names of their own, and what one of them is called."""


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
    >>> place_of_field("brief.carried.base[1]"), place_of_field("length")
    ('Brief, carried, base 1', 'Length')
    """
    section, *steps = _STEP.findall(field) or [field]
    words = [plain_words(section)]
    if section in _ENTRIES and steps:
        words = [_ENTRIES[section], " ", plain_words(steps.pop(0))]
    for step in steps:
        words += [" ", step[1:-1]] if step.startswith("[") else [", ", plain_words(step)]
    told = "".join(words).replace("_", " ")
    return told[:1].upper() + told[1:]
