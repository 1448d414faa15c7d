"""Parts of the plan: every size from finished to rough, weight, area, and how each end is sawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import partial

from scantling.joinery.breadboard_end import BreadboardEnd
from scantling.joinery.work import JointWork, MarkKind
from scantling.piece.convex import face_direction
from scantling.piece.geometry import scale
from scantling.piece.model import Direction, End, Part, PartKind, Piece
from scantling.plan.cache import Cache
from scantling.shop.ledger import MillingLedger
from scantling.shop.milling import mill
from scantling.shop.profile import Shop
from scantling.shop.saw import PartSawing, saw_part
from scantling.shop.size import EndCut, FinishedSize, finished_size
from scantling.solids.mesh import PartMesh

__all__ = ["PlannedPart", "extensions_of", "finished_parts", "mill_parts", "planned_parts", "saw_parts"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedPart:
    """One part with its sizes.

    Parameters
    ----------
    length_mm
        Long point to long point, with what joints add. [mm]
    shoulder_mm
        Long point to long point without tongues and tenons. [mm]
    volume_mm3, surface_mm2
        With the joints cut. [mm3], [mm2]
    mass_kg
        At the moisture in use. [kg]
    show
        Faces that are seen.
    start_looks, end_looks
        Where its two ends look as it stands: a leg has a bottom and a top end.
    """

    name: str
    like: str
    kind: PartKind
    species: str
    length_mm: float
    shoulder_mm: float
    width_mm: float
    thickness_mm: float
    round: bool
    volume_mm3: float
    surface_mm2: float
    mass_kg: float
    show: tuple[Direction, ...]
    start_looks: Direction
    end_looks: Direction
    mirrored: bool
    note: str = ""


def extensions_of(works: Iterable[JointWork]) -> dict[tuple[str, End], float]:
    """Wood that joints add beyond each end of each part. [mm]"""
    longest: dict[tuple[str, End], float] = {}
    for work in works:
        for extension in work.extensions:
            key = (extension.part, extension.end)
            longest[key] = max(longest.get(key, 0.0), extension.length_mm)
    return longest


def finished_parts(piece: Piece, works: tuple[JointWork, ...]) -> tuple[FinishedSize, ...]:
    """Every part as the shop is to make it."""
    extensions = extensions_of(works)
    caps = {work.first for work in works if work.family == BreadboardEnd.name}
    return tuple(
        finished_size(
            part,
            extensions.get((name, End.START), 0.0) + extensions.get((name, End.END), 0.0),
            end_cut=EndCut.FLUSH_AFTER if name in caps else EndCut.BEFORE_ASSEMBLY,
            seam_avoid_mm=_avoid(part, works) if part.kind is PartKind.PANEL else (),
        )
        for name, part in piece.parts.items()
    )


def _avoid(part: Part, works: tuple[JointWork, ...]) -> tuple[float, ...]:
    """Lines along the grain that no seam of a panel should come near, from the edge of negative v. [mm]"""
    kinds = (MarkKind.MORTISE, MarkKind.HOLE, MarkKind.SLOT)
    lines: set[float] = set()
    low = part.frame.width
    for work in works:
        for mark in work.marks:
            if mark.part != part.name or mark.kind not in kinds or mark.on_end:
                continue
            toward = sum(a * b for a, b in zip(mark.reference_face.vector, low, strict=True))
            from_low = part.width_mm - mark.from_face_mm if toward > 0 else mark.from_face_mm
            lines.add(round(from_low, 1))
    return tuple(sorted(lines))


def mill_parts(parts: tuple[FinishedSize, ...], shop: Shop, cache: Cache) -> tuple[MillingLedger, ...]:
    """The milling ledger of every part; a part that has not changed keeps its own."""
    return tuple(cache.answer("milling", (part, shop), partial(mill, part, shop)) for part in parts)


def saw_parts(piece: Piece, works: tuple[JointWork, ...], shop: Shop, cache: Cache) -> tuple[PartSawing, ...]:
    """How every solid part is sawn to length."""
    extensions = extensions_of(works)
    sawn = []
    for name, part in piece.parts.items():
        if part.kind is PartKind.SHEET:
            continue
        own = {key: value for key, value in extensions.items() if key[0] == name}
        sawn.append(cache.answer("sawing", (part, own, shop), partial(saw_part, part, own, shop)))
    return tuple(sawn)


def planned_parts(
    piece: Piece,
    finished: tuple[FinishedSize, ...],
    meshes: Mapping[str, PartMesh],
    masses_kg: Mapping[str, float],
) -> tuple[PlannedPart, ...]:
    """The parts with their sizes, volumes and weights."""
    return tuple(
        PlannedPart(
            name=size.name,
            like=size.like,
            kind=size.kind,
            species=size.species,
            length_mm=size.length_mm,
            shoulder_mm=piece.parts[size.name].length_mm,
            width_mm=size.width_mm,
            thickness_mm=size.thickness_mm,
            round=piece.parts[size.name].round is not None,
            volume_mm3=meshes[size.name].volume_mm3,
            surface_mm2=meshes[size.name].surface_area_mm2,
            mass_kg=masses_kg[size.name],
            show=tuple(sorted(piece.parts[size.name].show)),
            start_looks=face_direction(scale(piece.parts[size.name].frame.grain, -1.0)),
            end_looks=face_direction(piece.parts[size.name].frame.grain),
            mirrored=piece.parts[size.name].mirrored,
            note=piece.parts[size.name].note,
        )
        for size in finished
    )
