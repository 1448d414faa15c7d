"""Room for people at a table: knees, places, chair arms."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from scantling.checks.catalogue import finding, limit
from scantling.errors import Finding

__all__ = ["Seating", "at_ends", "check_arms", "check_knees", "check_legs", "check_places", "seating"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seating:
    """Places along one side of a table.

    Parameters
    ----------
    clear_mm
        Between the legs. [mm]
    seats
        Places that fit. [1]
    per_seat_mm
        Width each gets. [mm]
    """

    clear_mm: float
    seats: int
    per_seat_mm: float


def seating(length_mm: float, *, leg_mm: float, inset_mm: float) -> Seating:
    """Places between the legs of one side.

    Parameters
    ----------
    length_mm
        Of the top. [mm]
    leg_mm
        Width of a leg along that side. [mm]
    inset_mm
        End of the top to the leg. [mm]

    Examples
    --------
    >>> seating(1600, leg_mm=70, inset_mm=60)
    Seating(clear_mm=1340, seats=2, per_seat_mm=670.0)
    """
    clear = length_mm - 2 * (inset_mm + leg_mm)
    seats = max(math.floor(clear / limit("F44", "place_mm") + 1e-9), 0)
    return Seating(clear_mm=clear, seats=seats, per_seat_mm=clear / seats if seats else 0.0)


def at_ends(seats: int, side: Seating, end: Seating) -> int:
    """Places taken at the ends of a table: those the long sides do not hold, one an end that has room.

    Parameters
    ----------
    seats
        Places wanted in all. [1]
    side, end
        Room between the legs of a long side and of an end.

    Examples
    --------
    >>> side, end = (seating(mm, leg_mm=0.0, inset_mm=0.0) for mm in (1640.0, 670.0))
    >>> at_ends(8, side, end), at_ends(4, side, end)
    (2, 0)
    """
    return min(2 * min(end.seats, 1), max(seats - 2 * side.seats, 0))


def check_places(where: str, side: Seating, *, wanted: int, ends: int = 0) -> list[Finding]:
    """F44 where fewer places fit than are wanted on a side.

    Parameters
    ----------
    where
        The side.
    side
        Its room; the other long side has the same.
    wanted
        Places on it. [1]
    ends
        Places at the ends of the table, beside those. [1]
    """
    place = limit("F44", "place_mm")
    if wanted <= side.seats:
        return []
    beside = ("", f", with one at {'each' if ends > 1 else 'one'} end,")[ends > 0]
    return [
        finding(
            "F44",
            where=where,
            message=f"{wanted} places a side{beside} want {wanted * place:.0f} mm between the legs, "
            f"there are {side.clear_mm:.0f} mm: {side.clear_mm / wanted:.0f} mm each, "
            f"at least {place:.0f} mm",
            numbers={
                "clear_mm": side.clear_mm,
                "shortfall_mm": wanted * place - side.clear_mm,
                "seats_possible": 2 * side.seats + ends,
            },
        )
    ]


def check_knees(where: str, under_apron_mm: float) -> list[Finding]:
    """F42 where the apron leaves too little room above the floor."""
    wanted = limit("F42", "clear_mm")
    if under_apron_mm >= wanted:
        return []
    return [
        finding(
            "F42",
            where=where,
            message=f"{under_apron_mm:.0f} mm from the floor to the apron; at least {wanted:.0f} mm for the "
            "knees",
            numbers={
                "clear_mm": under_apron_mm,
                "wanted_mm": wanted,
                "shortfall_mm": wanted - under_apron_mm,
            },
        )
    ]


def check_arms(where: str, under_apron_mm: float, *, arm_height_mm: float) -> list[Finding]:
    """F43 where the client's chairs will not push in."""
    spare = limit("F43", "clear_mm")
    if arm_height_mm <= under_apron_mm - spare:
        return []
    return [
        finding(
            "F43",
            where=where,
            message=f"chair arms {arm_height_mm:.0f} mm high under an apron at {under_apron_mm:.0f} mm; "
            f"{spare:.0f} mm should be left",
            numbers={"arm_height_mm": arm_height_mm, "under_apron_mm": under_apron_mm},
        )
    ]


def check_legs(
    where: str,
    span_mm: tuple[float, float],
    *,
    wanted: int,
    legs_mm: Mapping[str, tuple[float, float]],
) -> list[Finding]:
    """F45 where a leg stands in front of someone, the places being spread evenly along a side.

    Parameters
    ----------
    where
        The side.
    span_mm
        Between the outer legs, along the side. [mm]
    wanted
        Places on it. [1]
    legs_mm
        Every leg within reach of a sitter's, by name, from and to along the side. [mm]
    """
    half = limit("F45", "half_place_mm")
    pitch, found = (span_mm[1] - span_mm[0]) / max(wanted, 1), []
    for k in range(wanted):
        at = span_mm[0] + (k + 0.5) * pitch
        for name, (low, high) in legs_mm.items():
            off = max(low - at, at - high, 0.0)
            if off >= half - 1e-6:
                continue
            found.append(
                finding(
                    "F45",
                    where=name,
                    message=f"{name} stands {off:.0f} mm from the middle of place {k + 1} of {wanted} on the "
                    f"{where}; {half:.0f} mm should be free to each side",
                    numbers={"off_mm": off, "wanted_mm": half, "shortfall_mm": half - off},
                )
            )
    return found
