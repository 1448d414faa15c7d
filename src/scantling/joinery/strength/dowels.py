"""Dowels: what draws them out, what shears them, and what a row of them bears in turning."""

from __future__ import annotations

from math import pi

from scantling.joinery.bending import lies_flat, turning_way
from scantling.joinery.strength.figure import Figure, JointStrength, Known, none, nothing
from scantling.joinery.strength.glue import FACTOR, less, sheared, woods
from scantling.joinery.strength.tenons import DOWELS_STIFFNESS_NMM_RAD
from scantling.joinery.work import Connector, ConnectorKind, JointWork, MarkKind
from scantling.piece.geometry import Vec, dot, norm, sub, unit
from scantling.piece.model import Part

__all__ = ["BOND_MPA", "WOOD_MPA", "dowel_pin", "held_nmm", "one_dowel_n"]

BOND_MPA = (3.0, 4.9, 8.6)
"""Glued dowels drawn out, over the glued surface: least, usual and greatest tested. [MPa]

References
----------
.. [1] M. Podlena and others, "Axial loading of different single-pin dowels and effect on withdrawal
   strength", BioResources 13(3), 2018, 5179-5192: 3.0 for dowels glued by the factory and dipped in water,
   4.9 for spiral grooves glued in the shop, which were the weaker ones.
.. [2] M. Podlena and others, "Evaluation of parameters influencing the withdrawal strength of oak and
   beech dowels", BioResources 15(1), 2020, 1665-1677: 3.0 (plain, in damp air) to 8.6 (spiral, in dry
   air), 8 mm.
"""
WOOD_MPA = 103.0
"""Tension along the grain that breaks the dowel's own wood, taken as the modulus of rupture of beech. [MPa]

That the load grows in line with the glued area until the strength of the dowel's own wood is reached is
found in [1]_; the modulus is that of American beech at 12 %, 102.7 MPa [2]_, a little under its tension.

References
----------
.. [1] D. L. Crews, *The effect of dowel diameter and dowel penetration on joint strength*, M.S. thesis,
   Michigan State University, 1959.
.. [2] *Wood Handbook*, FPL-GTR-190, table 5-3.
"""
_DRAWN = (
    "glued surface at 4.9 MPa, tested from 3.0 to 8.6 (Podlena and others, BioResources 13(3) 2018 and "
    "15(1) 2020), and never more than the 103 MPa at which the dowel's own wood breaks (Crews 1959)"
)


def one_dowel_n(diameter_mm: float, depth_mm: float, *, bond_mpa: float = BOND_MPA[1]) -> float:
    r"""What draws one glued dowel out, or breaks it. [N]

    .. math:: P = \min(\pi d l \tau, \pi d^2 \sigma / 4)

    Examples
    --------
    >>> round(one_dowel_n(8.0, 25.0))
    3079
    """
    return min(pi * diameter_mm * depth_mm * bond_mpa, WOOD_MPA * pi * diameter_mm**2 / 4.0)


def held_nmm(places_mm: list[float], one_n: float) -> float:
    r"""Moment a row of dowels bears, the outermost at its limit and the others in proportion. [N mm]

    .. math:: M = P \frac{\sum x^2}{x_{max}}

    from the middle of the row. Derived; a rail's edge that bears on the leg helps, and is not counted.

    Examples
    --------
    >>> held_nmm([0.0, 40.0], 3000.0)
    120000.0
    """
    middle = sum(places_mm) / len(places_mm)
    arms = [place - middle for place in places_mm]
    farthest = max(abs(arm) for arm in arms)
    return 0.0 if farthest == 0.0 else one_n * sum(arm**2 for arm in arms) / farthest


def dowel_pin(work: JointWork, first: Part, second: Part) -> JointStrength:
    """A row of dowels between two parts."""
    row = next((one for one in work.connectors if one.kind is ConnectorKind.DOWEL), None)
    if row is None or woods(first, second) is None:
        return nothing("dowels in sheet goods: no published figure taken")
    holes = {m.part: m.depth_mm for m in work.marks if m.kind is MarkKind.HOLE}
    depth = min(holes.values()) - _end_room_mm(row, holes)
    diameter = row.size_mm[0]
    bonds = [one_dowel_n(diameter, depth, bond_mpa=bond) for bond in BOND_MPA]
    glued, way = bool(work.glue), turning_way(first, second, work.leaves)
    return JointStrength(
        pull_n=_tested([row.count * bond for bond in bonds], _DRAWN) if glued else none("no glue holds it"),
        shear_n=_sheared(row, first, second),
        moment_nmm=_turned(row, bonds, way) if glued else none("no glue holds it"),
        stiffness_nmm_rad=_stiffness(work, first, row, way),
    )


def _end_room_mm(row: Connector, holes: dict[str, float]) -> float:
    """Air at one end of a dowel. [mm]"""
    return max((sum(holes.values()) - row.size_mm[1]) / 2.0, 0.0) if len(holes) == 2 else 0.0


def _tested(values: list[float], source: str) -> Figure:
    low, likely, high = values
    return Figure(
        likely=likely,
        low=low,
        high=high,
        may=likely / FACTOR,
        factor=FACTOR,
        known=Known.TESTED,
        source=source,
    )


def _beside(row: Connector, way: Vec | None) -> bool:
    """Whether the dowels stand side by side across the way they are turned over, so that none draws."""
    return way is None or lies_flat(unit(sub(row.frames[-1].origin, row.frames[0].origin)), way)


def _turned(row: Connector, bonds: list[float], way: Vec | None) -> Figure:
    """The dowels' own couple. [N mm]"""
    if row.count < 2 or len(row.frames) < 2:
        return none("one dowel turns in its hole")
    if _beside(row, way):
        return none("its dowels stand side by side across the way it is turned")
    base = row.frames[0].origin
    along = unit(sub(row.frames[-1].origin, base))
    places = [dot(sub(frame.origin, base), along) for frame in row.frames]
    low, likely, high = (held_nmm(places, bond) for bond in bonds)
    return Figure(
        likely=likely,
        low=low,
        high=high,
        may=likely / FACTOR,
        factor=FACTOR,
        known=Known.RECKONED,
        source=f"couple of the dowels drawn out: {_DRAWN}; a rail's edge bearing on the leg is not counted",
    )


def _sheared(row: Connector, first: Part, second: Part) -> Figure:
    both = woods(first, second) or ()
    section = row.count * pi * row.size_mm[0] ** 2 / 4.0
    what = "three quarters of the dowels' section, as if of the weaker part's wood,"
    return less(*(sheared(wood, section, share=0.75, what=what) for wood in both))


def _stiffness(work: JointWork, first: Part, row: Connector, way: Vec | None) -> Figure:
    """As of the chair joints tested, where two dowels or more hold the end of a stick."""
    if not work.glue:
        return none("put together dry")
    on_end = any(m.on_end for m in work.marks if m.part == first.name)
    spread = norm(sub(row.frames[-1].origin, row.frames[0].origin)) if row.frames else 0.0
    if row.count < 2 or not on_end or spread < row.size_mm[0] or _beside(row, way):
        return none("tested for two dowels one over the other in the end of a rail alone")
    low, high = DOWELS_STIFFNESS_NMM_RAD
    return Figure(
        likely=(low + high) / 2.0,
        low=low,
        high=high,
        known=Known.TESTED,
        source="dowel joints of chair frames, Scots pine with 8 mm to beech with 10 mm dowels (Kasal, Ulun, "
        "Kuskun, Turkish J. of Forestry 26(3), 2025, 384-394)",
    )
