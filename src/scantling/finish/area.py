"""Area to finish, part by part: seen, hidden, and masked for glue."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from scantling.piece.convex import Face, body_of, face_direction
from scantling.piece.model import Part, Piece
from scantling.remembering import remembered

__all__ = ["NARROW_MM", "Areas", "PartArea", "areas"]

NARROW_MM = 75.0
"""A face narrower than half a disc of 150 mm is sanded no faster than one that wide. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PartArea:
    """Area of one part.

    Parameters
    ----------
    shown_mm2, hidden_mm2
        Faces that show, and those that do not; glue faces taken off the hidden ones first. [mm2]
    masked_mm2
        Faces that take glue and stay bare. [mm2]
    end_grain_mm2
        Of all that, ends. [mm2]
    slow_mm2
        Of what shows: ends, faces narrower than half a sanding disc, and round sticks. [mm2]
    arrises_mm
        Length of the edges between its faces, of a part that shows; of the square stick it is cut from. [mm]
    """

    part: str
    shown_mm2: float
    hidden_mm2: float
    masked_mm2: float
    end_grain_mm2: float
    slow_mm2: float = 0.0
    arrises_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Areas:
    """Area of a piece.

    Parameters
    ----------
    shown_m2, hidden_m2, masked_m2
        Sums over the parts. [m2]
    """

    parts: tuple[PartArea, ...]
    shown_m2: float
    hidden_m2: float
    masked_m2: float

    @property
    def finished_m2(self) -> float:
        """All that gets finish. [m2]"""
        return self.shown_m2 + self.hidden_m2

    @property
    def slow_m2(self) -> float:
        """What shows and is slow to sand: ends, narrow faces, round sticks. [m2]"""
        return sum(part.slow_mm2 for part in self.parts) * 1e-6

    @property
    def arrises_m(self) -> float:
        """Edges to break. [m]"""
        return sum(part.arrises_mm for part in self.parts) * 1e-3


def areas(
    piece: Piece,
    *,
    masked_mm2: Mapping[str, float] | None = None,
    surfaces_mm2: Mapping[str, float] | None = None,
) -> Areas:
    """Area by part and by whether it shows.

    Parameters
    ----------
    masked_mm2
        Area of each part that joints glue. [mm2]
    surfaces_mm2
        Whole surface of each part with its joints cut, where it is known; what it has more than the part
        before joinery counts as hidden (insides of mortises are masked, so give ``masked_mm2`` with them).
        [mm2]
    """
    masked, surfaces = masked_mm2 or {}, surfaces_mm2 or {}
    found = tuple(
        _of_part(part, masked.get(name, 0.0), surfaces.get(name)) for name, part in piece.parts.items()
    )
    return Areas(
        parts=found,
        shown_m2=sum(part.shown_mm2 for part in found) * 1e-6,
        hidden_m2=sum(part.hidden_mm2 for part in found) * 1e-6,
        masked_m2=sum(part.masked_mm2 for part in found) * 1e-6,
    )


@remembered(limit=1024)
def _of_part(part: Part, masked: float, surface: float | None) -> PartArea:
    faces = body_of(part).faces
    whole = sum(face.area_mm2 for face in faces)
    shown = sum(face.area_mm2 for face in faces if _shows(part, face))
    hidden = (whole if surface is None else max(surface, shown)) - shown
    from_hidden = min(masked, hidden)
    left = max(shown - (masked - from_hidden), 0.0)
    slow = sum(face.area_mm2 for face in faces if _shows(part, face) and _slow(part, face))
    return PartArea(
        part=part.name,
        shown_mm2=left,
        hidden_mm2=hidden - from_hidden,
        masked_mm2=min(masked, whole if surface is None else surface),
        end_grain_mm2=sum(face.area_mm2 for face in faces if face.label in ("start", "end")),
        slow_mm2=min(slow, left),
        arrises_mm=4.0 * (part.length_mm + part.width_mm + part.thickness_mm) if left else 0.0,
    )


def _slow(part: Part, face: Face) -> bool:
    """End grain, a round stick, or a face on which half the disc hangs over the edge."""
    if part.round is not None or face.label in ("start", "end"):
        return True
    sides = zip(face.corners, (*face.corners[1:], face.corners[0]), strict=True)
    return face.area_mm2 < NARROW_MM * max(math.dist(a, b) for a, b in sides)


def _shows(part: Part, face: Face) -> bool:
    """A face shows when the direction it looks is among those the part shows; all of a round stick do."""
    return part.round is not None or face_direction(face.normal) in part.show
