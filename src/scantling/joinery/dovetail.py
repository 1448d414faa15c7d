"""Dovetails at the corner of a box, drawer or case: through, or half-blind behind a lap."""

from __future__ import annotations

import math
from typing import Literal

from pydantic import Field

from scantling.joinery.corner import Corner, Key, corner_of, marks_of, socket_words, sockets, waste
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.meeting import grain_angle_deg, meet
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.work import ClampNeed, GlueFace, JointContext, JointWork, MarkKind
from scantling.piece.files import Count, Length, Number
from scantling.piece.geometry import scale
from scantling.piece.model import JointRequest, Part, PartKind
from scantling.wood.species import find_species

__all__ = ["Dovetail", "DovetailOptions", "slope_for", "tail_count"]

HARD, SOFT = 8.0, 6.0
"""Run over rise of the flanks, in hardwood and in softwood (common practice)."""
TAIL_PER_PIN = 2.5
"""Tails are two to three times as wide as the pins between them, both at the baseline (common practice)."""
_LEAST_TAIL_MM = 5.0
"""Narrowest tail at its baseline that a saw and chisel make (common practice). [mm]"""


class DovetailOptions(JointOptions):
    """Tails on the end of the first part (PART.start or PART.end) in the end of the second."""

    kind: Literal["dovetail"]
    lap: Length = Field(default=0, ge=0)
    """Wood left in front of the tails (half-blind); 0 brings them through."""
    tails: Count | None = Field(default=None, ge=1, le=60)
    """Tails; left out, so many that each is about two and a half times as wide as a pin."""
    pin: Length = Field(default=6, ge=3)
    """Width of a pin where it is narrowest."""
    half_pin: Length | None = Field(default=None, ge=2)
    """Width of the outer pins where they are narrowest; left out, as the others."""
    slope: Number | None = Field(default=None, ge=4, le=12)
    """The flanks run out one in this many; left out, one in eight, in softwood one in six."""
    glued: bool = True
    """Whether it is glued."""


class Dovetail:
    """The dovetail family."""

    name = "dovetail"
    options_model = DovetailOptions
    strength = staticmethod(cases.corner)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Tails, sockets, glue, and the way the tail board is driven on."""
        o = joint.options
        assert isinstance(o, DovetailOptions)
        meeting = meet(joint, context)
        corner = corner_of(joint, meeting)
        depth = corner.through_mm - o.lap
        if depth < 3.0:
            raise cannot_be_made(
                joint,
                "lap",
                code="lap_over_part",
                value=f"{o.lap:.1f} mm of {corner.through_mm:.1f} mm",
                rule="must leave the tails at least 3 mm to go in",
                remedy="Make the lap a quarter to a third of the part.",
            )
        slope = slope_for(meeting.first) if o.slope is None else o.slope
        keys = _tails(joint, corner, o, depth_mm=depth, slope=slope)
        first, second = meeting.first, meeting.second
        flank = math.hypot(depth, depth / slope)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=first.name,
            second=second.name,
            at=corner.at(0.0, 0.0, depth / 2.0),
            leaves=corner.outer,
            cuts=(
                *waste(corner, keys, depth_mm=depth, what="waste between tails"),
                *sockets(corner, keys, depth_mm=depth, what="dovetail socket"),
            ),
            extensions=(corner.extension(depth),),
            marks=marks_of(
                corner,
                keys,
                depth_mm=depth,
                kinds=(MarkKind.TAIL, MarkKind.SOCKET),
                words=(f"tails 1 in {slope:g}, {depth:g} mm long", socket_words(corner, depth)),
                note=f"{keys[0].base_mm:.1f} mm wide at the baseline",
            ),
            glue=(
                GlueFace(
                    parts=(first.name, second.name),
                    area_mm2=2.0 * len(keys) * flank * corner.thick_mm,
                    grain_angle_deg=grain_angle_deg(first, second),
                    end_grain_share=0.0,
                    length_mm=corner.width_mm,
                ),
            )
            if o.glued
            else (),
            clamp=ClampNeed(
                direction=scale(corner.outer, -1.0),
                area_mm2=sum((key.base_mm + key.wide_mm) / 2.0 * depth for key in keys),
            )
            if o.glued
            else None,
            dry=not o.glued,
            steps=_steps(o, depth),
        )


def slope_for(part: Part) -> float:
    """Run over rise of the flanks the trade gives a wood: 8 in hardwood and sheet goods, 6 in softwood.

    One in six is 9.46 degrees, one in eight 7.13 (common practice).
    """
    if part.kind is PartKind.SHEET:
        return HARD
    return HARD if find_species(part.species).hardwood else SOFT


def tail_count(width_mm: float, *, pin_mm: float, half_pin_mm: float, flare_mm: float) -> int:
    """Tails that fill a width, each about two and a half times as wide as a pin at the baseline.

    Parameters
    ----------
    width_mm
        Of the joint. [mm]
    pin_mm, half_pin_mm
        Narrow width of the pins and of the two outer ones. [mm]
    flare_mm
        How much a flank runs out over its depth. [mm]

    Examples
    --------
    A drawer side of 100 mm, pins of 6 mm, tails 14 mm long at one in eight: pins are 9.5 mm at the baseline,
    tails ask for 23.75 there, 27.25 at their ends, so (100 - 12 + 6) / (27.25 + 6) = 2.8 of them:

    >>> tail_count(100.0, pin_mm=6.0, half_pin_mm=6.0, flare_mm=1.75)
    3
    """
    wide = TAIL_PER_PIN * (pin_mm + 2.0 * flare_mm) + 2.0 * flare_mm
    return max(1, round((width_mm - 2.0 * half_pin_mm + pin_mm) / (wide + pin_mm)))


def _tails(
    joint: JointRequest, corner: Corner, o: DovetailOptions, *, depth_mm: float, slope: float
) -> tuple[Key, ...]:
    flare = depth_mm / slope
    half = o.pin if o.half_pin is None else o.half_pin
    count = tail_count(corner.width_mm, pin_mm=o.pin, half_pin_mm=half, flare_mm=flare)
    if o.tails is not None:
        count = int(o.tails)
    wide = (corner.width_mm - 2.0 * half - (count - 1) * o.pin) / count
    base = wide - 2.0 * flare
    if base < _LEAST_TAIL_MM:
        raise cannot_be_made(
            joint,
            "tails",
            code="tails_too_narrow",
            value=f"{count} {'tail' if count == 1 else 'tails'} beside the pins in {corner.width_mm:.1f} mm: "
            + (f"{base:.1f} mm wide at the baseline" if base > 0.0 else "the pins fill it"),
            rule=f"must leave each at least {_LEAST_TAIL_MM:g} mm at its baseline",
            remedy="Ask for fewer, or for narrower pins, or a gentler slope.",
        )
    start = corner.low_mm + half + wide / 2.0
    return tuple(Key(at_mm=start + k * (wide + o.pin), base_mm=base, wide_mm=wide) for k in range(count))


def _steps(o: DovetailOptions, depth: float) -> tuple[str, ...]:
    steps = [
        "Mark which face is outside on every board, and pair the corners, before anything is gauged.",
        f"Gauge the tails' baseline all round at {depth:.1f} mm.",
        "Saw the tails, both boards of a pair at once where they are alike; waste out and pare to the line.",
        "Stand the tail board on the end of the other and scribe the sockets from the tails with a knife.",
        "Saw on the waste side of the scribed lines; chop from both sides to the middle."
        if o.lap == 0.0
        else "Saw on the slant as far as lap and baseline let you; chop down and in, a little at a time.",
        "Try it once, half way, by hand; what is driven home and apart twice is loose.",
    ]
    return tuple(steps)
