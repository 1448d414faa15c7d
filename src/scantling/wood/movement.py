"""Change of width and thickness with moisture."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from scantling.errors import InputError
from scantling.wood.coefficients import (
    coefficient,
    coefficient_at,
    coefficient_from_shrinkage,
    panel_coefficient,
    shrinkage_pct,
    thickness_coefficient,
)
from scantling.wood.species import Species

__all__ = [
    "LINEAR_RANGE_PCT",
    "SPREAD_SHARE",
    "Movement",
    "MovementMethod",
    "check_moisture",
    "check_width",
    "coefficient",
    "coefficient_at",
    "coefficient_from_shrinkage",
    "length_change_mm",
    "movement",
    "panel_coefficient",
    "shrinkage_pct",
    "strips_movement",
    "thickness_coefficient",
    "width_change_full_shrinkage_mm",
    "width_change_mm",
]

LINEAR_RANGE_PCT = (6.0, 14.0)
"""Moisture contents for which the coefficients are published. [%] Wood Handbook, Table 13-5."""

SPREAD_SHARE = 0.25
"""Half width of the band round a movement, as a share of it. [1] Shrinkage of one species varies from
board to board with a coefficient of variation of about 15 % (Wood Handbook, ch. 4, recalled), so nine
boards in ten lie within 1.65 times that; ring angle varies within a board as well."""

LONGITUDINAL_SHARE = 0.0015
"""Shrinkage along the grain, green to ovendry, as a share of the length. [1]"""
_SMALLEST_PCT, _LARGEST_PCT = 1.0, 30.0


class MovementMethod(StrEnum):
    """How a movement was computed."""

    LINEAR = "linear coefficient"
    FULL_SHRINKAGE = "full shrinkage"


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """A movement with its band.

    Parameters
    ----------
    change_mm
        Most likely change, positive = swelling. [mm]
    low_mm, high_mm
        Smaller and larger end of the band of the species' spread about both methods, by amount. [mm]
    other_mm
        The change by the method that is not used. [mm]
    method
        The method used.
    note
        What to know of it; empty where the method holds fully.
    """

    change_mm: float
    low_mm: float
    high_mm: float
    other_mm: float
    method: MovementMethod
    note: str = ""


def check_width(name: str, value: float) -> None:
    """Refuse a width that is none [mm]; raises InputError ``width_not_positive``."""
    if not value > 0.0:
        raise InputError(
            code="width_not_positive", field=name, value=value, rule="must be greater than 0 mm", remedy=""
        )


def check_moisture(name: str, value: float) -> None:
    """Refuse a moisture content at which wood does not move [%]; raises InputError ``mc_out_of_range``."""
    if not _SMALLEST_PCT <= value <= _LARGEST_PCT:
        fraction = 0.0 < value < _SMALLEST_PCT
        raise InputError(
            code="mc_out_of_range",
            field=name,
            value=value,
            rule=f"must lie in {_SMALLEST_PCT:g}..{_LARGEST_PCT:g} %",
            remedy=f"Moisture content is in percent: write {value * 100:g}, not {value:g}."
            if fraction
            else "Above fiber saturation, about 30 %, wood does not move; below 1 % no room dries it.",
        )


def width_change_mm(width_mm: float, *, coefficient: float, mc_from_pct: float, mc_to_pct: float) -> float:
    r"""Change in width of a board between two moisture contents, by the linear coefficient.

    Linear model for the hygroscopic range [1]_; published for 6 to 14 %, computed for 1 to 30 %: use
    :func:`movement` to be told where it is stretched.

    Parameters
    ----------
    width_mm
        Width at ``mc_from_pct``. [mm] > 0.
    coefficient
        Dimensional change coefficient along that width. [1 per % MC]
    mc_from_pct, mc_to_pct
        Moisture content, water / ovendry mass. [%] 1..30.

    Returns
    -------
    float
        Width change, positive = swelling. [mm]

    Raises
    ------
    InputError
        ``width_not_positive``, ``mc_out_of_range``.

    Notes
    -----
    .. math:: \Delta D = D\,C\,(M_F - M_I)      (eq. 13-2 of [1]_)

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 13, eq. 13-2 and Table 13-5.

    Examples
    --------
    >>> round(width_change_mm(232, coefficient=0.00245, mc_from_pct=8, mc_to_pct=11), 4)
    1.7052
    """
    check_width("width_mm", width_mm)
    check_moisture("mc_from_pct", mc_from_pct)
    check_moisture("mc_to_pct", mc_to_pct)
    return width_mm * coefficient * (mc_to_pct - mc_from_pct)


def width_change_full_shrinkage_mm(
    width_mm: float,
    *,
    shrinkage_total_pct: float,
    mc_from_pct: float,
    mc_to_pct: float,
    shrink_start_pct: float = 30.0,
) -> float:
    r"""Change in width between any two moisture contents below fiber saturation.

    Parameters
    ----------
    width_mm
        Width at ``mc_from_pct``. [mm] > 0.
    shrinkage_total_pct
        Total shrinkage, green to ovendry, along that width. [%]
    mc_from_pct, mc_to_pct
        Moisture content. [%] 1..30; above ``shrink_start_pct`` nothing moves.
    shrink_start_pct
        Moisture content at which shrinkage starts. [%]

    Returns
    -------
    float
        Width change, positive = swelling. [mm]

    Raises
    ------
    InputError
        ``width_not_positive``, ``mc_out_of_range``.

    Notes
    -----
    .. math:: \Delta D = \frac{D_I (M_F - M_I)}{100 F/S - F + M_I}      (eq. 13-3 of [1]_)

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 13, eq. 13-3.

    Examples
    --------
    >>> round(width_change_full_shrinkage_mm(
    ...     232, shrinkage_total_pct=7.0, mc_from_pct=8, mc_to_pct=11), 4)
    1.7119
    """
    check_width("width_mm", width_mm)
    check_moisture("mc_from_pct", mc_from_pct)
    check_moisture("mc_to_pct", mc_to_pct)
    first, last = min(mc_from_pct, shrink_start_pct), min(mc_to_pct, shrink_start_pct)
    start = shrink_start_pct
    return width_mm * (last - first) / (100.0 * start / shrinkage_total_pct - start + first)


def movement(
    width_mm: float, *, species: Species, ring_angle_deg: float, mc_from_pct: float, mc_to_pct: float
) -> Movement:
    """Movement across a width, with its band, by the method that holds there.

    The linear coefficient inside 6 to 14 %, the full shrinkage outside. The band holds the spread of the
    species about both, so it is wider where the published tables of a wood disagree with each other.

    Parameters
    ----------
    width_mm
        Width at ``mc_from_pct``. [mm] > 0.
    species
        The wood.
    ring_angle_deg
        Angle between the width and the rings. [deg] 0 flat-sawn, 90 quarter-sawn.
    mc_from_pct, mc_to_pct
        Moisture content. [%] 1..30.

    Returns
    -------
    Movement
        The change and its band.

    Raises
    ------
    InputError
        ``width_not_positive``, ``mc_out_of_range``, ``movement_unknown``.

    Examples
    --------
    >>> from scantling.wood.species import find_species
    >>> moved = movement(863.6, species=find_species("white oak"), ring_angle_deg=0,
    ...     mc_from_pct=6.17, mc_to_pct=10.97)
    >>> round(moved.change_mm, 1)
    15.1
    """
    straight = width_change_mm(
        width_mm,
        coefficient=coefficient_at(species, ring_angle_deg),
        mc_from_pct=mc_from_pct,
        mc_to_pct=mc_to_pct,
    )
    full = width_change_full_shrinkage_mm(
        width_mm,
        shrinkage_total_pct=shrinkage_pct(species, ring_angle_deg),
        mc_from_pct=mc_from_pct,
        mc_to_pct=mc_to_pct,
        shrink_start_pct=species.shrink_start_pct,
    )
    small, large = sorted((straight, full), key=abs)
    low, high = LINEAR_RANGE_PCT
    inside = low <= min(mc_from_pct, mc_to_pct) and max(mc_from_pct, mc_to_pct) <= high
    note = f"outside {low:g}..{high:g} % the coefficients are not published: full shrinkage used"
    return Movement(
        change_mm=straight if inside else full,
        low_mm=small * (1.0 - SPREAD_SHARE),
        high_mm=large * (1.0 + SPREAD_SHARE),
        other_mm=full if inside else straight,
        method=MovementMethod.LINEAR if inside else MovementMethod.FULL_SHRINKAGE,
        note="" if inside else note,
    )


def strips_movement(
    strips: Sequence[tuple[float, float]], *, species: Species, mc_from_pct: float, mc_to_pct: float
) -> Movement:
    """Movement of a panel glued from strips of several ring orientations: the sum of theirs.

    The band is the sum of the bands, as if all strips came from the same uncommon tree: often they do.

    Parameters
    ----------
    strips
        Width of each [mm] > 0 and the angle between its width and its rings. [deg]
    species
        The wood of all.
    mc_from_pct, mc_to_pct
        Moisture content. [%] 1..30.

    Raises
    ------
    InputError
        ``strips_missing`` where there is none; ``width_not_positive``, ``mc_out_of_range``,
        ``movement_unknown``.

    Examples
    --------
    Two flat-sawn strips of cherry with a quarter-sawn one between them, four points drier:

    >>> from scantling.wood.species import find_species
    >>> moved = strips_movement([(100, 0), (100, 90), (100, 0)], species=find_species("cherry"),
    ...     mc_from_pct=10, mc_to_pct=6)
    >>> round(moved.change_mm, 3)
    -2.488
    """
    if not strips:
        raise InputError(code="strips_missing", field="strips", value=0, rule="must have a strip at least")
    moved = [
        movement(width, species=species, ring_angle_deg=angle, mc_from_pct=mc_from_pct, mc_to_pct=mc_to_pct)
        for width, angle in strips
    ]
    return Movement(
        change_mm=sum(m.change_mm for m in moved),
        low_mm=sum(m.low_mm for m in moved),
        high_mm=sum(m.high_mm for m in moved),
        other_mm=sum(m.other_mm for m in moved),
        method=moved[0].method,
        note=moved[0].note,
    )


def length_change_mm(length_mm: float, *, mc_from_pct: float, mc_to_pct: float) -> float:
    """Change along the grain: a tenth of a millimeter or two on a meter, over a whole year.

    Worth a thought only where a long part is held between two that do not move at all.

    Parameters
    ----------
    length_mm
        Along the grain. [mm] > 0.
    mc_from_pct, mc_to_pct
        Moisture content. [%] 1..30.

    Returns
    -------
    float
        Change, positive = longer. [mm] An estimate; juvenile and reaction wood move ten times as much.

    Raises
    ------
    InputError
        ``width_not_positive``, ``mc_out_of_range``.

    References
    ----------
    .. [1] *Wood Handbook*, FPL-GTR-190, ch. 4: 0.1 to 0.2 % from green to ovendry (from memory).

    Examples
    --------
    >>> round(length_change_mm(1000, mc_from_pct=8, mc_to_pct=12), 2)
    0.2
    """
    check_width("length_mm", length_mm)
    check_moisture("mc_from_pct", mc_from_pct)
    check_moisture("mc_to_pct", mc_to_pct)
    return length_mm * LONGITUDINAL_SHARE / 30.0 * (mc_to_pct - mc_from_pct)
