"""Saw settings for the ends of every part, from the planes that trim it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum

from scantling.piece.model import Direction, End, Part
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.profile import Shop
from scantling.shop.sawing.edgerip import EdgeRip, edge_rips
from scantling.shop.sawing.laydown import LayDown, face_looks, lay_downs
from scantling.shop.sawing.partends import EndGeometry, EndSense, end_geometry, sense_of, spans
from scantling.shop.sawing.taper import TaperCut, taper_cuts

__all__ = ["Arris", "CutOrder", "Extensions", "PartSawing", "SawCut", "saw_all", "saw_part"]

Extensions = Mapping[tuple[str, End], float]
"""Wood that joints add beyond each end of each part. [mm]"""

BLANK_SPARE_MM = 10.0
"""Least a blank is longer than tip to tip, beside one kerf (common practice). [mm]"""


class CutOrder(StrEnum):
    """Which end is sawn first; the other is sawn to a stop."""

    FIRST = "first end"
    SECOND = "second end, to the stop"
    TRIM = "second cut at the same end"


@dataclass(frozen=True, slots=True, kw_only=True)
class SawCut:
    """One end of one part.

    Parameters
    ----------
    by
        What the end follows: ``floor``, ``top.bottom``.
    lay
        The way to saw it.
    others
        Other ways, of the faces not used.
    lead_width_mm, lead_thickness_mm
        To check with rule and square: how far the long side leads the short side along the grain, across
        the width and through the thickness. [mm]
    stop_long_mm, stop_short_mm
        For a second end: from the tip of the first to the long and to the short point. [mm]
    """

    part: str
    like: str
    end: End
    by: str
    order: CutOrder
    lay: LayDown
    others: tuple[LayDown, ...]
    lead_width_mm: float
    lead_thickness_mm: float
    stop_long_mm: float | None = None
    stop_short_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Arris:
    """Length of one of the four long edges, named by the two faces that meet there."""

    faces: tuple[Direction, Direction]
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSawing:
    """How one part is sawn to length and tapered.

    Parameters
    ----------
    long_mm, short_mm
        Long point to long point, short point to short point, along the grain. [mm]
    arrises
        Lengths of the four long edges: what a tape reads.
    sense
        How the ends lean toward each other.
    blank_mm
        Least length of a blank: tip to tip, one kerf and a little. [mm]
    notes
        What else there is to know.
    """

    part: str
    like: str
    long_mm: float
    short_mm: float
    arrises: tuple[Arris, ...]
    sense: EndSense
    blank_mm: float
    cuts: tuple[SawCut, ...]
    tapers: tuple[TaperCut, ...] = ()
    rips: tuple[EdgeRip, ...] = ()
    notes: tuple[str, ...] = ()


def saw_all(parts: Iterable[Part], extensions: Extensions, shop: Shop) -> tuple[PartSawing, ...]:
    """Every part's sawing, in their order; arguments as of :func:`saw_part`."""
    return tuple(saw_part(part, extensions, shop) for part in parts)


def saw_part(part: Part, extensions: Extensions, shop: Shop) -> PartSawing:
    """How one part is sawn.

    The end with the lesser angles is sawn first, so that the second can be sawn to a stop.

    Parameters
    ----------
    part
        The part, with its trims.
    extensions
        What joints add beyond its ends; an end not named gets nothing.
    shop
        Its saws.
    """
    start = end_geometry(part, End.START, extensions.get((part.name, End.START), 0.0))
    end = end_geometry(part, End.END, extensions.get((part.name, End.END), 0.0))
    long_mm, short_mm, arrises = spans(start, end)
    ordered = sorted((start, end), key=lambda geometry: _first_lay(part, geometry, shop).setting)
    cuts: list[SawCut] = []
    for order, geometry in zip((CutOrder.FIRST, CutOrder.SECOND), ordered, strict=True):
        for number in range(len(geometry.planes)):
            which = order if number == 0 else CutOrder.TRIM
            cuts.append(_cut(part, geometry, number, order=which, shop=shop, long_mm=long_mm))
    return PartSawing(
        part=part.name,
        like=part.like,
        long_mm=long_mm,
        short_mm=short_mm,
        arrises=_arrises(part, arrises),
        sense=sense_of(start, end),
        blank_mm=long_mm + shop.kerf_mm + BLANK_SPARE_MM,
        cuts=tuple(cuts),
        tapers=taper_cuts(part, _taper_machine(shop)),
        rips=edge_rips(part, shop.machines),
        notes=_notes(part, start, end),
    )


def _first_lay(part: Part, geometry: EndGeometry, shop: Shop) -> LayDown:
    return lay_downs(part, geometry.planes[0].normal, shop)[0]


def _cut(
    part: Part, geometry: EndGeometry, number: int, *, order: CutOrder, shop: Shop, long_mm: float
) -> SawCut:
    normal = geometry.planes[number].normal
    lays = lay_downs(part, normal, shop)
    to_stop = order is CutOrder.SECOND
    return SawCut(
        part=part.name,
        like=part.like,
        end=geometry.end,
        by=geometry.by[number],
        order=order,
        lay=lays[0],
        others=lays[1:],
        lead_width_mm=abs(normal[1] / normal[0]) * part.width_mm,
        lead_thickness_mm=abs(normal[2] / normal[0]) * part.thickness_mm,
        stop_long_mm=long_mm if to_stop else None,
        stop_short_mm=long_mm - geometry.lead_mm if to_stop else None,
    )


def _arrises(part: Part, lengths: tuple[float, float, float, float]) -> tuple[Arris, ...]:
    corners = (
        ((0, -1, 0), (0, 0, -1)),
        ((0, 1, 0), (0, 0, -1)),
        ((0, 1, 0), (0, 0, 1)),
        ((0, -1, 0), (0, 0, 1)),
    )
    return tuple(
        Arris(faces=(face_looks(part, one), face_looks(part, other)), length_mm=length)
        for (one, other), length in zip(corners, lengths, strict=True)
    )


def _taper_machine(shop: Shop) -> Machine:
    machines = shop.machines
    if machines.table_saw:
        return Machine.TABLE_SAW
    return Machine.BANDSAW if machines.bandsaw else Machine.HAND_PLANE


def _times(count: int) -> str:
    return "twice" if count == 2 else f"{count} times"


def _notes(part: Part, start: EndGeometry, end: EndGeometry) -> tuple[str, ...]:
    notes = [
        f"the {geometry.end.value} is cut {_times(len(geometry.planes))}, along {' and '.join(geometry.by)}"
        for geometry in (start, end)
        if len(geometry.planes) > 1
    ]
    if part.tapers:
        notes.append("points are those before tapering: saw the ends and cut the joints first, taper last")
    if part.edges:
        notes.append("rip the edges first, while the wood is long")
    if part.round is not None:
        notes.append("points are those of the square blank around it: saw the ends before it is made round")
    return tuple(notes)
