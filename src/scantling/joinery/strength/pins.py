"""Shelf pins: what a round pin that stands out of its hole carries, by the wood it presses and its steel."""

from __future__ import annotations

from math import sqrt

from scantling.joinery.strength.figure import JointStrength, none, nothing
from scantling.joinery.strength.glue import crushed, less, reckoned, woods
from scantling.joinery.work import ConnectorKind, JointWork
from scantling.piece.convex import body_of
from scantling.piece.geometry import dot
from scantling.piece.model import Part, PartKind
from scantling.wood.fasteners import dowel_bearing_mpa
from scantling.wood.sheets import find_sheet

__all__ = ["STEEL_MPA", "UNTOLD", "is_plywood", "pin_bends_n", "pin_tears_n", "shelf_pin"]

STEEL_MPA = 240.0
"""Stress at which a pin of mild steel bends for good (from memory). [MPa] Brass bends at a half of it."""
_BEARING = (
    "wood crushed under the pin in its hole at {stress:.1f} MPa (dowel bearing, National Design "
    "Specification for Wood Construction, as printed by engineersedge.com, wood dowel bearing strength), the "
    "pin stiff and loaded in the middle of what the shelf lies on (derived)"
)
UNTOLD = "pins in boards of fibers or chips: no figure is published"
_PLYWOOD, _PANEL_PIN_MM = 0.42, 6.0
"""Specific gravity plywood is reckoned by, and the thickest pin its strengths are given for. [1], [mm]"""
_AS_PLYWOOD = (
    ", the plywood by a specific gravity of 0.42, its lighter class in the same standard (recalled): its own "
    "sheet goes before"
)
_STEEL = "the pin bends for good at 240 MPa of mild steel (from memory), the wood crushed under it (derived)"


def pin_tears_n(*, depth_mm: float, arm_mm: float, bearing_n_mm: float) -> float:
    r"""Load on the end of a stiff pin that crushes the wood of its hole. [N]

    .. math:: P = q \left(\sqrt{(l + 2e)^2 + l^2} - (l + 2e)\right)

    Derived: the wood presses with :math:`q` all along, up from the mouth to the place the pin turns about and
    down from there to the bottom; forces and moments add up to nothing. With no arm it is
    :math:`q l (\sqrt 2 - 1)`, the rigid dowel of a connection in single shear.

    Parameters
    ----------
    depth_mm
        Of the hole that the pin fills. [mm]
    arm_mm
        From the mouth of the hole to the load. [mm]
    bearing_n_mm
        Bearing strength of the wood times the pin's diameter. [N/mm]

    Examples
    --------
    >>> round(pin_tears_n(depth_mm=10.0, arm_mm=0.0, bearing_n_mm=100.0), 1)
    414.2
    >>> round(pin_tears_n(depth_mm=10.0, arm_mm=5.0, bearing_n_mm=100.0), 1)
    236.1
    """
    reach = depth_mm + 2.0 * arm_mm
    return bearing_n_mm * (sqrt(reach**2 + depth_mm**2) - reach)


def pin_bends_n(*, diameter_mm: float, arm_mm: float, bearing_n_mm: float) -> float:
    r"""Load on the end of a pin that bends it for good in a hole deep enough to hold it. [N]

    .. math:: P = q \left(\sqrt{e^2 + 2 M / q} - e\right), \quad M = \sigma d^3 / 6

    Derived: the pin's plastic moment is reached inside the wood, where what presses on it has taken up the
    load.

    Examples
    --------
    >>> round(pin_bends_n(diameter_mm=5.0, arm_mm=5.0, bearing_n_mm=200.0))
    732
    """
    moment = STEEL_MPA * diameter_mm**3 / 6.0
    return bearing_n_mm * (sqrt(arm_mm**2 + 2.0 * moment / bearing_n_mm) - arm_mm)


def shelf_pin(work: JointWork, first: Part, second: Part) -> JointStrength:
    """One end of a shelf on its two pins, the load shared by both."""
    loose = "the shelf lies loose: nothing holds it but its weight"
    row = next((one for one in work.connectors if one.kind is ConnectorKind.SHELF_PIN), None)
    gravity, panel = _holds(second)
    if row is None or gravity is None:
        return nothing(UNTOLD)
    diameter, length = row.size_mm
    depth = row.drill_mm[1]
    gap = _gap_mm(work, first)
    lies = length - depth - gap
    stress = dowel_bearing_mpa(gravity, diameter_mm=min(diameter, _PANEL_PIN_MM) if panel else diameter)
    share = {"arm_mm": gap + lies / 2.0, "bearing_n_mm": stress * diameter}
    torn = reckoned(row.count * pin_tears_n(depth_mm=depth, **share), _BEARING.format(stress=stress) + panel)
    bent = reckoned(row.count * pin_bends_n(diameter_mm=diameter, **share), _STEEL)
    shelf = woods(first)
    flat = crushed(shelf[0], row.count * lies * diameter) if shelf else none("a sheet's face: not published")
    shear = less(torn, bent, flat)
    return JointStrength(
        pull_n=none(loose), shear_n=shear, moment_nmm=none(loose), stiffness_nmm_rad=none(loose)
    )


def _holds(side: Part) -> tuple[float | None, str]:
    """Specific gravity by which what a pin stands in is reckoned, and what is to be said of a sheet.

    References
    ----------
    .. [1] American Wood Council, *National Design Specification for Wood Construction*, dowel bearing
       strength of wood structural panels: plywood of no special grade counts as 0.42 (recalled).
    """
    solid = woods(side)
    if solid is not None:
        return solid[0].specific_gravity_12, ""
    return (_PLYWOOD, _AS_PLYWOOD) if is_plywood(side) else (None, "")


def is_plywood(part: Part) -> bool:
    """Whether a part is of layers of veneer, which bear a pin as wood does."""
    return part.kind is PartKind.SHEET and find_sheet(part.species).name.endswith("plywood")


def _gap_mm(work: JointWork, shelf: Part) -> float:
    """From the side to the end of the shelf. [mm] The pins say where the side is."""
    row = next(one for one in work.connectors if one.kind is ConnectorKind.SHELF_PIN)
    frame = row.frames[0]
    mouth = dot(frame.origin, frame.grain) + row.size_mm[1] / 2.0 - row.drill_mm[1]
    return max(0.0, mouth - body_of(shelf).extent(frame.grain)[1])
