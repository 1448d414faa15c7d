"""Shiplap: boards side by side, each half as thick where it lies over the next, loose, with a gap."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from pydantic import Field

from scantling.joinery.edge_lap import OVER_MM, EdgeLap, edge_lap, seam_freedom, seam_travel
from scantling.joinery.fitting import cannot_be_made
from scantling.joinery.options import JointOptions
from scantling.joinery.strength import cases
from scantling.joinery.work import Cut, JointContext, JointWork, Mark, MarkKind
from scantling.piece.files import Length, Number
from scantling.piece.geometry import scale
from scantling.piece.model import Direction, JointRequest

__all__ = ["Shiplap", "ShiplapOptions"]

_THIN_MM = 4.0
"""A lap thinner than this curls and breaks (common practice). [mm]"""


class ShiplapOptions(JointOptions):
    """The edge of the first board, drawn into the second by its lap, lies over that of the second."""

    kind: Literal["shiplap"]
    over: Direction
    """The face on which the first board lies over the second."""
    share: Number = Field(default=0.5, ge=0.3, le=0.7)
    """Part of the thickness that the first board keeps in its lap."""
    gap: Length | None = Field(default=None, ge=0)
    """Gap on both faces when built; left out, as the room's year asks for."""
    least: Length = Field(default=0.5, ge=0)
    """Gap to be left of it when the boards are widest."""
    widest: Length = Field(default=8, gt=0)
    """Widest gap that still looks right when the boards are narrowest."""
    play: Length = Field(default=0.2, ge=0, le=1)
    """Room between the two laps, through the thickness."""


class Shiplap:
    """The shiplap family."""

    name = "shiplap"
    options_model = ShiplapOptions
    strength = staticmethod(cases.floating)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Both laps, the gap, and whether the year shuts it or opens it through."""
        o = joint.options
        assert isinstance(o, ShiplapOptions)
        seam = edge_lap(joint, context)
        side = seam.sign_of(o.over)
        thick = seam.thickness_mm
        _check(joint, o, side=side, thick_mm=thick)
        moves = seam_travel(seam, context.moisture)
        gap = moves.swell_mm + o.least if o.gap is None else o.gap
        freedom = seam_freedom(seam, moves, what="lap over the next board", gap_mm=gap, behind_mm=gap)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=seam.first.name,
            second=seam.second.name,
            at=seam.mouth,
            leaves=scale(seam.into, -1.0),
            cuts=_cuts(seam, o, side=side, gap_mm=gap),
            marks=_marks(seam, o, side=side, gap_mm=gap),
            freedoms=(freedom,),
            dry=True,
            steps=(
                "Rabbet both edges of every board from one fence setting, one from each face.",
                "Finish the laps before the boards go on: in dry air a bare stripe shows.",
                f"Space the boards {gap:.1f} mm apart with slips; fix each at its middle only, not through "
                "the lap of the next.",
            ),
        )


def _check(joint: JointRequest, o: ShiplapOptions, *, side: float, thick_mm: float) -> None:
    if side == 0.0:
        raise cannot_be_made(
            joint,
            "over",
            code="not_a_face",
            value=f"{o.over.value} of {joint.first}",
            rule="must be one of the two broad faces of the boards",
            remedy="Name the face that looks out.",
        )
    thin = thick_mm * min(o.share, 1.0 - o.share) - o.play / 2.0
    if thin < _THIN_MM - 1e-9:
        raise cannot_be_made(
            joint,
            "share",
            code="lap_too_thin",
            value=f"{thin:.1f} mm of {thick_mm:.1f} mm",
            rule=f"must leave {_THIN_MM:g} mm in each lap",
            remedy="Take thicker boards, or halves more alike.",
        )


def _parting(o: ShiplapOptions, *, side: float, thick_mm: float) -> float:
    """Where the laps meet, along ``up`` from the middle of the thickness. [mm]"""
    return side * thick_mm * (0.5 - o.share)


def _cuts(seam: EdgeLap, o: ShiplapOptions, *, side: float, gap_mm: float) -> tuple[Cut, ...]:
    """What is taken off under the first board's lap, and over the second's."""
    far = side * (seam.thickness_mm / 2.0 + OVER_MM)
    line = _parting(o, side=side, thick_mm=seam.thickness_mm)
    below = sorted((-far, line + side * o.play / 2.0))
    above = sorted((far, line - side * o.play / 2.0))
    return (
        seam.box(
            seam.first,
            what="rabbet of the lap",
            across=(-gap_mm, seam.lap_mm + OVER_MM),
            through=(below[0], below[1]),
        ),
        seam.box(
            seam.second,
            what="rabbet of the lap",
            across=(-OVER_MM, seam.lap_mm + gap_mm),
            through=(above[0], above[1]),
        ),
    )


def _marks(seam: EdgeLap, o: ShiplapOptions, *, side: float, gap_mm: float) -> tuple[Mark, ...]:
    thick, wide = seam.thickness_mm, seam.lap_mm + gap_mm
    line = _parting(o, side=side, thick_mm=thick)
    marks = []
    for part, lost, middle in (
        (seam.first, thick * (1.0 - o.share) + o.play / 2.0, (line - side * thick / 2.0) / 2.0),
        (seam.second, thick * o.share + o.play / 2.0, (line + side * thick / 2.0) / 2.0),
    ):
        marks.append(
            replace(
                seam.mark(
                    part,
                    kind=MarkKind.RABBET,
                    size_mm=(lost, wide),
                    off_mm=middle,
                    setup=f"{lost:.1f} mm rabbet, {wide:.1f} mm deep, along the edge",
                ),
                note=f"{gap_mm:.1f} mm of it is the gap when built",
            )
        )
    return tuple(marks)
