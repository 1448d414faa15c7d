"""Miter: two ends cut on one slanting plane, glued alone or held by a spline, keys or loose tenons."""

from __future__ import annotations

import math
from dataclasses import replace

from scantling.errors import InputError
from scantling.joinery.bending import bent_nmm
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import Meeting, grain_angle_deg, meet
from scantling.joinery.miter_corner import MiterCorner, miter_corner
from scantling.joinery.miter_sizes import HeldBy, MiterOptions, sizes_of
from scantling.joinery.miter_work import Held, held
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.travel import width_coefficient
from scantling.joinery.work import ClampNeed, GlueFace, JointContext, JointWork
from scantling.piece.geometry import dot, scale
from scantling.piece.model import JointRequest, PartKind
from scantling.wood.moisture import MoistureRange
from scantling.wood.ring import Ring

__all__ = ["Miter", "MiterOptions", "opening_mm"]

_NOTHING = Held(cuts=(), marks=(), connectors=(), glue=(), modulus_mm3=0.0)

_KEYS = (
    "When the glue is dry, saw the slots with the corner down in a cradle, a stop for each row; glue the "
    "keys in, and saw and plane them flush, from both ends toward the corner."
)


class Miter:
    """The miter family."""

    name = "miter"
    options_model: type[JointOptions] = MiterOptions
    strength = staticmethod(cases.miter)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """The face glued, what holds it, how it is pressed, and how far it would open over the year."""
        o = joint.options
        assert isinstance(o, MiterOptions)
        corner = miter_corner(joint, _met(joint, context))
        found = _NOTHING
        if o.held_by is not HeldBy.GLUE:
            sizes = sizes_of(joint, corner, kerf_mm=context.kerf_mm)
            found = held(corner, o.held_by, sizes, stopped_mm=o.stopped)
        first, second = corner.meeting.first, corner.meeting.second
        area = corner.meeting.contact.area_mm2
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=corner.center,
            leaves=scale(corner.normal, -1.0),
            cuts=found.cuts,
            connectors=found.connectors,
            marks=found.marks,
            glue=(_face(corner, area), *found.glue),
            clamp=ClampNeed(
                direction=corner.normal,
                area_mm2=area,
                turn_deg=corner.turn_deg,
                corner_mm=corner.long_mm,
            ),
            breaking_nmm=_breaking_nmm(corner, found),
            steps=_steps(corner, o, context.moisture),
            late_steps=(_KEYS,) if o.held_by is HeldBy.KEYS else (),
        )


def _met(joint: JointRequest, context: JointContext) -> Meeting:
    """Where the two ends meet; of ends that do not, what makes them."""
    try:
        return meet(joint, context)
    except InputError as error:
        fault = error.fault
        other = f"miter with {joint.second.part}"
        raise cannot_be_made(
            joint,
            "",
            code=fault.code,
            value=fault.value,
            rule="must be two ends cut on one slanting plane",
            remedy=f"Trim {joint.first.part} by '{other}' and {joint.second.part} by 'miter with "
            f"{joint.first.part}', at the ends that meet.",
        ) from error


def _face(corner: MiterCorner, area_mm2: float) -> GlueFace:
    """The slanting ends themselves: the steeper they cross the fibers, the more of them is end grain."""
    first, second = corner.meeting.first, corner.meeting.second
    return GlueFace(
        parts=(first.name, second.name),
        area_mm2=area_mm2,
        grain_angle_deg=grain_angle_deg(first, second),
        end_grain_share=max(abs(dot(part.frame.grain, corner.normal)) for part in (first, second)),
        length_mm=max(corner.long_mm, corner.wide_mm),
    )


def _breaking_nmm(corner: MiterCorner, found: Held) -> float | None:
    """Bending about the arris that breaks what crosses the miter, at clear strength. [N mm]

    It counts as of the first part's wood. Of glue alone, and of sheets, nothing is published here.
    """
    parts = (corner.meeting.first, corner.meeting.second)
    if not found.modulus_mm3 or any(part.kind is PartKind.SHEET for part in parts):
        return None
    return bent_nmm(parts[0], found.modulus_mm3)


def opening_mm(corner: MiterCorner, moisture: MoistureRange) -> float:
    r"""How far a miter would open at its inner corner when the parts shrink most, were it not held. [mm]

    The parts grow narrower from the outer to the inner face and no shorter, so both ends turn a little.

    Notes
    -----
    .. math:: g = s \, l \, \sin 2 \varphi

    with s the shrinkage of both widths, l the length of the miter and phi its angle from square: each end
    turns by s sin(phi) cos(phi).
    """
    phi = math.radians(corner.turn_deg / 2.0)
    turned = 0.0
    for side in corner.sides:
        part = side.part
        if abs(dot(side.outward, part.frame.width)) < 0.7:  # mitered through its thickness
            turned_ring = Ring(90.0 - part.ring.ring_angle_deg)
            part = replace(part, ring=turned_ring, strips=None)
        turned += width_coefficient(part) * moisture.shrink_pct * math.sin(phi) * math.cos(phi)
    return turned * corner.wide_mm


def _steps(corner: MiterCorner, o: MiterOptions, moisture: MoistureRange) -> tuple[str, ...]:
    steps = [
        "Try all corners dry, pressed as they will be glued: a fault of one end shows at the last corner.",
        "Size the slanting ends with thin glue, let it draw in, then glue: end grain drinks it.",
    ]
    opens = opening_mm(corner, moisture)
    if opens >= 0.2:
        steps.append(
            f"Without what holds it, the corner would open {opens:.1f} mm inside in the driest season."
        )
    match o.held_by:
        case HeldBy.SPLINE:
            steps.insert(
                0,
                "Groove both ends from the inner face, square to the miter, at one setting of fence and "
                "blade; the spline slides in by hand, its grain across the joint.",
            )
        case HeldBy.KEYS:
            steps.append(_KEYS)
        case HeldBy.TENONS:
            steps.insert(0, "Cut the mortises square to the miter, from the inner face on both parts.")
        case HeldBy.GLUE:
            steps.append("Nothing but glue holds it: only for what carries nothing, such as a light frame.")
    return tuple(steps)
