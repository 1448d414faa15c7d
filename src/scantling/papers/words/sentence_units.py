"""Sheets and packets with the figures of their sentences in the units asked for.

The plan speaks in millimeters; each face (sheets, packet, page) has its sentences rewritten here, once and
last.
"""

from __future__ import annotations

from typing import TypeVar

from scantling.papers.words.rewriting import rewritten
from scantling.units import LengthStyle
from scantling.units.sentences import sentence_in_style

__all__ = ["in_style"]

Shown = TypeVar("Shown")


def in_style(value: Shown, style: LengthStyle) -> Shown:
    """A sheet or packet with every sentence in it as a style shows it, but the drawings, which are drawn so.

    Parameters
    ----------
    value
        A frozen dataclass, or tuples of them.
    style
        The unit that leads, and whether the other follows.

    Returns
    -------
    Shown
        Of the same type; the same where the sentences stay in millimeters.
    """
    if not (style.inch or style.both):
        return value
    return rewritten(value, lambda text: sentence_in_style(text, style))
