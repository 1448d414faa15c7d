"""What may be said of a breadboard end."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.options import JointOptions
from scantling.piece.files import Count, Length

__all__ = ["BreadboardEndOptions", "FixedAt"]


class FixedAt(StrEnum):
    """Where the panel is held: its middle, or one edge."""

    MIDDLE = "middle"
    FRONT = "front"
    BACK = "back"
    LEFT = "left"
    RIGHT = "right"


class BreadboardEndOptions(JointOptions):
    """A cross-grain end cap (first) on the end of a panel (second)."""

    kind: Literal["breadboard_end"]
    tongue_thickness: Length = Field(default=0, gt=0)
    """Thickness of tongue and tenons; left out, a third of the panel."""
    tongue_length: Length = Field(default=0, gt=0)
    """How far the tongue reaches into the end between the tenons; left out, half as far again as thick."""
    tenon_length: Length = Field(default=0, gt=0)
    """How far the tenons reach into the end; left out, two thirds of its width."""
    tenon_width: Length = Field(default=0, gt=0)
    """Width of each tenon; left out, as wide as the end, and with its neighbors at most half the panel."""
    tenons: Count = Field(default=3, ge=1, le=15)
    """Number of tenons; an odd number puts one in the middle."""
    edge_inset: Length = Field(default=0, gt=0)
    """From the panel's edge to the center of the outer tenon; left out, half a tenon and 25 mm."""
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
    """Room at each end of a slot or mortise beyond the travel of a board as lively as one in twenty."""
