"""The name of a new part: as a maker says it, and as the piece file writes it."""

from __future__ import annotations

import re
from collections.abc import Iterable

from scantling.errors import InputError

__all__ = ["part_name", "spare_name"]

_LONGEST = 40


def part_name(said: str, *, taken: Iterable[str]) -> str:
    """A name as the piece file writes it.

    Raises
    ------
    InputError
        ``not_a_name``, ``name_taken``, told at ``name``.

    Examples
    --------
    >>> part_name("Middle shelf", taken=["shelf"])
    'middle_shelf'
    """
    name = re.sub(r"[^a-z0-9]+", "_", said.strip().lower()).strip("_")
    if not re.fullmatch(rf"[a-z][a-z0-9_]{{0,{_LONGEST - 1}}}", name):
        raise InputError(
            code="not_a_name",
            field="name",
            value=said[:60] or "nothing",
            rule=f"must begin with a letter from a to z and be at most {_LONGEST} letters and figures",
            remedy="Call it by what it is, such as middle shelf.",
        )
    if name in set(taken):
        raise InputError(
            code="name_taken",
            field="name",
            value=said[:60],
            rule="must be a name no other part has",
            remedy=f"Call it {spare_name(name, taken=taken).replace('_', ' ')}, or by where it stands.",
        )
    return name


def spare_name(name: str, *, taken: Iterable[str]) -> str:
    """A name, with a number behind it where it is taken.

    Examples
    --------
    >>> spare_name("shelf", taken=["shelf", "shelf_2"])
    'shelf_3'
    """
    there = set(taken)
    return next(each for each in (name, *(f"{name}_{n}" for n in range(2, 1000))) if each not in there)
