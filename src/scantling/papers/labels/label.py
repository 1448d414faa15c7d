"""One label."""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["Label"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What stands on a label.

    Parameters
    ----------
    name
        What is chalked on the board.
    wood
        Nominal thickness and name of the wood.
    size
        Length and width with their unit.
    lines
        What else is known, a line each: moisture with its day, where it came from.
    code
        What a phone reads: the board's number for programs, and the figures in plain words.
    """

    name: str
    wood: str
    size: str
    lines: tuple[str, ...]
    code: str
