"""Parts of the plan: every size from finished to rough, weight, area, and how each end is sawn."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from functools import partial

from scantling.joinery.breadboard_end import BreadboardEnd
from scantling.joinery.work import JointWork
from scantling.piece.convex import face_direction
from scantling.piece.geometry import scale
from scantling.piece.model import Direction, End, PartKind, Piece
from scantling.plan.cache import Cache
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.milling.milling import mill
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.yard import Nominal, nominals_in
from scantling.shop.sawing.saw import PartSawing, saw_part
from scantling.shop.sizes.seamlines import seam_lines
from scantling.shop.sizes.size import EndCut, FinishedSize, finished_size
from scantling.shop.sizes.strips import strips_needed
from scantling.solids.mesh import PartMesh
from scantling.stock.layouts.layout import Layout, StripWidths
from scantling.stock.racks.rack import Rack

__all__ = [
    "PlannedPart",
    "as_laid_out",
    "extensions_of",
    "finished_parts",
    "mill_parts",
    "offered_by",
    "planned_parts",
    "saw_parts",
]


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
            seam_avoid_mm=seam_lines(part, works) if part.kind is PartKind.PANEL else (),
        )
        for name, part in piece.parts.items()
    )


def mill_parts(
    parts: tuple[FinishedSize, ...], shop: Shop, cache: Cache, *, offered: tuple[Nominal, ...] | None = None
) -> tuple[MillingLedger, ...]:
    """The milling ledger of every part; a part that has not changed keeps its own.

    Parameters
    ----------
    parts
        The parts.
    shop
        Allowances and machines.
    offered
        Thicknesses of the boards at hand; None takes what the shop buys.
    """
    work = partial(mill, shop=shop, offered=offered)
    return tuple(cache.answer("milling", (part, shop, offered), partial(work, part)) for part in parts)


def saw_parts(piece: Piece, works: tuple[JointWork, ...], shop: Shop, cache: Cache) -> tuple[PartSawing, ...]:
    """How every solid part is sawn to length."""
    extensions: dict[str, dict[tuple[str, End], float]] = {}
    for (name, end), over_mm in extensions_of(works).items():
        extensions.setdefault(name, {})[name, end] = over_mm
    sawn = []
    for name, part in piece.parts.items():
        if part.kind is PartKind.SHEET:
            continue
        own = extensions.get(name, {})
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


def offered_by(rack: Rack | None) -> tuple[Nominal, ...] | None:
    """Thicknesses of the boards at hand; None without a rack, or with none a table knows."""
    if rack is None:
        return None
    return nominals_in(board.nominal_quarters for board in rack.boards) or None


def as_laid_out(
    parts: tuple[FinishedSize, ...], layout: Layout | None, *, most_mm: float
) -> tuple[FinishedSize, ...]:
    """The parts with the strips a layout gave their panels, and the fewest of what is still to buy.

    Parameters
    ----------
    parts
        Finished sizes.
    layout
        Parts on boards; None without a rack.
    most_mm
        Widest strip of a panel that sets no limit itself. [mm]
    """
    given = {strips.panel: strips for strips in (layout.strips if layout else ()) if strips.widths_mm}
    return tuple(_stripped(p, given[p.name], most_mm) if p.name in given else p for p in parts)


def _stripped(part: FinishedSize, strips: StripWidths, most_mm: float) -> FinishedSize:
    lacking = max(strips.missing_mm, 0.0)
    count = strips_needed(lacking, part.strip_most_mm or most_mm) if lacking > 1e-6 else 0
    bought = (lacking / count,) * count if count else ()
    return replace(part, strip_widths_mm=(*strips.widths_mm, *bought), strips_to_buy=count)
