"""Breadboard end: a tongue and tenons on the panel, fixed at one place, free to move everywhere else."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.errors import InputError
from scantling.joinery.breadboard_work import BreadboardLayout, lay_out_breadboard
from scantling.joinery.meeting import meet
from scantling.joinery.options import JointOptions
from scantling.joinery.work import (
    ClampNeed,
    Connector,
    ConnectorKind,
    GlueFace,
    JointContext,
    JointWork,
)
from scantling.piece.files import Count, Length
from scantling.piece.geometry import dot, scale
from scantling.piece.model import JointRequest

__all__ = ["BreadboardEnd", "BreadboardEndOptions", "FixedAt"]


class FixedAt(StrEnum):
    """Where the panel is held: its middle, or one edge."""

    MIDDLE = "middle"
    FRONT = "front"
    BACK = "back"


class BreadboardEndOptions(JointOptions):
    """A cross-grain end cap (first) on the end of a panel (second)."""

    kind: Literal["breadboard_end"]
    tongue_thickness: Length = Field(gt=0)
    """Thickness of tongue and tenons."""
    tongue_length: Length = Field(gt=0)
    """How far the tongue reaches into the end between the tenons."""
    tenon_length: Length = Field(gt=0)
    """How far the tenons reach into the end."""
    tenon_width: Length = Field(gt=0)
    """Width of each tenon."""
    tenons: Count = Field(default=3, ge=1, le=15)
    """Number of tenons; an odd number puts one in the middle."""
    edge_inset: Length = Field(gt=0)
    """From the panel's edge to the centre of the outer tenon."""
    fixed: FixedAt = FixedAt.MIDDLE
    """Where the panel is glued and pinned tight."""
    pin: Length = Field(default=6, gt=0)
    """Diameter of the pins."""
    pin_from_shoulder: Length | None = Field(default=None, gt=0)
    """From the shoulder to the pins; left out, two fifths of the tenon."""
    through_pins: bool = False
    """Whether the pins show on the upper face."""
    slot: Length | None = Field(default=None, gt=0)
    """Length of the pin slots; left out, as the room's year asks for."""
    mortise_over: Length | None = Field(default=None, ge=0)
    """How much longer the outer mortises are than their tenons; left out, as the room's year asks for."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room at each end of a slot or mortise beyond the travel."""


class BreadboardEnd:
    """The breadboard-end family."""

    name = "breadboard_end"
    options_model = BreadboardEndOptions

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Tongue, tenons, groove, mortises, pins and slots; what each place needs to move and has."""
        o = joint.options
        assert isinstance(o, BreadboardEndOptions)
        meeting = meet(joint, context)
        panel, cap = meeting.second, meeting.first
        out = scale(meeting.contact.normal, -1.0)
        if abs(dot(out, panel.frame.grain)) < 1.0 - 1e-6 or joint.second.end is None:
            raise InputError(
                code="panel_end_not_square",
                field=f"joints.{joint.like}",
                value=str(joint.second),
                rule="must name a square end of the panel as the second part",
                remedy="Write PANEL.start or PANEL.end, trimmed square.",
            )
        layout: BreadboardLayout = lay_out_breadboard(meeting, o, joint=joint, moisture=context.moisture)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=cap.name,
            second=panel.name,
            at=meeting.contact.centre,
            leaves=out,
            cuts=layout.cuts,
            extensions=layout.extensions,
            marks=layout.marks,
            freedoms=layout.freedoms,
            connectors=(
                Connector(
                    kind=ConnectorKind.PIN,
                    count=len(layout.pins),
                    size_mm=(o.pin, layout.pin_length_mm),
                    drill_mm=(o.pin, layout.pin_length_mm),
                    note="glued in the end only, never in a slotted tenon",
                    frames=layout.pins,
                ),
            ),
            glue=(
                GlueFace(
                    parts=(cap.name, panel.name),
                    area_mm2=2.0 * o.tenon_width * o.tenon_length,
                    grain_angle_deg=90.0,
                    end_grain_share=0.0,
                    cross_span_mm=o.tenon_width,
                    length_mm=o.tenon_width,
                ),
            ),
            clamp=ClampNeed(direction=out, area_mm2=2.0 * o.tenon_width * o.tenon_length),
            steps=(
                "Plane the panel and its ends to one thickness before the tongue is cut.",
                "Plough the groove in the end, then the mortises in its bottom.",
                "Cut the tongue's cheeks to the groove; saw the tenons and the haunches between them.",
                "Bore the pin holes through the end with the tenons in place, take it apart, and lengthen the "
                "holes in the outer tenons to the slots given.",
                "Glue the fixed tenon alone; drive the pins with a drop of glue at the far side of the end only.",
            ),
        )
