"""What is made of a piece: sizes as measured, parts that are cut, and how it stands after it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

__all__ = [
    "AGREE_MM",
    "SHOULDERS",
    "SIZES",
    "AsBuilt",
    "Built",
    "Loose",
    "Meeting",
    "NameStands",
    "SizeStands",
    "WayOut",
]

SIZES = ("length", "width", "thickness")
"""Sizes of a part, as they stand in the list of parts: the length over its tenons and tongues."""
SHOULDERS = "shoulders"
"""What the length between the shoulders is told as, of a part with tenons."""

AGREE_MM = 0.5
"""Measures of what should be one size agree if they lie this close together. [mm]"""


class Meeting(StrEnum):
    """How two faces belong together."""

    AGAINST = "against"
    FLUSH = "flush"
    IN_GROOVE = "in groove"


@dataclass(frozen=True, slots=True, kw_only=True)
class Loose:
    """Two faces that no longer meet as they were drawn, for what could follow is made already.

    Parameters
    ----------
    part, other
        The part that has to be looked at, and the one it belongs to.
    off_mm
        How far its face lies out from where it should be; below 0 it lies back. [mm]
    """

    part: str
    other: str
    meeting: Meeting
    off_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Built:
    """What was told of the making.

    Parameters
    ----------
    measured
        What was measured: a part's size (``top.width``), or a parameter or value of the piece file. [mm]
    cut
        Sizes that are cut, and to what; None for what the piece file says. [mm]
    file
        Where it is written; empty for no file.
    lines
        Line and column of each, by its name, in that file.
    """

    measured: Mapping[str, float] = field(default_factory=dict)
    cut: Mapping[str, float | None] = field(default_factory=dict)
    file: str = ""
    lines: Mapping[str, tuple[int, int]] = field(default_factory=dict)

    def __bool__(self) -> bool:
        return bool(self.measured or self.cut)


@dataclass(frozen=True, slots=True, kw_only=True)
class SizeStands:
    """A part's size that is measured, cut, or follows one that is.

    Parameters
    ----------
    drawn_mm
        As the piece file draws it. [mm]
    stands_mm
        As it is, or as it is to be made. [mm]
    needed_mm
        What the parts about it ask for; else as it stands. [mm]
    measured, cut
        Whether it was measured; whether it is cut, and stays.
    """

    part: str
    size: str
    drawn_mm: float
    stands_mm: float
    needed_mm: float
    measured: bool = False
    cut: bool = False

    @property
    def name(self) -> str:
        """Part and size, as they are measured: ``top.width``."""
        return f"{self.part}.{self.size}"

    @property
    def off_mm(self) -> float:
        """How much longer it is than what is asked for. [mm]"""
        return self.stands_mm - self.needed_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class NameStands:
    """A parameter or value of the piece file that is a fact.

    Parameters
    ----------
    drawn_mm, stands_mm
        As the file says, and as it is. [mm]
    because
        The part's size it was measured by (``top.width``); empty where it was measured itself.
    """

    name: str
    drawn_mm: float
    stands_mm: float
    because: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayOut:
    """A parameter that would make a part fit that is cut: ``length`` at 1368 mm. [mm]"""

    part: str
    parameter: str
    value_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBuilt:
    """How the piece stands.

    Parameters
    ----------
    file
        Where that is written.
    sizes
        Sizes measured and cut, and those that follow.
    names
        Names of the piece file that are facts.
    alone
        Sizes measured that count for their part alone, though the file writes a name there: size and name.
    loose
        Faces that no longer meet as drawn.
    ways
        Parameters that would make what is cut fit.
    unknown
        What was told of parts, parameters and values there are none of any more.
    unmade
        Joints that cannot be made with what is made, with the reason: the piece is then drawn without it.
    measured
        All that was measured, by the names it was told under (``top.width``, ``apron.shoulders``).
    """

    file: str = ""
    sizes: tuple[SizeStands, ...] = ()
    names: tuple[NameStands, ...] = ()
    alone: tuple[tuple[str, str], ...] = ()
    loose: tuple[Loose, ...] = ()
    ways: tuple[WayOut, ...] = ()
    unknown: tuple[str, ...] = ()
    unmade: tuple[tuple[str, str], ...] = ()
    measured: tuple[str, ...] = ()

    def size(self, part: str, size: str) -> SizeStands | None:
        """What is known of a size; None for one that is as drawn."""
        return next((s for s in self.sizes if s.part == part and s.size == size), None)
