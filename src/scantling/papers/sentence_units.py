"""Sheets and packets with the figures of their sentences in inches.

The plan speaks in millimeters; each face (sheets, packet, page) has its sentences rewritten here, once and
last.
"""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from enum import Enum
from typing import Any, TypeVar, cast

from scantling.papers.drawing import Sheet as Drawing
from scantling.units.sentences import sentence_in_inches

__all__ = ["in_inches"]

Shown = TypeVar("Shown")


def in_inches(value: Shown) -> Shown:
    """A sheet or packet with every sentence in it in inches, but the drawings, which are drawn so.

    Parameters
    ----------
    value
        A frozen dataclass, or tuples of them.

    Returns
    -------
    Shown
        Of the same type.
    """
    return cast("Shown", _rewritten(value))


def _rewritten(value: Any) -> Any:
    if isinstance(value, Enum | Drawing):
        return value
    if isinstance(value, str):
        return value if value.startswith("<svg") else sentence_in_inches(value)
    if isinstance(value, tuple):
        return tuple(_rewritten(each) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        return replace(value, **{f.name: _rewritten(getattr(value, f.name)) for f in fields(value)})
    return value
