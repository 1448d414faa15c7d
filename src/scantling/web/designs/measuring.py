"""What lies between two edges picked in the picture, as it is shown."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from scantling.errors import InputError
from scantling.piece.geometry import Vec, norm, sub
from scantling.solids.explode import scene_vector_m
from scantling.solids.measuring import Edge, between_edges
from scantling.units import LengthStyle, show_angle, show_length

__all__ = ["MeasureIn", "MeasureView", "measured"]

_Place = tuple[
    Annotated[float, Field(ge=-1e3, le=1e3, allow_inf_nan=False)],
    Annotated[float, Field(ge=-1e3, le=1e3, allow_inf_nan=False)],
    Annotated[float, Field(ge=-1e3, le=1e3, allow_inf_nan=False)],
]
_LEAST_MM = 1e-3


class MeasureIn(BaseModel):
    """Two edges by their ends, in the axes of the picture as the piece stands whole. [m]"""

    model_config = ConfigDict(extra="forbid", frozen=True)

    first: tuple[_Place, _Place]
    second: tuple[_Place, _Place]


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasureView:
    """A measured distance.

    Parameters
    ----------
    words
        Distance, and angle where the edges are not parallel.
    steps
        How far that is along, front to back, and up.
    start_m, end_m
        Where it is measured, in the axes of the picture. [m]
    """

    ok: bool
    words: str
    steps: tuple[tuple[str, str], ...]
    start_m: Vec
    end_m: Vec


def measured(asked: MeasureIn, shown: LengthStyle) -> MeasureView:
    """The distance between two edges.

    Raises
    ------
    InputError
        ``no_edge``: the two ends of one are the same place.
    """
    first, second = _edge(asked.first, "first"), _edge(asked.second, "second")
    found = between_edges(first, second)
    style = shown.fine
    words = show_length(found.distance_mm, style, unit=True)
    if not found.parallel:
        words = f"{words}, edges at {show_angle(found.angle_deg)}"
    names = ("Along", "Front to back", "Up")
    return MeasureView(
        ok=True,
        words=words,
        steps=tuple((name, show_length(mm, style)) for name, mm in zip(names, found.steps_mm, strict=True)),
        start_m=scene_vector_m(found.start),
        end_m=scene_vector_m(found.end),
    )


def _edge(ends: tuple[_Place, _Place], field: str) -> Edge:
    one, other = (_world_mm(place) for place in ends)
    if norm(sub(one, other)) < _LEAST_MM:
        raise InputError(
            code="no_edge",
            field=field,
            value="two ends at one place",
            rule="must be longer than nothing",
            remedy="Pick another edge.",
        )
    return (one, other)


def _world_mm(place: _Place) -> Vec:
    x, y, z = place
    return (x * 1000.0, 0.0 - z * 1000.0, y * 1000.0)
