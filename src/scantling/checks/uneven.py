"""What stands on an uneven floor: on four feet or more, or on a case's edges, it rocks until trimmed: F81."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.checks.catalogue import finding, limit
from scantling.checks.legs import standing_legs
from scantling.checks.subject import Subject
from scantling.errors import Finding
from scantling.piece.convex import body_of
from scantling.piece.model import Part, Piece, Stands

__all__ = ["Footing", "along_leg_mm", "check", "footing_of"]

FIRM_FEET = 3
"""So many feet stand on any floor. [1]"""
_ON_FLOOR_MM = 0.1
"""What ends this near to the floor stands on it. [mm]"""
_UP = (0.0, 0.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """What a piece stands on.

    Parameters
    ----------
    legs
        Parts that go up from the floor by an end.
    edges
        Parts whose lower edge lies on it: sides, plinths and feet of a case, runners of a trestle.
    """

    legs: tuple[Part, ...]
    edges: tuple[Part, ...]

    @property
    def rocks(self) -> bool:
        """Whether an uneven floor leaves some of it in the air: an edge, or more feet than three."""
        return bool(self.edges) or len(self.legs) > FIRM_FEET


def footing_of(piece: Piece) -> Footing:
    """What a piece stands on; nothing where it hangs on a wall."""
    if piece.brief.stands is Stands.WALL:
        return Footing(legs=(), edges=())
    legs = tuple(standing_legs(piece))
    low = (part for part in piece.parts.values() if part not in legs and part.round is None)
    edges = tuple(part for part in low if abs(body_of(part).extent(_UP)[0]) <= _ON_FLOOR_MM)
    return Footing(legs=legs, edges=edges)


def along_leg_mm(leg: Part, height_mm: float) -> float:
    """How much of a leg is sawn off to lower its foot's end by a height. [mm]"""
    return height_mm / abs(leg.frame.grain[2])


def check(subject: Subject) -> list[Finding]:
    """A finding where more is out of flat under the piece than a pad takes up, or is left to be trimmed."""
    brief, footing = subject.piece.brief, footing_of(subject.piece)
    uneven, spare = brief.floor_uneven_mm, brief.feet_trim_mm
    if not footing.rocks or uneven <= max(limit("F81", "pad_mm"), spare) + 1e-6:
        return []
    return [_on_edges(footing, uneven, spare) if footing.edges else _on_legs(footing, uneven, spare)]


def _left(spare: float, on: str) -> str:
    return f"; {spare:g} mm are left on {on} for that" if spare > 0.0 else ""


def _on_legs(footing: Footing, uneven: float, spare: float) -> Finding:
    along, missing = max(along_leg_mm(leg, uneven) for leg in footing.legs), uneven - spare
    return finding(
        "F81",
        where="feet",
        message=f"it stands on {len(footing.legs)} feet, on a floor {uneven:g} mm out of flat under them: "
        f"it rocks until they are trimmed, by up to {uneven:g} mm, and then it is as much lower"
        f"{_left(spare, 'them')}",
        advice=f"Draw it {missing:g} mm taller, write `feet_trim: {uneven:g} mm` in the brief, and "
        f"scribe and saw the feet where it stands, up to {along:.1f} mm along a leg; or let it stand on "
        "three legs.",
        numbers={"uneven_mm": uneven, "trim_mm": spare, "shortfall_mm": missing, "along_mm": along},
    )


def _on_edges(footing: Footing, uneven: float, spare: float) -> Finding:
    missing = uneven - spare
    names = [part.name for part in (*footing.edges, *footing.legs)]
    standing = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return finding(
        "F81",
        where="feet",
        message=f"it stands on {standing}, on a floor {uneven:g} mm out of flat under them: "
        "it rocks, and a case wedged at one corner only twists: its doors and drawers no longer hang true"
        f"{_left(spare, 'them')}",
        advice=f"Draw it {missing:g} mm taller at the floor, write `feet_trim: {uneven:g} mm` in the brief, "
        "level it on wedges where it stands and scribe it to the floor; or stand it on feet that screw up "
        "and down.",
        numbers={"uneven_mm": uneven, "trim_mm": spare, "shortfall_mm": missing},
    )
