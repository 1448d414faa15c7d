"""Glue lines: as strong as the wood in shear, along the grain, across it and on its end."""

from __future__ import annotations

from collections.abc import Iterable
from math import hypot

from scantling.joinery.strength.figure import Figure, Known, none
from scantling.joinery.work import GlueFace
from scantling.piece.model import Part, PartKind
from scantling.wood.species import Species, find_species

__all__ = [
    "ACROSS",
    "FACTOR",
    "crushed",
    "glued_area_mm2",
    "lap",
    "less",
    "line_mpa",
    "reckoned",
    "sheared",
    "torsion_nmm",
    "woods",
]

FACTOR = 4.0
"""Breaking strength of clear wood over what a joint may carry for good (common practice). [1]"""
DENT_FACTOR = 1.67
"""Compression across the grain at the proportional limit over what is counted on. [1]
ASTM D 245, from memory."""
ROLLING_SHARE = {True: 0.40, False: 0.25}
"""Shear across the grain over shear along it, of hardwoods and of softwoods. [1]

Derived: beech 5.6 MPa [1]_ over the 13.9 of American beech [2]_; Japanese cedar 1.5 to 2.0 MPa [3]_ over the
6.8 of western redcedar [2]_, the cedar nearest to it in the tables.

References
----------
.. [1] S. Aicher, Z. Christian, M. Hirsch, "Rolling shear modulus and strength of beech wood laminations",
   Holzforschung 70(8), 2016: mean of 50 specimens.
.. [2] *Wood Handbook*, FPL-GTR-190, table 5-3.
.. [3] "Evaluation of rolling shear modulus and strength of Japanese cedar cross-laminated timber laminae",
   Journal of Wood Science, 2019, doi 10.1186/s10086-019-1810-8: means of three widths.
"""
CROSSED_DEG = 30.0
"""From this angle between the grains on, one of the two woods is sheared across its grain. [deg]"""
SHEAR_PARALLEL = "shear along the grain by Wood Handbook (FPL-GTR-190) table 5-3"
ACROSS = (
    "crossed grain at 0.40 (hardwood) or 0.25 (softwood) of it, from rolling shear of beech "
    "(Aicher and others, Holzforschung 2016) and Japanese cedar (J. Wood Sci. 2019)"
)
END_GRAIN = (
    "end grain counts for nothing (butt joints reach 25 % of the wood's tension, Wood Handbook ch. 10)"
)


def woods(*parts: Part) -> tuple[Species, ...] | None:
    """The woods of some parts; None where one is a sheet, of which no such strength is published."""
    if any(part.kind is PartKind.SHEET for part in parts):
        return None
    return tuple(find_species(part.species) for part in parts)


def line_mpa(species: Iterable[Species], *, crossed: bool) -> float | None:
    """Shear strength of a glue line between woods: of the weaker, across its grain where they cross. [MPa]

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 10: edge-grain joints can be almost as strong as the wood in
       shear parallel to the grain, tension across the grain, and cleavage.
    """
    found = []
    for wood in species:
        if wood.shear_mpa is None:
            return None
        found.append(wood.shear_mpa * (ROLLING_SHARE[wood.hardwood] if crossed else 1.0))
    return min(found, default=None)


def glued_area_mm2(faces: Iterable[GlueFace]) -> float:
    """Area that counts: end grain counts for nothing. [mm2]"""
    return sum(face.area_mm2 * (1.0 - face.end_grain_share) for face in faces)


def lap(faces: tuple[GlueFace, ...], first: Part, second: Part, *, share: float = 1.0) -> Figure:
    """What glue faces bear in shear, or that nothing is published. [N]

    Parameters
    ----------
    share
        Part of the faces that is in the weaker of the two. [1]
    """
    if not faces:
        return none("no glue holds it")
    both = woods(first, second)
    if both is None:
        return none("glue on sheet goods: no published figure")
    crossed = max(face.grain_angle_deg for face in faces) >= CROSSED_DEG
    stress = line_mpa(both, crossed=crossed)
    if stress is None:
        return none("no shear strength is published for this wood")
    breaks = stress * glued_area_mm2(faces) * share
    if breaks <= 0.0:
        return none(END_GRAIN)
    source = f"glue line of {stress:.1f} MPa: {SHEAR_PARALLEL}" + (f"; {ACROSS}" if crossed else "")
    if any(face.end_grain_share for face in faces):
        source += f"; {END_GRAIN}"
    return reckoned(breaks, source)


def reckoned(breaks: float, source: str) -> Figure:
    """A breaking value from the wood's published strengths, with a quarter of it to be counted on."""
    return Figure(
        likely=breaks,
        low=breaks,
        high=breaks,
        may=breaks / FACTOR,
        factor=FACTOR,
        known=Known.RECKONED,
        source=source,
    )


def less(*figures: Figure) -> Figure:
    """The one that may be counted on least; what nothing is published of counts for nothing."""
    told = [figure for figure in figures if figure.may is not None]
    return min(told, key=lambda figure: figure.may or 0.0) if told else figures[0]


def crushed(wood: Species, area_mm2: float) -> Figure:
    """What dents a wood across its grain. [N] The strength printed is that at the proportional limit."""
    if wood.compression_perp_mpa is None:
        return none("no compression across the grain is published for this wood")
    dents = wood.compression_perp_mpa * area_mm2
    return Figure(
        likely=dents,
        low=dents,
        high=dents,
        may=dents / DENT_FACTOR,
        factor=DENT_FACTOR,
        known=Known.RECKONED,
        source="dented across the grain (Wood Handbook table 5-3), over 1.67 (ASTM D 245, from memory)",
    )


def sheared(wood: Species, area_mm2: float, *, share: float, what: str) -> Figure:
    """A section sheared along its grain, its greatest stress the mean over a share. [N]"""
    if wood.shear_mpa is None:
        return none("no shear strength is published for this wood")
    return reckoned(share * area_mm2 * wood.shear_mpa, f"{what} in shear; {SHEAR_PARALLEL}")


def torsion_nmm(length_mm: float, width_mm: float, *, stress_mpa: float) -> float:
    r"""Moment that shears a glued rectangle from its corners inward. [N mm]

    .. math:: M = \tau \frac{a b (a^2 + b^2) / 12}{\sqrt{a^2 + b^2} / 2}

    Derived: the shear grows with the distance from the middle, as in the polar formula.

    Examples
    --------
    >>> round(torsion_nmm(60.0, 40.0, stress_mpa=5.0))
    144222
    """
    polar = length_mm * width_mm * (length_mm**2 + width_mm**2) / 12.0
    return stress_mpa * polar / (0.5 * hypot(length_mm, width_mm))
