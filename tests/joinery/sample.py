"""A sample of a joint family: a small pair of parts, its options, and what it takes in closed form."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from math import pi
from typing import Any

__all__ = ["POST", "RAIL", "Options", "Sample", "stadium_mm2", "stick"]

Options = dict[str, Any]
Volumes = Callable[[Options], tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """Two parts and a joint.

    Parameters
    ----------
    parts
        Blocks of the two parts, the first entering; copied, mirrored and turned by the tests.
    between
        Their names as the joint names them; ``{inner}`` stands for the face that looked back.
    options
        The family's options.
    ranges
        Options drawn at random, with their limits.
    removed
        Volume taken off the first and the second part, from the options. [mm3]
    """

    family: str
    parts: dict[str, Options]
    between: tuple[str, str]
    options: Options
    removed: Volumes
    ranges: dict[str, tuple[float, float]] = field(default_factory=dict)
    within: float = 1e-6
    """Share by which facets may be off, where round cuts run into each other."""

    def asked(self, inner: str, **options: Any) -> Options:
        """The options with others in their place, and the face that looked back named as it looks now."""
        merged = {**self.options, **options}
        return {
            name: value.format(inner=inner) if isinstance(value, str) else value
            for name, value in merged.items()
        }


def stadium_mm2(length: float, width: float) -> float:
    """Area of a mortise's mouth with round ends, or of a hole. [mm2]"""
    return (length - width) * width + pi / 4.0 * width**2


def stick(begin: Any, end: Any, section: Any, toward: str, **more: Any) -> Options:
    """Block of a stick: from, to, section and the way its width looks."""
    return {
        "kind": "stick",
        "species": "white oak",
        "from": list(begin),
        "to": list(end),
        "section": list(section),
        "width_toward": toward,
        **more,
    }


RAIL = stick((0, 0, 145), (400, 0, 145), (90, 24), "top", trim={"end": "b.left"})
POST = stick((424, 0, 0), (424, 0, 300), (48, 48), "right")
