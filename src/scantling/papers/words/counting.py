"""Things and how many of them there are."""

from __future__ import annotations

__all__ = ["count_of"]


def count_of(number: int, one: str) -> str:
    """A number with what it counts, in the singular or with an s.

    Examples
    --------
    >>> count_of(1, "joint"), count_of(2, "glue-up"), count_of(0, "place")
    ('1 joint', '2 glue-ups', '0 places')
    """
    return f"{number} {one if number == 1 else f'{one}s'}"
