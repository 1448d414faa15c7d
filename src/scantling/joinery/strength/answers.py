"""Which strength each joint family answers with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from scantling.joinery.strength import cases, dowels, metal, pins, tenons
from scantling.joinery.strength.figure import JointStrength
from scantling.joinery.work import JointWork
from scantling.piece.model import Part

__all__ = ["ANSWERS", "with_strength"]

Answer = Callable[[JointWork, Part, Part], JointStrength]

ANSWERS: dict[str, Answer] = {
    "breadboard_end": cases.breadboard,
    "bridle": tenons.bridle,
    "butt_hinge": metal.hinged,
    "cross_bolt": metal.cross_bolt,
    "dovetail": cases.corner,
    "dowel_pin": dowels.dowel_pin,
    "drawer_groove": cases.floating,
    "drawer_runner": metal.fastened,
    "drawer_slide": metal.hinged,
    "edge_glue": cases.seam,
    "face_lamination": cases.seam,
    "figure_eight": metal.hinged,
    "finger_joint": cases.corner,
    "halving": cases.halving,
    "housing": cases.housed,
    "lid_stay": metal.hinged,
    "loose_tenon": tenons.loose_tenon,
    "miter": cases.miter,
    "mortise_tenon": tenons.mortise_tenon,
    "notch": cases.housed,
    "opening_fit": cases.floating,
    "panel_groove": cases.floating,
    "pin_hinge": cases.pinned,
    "plain_screw": metal.fastened,
    "rabbet": cases.floating,
    "round_tenon": tenons.round_tenon,
    "shelf_pin": pins.shelf_pin,
    "shiplap": cases.floating,
    "sliding_batten": cases.floating,
    "slotted_screw": metal.fastened,
    "spline": cases.seam,
    "strap_hinge": metal.hinged,
    "tongue_groove": cases.floating,
    "top_button": metal.fastened,
    "top_clip": metal.fastened,
    "tusk_tenon": tenons.tusk_tenon,
}
"""By the family's name in a piece file; every family is here."""


def with_strength(work: JointWork, parts: Mapping[str, Part]) -> JointWork:
    """The work of a joint with what it bears."""
    return replace(work, strength=ANSWERS[work.family](work, parts[work.first], parts[work.second]))
