"""The resolved piece: parts in place, trimmed by planes, and the joints asked for between them.

Everything here is immutable. A part's own axes are u (grain), v (width) and w (thickness); its frame's
origin lies on the axis of the section, so v and w run from minus half to plus half.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from itertools import accumulate, pairwise

from scantling.piece.built import AsBuilt
from scantling.piece.geometry import Frame, Plane, Vec
from scantling.piece.matching import Looks, Matching
from scantling.piece.shaping import Shaping
from scantling.units import LengthStyle
from scantling.wood.ring import Ring

__all__ = [
    "Brief",
    "Direction",
    "Edge",
    "End",
    "Finish",
    "JointRequest",
    "LayerRule",
    "ParameterValue",
    "Part",
    "PartKind",
    "PartRef",
    "Piece",
    "Place",
    "RoundSection",
    "SettledStrips",
    "Stands",
    "StripRule",
    "Taper",
    "Trim",
]


class PartKind(StrEnum):
    """How a part is built up."""

    STICK = "stick"
    PANEL = "panel"
    LAMINATION = "lamination"
    SHEET = "sheet"


class End(StrEnum):
    """The two ends along the grain, in the direction from start to end."""

    START = "start"
    END = "end"


class Direction(StrEnum):
    """Directions of the piece; also the name of the face that looks most that way."""

    LEFT = "left"
    RIGHT = "right"
    FRONT = "front"
    BACK = "back"
    BOTTOM = "bottom"
    TOP = "top"

    @property
    def vector(self) -> Vec:
        """Unit vector in the world. [1]"""
        return _VECTORS[self]


_VECTORS: dict[Direction, Vec] = {
    Direction.LEFT: (-1.0, 0.0, 0.0),
    Direction.RIGHT: (1.0, 0.0, 0.0),
    Direction.FRONT: (0.0, -1.0, 0.0),
    Direction.BACK: (0.0, 1.0, 0.0),
    Direction.BOTTOM: (0.0, 0.0, -1.0),
    Direction.TOP: (0.0, 0.0, 1.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Trim:
    """One plane that ends a part; local coordinates, normal out of the wood kept."""

    plane: Plane
    end: End
    by: str
    """What it follows, as written: ``floor``, ``top.bottom``, ``square``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taper:
    """A straight taper of one face.

    Parameters
    ----------
    plane
        The tapered face, local, normal out of the wood kept.
    toward
        The end that gets thin.
    begin_mm
        Distance from the other end's square line at which it begins. [mm]
    loss_mm
        What is taken off this face at the thin end. [mm]
    face
        The face tapered, named by where it looks.
    """

    plane: Plane
    toward: End
    begin_mm: float
    loss_mm: float
    face: Direction


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """A long face ripped out of square to its neighbors.

    Parameters
    ----------
    plane
        The face as ripped, local, normal out of the wood kept.
    face
        The face it takes the place of, named by where that looks.
    side
        That face by its place in the section: ``width+``, ``width-``, ``thickness+``, ``thickness-``.
    by
        What it follows, as written: ``level``, ``miter with next``.
    """

    plane: Plane
    face: Direction
    side: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundSection:
    """A stick shaved or turned round, straight or tapering.

    Parameters
    ----------
    start_mm, end_mm
        Diameters at ``from`` and ``to``. [mm]
    """

    start_mm: float
    end_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SettledStrips:
    """The strips of a panel as they will be sawn.

    Parameters
    ----------
    glued_mm
        Width of each when glued, from the edge at -v on. [mm]
    trim_first_mm, trim_last_mm
        What is then trimmed off the edges at -v and at +v. [mm]
    """

    glued_mm: tuple[float, ...]
    trim_first_mm: float
    trim_last_mm: float

    @property
    def finished_mm(self) -> tuple[float, ...]:
        """Width of each in the finished panel. [mm] 0 for one that is trimmed off."""
        left, right = self.trim_first_mm, sum(self.glued_mm) - self.trim_last_mm
        edges = [min(max(edge, left), right) for edge in accumulate(self.glued_mm, initial=0.0)]
        return tuple(b - a for a, b in pairwise(edges))


@dataclass(frozen=True, slots=True, kw_only=True)
class StripRule:
    """How a panel may be made up of strips.

    Parameters
    ----------
    count
        Strips wanted; None leaves it free.
    least_mm, most_mm
        Width of one strip. [mm]
    rings
        Growth rings of each strip, from the edge at -v to that at +v; empty where all are as the part's.
    settled
        How the strips with those rings will be sawn; None while that is not planned, and they count as
        equally wide.
    """

    count: int | None
    least_mm: float
    most_mm: float
    rings: tuple[Ring, ...] = ()
    settled: SettledStrips | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerRule:
    """How a lamination may be made up of layers, glued through the thickness.

    Parameters
    ----------
    count
        Layers wanted; None leaves it to the stock.
    quarters
        Nominal thicknesses allowed; empty allows all the shop buys. [1/4 in]
    """

    count: int | None
    quarters: tuple[int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One part in place, before its joints are cut.

    Parameters
    ----------
    name
        Unique in the piece.
    like
        Name of the entry in the file it comes from; copies share it.
    species
        Full name in the species table; for a sheet, the sheet material.
    frame
        Where it stands; origin on the axis at u = 0.
    width_mm, thickness_mm
        Finished section. [mm]
    start_mm, end_mm
        Extent along u, long point to long point, before joints lengthen it. [mm]
    trims
        Every end has at least one.
    ring
        Growth rings as seen in the end of the section.
    show
        Faces that are seen.
    quarters
        Nominal stock asked for; None leaves it to the shop. [1/4 in]
    looks
        What the wood may hold of knots, sapwood and stain.
    shaping
        Arrises taken off, faces arched, lengths turned.
    whole
        Whether it must be one board across.
    """

    name: str
    like: str
    kind: PartKind
    species: str
    frame: Frame
    width_mm: float
    thickness_mm: float
    start_mm: float
    end_mm: float
    trims: tuple[Trim, ...]
    ring: Ring
    tapers: tuple[Taper, ...] = ()
    edges: tuple[Edge, ...] = ()
    round: RoundSection | None = None
    show: frozenset[Direction] = frozenset()
    strips: StripRule | None = None
    layers: LayerRule | None = None
    quarters: int | None = None
    looks: Looks = Looks.CLEAR
    whole: bool = False
    shaping: tuple[Shaping, ...] = ()
    mirrored: bool = False
    note: str = ""

    @property
    def length_mm(self) -> float:
        """Long point to long point. [mm]"""
        return self.end_mm - self.start_mm

    @property
    def rings_across(self) -> tuple[tuple[float, Ring], ...]:
        """Width and growth rings of each strip, from -v to +v; one where all are alike. [mm]"""
        rings = self.strips.rings if self.strips is not None else ()
        if self.strips is None or not rings:
            return ((self.width_mm, self.ring),)
        if self.strips.settled is None:
            return tuple((self.width_mm / len(rings), ring) for ring in rings)
        settled = zip(self.strips.settled.finished_mm, rings, strict=True)
        return tuple((width, ring) for width, ring in settled if width > 0.0)

    @property
    def middle(self) -> Vec:
        """Middle of the axis, in the world. [mm]"""
        return self.frame.point(((self.start_mm + self.end_mm) / 2.0, 0.0, 0.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRef:
    """A part, or one of its ends or faces, as a joint names it (``apron.start``, ``top.bottom``, ``leg``)."""

    part: str
    end: End | None = None
    face: Direction | None = None

    def __str__(self) -> str:
        tail = self.end or self.face
        return f"{self.part}.{tail.value}" if tail else self.part


@dataclass(frozen=True, slots=True, kw_only=True)
class JointRequest:
    """One joint as asked for, options already numbers in internal units.

    Parameters
    ----------
    name
        Unique; the entry's name, with a running number where the entry names several places.
    like, family
        The entry's name in the file, and the joint family.
    first, second
        The part that enters and the part that receives, in the family's sense.
    options
        The family's options object (its own frozen dataclass or model).
    inch
        Whether its file is in inches: what the file leaves out is then of the sizes of inch cutters.
    """

    name: str
    like: str
    family: str
    first: PartRef
    second: PartRef
    options: object
    inch: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ParameterValue:
    """A parameter of the form, with the value in force.

    Parameters
    ----------
    value, default, least, most
        In the internal unit of the dimension.
    dimension
        ``length``, ``angle``, ``number``.
    """

    name: str
    about: str
    dimension: str
    value: float
    default: float
    least: float | None = None
    most: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where something stands in a file; line and column from 1."""

    file: str
    line: int
    column: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Finish:
    """What the surface gets.

    Parameters
    ----------
    system
        Name of a finish in the shop profile.
    coats, hidden_coats
        Coats on the faces that show, and on those that do not.
    """

    system: str
    coats: int
    hidden_coats: int


class Stands(StrEnum):
    """What the piece stands on or hangs from."""

    FLOOR = "floor"
    WALL = "wall"


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """What was asked for; None where nothing was.

    Parameters
    ----------
    seats, chair_arms_mm
        People to sit at it, and how high the arms of its chairs are. [1], [mm]
    door_width_mm, door_height_mm, ceiling_mm, corridor_mm
        The narrowest place on the way in; two corridors that meet at a corner. [mm]
    largest_mm
        The largest thing that a stair or lift on the way takes, unwrapped. [mm] (3,)
    load_kg, drawer_load_kg
        What stands on it, and lies in each drawer; None for clothing that fills it. [kg]
    vents
        Holes bored for air in a chest with a lid: how many, and their diameter. [1], [mm]
    holds_people
        Whether it is to be sat or stood on.
    floor_uneven_mm, feet_trim_mm
        How far the floor is out of flat; how much taller it is drawn, to come off the feet there. [mm]
    stands
        On the floor, or hung on a wall; what hangs has no feet to tip over.
    carried
        How it comes apart for moving: things to carry by name, each with its parts.
    """

    seats: int | None = None
    chair_arms_mm: float | None = None
    door_width_mm: float | None = None
    door_height_mm: float | None = None
    corridor_mm: tuple[float, float] | None = None
    ceiling_mm: float | None = None
    largest_mm: tuple[float, float, float] | None = None
    load_kg: float | None = None
    drawer_load_kg: float | None = None
    vents: tuple[int, float] | None = None
    holds_people: bool = False
    leaned_on: bool = True
    floor_uneven_mm: float = 0.0
    feet_trim_mm: float = 0.0
    photographs: bool = False
    stands: Stands = Stands.FLOOR
    carried: Mapping[str, tuple[str, ...]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A whole piece, resolved.

    Parameters
    ----------
    parts
        By name, in the order of the file.
    joints
        In the order of the file.
    finish
        What the surface gets.
    brief
        What was asked for.
    matching
        Parts that belong together in the wood.
    accept
        Rules set aside, with the reason.
    places
        Where ``parts.NAME``, ``joints.NAME``, ``joints.NAME.OPTION`` and each pair of parts
        (``joints.NAME.pair``, or ``joints.NAME.2.pair`` of several), ``finish.system`` and ``accept.RULE``
        stand in the file.
    fractions, both_units
        Smallest fraction of an inch that sizes are shown to: 16, 32 or 64; whether lengths are shown in the
        other unit too, behind ``units``, which lead.
    built
        What is made of it already; None where nothing was told.
    """

    title: str
    about: str
    units: str
    parameters: tuple[ParameterValue, ...]
    parts: Mapping[str, Part]
    joints: tuple[JointRequest, ...]
    brief: Brief
    finish: Finish | None = None
    matching: tuple[Matching, ...] = ()
    accept: Mapping[str, str] = field(default_factory=dict)
    places: Mapping[str, Place] = field(default_factory=dict)
    fractions: int = 32
    both_units: bool = False
    built: AsBuilt | None = None

    @property
    def style(self) -> LengthStyle:
        """How its lengths are shown."""
        return LengthStyle.of(self.units, fractions=self.fractions, both=self.both_units)

    def shown_in(self, units: str) -> Piece:
        """The same, lengths shown in ``mm``, ``in`` or ``both``, where the file's own unit leads."""
        if units == "both":
            return replace(self, both_units=True)
        return replace(self, units=units, both_units=False)

    def alike(self) -> dict[str, tuple[Part, ...]]:
        """Parts grouped by the entry they come from."""
        groups: dict[str, list[Part]] = {}
        for part in self.parts.values():
            groups.setdefault(part.like, []).append(part)
        return {name: tuple(parts) for name, parts in groups.items()}
