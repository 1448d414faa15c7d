"""Screws and nails: the hole that lets the shank through, the pilot hole that holds, and what they hold."""

from __future__ import annotations

import math
from dataclasses import dataclass

from scantling.joinery.fitting import cannot_be_made, wood_behind_mm
from scantling.joinery.meeting import moved, slot_frame, spot_on
from scantling.joinery.work import Cut, Fit, Hole, Mark, MarkKind
from scantling.piece.convex import face_direction, named_face
from scantling.piece.geometry import Frame, Vec, dot, scale
from scantling.piece.model import JointRequest, Part, PartKind
from scantling.wood.species import find_species

__all__ = [
    "CLEAR_MM",
    "GIVE_MM",
    "Driven",
    "check_driven",
    "driven_cuts",
    "driven_mark",
    "pilot_share",
    "pull_n",
]

CLEAR_MM = 0.5
"""How much wider the hole in the part held is than a screw's shank (common practice). [mm]"""
GIVE_MM = 0.25
"""How far a thin screw or nail gives way sideways in the wood without harm (from memory). [mm]"""
ROOT_SHARE = 0.7
"""Root of a wood screw's thread over its diameter (common practice). [1]"""
NAIL_SHARE = 0.8
"""Pilot hole over the diameter of a nail, in hardwood and near an end (common practice). [1]"""
SAFETY = 5.0
"""Ultimate withdrawal over this is taken as what a screw may carry for good (common practice). [1]"""
END_GRAIN_SHARE = 0.75
"""Withdrawal from end grain over that from side grain, erratic (Wood Handbook ch. 8, from memory). [1]"""
_OVER_MM = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Driven:
    """One screw or nail, driven through the part held into the other. World.

    Parameters
    ----------
    at
        Where it crosses the face between the two. [mm]
    into
        The way it is driven.
    along
        Any direction square to it.
    size_mm
        Diameter and length. [mm]
    through_mm
        Wood of the part held that it passes. [mm]
    sunk_mm
        How deep its head is let in. [mm]
    """

    at: Vec
    into: Vec
    along: Vec
    size_mm: tuple[float, float]
    through_mm: float
    sunk_mm: float = 0.0

    @property
    def bite_mm(self) -> float:
        """How far it reaches into the other part. [mm]"""
        return self.size_mm[1] - (self.through_mm - self.sunk_mm)

    @property
    def frame(self) -> Frame:
        """Where it lies: its length along the grain axis, origin at its middle."""
        head = self.sunk_mm - self.through_mm
        return slot_frame(
            moved(self.at, self.into, head + self.size_mm[1] / 2.0), into=self.into, along=self.along
        )


def pilot_share(part: Part, *, nail: bool = False) -> float:
    """Pilot hole over the diameter of what is driven: 0.9 of a screw's root in hardwood, 0.7 in softwood. [1]

    References
    ----------
    .. [1] USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, ch. 8, lead holes for wood
       screws; from memory.

    """
    if nail:
        return NAIL_SHARE
    soft = part.kind is not PartKind.SHEET and not find_species(part.species).hardwood
    return ROOT_SHARE * (0.7 if soft else 0.9)


def pull_n(part: Part, driven: Driven) -> float | None:
    r"""What one wood screw may carry, pulled straight out of a part, a fifth of what tears it out. [N]

    .. math:: p = 108.25\, G^2 D L

    with the specific gravity :math:`G` of the wood, the diameter :math:`D` and the length in the wood
    :math:`L`; three quarters of it in end grain. None for sheet goods and for woods whose gravity is not
    known.

    References
    ----------
    .. [1] USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010, ch. 8, withdrawal of wood
       screws; the constant from memory.
    """
    if part.kind is PartKind.SHEET:
        return None
    gravity = find_species(part.species).specific_gravity_12
    if gravity is None:
        return None
    ultimate = 108.25 * gravity**2 * driven.size_mm[0] * driven.bite_mm
    in_end = abs(dot(driven.into, part.frame.grain)) > 0.7
    return ultimate / SAFETY * (END_GRAIN_SHARE if in_end else 1.0)


def check_driven(joint: JointRequest, option: str, other: Part, driven: Driven, *, what: str) -> None:
    """Refuse a screw or nail that does not reach the other part, or comes through it.

    Raises
    ------
    InputError
        ``screw_too_short``, ``screw_too_long``, with the figures.
    """
    wood = wood_behind_mm(other, driven.at, driven.into)
    if driven.bite_mm <= 0.0:
        code = "screw_too_short"
        value = f"{driven.size_mm[1]:.1f} mm through {driven.through_mm - driven.sunk_mm:.1f} mm"
        rule = f"must reach {other.name}"
        way = f"Take one longer than {driven.size_mm[1] - driven.bite_mm:.0f} mm, or sink its head deeper."
    elif driven.bite_mm > wood - 0.01:
        code = "screw_too_long"
        value = f"a {what} {driven.bite_mm:.1f} mm into {wood:.1f} mm of {other.name}"
        rule = "must end inside the part it holds in"
        most = math.floor(driven.size_mm[1] - driven.bite_mm + wood - 0.01)
        way = f"Take one of at most {most:.0f} mm, or sink its head less."
    else:
        return
    raise cannot_be_made(joint, option, code=code, value=value, rule=rule, remedy=way)


def driven_cuts(held: Part, other: Part, driven: Driven, *, clear_mm: float, pilot_mm: float) -> list[Cut]:
    """The hole through the part held, and the pilot hole in the other.

    Parameters
    ----------
    held, other
        The part the head is on, and the one that holds the point.
    driven
        The screw or nail.
    clear_mm, pilot_mm
        Diameters of the two holes. [mm]
    """
    start = moved(driven.at, driven.into, -driven.through_mm - _OVER_MM)
    back = moved(driven.at, driven.into, -_OVER_MM)
    return [
        _hole(held, driven, start, (clear_mm, driven.through_mm + 2.0 * _OVER_MM), what="screw hole"),
        _hole(other, driven, back, (pilot_mm, driven.bite_mm + _OVER_MM), what="pilot hole"),
    ]


def driven_mark(held: Part, driven: Driven, *, clear_mm: float, setup: str) -> Mark:
    """The hole in the part held, marked out on the face that the head is on.

    Parameters
    ----------
    clear_mm
        Diameter of the hole. [mm]
    setup
        Name of the machine set-up it belongs to.
    """
    outward = face_direction(scale(driven.into, -1.0))
    face = named_face(held, outward)
    on = moved(driven.at, driven.into, -driven.through_mm)
    spot = spot_on(held, on, face.label if face else "thickness+")
    return Mark(
        part=held.name,
        kind=MarkKind.HOLE,
        on_end=spot.on_end,
        end=spot.end,
        face=outward,
        reference_face=spot.reference_face,
        from_end_mm=spot.from_end_mm,
        from_face_mm=spot.from_face_mm,
        length_mm=clear_mm,
        width_mm=clear_mm,
        depth_mm=driven.through_mm,
        fit=Fit.TIGHT,
        setup=setup,
    )


def _hole(part: Part, driven: Driven, origin: Vec, size_mm: tuple[float, float], *, what: str) -> Cut:
    frame = part.frame.frame_in(slot_frame(origin, into=driven.into, along=driven.along))
    return Cut(part=part.name, tool=Hole(frame=frame, diameter_mm=size_mm[0], depth_mm=size_mm[1]), what=what)
