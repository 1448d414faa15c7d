"""Clamps for a glue line: how hard, how many, how far apart, how long."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from scantling.shop.profile.clamps import Clamp, ClampKind
from scantling.shop.profile.glues import GlueKind
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.tables import table
from scantling.units.show import show_number
from scantling.wood.sheets import all_sheets
from scantling.wood.species import find_species

__all__ = [
    "HAND_SHARE",
    "ClampPlan",
    "PressureRange",
    "clamp_plan",
    "clamps_by_pressure",
    "clamps_by_spacing",
    "clamps_for_force",
    "force_of",
    "forces_of",
    "longest_mm",
    "owned_of",
    "plan_clamps",
    "pressing_words",
    "pressure_for",
    "reach_wanted_mm",
    "spacing_most_mm",
    "within_time",
]

_USUAL_GRAVITY = 0.5
"""Taken where nothing is published for a wood: that of a middling hardwood."""
USUAL_CLAMP_N = 4000.0
"""Force of a screw bar clamp. [N]

A test of hands gave 3.0 kN on an aluminum bar, 4.7 on pipe, 6.0 on an I-beam and 1.6 on parallel jaws [1]_.

References
----------
.. [1] "How to glue up joints: the right number of clamps", Fine Woodworking, 2010.
"""
USUAL_BAND_N = 900.0
"""Pull of a ratchet band clamp (from memory). [N]"""
HAND_SHARE = 1.0 / 3.0
"""Share of the least pressure that well-fitted joints glued by hand hold with (from memory). [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PressureRange:
    """Pressure on the glue line; least for well planed, well fitted joints. [MPa]"""

    least_mpa: float
    most_mpa: float
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampPlan:
    """Clamps of one stage.

    Parameters
    ----------
    count
        Wanted: the more of pressure and spacing.
    by_pressure, by_spacing
        What either asks for.
    reach_mm
        Opening between the jaws, cauls and margin included. [mm]
    spacing_mm
        From clamp to clamp; 0 where there is one to a joint. [mm]
    pressure_mpa, wanted_mpa
        What the count gives over the area, and the least the wood asks for. [MPa]
    owned
        Clamps owned that open so far.
    longest_mm
        Widest any clamp owned opens. [mm]
    used, reached_mpa
        Clamps set: those wanted, or all that open so far where fewer are owned, or those there is time for;
        the pressure they give. [MPa]
    too_short
        Whether no clamp owned opens so far.
    """

    count: int
    by_pressure: int
    by_spacing: int
    reach_mm: float
    spacing_mm: float
    pressure_mpa: float
    wanted_mpa: float
    owned: int
    longest_mm: float
    used: int
    reached_mpa: float
    too_short: bool
    band: bool = False
    """Whether they are bands round the whole, and ``reach_mm`` is their length."""
    area_mm2: float = 0.0
    """Area they press. [mm2]"""
    settable: int = 0
    """Most that are set in the glue's time, where those are fewer than are wanted and owned; else 0."""


CONTACT = PressureRange(least_mpa=0.05, most_mpa=0.2, source="contact only: common practice for epoxy")


def pressure_for(species: str, glue: GlueKind = GlueKind.PVA) -> PressureRange:
    """Pressure for a wood, by its specific gravity. [MPa]

    A glue that fills gaps wants the parts held in contact, no more.

    Parameters
    ----------
    species
        The wood.
    glue
        Kind of glue.

    Raises
    ------
    InputError
        ``unknown_species``.

    References
    ----------
    .. [1] A PVA maker's technical guide; USDA Forest Products Laboratory, *Wood Handbook*, FPL-GTR-190, 2010,
       ch. 10.
    """
    if not glue.wants_pressure:
        return CONTACT
    gravity = _gravity(species)
    row = next(
        row
        for row in table("clamp_pressure")
        if (_USUAL_GRAVITY if gravity is None else gravity) <= float(row["up_to_gravity"])
    )
    return PressureRange(
        least_mpa=float(row["least_mpa"]), most_mpa=float(row["most_mpa"]), source=row["source"]
    )


def _gravity(material: str) -> float | None:
    """Specific gravity of a wood or of a sheet material, near 12 % moisture. [1]"""
    for sheet in all_sheets():
        if material in (sheet.name, *sheet.also):
            return sheet.density_kg_m3 / 1000.0
    return find_species(material).specific_gravity_12


def clamps_by_pressure(area_mm2: float, *, pressure_mpa: float, force_n: float) -> int:
    r"""Clamps that press an area.

    Parameters
    ----------
    area_mm2
        One side of the glue line. [mm2]
    pressure_mpa
        Pressure wanted. [MPa]
    force_n
        Of one clamp. [N]

    Notes
    -----
    .. math:: N = \lceil p A / F \rceil

    Examples
    --------
    >>> clamps_by_pressure(48 * 25.4**2, pressure_mpa=200 * 0.00689476, force_n=1000 * 4.44822)
    10
    """
    return math.ceil(pressure_mpa * area_mm2 / force_n - 1e-6)


def clamps_for_force(force_n: float, forces: Sequence[float]) -> int:
    """Clamps that press so hard together, the strongest first; more than there are count as the strongest.

    Parameters
    ----------
    force_n
        Wanted in all. [N]
    forces
        Of those at hand, strongest first; at least one. [N]

    Examples
    --------
    Six of 4 kN and six of 2 kN are 36 kN; 68 kN want eight more of 4 kN:

    >>> clamps_for_force(68_000.0, (4000.0,) * 6 + (2000.0,) * 6)
    20
    >>> clamps_for_force(26_000.0, (4000.0,) * 6 + (2000.0,) * 6)
    7
    """
    pressed = 0.0
    for count, each in enumerate(forces):
        if pressed >= force_n - 1e-6:
            return count
        pressed += each
    return len(forces) + max(0, math.ceil((force_n - pressed) / forces[0] - 1e-9))


def within_time(plan: ClampPlan, shop: Shop, *, most: int) -> ClampPlan:
    """The plan with no more clamps than there is time to set; as it is where those would not hold.

    What holds is near enough by spacing, and presses a third of what the wood asks for.

    Parameters
    ----------
    plan
        Of a stage with jaws.
    shop
        Its clamps.
    most
        Clamps that can be set before the glue's time is over.
    """
    if plan.band or plan.too_short or most >= plan.used:
        return plan
    forces = forces_of(plan.reach_mm, shop)
    hold_n = HAND_SHARE * plan.wanted_mpa * plan.area_mm2
    if most < max(plan.by_spacing, clamps_for_force(hold_n, forces)):
        return plan
    return replace(plan, used=most, settable=most, reached_mpa=sum(forces[:most]) / plan.area_mm2)


def pressing_words(plan: ClampPlan) -> tuple[str, ...]:
    """How the clamps of a stage are counted, and what to do with fewer."""
    if plan.band or plan.count < 2:
        return ()
    if plan.by_pressure >= plan.by_spacing:
        area = show_number(plan.area_mm2 / 100.0)
        why = (
            f"{plan.count} clamps: {plan.wanted_mpa:.2f} MPa over {area} cm² is "
            f"{show_number(plan.wanted_mpa * plan.area_mm2 / 1000.0, digits=2)} kN"
        )
    else:
        why = f"{plan.count} clamps to be near enough to each other, {plan.by_pressure} for the pressure"
    if (plan.count <= plan.owned and not plan.settable) or plan.too_short:
        return (f"{why}, the strongest counted first.",)
    here = "that are set in the glue's time" if plan.settable else "here that open so far"
    return (
        f"{why}; the {plan.used} {here} give {plan.reached_mpa:.2f} MPa.",
        "The full pressure is to close what the planes left open: faces that close under the hand hold with "
        "less, with a stiff caul on each side; where lines lie side by side, glue them one after the other.",
    )


def spacing_most_mm(shop: Shop, caul_and_strip_mm: float) -> float:
    """Widest spacing at which pressure cones of 45 degrees still meet at the joint. [mm]

    Twice the way from the jaw to the joint (caul and outer strip), and never more than the shop's own limit
    (common practice).
    """
    return min(shop.clamping.spacing_most_mm, 2.0 * caul_and_strip_mm)


def clamps_by_spacing(length_mm: float, *, spacing_mm: float, end_mm: float) -> int:
    """Clamps along a joint, the first and last ``end_mm`` from its ends.

    Examples
    --------
    >>> clamps_by_spacing(1250, spacing_mm=300, end_mm=50)
    5
    """
    between_mm = length_mm - 2.0 * end_mm
    return 1 if between_mm <= 0.0 else 1 + math.ceil(between_mm / spacing_mm - 1e-9)


def plan_clamps(
    area_mm2: float,
    shop: Shop,
    *,
    pressure: PressureRange,
    outside_mm: float,
    length_mm: float,
    strip_mm: float,
) -> ClampPlan:
    """Clamps of a long glue line, pressed across ``outside_mm``.

    Of the clamps long enough the strongest are counted first.

    Parameters
    ----------
    area_mm2
        Of one glue line; those in one row are pressed by the same clamps. [mm2]
    shop
        Clamps and how they are used.
    pressure
        What wood and glue ask for.
    outside_mm
        Outside to outside along the squeeze. [mm]
    length_mm
        Along which clamps are set. [mm]
    strip_mm
        From the edge clamped to the first glue line. [mm]
    """
    reach_mm = reach_wanted_mm(outside_mm, shop)
    spacing_mm = spacing_most_mm(shop, shop.clamping.caul_mm + strip_mm)
    end_mm = min(shop.clamping.end_distance_mm, length_mm / 4.0)
    wanted_mpa = pressure.least_mpa
    by_pressure = clamps_for_force(wanted_mpa * area_mm2, forces_of(reach_mm, shop))
    by_spacing = clamps_by_spacing(length_mm, spacing_mm=spacing_mm, end_mm=end_mm)
    count = max(by_pressure, by_spacing)
    plan = clamp_plan(
        count, reach_mm, shop, area_mm2=area_mm2, wanted_mpa=wanted_mpa, asked=(by_pressure, by_spacing)
    )
    return replace(plan, spacing_mm=(length_mm - 2.0 * end_mm) / (count - 1) if count > 1 else 0.0)


def clamp_plan(
    count: int,
    reach_mm: float,
    shop: Shop,
    *,
    area_mm2: float,
    wanted_mpa: float,
    asked: tuple[int, int],
) -> ClampPlan:
    """Clamps wanted, against those owned.

    Parameters
    ----------
    count
        Clamps wanted.
    reach_mm
        Opening wanted. [mm]
    area_mm2
        Area they press. [mm2]
    wanted_mpa
        Least pressure the wood asks for. [MPa]
    asked
        What pressure and spacing ask for.
    """
    owned = owned_of(reach_mm, shop)
    used = count if owned == 0 else min(count, owned)
    forces = forces_of(reach_mm, shop)

    def given_mpa(clamps: int) -> float:
        more_n = max(0, clamps - len(forces)) * forces[0]
        return (sum(forces[:clamps]) + more_n) / area_mm2 if area_mm2 > 0.0 else 0.0

    return ClampPlan(
        count=count,
        by_pressure=asked[0],
        by_spacing=asked[1],
        reach_mm=reach_mm,
        spacing_mm=0.0,
        pressure_mpa=given_mpa(count),
        wanted_mpa=wanted_mpa,
        owned=owned,
        longest_mm=longest_mm(shop),
        used=used,
        reached_mpa=given_mpa(used),
        too_short=count > 0 and owned == 0,
        area_mm2=area_mm2,
    )


def reach_wanted_mm(outside_mm: float, shop: Shop) -> float:
    """Opening wanted: outside to outside, a caul on each side, and screw travel to spare. [mm]"""
    return outside_mm + 2.0 * shop.clamping.caul_mm + shop.clamping.margin_mm


def owned_of(reach_mm: float, shop: Shop, *, band: bool = False) -> int:
    """Clamps owned that open so far, or bands of that length."""
    return sum(clamp.count for clamp in _of(shop, band) if clamp.reach_mm >= reach_mm - 1e-6)


def longest_mm(shop: Shop, *, band: bool = False) -> float:
    """Widest any clamp owned opens, or the longest band; 0 without. [mm]"""
    return max((clamp.reach_mm for clamp in _of(shop, band) if clamp.count), default=0.0)


def force_of(reach_mm: float, shop: Shop, *, band: bool = False) -> float:
    """Force of the weakest clamp that opens so far; of a usual one where none does. [N]"""
    usual_n = USUAL_BAND_N if band else USUAL_CLAMP_N
    fit = (c.force_n for c in _of(shop, band) if c.count and c.reach_mm >= reach_mm - 1e-6)
    return min(fit, default=usual_n)


def forces_of(reach_mm: float, shop: Shop) -> tuple[float, ...]:
    """Force of each clamp that opens so far, strongest first; that of one usual clamp where none does. [N]"""
    fit = [clamp for clamp in _of(shop, band=False) if clamp.reach_mm >= reach_mm - 1e-6]
    every = sorted((each for clamp in fit for each in [clamp.force_n] * clamp.count), reverse=True)
    return tuple(every) or (USUAL_CLAMP_N,)


def _of(shop: Shop, band: bool) -> list[Clamp]:
    """Bands go round, all other clamps have jaws."""
    return [clamp for clamp in shop.clamps if (clamp.kind is ClampKind.BAND) is band]
