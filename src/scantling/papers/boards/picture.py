"""What is drawn of a rough board. x runs from its left end, y from its lower edge. [mm]"""

from __future__ import annotations

from dataclasses import dataclass

__all__ = ["BoardCut", "BoardFlaw", "BoardOffcut", "BoardPart", "BoardPicture", "BoardStretch"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPart:
    """A part's blank on the board; ``size`` is chalked under its name. [mm]"""

    name: str
    size: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardFlaw:
    """A knot, a check, a stain: an area to keep clear of. [mm]"""

    kind: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardOffcut:
    """What is left; ``name`` is empty for waste, ``size`` is chalked behind it. [mm]"""

    name: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    size: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardCut:
    """A cut; the rectangle is its kerf.

    Parameters
    ----------
    order
        Number in the order of work, from 1.
    crosswise
        Whether it runs across the grain.
    running
        Running size as shown: from the board's left end for a crosscut, from the straightened edge for a rip;
        empty for a cut that is not measured.
    """

    order: int
    crosswise: bool
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float
    running: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardStretch:
    """A piece between two crosscuts, by the name the list of cuts calls it. [mm]"""

    name: str
    x_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPicture:
    """One board to draw.

    Parameters
    ----------
    name
        Chalked on it.
    about
        Species, thickness and size as shown.
    far_width_mm
        Width at the right end. [mm]
    ring_angle_deg
        Between rings and face, where it is known; the figure is drawn from it. [deg]
    trims_mm
        Length lost to checks at the left and the right end. [mm]
    notes
        What has happened to it at the bench, a sentence each.
    """

    name: str
    about: str
    length_mm: float
    width_mm: float
    far_width_mm: float
    parts: tuple[BoardPart, ...]
    flaws: tuple[BoardFlaw, ...] = ()
    cuts: tuple[BoardCut, ...] = ()
    offcuts: tuple[BoardOffcut, ...] = ()
    stretches: tuple[BoardStretch, ...] = ()
    ring_angle_deg: float | None = None
    trims_mm: tuple[float, float] = (0.0, 0.0)
    notes: tuple[str, ...] = ()

    def width_at_mm(self, x_mm: float) -> float:
        """Width at a distance from the left end. [mm]"""
        return self.width_mm + (self.far_width_mm - self.width_mm) * x_mm / self.length_mm
