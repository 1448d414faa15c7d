"""Tongue and groove: boards side by side, glued into one, or loose with a gap the year opens and shuts."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from pydantic import Field

from scantling.joinery.edge_lap import OVER_MM, EdgeLap, edge_lap, seam_freedom, seam_travel
from scantling.joinery.fitting import Hollow, cannot_be_made, check_depth
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.tenon_layout import third_mm
from scantling.joinery.travel import Travel
from scantling.joinery.work import (
    ClampNeed,
    Cut,
    Fit,
    GlueFace,
    JointContext,
    JointWork,
    Mark,
    MarkKind,
)
from scantling.piece.files import Length
from scantling.piece.geometry import scale
from scantling.piece.model import JointRequest

__all__ = ["TongueGroove", "TongueGrooveOptions"]

_WALL_MM = 2.0
"""Wood on each side of the groove, at the least (common practice). [mm]"""


class TongueGrooveOptions(JointOptions):
    """A tongue along the edge of the first board, drawn into the second, in a groove along its edge."""

    kind: Literal["tongue_groove"]
    tongue: Length | None = Field(default=None, gt=0)
    """Thickness of the tongue; left out, a third of the board, to the nearest usual cutter."""
    shift: Length = 0.0
    """Moves the tongue from the middle of the thickness, toward the first board's own upper or outer face."""
    glued: bool = False
    """Whether the boards are glued into one panel; loose boards are each held at their own middle."""
    gap: Length | None = Field(default=None, ge=0)
    """Gap on the face when built, of loose boards; left out, as the room's year asks for."""
    least: Length = Field(default=0.5, ge=0)
    """Gap to be left of it when the boards are widest."""
    widest: Length = Field(default=8, gt=0)
    """Widest gap that still looks right when the boards are narrowest."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room left behind the tongue when the boards are widest; when glued, for the glue."""
    play: Length = Field(default=0.1, ge=0, le=1)
    """How much wider the groove is than the tongue is thick."""


class TongueGroove:
    """The tongue-and-groove family."""

    name = "tongue_groove"
    options_model = TongueGrooveOptions
    strength = staticmethod(cases.floating)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Tongue, groove, gap on the face, and what the year does to it; or the glue of a panel."""
        o = joint.options
        assert isinstance(o, TongueGrooveOptions)
        seam = edge_lap(joint, context)
        moves = Travel(shrink_mm=0.0, swell_mm=0.0) if o.glued else seam_travel(seam, context.moisture)
        tongue = third_mm(seam.thickness_mm, inch=joint.inch) if o.tongue is None else o.tongue
        gap = 0.0 if o.glued else (moves.swell_mm + o.least if o.gap is None else o.gap)
        behind = moves.swell_mm + o.clearance
        _check(joint, seam, o, tongue_mm=tongue, depth_mm=seam.lap_mm + behind)
        freedom = seam_freedom(seam, moves, what="tongue in its groove", gap_mm=gap, behind_mm=behind)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=seam.first.name,
            second=seam.second.name,
            at=seam.mouth,
            leaves=scale(seam.into, -1.0),
            cuts=_cuts(seam, o, tongue_mm=tongue, gap_mm=gap, behind_mm=behind),
            marks=_marks(seam, o, tongue_mm=tongue, gap_mm=gap, behind_mm=behind),
            glue=(_glue(seam),) if o.glued else (),
            freedoms=() if o.glued else (freedom,),
            clamp=ClampNeed(direction=seam.into, area_mm2=seam.length_mm * seam.thickness_mm)
            if o.glued
            else None,
            dry=not o.glued,
            steps=_steps(o, gap_mm=gap),
        )


def _check(
    joint: JointRequest, seam: EdgeLap, o: TongueGrooveOptions, *, tongue_mm: float, depth_mm: float
) -> None:
    """Refuse a tongue that leaves no wall beside its groove, and a groove through the board."""
    wall = seam.thickness_mm / 2.0 - abs(o.shift) - (tongue_mm + o.play) / 2.0
    if wall < _WALL_MM - 1e-6:
        raise cannot_be_made(
            joint,
            "tongue",
            code="wall_too_thin",
            value=f"{wall:.1f} mm beside a {tongue_mm:.1f} mm tongue in {seam.thickness_mm:.1f} mm",
            rule=f"must leave {_WALL_MM:g} mm on each side of the groove",
            remedy="Make the tongue thinner, or nearer to the middle.",
        )
    hollow = Hollow(at=seam.mouth, into=seam.into, depth_mm=depth_mm, what="groove")
    check_depth(joint, "clearance", seam.second, hollow=hollow)


def _cuts(
    seam: EdgeLap, o: TongueGrooveOptions, *, tongue_mm: float, gap_mm: float, behind_mm: float
) -> tuple[Cut, ...]:
    """Both cheeks of the tongue, its shoulders back by the gap; and the groove."""
    half = seam.thickness_mm / 2.0 + OVER_MM
    low, high = o.shift - tongue_mm / 2.0, o.shift + tongue_mm / 2.0
    cheeks = (-gap_mm, seam.lap_mm + OVER_MM)
    groove = (-OVER_MM, seam.lap_mm + behind_mm)
    play = o.play / 2.0
    return (
        seam.box(seam.first, what="tongue cheek", across=cheeks, through=(high, half)),
        seam.box(seam.first, what="tongue cheek", across=cheeks, through=(-half, low)),
        seam.box(seam.second, what="groove", across=groove, through=(low - play, high + play)),
    )


def _marks(
    seam: EdgeLap, o: TongueGrooveOptions, *, tongue_mm: float, gap_mm: float, behind_mm: float
) -> tuple[Mark, ...]:
    fit = Fit.TIGHT if o.glued else Fit.SLIDING
    long, deep, wide = seam.lap_mm + gap_mm, seam.lap_mm + behind_mm, tongue_mm + o.play
    tongue = seam.mark(
        seam.first,
        kind=MarkKind.TONGUE,
        size_mm=(tongue_mm, long),
        off_mm=o.shift,
        setup=f"{tongue_mm:g} mm tongues, {long:.1f} mm long",
    )
    groove = seam.mark(
        seam.second,
        kind=MarkKind.GROOVE,
        size_mm=(wide, deep),
        off_mm=o.shift,
        setup=f"{wide:g} mm groove, {deep:.1f} mm deep, in the edge",
    )
    note = "" if o.glued else f"shoulders {gap_mm:.1f} mm back from the next board's edge"
    return replace(tongue, fit=fit, note=note), replace(groove, fit=fit)


def _glue(seam: EdgeLap) -> GlueFace:
    """Shoulders, tongue end and both its cheeks, laid out flat."""
    return GlueFace(
        parts=(seam.first.name, seam.second.name),
        area_mm2=seam.length_mm * (seam.thickness_mm + 2.0 * seam.lap_mm),
        grain_angle_deg=0.0,
        end_grain_share=0.0,
        length_mm=seam.length_mm,
    )


def _steps(o: TongueGrooveOptions, *, gap_mm: float) -> tuple[str, ...]:
    steps = [
        "Joint the edges; work every groove from the same face, then fit the tongues to it by a trial piece.",
    ]
    if o.glued:
        steps.append(
            "Glue the shoulders and the groove; clamp across, a caul at each edge to spare the tongue."
        )
    else:
        steps += [
            "Finish the tongues before they go in: in dry air a bare stripe shows.",
            f"Space the boards {gap_mm:.1f} mm apart with slips as they go on; fix each at its middle only.",
        ]
    return tuple(steps)
