"""What a search for a layout is at, told while nothing better is found."""

from __future__ import annotations

from enum import StrEnum

__all__ = ["Doing"]


class Doing(StrEnum):
    """What a search is at."""

    BY_WORTH = "by worth"
    """A first layout: board after board by what each gives for its price."""
    AT_ONCE = "at once"
    """The whole rack, or large lots of it, laid out at once."""
    LOTS = "lots"
    """Lots of a dozen boards laid out anew."""
    BOTH = "both"
    """Better layouts and a higher bound, in turn or side by side."""
