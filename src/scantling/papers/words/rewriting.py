"""Sheets and packets with every sentence in them written otherwise."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from enum import Enum
from typing import Any, TypeVar, cast

from scantling.papers.drawing import Sheet as Drawing

__all__ = ["rewritten"]

Shown = TypeVar("Shown")


def rewritten(value: Shown, change: Callable[[str], str]) -> Shown:
    """A sheet or packet with each of its texts changed, but those of drawings, which are drawn so.

    Parameters
    ----------
    value
        A frozen dataclass, or tuples of them.
    change
        What becomes of a text.

    Returns
    -------
    Shown
        Of the same type.
    """
    return cast("Shown", _changed(value, change))


def _changed(value: Any, change: Callable[[str], str]) -> Any:
    if isinstance(value, Enum | Drawing):
        return value
    if isinstance(value, str):
        return value if value.startswith("<svg") else change(value)
    if isinstance(value, tuple):
        return tuple(_changed(each, change) for each in value)
    if is_dataclass(value) and not isinstance(value, type):
        told = {f.name: getattr(value, f.name) for f in fields(value)}
        other = {name: new for name, old in told.items() if (new := _changed(old, change)) is not old}
        return replace(value, **other) if other else value
    return value
