"""Weight of every part and of the piece, and where its center of gravity is."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from scantling.piece.convex import Body, body_of
from scantling.piece.geometry import Vec, add, cross, dot, scale, sub
from scantling.piece.model import Part, PartKind, Piece
from scantling.wood.density import density_kg_m3 as wood_density_kg_m3
from scantling.wood.sheets import find_sheet
from scantling.wood.species import find_species

__all__ = ["Mass", "PartMass", "centroid", "density_kg_m3", "weigh"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartMass:
    """Weight of one part.

    Parameters
    ----------
    volume_mm3
        With its joints cut, where that was given. [mm3]
    density_kg_m3
        At the moisture it will have in use. [kg/m3]
    mass_kg
        [kg]
    center_mm
        Center of gravity. World. [mm]
    """

    part: str
    volume_mm3: float
    density_kg_m3: float
    mass_kg: float
    center_mm: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Mass:
    """Weight of a piece, or of some of its parts.

    Parameters
    ----------
    parts
        Every part weighed.
    extra_kg
        Hardware. [kg]
    total_kg
        [kg]
    center_mm
        Center of gravity of the parts. World. [mm]
    """

    parts: tuple[PartMass, ...]
    extra_kg: float
    total_kg: float
    center_mm: Vec

    @property
    def by_part_kg(self) -> dict[str, float]:
        """Weight of each part. [kg]"""
        return {part.part: part.mass_kg for part in self.parts}

    def of(self, names: tuple[str, ...]) -> Mass:
        """Weight of some of the parts only."""
        chosen = tuple(part for part in self.parts if part.part in names)
        return _sum(chosen, 0.0)


def weigh(
    piece: Piece,
    volumes_mm3: Mapping[str, float] | None = None,
    *,
    mc_pct: float = 8.0,
    centers_mm: Mapping[str, Vec] | None = None,
    extra_kg: float = 0.0,
) -> Mass:
    r"""Weight and center of gravity.

    Parameters
    ----------
    piece
        The resolved piece.
    volumes_mm3
        Volume of each part with its joints cut; a part left out is taken before its joints. [mm3]
    mc_pct
        Moisture content in use. [% of ovendry mass]
    centers_mm
        Centroid of each part; left out, that of the part before its joints. World. [mm]
    extra_kg
        Hardware, taken at the center of gravity of the wood. [kg]

    Notes
    -----
    .. math:: m = \sum \rho_i V_i, \quad x_{cg} = \sum m_i x_i / m

    Density at the moisture given by the relations of Wood Handbook, FPL-GTR-190, ch. 4.
    """
    volumes, centers = volumes_mm3 or {}, centers_mm or {}
    weighed: list[PartMass] = []
    for name, part in piece.parts.items():
        body = body_of(part)
        volume = volumes.get(name, body.volume_mm3)
        density = density_kg_m3(part, mc_pct=mc_pct)
        weighed.append(
            PartMass(
                part=name,
                volume_mm3=volume,
                density_kg_m3=density,
                mass_kg=volume * 1e-9 * density,
                center_mm=centers[name] if name in centers else centroid(body),
            )
        )
    return _sum(tuple(weighed), extra_kg)


def _sum(parts: tuple[PartMass, ...], extra_kg: float) -> Mass:
    wood = sum(part.mass_kg for part in parts)
    center: Vec = (0.0, 0.0, 0.0)
    for part in parts:
        center = add(center, scale(part.center_mm, part.mass_kg / wood if wood else 0.0))
    return Mass(parts=parts, extra_kg=extra_kg, total_kg=wood + extra_kg, center_mm=center)


def centroid(body: Body) -> Vec:
    """Centroid of a convex body, by tetrahedra over its faces. [mm]"""
    base = body.faces[0].corners[0]
    total, moment = 0.0, (0.0, 0.0, 0.0)
    for face in body.faces:
        first = face.corners[0]
        for i in range(1, len(face.corners) - 1):
            a, b, c = first, face.corners[i], face.corners[i + 1]
            six = abs(dot(sub(a, base), cross(sub(b, base), sub(c, base))))
            middle = scale(add(add(a, b), add(c, base)), 0.25)
            total += six
            moment = add(moment, scale(middle, six))
    return scale(moment, 1.0 / total) if total else base


def density_kg_m3(part: Part, *, mc_pct: float) -> float:
    """Density of a part's wood or sheet. [kg/m3]

    Raises
    ------
    InputError
        ``unknown_sheet`` for a sheet whose density is not known.
    """
    if part.kind is not PartKind.SHEET:
        return wood_density_kg_m3(find_species(part.species), mc_pct=mc_pct)
    return find_sheet(part.species).density_kg_m3
