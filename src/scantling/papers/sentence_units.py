"""Sheets and packets with the figures of their sentences in inches.

The plan speaks in millimeters; each face (sheets, packet, page) has its sentences rewritten here, once and
last.
"""

from __future__ import annotations

from typing import TypeVar

from scantling.papers.rewriting import rewritten
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
    return rewritten(value, sentence_in_inches)
