"""Ways of laying a part at the saw for one end: which face down, which edge to the fence, which saw."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.piece.convex import face_direction
from scantling.piece.geometry import Vec
from scantling.piece.model import Direction, Part
from scantling.shop.operations.routing import Machine
from scantling.shop.profile.profile import Shop
from scantling.shop.sawing.partends import right_handed
from scantling.shop.sawing.sawplane import KeptSide, Placement, Turn, placements
from scantling.shop.sawing.sawreach import reach

__all__ = ["LayDown", "face_looks", "lay_downs"]


_STANDS = 3.0
"""A part this many times as high as wide stands on its edge, and tips when it is sawn at two angles (common
practice). [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayDown:
    """One way of sawing an end.

    Parameters
    ----------
    face_down, fence_edge
        The face on the table and the edge against the fence, by where they look in the piece.
    kept
        Side of the blade the part lies on; the offcut falls on the other.
    miter_deg, bevel_deg
        Blade turned from square; tilted from upright, its top to the left. [deg]
    turn
        Which way the far end of the blade is turned.
    miter_scale_deg, bevel_scale_deg
        The same on a scale that reads from the blade: 90 less. [deg]
    across_mm, height_mm
        Of the part as it lies: its width on the table, and how high it stands. [mm]
    machine
        The saw.
    reaches
        Whether it can.
    why_not
        What the saws lack.
    """

    face_down: Direction
    fence_edge: Direction
    kept: KeptSide
    miter_deg: float
    bevel_deg: float
    turn: Turn
    miter_scale_deg: float
    bevel_scale_deg: float
    across_mm: float
    height_mm: float
    machine: Machine
    reaches: bool
    why_not: tuple[str, ...] = ()

    @property
    def angles(self) -> int:
        """How many of the two angles are not square. [1]"""
        return int(self.miter_deg > 0.0) + int(self.bevel_deg > 0.0)

    @property
    def setting(self) -> tuple[float, float, float, str, str]:
        """What settings are ordered and told apart by: lesser angles first."""
        miter, bevel = round(self.miter_deg, 2), round(self.bevel_deg, 2)
        return (miter + bevel, bevel, miter, self.turn.value, self.machine.value)


def lay_downs(part: Part, normal: Vec, shop: Shop) -> tuple[LayDown, ...]:
    """Every way to saw an end, the best first.

    A saw that reaches goes before one that does not, one angle before two, at two angles a part that does not
    stand on its narrow edge before one that does, then the lesser tilt, then the part lying on its wide face,
    then the blade turned to the left (so that all parts share one setting), then a face that does not show
    going down.

    Parameters
    ----------
    part
        The part.
    normal
        Normal of the end in right-handed part axes, out of the wood.
    shop
        Its saws.
    """
    best: dict[Vec, tuple[tuple[float, ...], LayDown]] = {}
    for place in placements(normal):
        lay = _lay(part, place, shop)
        rank = _rank(part, place, lay)
        if place.down not in best or rank < best[place.down][0]:
            best[place.down] = (rank, lay)
    return tuple(lay for _, lay in sorted(best.values(), key=lambda pair: pair[0]))


def face_looks(part: Part, local: Vec) -> Direction:
    """Where a face given in right-handed part axes looks in the piece."""
    hand = 1.0 if right_handed(part) else -1.0
    return face_direction(part.frame.direction((local[0], hand * local[1], local[2])))


def _lay(part: Part, place: Placement, shop: Shop) -> LayDown:
    flat = abs(place.down[2]) > 0.5
    height_mm, across_mm = (part.thickness_mm, part.width_mm) if flat else (part.width_mm, part.thickness_mm)
    saw = reach(
        shop.machines,
        miter_deg=place.miter_deg,
        bevel_deg=place.bevel_deg,
        height_mm=height_mm,
        across_mm=across_mm,
    )
    return LayDown(
        face_down=face_looks(part, place.down),
        fence_edge=face_looks(part, place.fence),
        kept=place.kept,
        miter_deg=place.miter_deg,
        bevel_deg=place.bevel_deg,
        turn=place.turn,
        miter_scale_deg=90.0 - place.miter_deg,
        bevel_scale_deg=90.0 - place.bevel_deg,
        across_mm=across_mm,
        height_mm=height_mm,
        machine=saw.machine,
        reaches=saw.reaches,
        why_not=saw.why_not,
    )


def _rank(part: Part, place: Placement, lay: LayDown) -> tuple[float, ...]:
    lies_mm = part.width_mm if abs(place.down[2]) > 0.5 else part.thickness_mm
    return (
        float(not lay.reaches),
        float(place.angles),
        float(place.angles > 1 and lay.height_mm > _STANDS * lay.across_mm),
        round(place.bevel_deg, 3),
        -lies_mm,
        float(lay.turn is Turn.RIGHT),
        float(lay.face_down in part.show),
        float(place.kept is KeptSide.RIGHT),
    )
