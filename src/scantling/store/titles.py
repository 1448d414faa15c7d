"""What is kept is called what its file says: its name and the one that papers carry are one."""

from __future__ import annotations

import re
from dataclasses import replace

from scantling.errors import ScantlingError
from scantling.reading import parse_on
from scantling.reading.limits import control_sign
from scantling.reading.nodes import source_of
from scantling.reading.putting import put
from scantling.store.content import Content

__all__ = ["name_in", "named_anew", "title_of", "titled", "with_name"]

_TITLE = "title"
_LONGEST = 120
"""Characters a title may have. [1]"""


def name_in(text: str, field: str) -> str:
    r"""The name in a text, on one line; empty where there is none that anything could be called.

    Examples
    --------
    >>> [name_in(text, "title") for text in ("title: Hall\n  bench\n", "parts: [", 'title: "\\a"')]
    ['Hall bench', '', '']
    """
    try:
        name = parse_on(text, file="text").get((field,))
    except ScantlingError:
        return ""
    told = " ".join(str(name or "").split())
    return "" if control_sign(told) else told


def named_anew(old: str, new: str, field: str) -> str:
    r"""The name in a text where it is another than in the text before; empty where it is not, or too long.

    Examples
    --------
    >>> named_anew("room: Study\n", "room: Parlor\n", "room")
    'Parlor'
    >>> named_anew("room: Study\n", "room: Study # mine\n", "room")
    ''
    """
    if old == new or _lines(old, field) == _lines(new, field) != "":  # spares reading both files whole
        return ""
    name = name_in(new, field)
    return name if len(name) <= _LONGEST and name != name_in(old, field) else ""


def _lines(text: str, field: str) -> str:
    """The lines that a field at the top of a file stands on; empty where it is written otherwise."""
    found = re.search(rf"^{field}:.*(?:\n[ \t].*)*", text, re.MULTILINE)
    return found[0] if found else ""


def with_name(text: str, field: str, name: str) -> str:
    """The text with another name in it, comments left; as it is where the name cannot be written into it."""
    if len(name) > _LONGEST:
        return text
    try:
        return put(text, (field,), source_of(name, text=True))
    except ScantlingError:
        return text


def title_of(content: Content) -> str:
    """The title in the piece file on one line; empty where none can be read."""
    return name_in(content.piece, _TITLE)


def titled(content: Content, name: str) -> Content:
    r"""The content with its piece file titled so; as it is where it has no title, or cannot be.

    Examples
    --------
    >>> titled(Content(piece="title: Bench # mine\nparts: {}\n"), "Oak: one").piece
    'title: "Oak: one" # mine\nparts: {}\n'
    """
    told = title_of(content)
    if not told or told == name:
        return content
    return replace(content, piece=with_name(content.piece, _TITLE, name))
