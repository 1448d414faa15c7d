"""What a joint knows: cuts on each part, connectors, marks, glue, movement, assembly and faults.

A joint family answers with a :class:`JointWork`; every later question (drawings, seasons, glue-ups,
shopping, order of work) reads that answer and never the family.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Protocol

from pydantic import BaseModel

from scantling.errors import Finding
from scantling.joinery.strength.figure import UNTOLD, JointStrength
from scantling.piece.geometry import Frame, Plane, Vec
from scantling.piece.model import Direction, End, JointRequest, Part
from scantling.wood.moisture import MoistureRange

__all__ = [
    "Arched",
    "Box",
    "Connector",
    "ConnectorKind",
    "Cut",
    "Extension",
    "Fit",
    "Freedom",
    "GlueFace",
    "HalfSpace",
    "Hole",
    "JointContext",
    "JointFamily",
    "JointWork",
    "Mark",
    "MarkKind",
    "Profile",
    "Slot",
    "Tool",
    "Turned",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfSpace:
    """Takes off everything on the side the normal points to. Local to the part."""

    plane: Plane


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A box: u in 0..length, v and w from minus half to plus half, in ``frame`` (local to the part)."""

    frame: Frame
    length_mm: float
    width_mm: float
    thickness_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """A mortise with round ends; ``length_mm`` is over the round ends.

    The frame's grain axis runs INTO the wood from the surface, its width axis along the long direction of
    the slot, its thickness axis across; the origin is the center on the surface.
    """

    frame: Frame
    length_mm: float
    width_mm: float
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A round hole; the frame's grain axis runs into the wood, origin at the center on the surface."""

    frame: Frame
    diameter_mm: float
    depth_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """Takes off everything outside a cylinder along the frame's grain axis, for u in 0..length."""

    frame: Frame
    diameter_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """A convex outline drawn across the frame's width and thickness, carried along its grain.

    Where the outline comes to the surface of the wood it is drawn past it; the two ends may lie in it.

    Parameters
    ----------
    outline
        Corners in order, as (width, thickness). [mm]
    length_mm
        For u in 0..length. [mm]
    """

    frame: Frame
    outline: tuple[tuple[float, float], ...]
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Arched:
    """An outline of which one side is an arc, drawn and carried as a :class:`Profile`'s; it may be hollow.

    Parameters
    ----------
    outline
        Corners in order, as (width, thickness); the arc runs from the first to the second. [mm]
    through
        A point of the arc between the two. [mm]
    length_mm
        For u in 0..length. [mm]
    """

    frame: Frame
    outline: tuple[tuple[float, float], ...]
    through: tuple[float, float]
    length_mm: float


Tool = HalfSpace | Box | Slot | Hole | Turned | Profile | Arched


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One tool applied to one part, in that part's own coordinates."""

    part: str
    tool: Tool
    what: str
    """Trade word for it: ``mortise``, ``groove``, ``tongue shoulder``, ``notch``, ``pin hole``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extension:
    """Wood a joint adds beyond a part's trimmed end (a tongue, a tenon, an end in a housing). [mm]"""

    part: str
    end: End
    length_mm: float


class ConnectorKind(StrEnum):
    """Loose things to buy or make."""

    LOOSE_TENON = "loose tenon"
    PIN = "pin"
    DOWEL = "dowel"
    TOP_CLIP = "Z-shaped top clip"
    TOP_BUTTON = "wooden top button"
    FIGURE_EIGHT = "figure-eight top clip"
    SCREW = "wood screw"
    WEDGE = "wedge"
    SPLINE = "spline"
    NAIL = "nail"
    PLUG = "plug"
    BOLT = "bolt"
    BARREL_NUT = "barrel nut"
    KEY = "corner key"
    BUTT_HINGE = "butt hinge"
    STRAP_HINGE = "strap hinge"
    LID_STAY = "lid stay"
    DRAWER_SLIDE = "drawer slide"
    WALL_ANCHOR = "anti-tip anchor"
    SHELF_PIN = "shelf pin"


@dataclass(frozen=True, slots=True, kw_only=True)
class Connector:
    """Loose parts of one size that a joint needs.

    Parameters
    ----------
    size_mm
        Thickness, width, length for a tenon; diameter, length for a pin, dowel or screw. [mm]
    drill_mm
        Diameter and depth of the hole to drill, where one is drilled. [mm]
    frames
        World frames for showing them (grain axis along the connector's length, origin at its middle).
    """

    kind: ConnectorKind
    count: int
    size_mm: tuple[float, ...]
    drill_mm: tuple[float, ...] = ()
    note: str = ""
    frames: tuple[Frame, ...] = ()


class Fit(StrEnum):
    """How a mortise holds its tenon: tight registers, long lets it be adjusted or move."""

    TIGHT = "tight"
    LONG = "long"
    SLIDING = "sliding"


class MarkKind(StrEnum):
    """What is marked out."""

    MORTISE = "mortise"
    GROOVE = "groove"
    NOTCH = "notch"
    HOLE = "hole"
    SLOT = "slot"
    TONGUE = "tongue"
    TENON = "tenon"
    HOUSING = "housing"
    EDGE = "edge"
    TAIL = "tail"
    SOCKET = "socket"
    RABBET = "rabbet"
    RECESS = "recess"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One thing to mark out on one part, from its reference face and end.

    Parameters
    ----------
    face
        The face it is marked on, named by where it looks; ``None`` for an end.
    end
        The end it is marked on, or the end that ``from_end_mm`` is measured from.
    from_end_mm
        Center, from the long point of ``end``, along the grain. [mm]
    from_face_mm
        Center, from the reference face, across. [mm]
    reference_face
        The face measured from.
    length_mm, width_mm, depth_mm
        Long direction, across, into the wood. [mm]
    angle_deg
        Of the long direction against the grain; of a leaning hole, its sight line against the grain, on an
        end against the width. [deg]
    tilt_deg
        Of the cut against square to the face. [deg]
    toward
        Where the top of a leaning bit is, standing on the face: along the grain, then across.
    setup
        Name of the machine set-up it belongs to; equal names are cut with one setting.
    both_faces
        Whether it goes right through and is cut half way from each face.
    round
        Whether its outline is a circle, of what is no hole: a tenon turned or shaved round.
    """

    part: str
    kind: MarkKind
    on_end: bool
    end: End
    face: Direction
    reference_face: Direction
    from_end_mm: float
    from_face_mm: float
    length_mm: float
    width_mm: float
    depth_mm: float
    fit: Fit
    setup: str
    angle_deg: float = 0.0
    tilt_deg: float = 0.0
    toward: tuple[Direction, ...] = ()
    note: str = ""
    both_faces: bool = False
    round: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueFace:
    """Area glued between two parts.

    Parameters
    ----------
    area_mm2
        One side of the glue line. [mm2]
    grain_angle_deg
        Between the two grains in the plane of the joint. [deg]
    end_grain_share
        Part of the area that is end grain on either side, 0..1. [1]
    cross_span_mm
        Longest glued distance across the grain of a part that wants to move against the other. [mm]
    """

    parts: tuple[str, str]
    area_mm2: float
    grain_angle_deg: float
    end_grain_share: float
    cross_span_mm: float = 0.0
    length_mm: float = 0.0
    """Long direction of the glue line, along which clamps are spaced. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Freedom:
    """One place where a part must be free to move, and how free it is as designed.

    Parameters
    ----------
    part
        The part whose width moves.
    what
        ``tenon 3 in its mortise``, ``pin slot 1``, ``clip 2``.
    from_fixed_mm
        Distance across the grain from the fixed line to this place. [mm]
    shrink_travel_mm, swell_travel_mm
        Travel asked for by the moisture range. [mm] >= 0
    shrink_room_mm, swell_room_mm
        Travel there is, as cut, at build. [mm]
    cut_to_mm
        The size that gives the travel (slot length, mortise length, groove depth). [mm]
    bias_mm
        Shift of the slot's center toward the fixed line at build. [mm]
    """

    part: str
    what: str
    at: Vec
    from_fixed_mm: float
    shrink_travel_mm: float
    swell_travel_mm: float
    shrink_room_mm: float
    swell_room_mm: float
    cut_to_mm: float = 0.0
    bias_mm: float = 0.0

    @property
    def binds(self) -> bool:
        """Whether the room is less than the travel."""
        return (
            self.shrink_room_mm < self.shrink_travel_mm - 1e-6
            or self.swell_room_mm < self.swell_travel_mm - 1e-6
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ClampNeed:
    """Clamping one joint wants.

    Parameters
    ----------
    direction
        World direction of the squeeze. [1]
    area_mm2
        Area the pressure is reckoned on. [mm2]
    slope_deg
        Angle by which the faces under the clamp are out of parallel; a wedge of it is needed. [deg]
    """

    direction: Vec
    area_mm2: float
    slope_deg: float = 0.0
    turn_deg: float = 0.0
    """By how much the outer faces turn at a corner that jaws cannot press; 0 where they can. [deg]"""
    corner_mm: float = 0.0
    """Length of that corner's arris. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointWork:
    """All that follows from one joint."""

    joint: str
    family: str
    first: str
    second: str
    at: Vec
    """Where it is, for pictures. World. [mm]"""
    leaves: Vec
    """World direction in which the first part leaves the second."""
    cuts: tuple[Cut, ...] = ()
    extensions: tuple[Extension, ...] = ()
    connectors: tuple[Connector, ...] = ()
    marks: tuple[Mark, ...] = ()
    glue: tuple[GlueFace, ...] = ()
    freedoms: tuple[Freedom, ...] = ()
    clamp: ClampNeed | None = None
    findings: tuple[Finding, ...] = ()
    breaking_nmm: float | None = None
    """Moment that breaks the joint, reckoned from clear-wood strength; None if not reckoned. [N mm]

    What it may carry is in ``strength``, which alone takes a factor off."""
    pull_n: float | None = None
    """What its screws may carry together, pulled straight out; None if not reckoned."""
    tenons_along: Vec | None = None
    """World direction in the joint over which its tenons are wide; None where it has none, or round ones."""
    strength: JointStrength = UNTOLD
    """What it bears and how stiffly, each with its source; filled by ``joining``."""
    dry: bool = False
    """Put together without glue (clips, screws, a sliding fit): not part of a glue-up."""
    passes: bool = False
    """The first part moves in use, past the second: a door or drawer in its opening, on hinges or slides."""
    steps: tuple[str, ...] = ()
    """How it is cut, in order, for the sheets."""
    late_steps: tuple[str, ...] = ()
    """Of these, what is cut only once the parts are glued together; its marks then are cut so late."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointContext:
    """What a joint may look at besides its own two parts.

    Parameters
    ----------
    moisture
        Moisture by species group of the piece, build day to driest and wettest. [%]
    parts
        All parts of the piece.
    kerf_mm
        Saw kerf of the shop. [mm]
    """

    moisture: MoistureRange
    parts: Mapping[str, Part]
    kerf_mm: float = 3.2
    names: Mapping[str, str] = field(default_factory=dict)


class JointFamily(Protocol):
    """One joint family."""

    @property
    def name(self) -> str:
        """Its name in a piece file."""
        ...

    @property
    def options_model(self) -> type[BaseModel]:
        """Shape of its options."""
        ...

    @property
    def strength(self) -> Callable[[JointWork, Part, Part], JointStrength]:
        """What it bears, by its work and its parts: figures with range and source, or that none is known."""
        ...

    def work(self, joint: JointRequest, context: JointContext) -> JointWork:
        """All that follows from one joint; raises InputError when the parts do not touch."""
        ...
