"""Dimensional change coefficients along any direction of the section."""

from __future__ import annotations

import math
from collections.abc import Sequence
from enum import StrEnum

from scantling.errors import InputError
from scantling.wood.ring import Ring
from scantling.wood.species import Species

__all__ = [
    "Direction",
    "coefficient",
    "coefficient_at",
    "coefficient_from_shrinkage",
    "coefficient_source",
    "panel_coefficient",
    "shrinkage_pct",
    "thickness_coefficient",
]


class Direction(StrEnum):
    """A direction of the tree."""

    RADIAL = "radial"
    TANGENTIAL = "tangential"


def coefficient_from_shrinkage(shrinkage_total_pct: float, *, shrink_start_pct: float = 30.0) -> float:
    r"""Dimensional change coefficient implied by a total shrinkage.

    Parameters
    ----------
    shrinkage_total_pct
        Green to ovendry, of the green size. [%]
    shrink_start_pct
        Moisture content at which shrinkage starts. [%]

    Returns
    -------
    float
        Change per percent moisture as a fraction of the size at 10 %. [1 per % MC]

    Notes
    -----
    .. math:: C = \frac{S/F}{1 - S\,(F-10)/F}

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, Table 13-5, footnotes.

    Examples
    --------
    >>> round(coefficient_from_shrinkage(7.1), 5)
    0.00248
    """
    slope = shrinkage_total_pct / 100.0 / shrink_start_pct
    return slope / (1.0 - slope * (shrink_start_pct - 10.0))


def _published(species: Species, direction: Direction) -> float | None:
    return species.cr_per_pct if direction is Direction.RADIAL else species.ct_per_pct


def _shrinkage(species: Species, direction: Direction) -> float | None:
    return species.radial_pct if direction is Direction.RADIAL else species.tangential_pct


def _principal(species: Species, direction: Direction) -> float:
    published = _published(species, direction)
    if published is not None:
        return published
    total = _shrinkage(species, direction)
    if total is None:
        raise InputError(
            code="movement_unknown",
            field="species",
            value=species.name,
            rule=f"must have a published {direction} coefficient or shrinkage",
            remedy="Choose another wood or ring orientation, or give the number in a file of your own woods.",
        )
    return coefficient_from_shrinkage(total, shrink_start_pct=species.shrink_start_pct)


def coefficient_source(species: Species, direction: Direction) -> str:
    """Where a species' coefficient comes from, in words."""
    short = "cr_per_pct" if direction is Direction.RADIAL else "ct_per_pct"
    source = species.source(short)
    if source is not None:
        return str(source)
    source = species.source(f"{direction}_pct")
    return f"computed from the total shrinkage of {source}" if source is not None else "unknown"


def coefficient_at(species: Species, ring_angle_deg: float) -> float:
    r"""Coefficient along a line that meets the growth rings at an angle.

    Parameters
    ----------
    species
        The wood.
    ring_angle_deg
        Angle between the line (across the width) and the rings. [deg] 0 tangential, 90 radial.

    Returns
    -------
    float
        Coefficient along the line. [1 per % MC]

    Raises
    ------
    InputError
        ``movement_unknown`` where the direction needed is not published.

    Notes
    -----
    Turning a small strain with principal axes R and T:

    .. math:: C(\theta) = C_T\cos^2\theta + C_R\sin^2\theta

    Examples
    --------
    >>> from scantling.wood.species import find_species
    >>> round(coefficient_at(find_species("white oak"), 45.0), 6)
    0.002725
    """
    radial_share = math.sin(math.radians(ring_angle_deg)) ** 2
    if radial_share < 1e-12:
        return _principal(species, Direction.TANGENTIAL)
    if radial_share > 1.0 - 1e-12:
        return _principal(species, Direction.RADIAL)
    tangential = _principal(species, Direction.TANGENTIAL)
    return tangential * (1.0 - radial_share) + _principal(species, Direction.RADIAL) * radial_share


def coefficient(species: Species, ring: Ring) -> float:
    """Coefficient across the width of a board. [1 per % MC]

    Examples
    --------
    >>> from scantling.wood.species import find_species
    >>> coefficient(find_species("cherry"), Ring.FLAT)
    0.00248
    """
    return coefficient_at(species, ring.ring_angle_deg)


def thickness_coefficient(species: Species, ring: Ring) -> float:
    """Coefficient through the thickness of a board. [1 per % MC]

    Examples
    --------
    >>> from scantling.wood.species import find_species
    >>> thickness_coefficient(find_species("cherry"), Ring.FLAT)
    0.00126
    """
    return coefficient_at(species, 90.0 - ring.ring_angle_deg)


def panel_coefficient(species: Species, strips: Sequence[tuple[float, Ring]]) -> float:
    """Coefficient across a panel glued from strips of several ring orientations. [1 per % MC]

    Parameters
    ----------
    species
        The wood of all strips.
    strips
        Width and ring orientation of each. [mm] > 0.

    Returns
    -------
    float
        Mean of the strips' own, by width.

    Raises
    ------
    InputError
        ``strips_missing`` where there is no width, ``movement_unknown``.

    Examples
    --------
    >>> from scantling.wood.species import find_species
    >>> round(panel_coefficient(find_species("cherry"), [(100, Ring.FLAT), (100, Ring.QUARTER)]), 5)
    0.00187
    """
    total = sum(width for width, _ in strips)
    if not total > 0.0:
        raise InputError(
            code="strips_missing", field="strips", value=len(strips), rule="must have a width in all"
        )
    return sum(width * coefficient(species, ring) for width, ring in strips) / total


def shrinkage_pct(species: Species, ring_angle_deg: float) -> float:
    """Total shrinkage, green to ovendry, along a line that meets the rings at an angle. [%]

    The published shrinkage where there is one, else what the published coefficient implies.

    Raises
    ------
    InputError
        ``movement_unknown``.
    """
    radial_share = math.sin(math.radians(ring_angle_deg)) ** 2
    total = 0.0
    for direction, share in ((Direction.TANGENTIAL, 1.0 - radial_share), (Direction.RADIAL, radial_share)):
        if share < 1e-12:
            continue
        value = _shrinkage(species, direction)
        if value is None:
            start = species.shrink_start_pct
            per_pct = _principal(species, direction)
            value = 100.0 * start * per_pct / (1.0 + per_pct * (start - 10.0))
        total += share * value
    return total
