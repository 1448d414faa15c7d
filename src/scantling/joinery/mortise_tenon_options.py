"""What may be said of a mortise and tenon."""

from __future__ import annotations

from enum import StrEnum
from typing import Literal

from pydantic import Field

from scantling.joinery.options import JointOptions
from scantling.piece.files import Count, Length
from scantling.piece.model import Direction

__all__ = ["Glued", "MortiseTenonOptions"]


class Glued(StrEnum):
    """Which of several tenons are glued."""

    ALL = "all"
    MIDDLE = "middle"


class MortiseTenonOptions(JointOptions):
    """A tenon on the end of the first part (PART.start or PART.end) into the second."""

    kind: Literal["mortise_tenon"]
    length: Length = Field(default=0, ge=0)
    """How far the tenon goes in; left out, it goes through."""
    proud: Length = Field(default=0, ge=0)
    """How far a through tenon stands out, to be cut flush."""
    thickness: Length | None = Field(default=None, gt=0)
    """Thickness of the tenon; left out, a third of the part (twins: a fifth), to the nearest usual cutter."""
    shoulder: Length = Field(default=6, ge=0)
    """From each edge of the part to the tenon."""
    haunch: Length = Field(default=0, ge=0)
    """How far a haunch goes in between the tenon and one edge; 0 for none."""
    haunch_width: Length = Field(default=0, ge=0)
    """How far the tenon is set back from that edge."""
    haunch_at: Direction = Direction.TOP
    """That edge."""
    tenons: Count = Field(default=1, ge=1, le=8)
    """Tenons side by side across the width of the part."""
    apart: Length = Field(default=20, gt=0)
    """Between one tenon and the next."""
    abreast: Count = Field(default=1, ge=1, le=3)
    """Tenons side by side through the thickness of the part; two are twin tenons."""
    wood_between: Length | None = Field(default=None, gt=0)
    """Wood between those; left out, as thick as each of them."""
    glued: Glued = Glued.ALL
    """Which are glued: all, or only the middle one, the others free to move with a wide part."""
    clearance: Length = Field(default=0.5, ge=0)
    """Room at each end of a free tenon's mortise beyond its travel."""
    mortise_over: Length | None = Field(default=None, ge=0)
    """How much longer a free tenon's mortise is than the tenon; left out, as the room's year asks for."""
    end_room: Length = Field(default=1, ge=0)
    """Room for glue beyond the end of the tenon."""
    mitered: Direction | Literal["outer"] | None = None
    """The outer face, toward which the tenon is longest, where its end is mitered against another; ``outer``
    finds it by what shows, or lies nearer to the outside: one joint for both hands."""
    shift: Length = 0.0
    """Moves the tenon across the thickness from its middle."""
    wedges: Count = Field(default=0, ge=0, le=2)
    """Wedges in the end of each glued through tenon."""
    pin: Length | None = Field(default=None, gt=0)
    """Diameter of pins through the cheeks of each glued tenon; left out, there are none."""
    pins: Count = Field(default=1, ge=1, le=4)
    """Pins in each tenon."""
    pin_from_shoulder: Length | None = Field(default=None, gt=0)
    """From the shoulder to the pins; left out, two fifths of the tenon."""
    draw: Length = Field(default=0, ge=0, le=3)
    """How much nearer to the shoulder the tenon is bored, so that a pin draws the joint shut."""
