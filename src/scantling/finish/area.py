"""Area to finish, part by part: seen, hidden, and masked for glue."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.piece.convex import Face, body_of, face_direction
from scantling.piece.model import Part, Piece
from scantling.remembering import remembered

__all__ = ["Areas", "PartArea", "areas"]


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
    """

    part: str
    shown_mm2: float
    hidden_mm2: float
    masked_mm2: float
    end_grain_mm2: float


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
    return PartArea(
        part=part.name,
        shown_mm2=max(shown - (masked - from_hidden), 0.0),
        hidden_mm2=hidden - from_hidden,
        masked_mm2=min(masked, whole if surface is None else surface),
        end_grain_mm2=sum(face.area_mm2 for face in faces if face.label in ("start", "end")),
    )


def _shows(part: Part, face: Face) -> bool:
    """A face shows when the direction it looks is among those the part shows; all of a round stick do."""
    return part.round is not None or face_direction(face.normal) in part.show
