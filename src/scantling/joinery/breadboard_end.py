"""Breadboard end: a tongue and tenons on the panel, fixed at one place, free to move everywhere else."""

from __future__ import annotations

from scantling.errors import InputError
from scantling.joinery.breadboard_options import BreadboardEndOptions, FixedAt
from scantling.joinery.breadboard_work import BOTTOM_ROOM_MM, BreadboardLayout, lay_out_breadboard
from scantling.joinery.fitting import cannot_be_made, check_apart, wood_behind_mm
from scantling.joinery.meeting import Meeting, meet, spread
from scantling.joinery.proportions import filled, whole_mm
from scantling.joinery.strength import cases
from scantling.joinery.tenon_layout import third_mm
from scantling.joinery.work import (
    ClampNeed,
    Connector,
    ConnectorKind,
    GlueFace,
    JointContext,
    JointWork,
)
from scantling.piece.geometry import dot, scale
from scantling.piece.model import Direction, JointRequest, Part

__all__ = ["BreadboardEnd", "BreadboardEndOptions", "FixedAt"]


def _sized(joint: JointRequest, panel: Part, cap: Part) -> JointRequest:
    """The joint with the usual proportions where the file says none (common practice)."""
    o = joint.options
    assert isinstance(o, BreadboardEndOptions)
    thick = third_mm(panel.thickness_mm, inch=joint.inch)
    most = min(cap.width_mm, panel.width_mm / (2.0 * int(o.tenons)))
    wide = o.tenon_width or whole_mm(most, inch=joint.inch)
    return filled(
        joint,
        tongue_thickness=thick,
        tongue_length=1.5 * thick,
        tenon_length=whole_mm(2.0 * cap.width_mm / 3.0, inch=joint.inch),
        tenon_width=wide,
        edge_inset=wide / 2.0 + 25.0,
    )


class BreadboardEnd:
    """The breadboard-end family."""

    name = "breadboard_end"
    options_model = BreadboardEndOptions
    strength = staticmethod(cases.breadboard)

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """Tongue, tenons, groove, mortises, pins and slots; what each place needs to move and has."""
        meeting = meet(joint, context)
        panel, cap = meeting.second, meeting.first
        joint = _sized(joint, panel, cap)
        o = joint.options
        assert isinstance(o, BreadboardEndOptions)
        out = scale(meeting.contact.normal, -1.0)
        if abs(dot(out, panel.frame.grain)) < 1.0 - 1e-6 or joint.second.end is None:
            raise InputError(
                code="panel_end_not_square",
                field=f"joints.{joint.like}",
                value=str(joint.second),
                rule="must name a square end of the panel as the second part",
                remedy="Write PANEL.start or PANEL.end, trimmed square.",
            )
        _check(joint, meeting, o)
        layout: BreadboardLayout = lay_out_breadboard(meeting, o, joint=joint, moisture=context.moisture)
        return JointWork(
            joint=joint.name,
            family=self.name,
            first=cap.name,
            second=panel.name,
            at=meeting.contact.center,
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
                "Plow the groove in the end, then the mortises in its bottom.",
                "Cut the tongue's cheeks to the groove; saw the tenons and the haunches between them.",
                "Bore the pin holes through the end with the tenons in place, take it apart, and lengthen "
                "the holes in the outer tenons to the slots given.",
                "Glue the fixed tenon alone; drive the pins with a drop of glue at the far side of the "
                "end only.",
            ),
        )


def _check(joint: JointRequest, meeting: Meeting, o: BreadboardEndOptions) -> None:
    """Refuse a tongue or tenons that the panel or its end has no wood for."""
    panel, cap = meeting.second, meeting.first
    thick = min(panel.thickness_mm, cap.thickness_mm)
    deep = o.tenon_length + BOTTOM_ROOM_MM
    wood = wood_behind_mm(cap, meeting.contact.center, scale(meeting.contact.normal, -1.0))
    pin_at = o.pin_from_shoulder or 0.0
    bounds = (
        ("tongue_thickness", o.tongue_thickness, thick, "the thinner of panel and end"),
        ("tongue_length", o.tongue_length, o.tenon_length + 0.01, "the tenons' length"),
        ("tenon_length", deep, wood, f"the width of {cap.name}, with {BOTTOM_ROOM_MM:g} mm under the tenon"),
        ("tenon_width", o.tenon_width / 2.0, o.edge_inset + 0.01, "what stands outside its middle"),
        ("pin_from_shoulder", pin_at + o.pin / 2.0, o.tenon_length, "the tenons' length"),
    )
    for option, size, limit, what in bounds:
        if size >= limit:
            raise cannot_be_made(
                joint,
                option,
                code="tenon_over_part",
                value=f"{size:.1f} mm of {limit:.1f} mm",
                rule=f"must be less than {what}",
                remedy="Make it smaller, or give it more wood.",
            )
    edge = o.fixed is FixedAt.MIDDLE or abs(dot(Direction(o.fixed.value).vector, panel.frame.width)) > 0.5
    if not edge:
        raise cannot_be_made(
            joint,
            "fixed",
            code="not_an_edge",
            value=o.fixed.value,
            rule=f"must be the middle or an edge of {panel.name} along its grain",
            remedy="Name the edge that is to stay where it is.",
        )
    if o.slot is not None and o.slot < o.pin:
        raise cannot_be_made(
            joint,
            "slot",
            code="slot_too_short",
            value=f"{o.slot:.1f} mm for a {o.pin:.1f} mm pin",
            rule="must let the pin in",
            remedy="Leave it out, and it is found from the room's year.",
        )
    half = panel.width_mm / 2.0
    places = spread(-half, half, count=int(o.tenons), inset_mm=o.edge_inset)
    check_apart(joint, "tenons", places, size_mm=o.tenon_width, what="tenons")
