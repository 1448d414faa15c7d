"""The shape of a piece file. The JSON Schema editors use is generated from these models."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    ValidationInfo,
    model_validator,
)

from scantling.piece.files.fields import LOOKUP, UNIT, Angle, Count, Length, Name
from scantling.piece.files.rings import Rings
from scantling.piece.files.shaping import ShapingSpec
from scantling.piece.matching import Looks, WishKind
from scantling.piece.model import Direction, End, PartKind, Stands
from scantling.reading import MassKg, custom_error
from scantling.units import show_limit
from scantling.wood.ring import Ring

__all__ = [
    "BriefSpec",
    "CopySpec",
    "FinishSpec",
    "MatchingSpec",
    "ParameterSpec",
    "PartSpec",
    "PieceSpec",
    "TaperSpec",
]


class _Model(BaseModel):
    model_config = ConfigDict(
        extra="forbid", frozen=True, use_attribute_docstrings=True, populate_by_name=True
    )


class ParameterSpec(_Model):
    """A size of the form that a user may change."""

    default: str | int | float
    """The value when nothing else is asked for, with its unit."""
    least: str | int | float | None = None
    """The least value allowed."""
    most: str | int | float | None = None
    """The greatest value allowed."""
    about: str = Field(min_length=4)
    """One sentence that says what it is, and what changes with it."""


class TaperSpec(_Model):
    """A straight taper on one or more faces."""

    toward: End
    """The end that gets thin."""
    begin: Length
    """How far from the other end it begins."""
    to: Length
    """Size across the tapered faces at the thin end."""
    faces: tuple[Direction, ...] = Field(min_length=1)
    """Faces tapered, named by where they look; opposite faces share what is taken off."""


class CopySpec(_Model):
    """One more of the same part, mirrored, turned or moved."""

    mirror: tuple[Literal["left-right", "front-back"], ...] = ()
    """Mirrored across the middle of the piece: left-right is x = 0, front-back is y = 0."""
    turn: Angle | None = None
    """Turned about the upright through the origin, counterclockwise seen from above."""
    move: tuple[Length, Length, Length] | None = None
    """Moved by x, y, z, after mirroring and turning."""


class RepeatSpec(_Model):
    """A row of the same part: NAME_1, NAME_2 and so on."""

    count: Count = Field(ge=1, le=200)
    """How many there are."""
    step: tuple[Length, Length, Length] = (0.0, 0.0, 0.0)
    """From one to the next, x, y, z."""
    turn: Angle | None = None
    """From one to the next, turned about an upright, counterclockwise seen from above: a ring."""
    about: tuple[Length, Length] = (0.0, 0.0)
    """Where the upright stands that the row is turned about: x, y."""

    @model_validator(mode="after")
    def _goes_on(self) -> RepeatSpec:
        if self.turn is None and "step" not in self.model_fields_set:
            raise custom_error(
                code="row_stands_still",
                rule="must say how the row goes on",
                remedy="Write step: [x, y, z], or turn: 60 deg for a ring.",
            )
        return self


class StripSpec(_Model):
    """What strips a panel may be glued from."""

    count: Count | None = Field(default=None, ge=1, le=60)
    """How many strips; left out, the shop's stock decides."""
    least: Length = Field(default=60.0, gt=0)
    """Narrowest strip."""
    most: Length = Field(default=150.0, gt=0)
    """Widest strip."""
    rings: tuple[Rings, ...] = Field(default=(), max_length=60)
    """Growth rings of each strip, a name or an angle, counted toward width_toward; left out, the part's."""


class LayerSpec(_Model):
    """What layers a lamination may be glued from."""

    count: Count | None = Field(default=None, ge=1, le=20)
    """How many layers; left out, the stock decides."""
    quarters: tuple[int, ...] = ()
    """Nominal thicknesses allowed, in quarters of an inch (8 for 8/4)."""


class TrimSpec(_Model):
    """Where each end of a part stops: floor, square, another part's face (top.bottom), a miter with it."""

    start: str | tuple[str, ...] = "square"
    """What the start follows: floor, square, a face (top.bottom), or miter with PART."""
    end: str | tuple[str, ...] = "square"
    """What the other end follows."""


class PartSpec(_Model):
    """One part: what it is made of, how big its section is and where it stands."""

    kind: PartKind
    """How it is built up: stick, panel (glued from strips), lamination (glued from layers), sheet."""
    species: str
    """Common or botanical name; for a sheet, the sheet material."""
    section: tuple[Length, Length]
    """Finished width and thickness."""
    from_: tuple[Length, Length, Length] | None = Field(default=None, alias="from")
    """Where the axis begins: x, y, z."""
    to: tuple[Length, Length, Length] | None = None
    """Where the axis ends: x, y, z."""
    center: tuple[Length, Length, Length] | None = None
    """Middle of the part, instead of from and to."""
    along: Direction | None = None
    """Direction of the grain, with center."""
    length: Length | None = Field(default=None, gt=0)
    """Length along the grain, with center."""
    width_toward: Direction
    """Direction in which the width is laid; squared to the grain."""
    lean: tuple[Annotated[Angle, Field(ge=-85, le=85)], Direction] | None = None
    """How far the width leans from width_toward, and to which side: [20 deg, front]."""
    trim: TrimSpec = TrimSpec()
    """Where each end stops."""
    taper: tuple[TaperSpec, ...] | TaperSpec = ()
    """Tapers."""
    edges: dict[Direction, str] = {}
    """Long faces out of square, by where they look: each level, plumb, PART.FACE, or miter with PART."""
    round: tuple[Length, Length] | None = None
    """Diameters at the start and the end, for a round stick."""
    shape: tuple[ShapingSpec, ...] = ()
    """Arrises chamfered or rounded over, faces hollowed or crowned, lengths turned round."""
    rings: Rings = Field(default=Ring.FLAT, json_schema_extra={"default": "flat"})
    """Growth rings in the section: flat, rift, quarter, or their angle to the wide face, such as 30 deg."""
    show: tuple[Direction, ...] | Literal["all"] = ()
    """Faces that are seen."""
    looks: Looks = Looks.CLEAR
    """What the wood may hold: clear, show face clear, sap inside (sapwood on the hidden face), sound."""
    strips: StripSpec | None = None
    """For a panel."""
    layers: LayerSpec | None = None
    """For a lamination."""
    quarters: int | None = Field(default=None, ge=2, le=32)
    """Nominal stock to buy it from, in quarters of an inch; left out, the thinnest that will do."""
    whole: bool = False
    """Whether a stick must be one board across; otherwise it is glued up where no board is wide enough."""
    copies: dict[Name, CopySpec] = {}
    """More of the same, each with its own name."""
    repeat: RepeatSpec | None = None
    """A row of the same."""
    note: str = ""
    """Anything the maker should know."""


def _passable(value: float, info: ValidationInfo) -> float:
    """A way in that furniture could be carried through; judged once its names stand for something."""
    return _within(value, info, _WAY_MM)


def _carriable(value: float, info: ValidationInfo) -> float:
    """A side of something that is carried."""
    return _within(value, info, _SIDE_MM)


def _armed(value: float, info: ValidationInfo) -> float:
    """A height of a chair's arms."""
    return _within(value, info, _ARMS_MM)


def _trimmable(value: float, info: ValidationInfo) -> float:
    """What a floor is out of flat, or what comes off the feet for it."""
    least, most = _UNEVEN_MM
    if LOOKUP in (info.context or {}) and not least <= value <= most:
        inch = (info.context or {}).get(UNIT) == "in"
        ends = [show_limit(end, inch=inch) if inch else f"{end:g} mm" for end in _UNEVEN_MM]
        raise custom_error(
            code="out_of_range",
            rule=f"must lie in {' .. '.join(ends)}",
            remedy="Write from the lowest to the highest place under its feet; a step in the floor is no "
            "matter of trimming.",
        )
    return value


def _within(value: float, info: ValidationInfo, limits_mm: tuple[float, float]) -> float:
    if LOOKUP in (info.context or {}) and not limits_mm[0] <= value <= limits_mm[1]:
        raise custom_error(
            code="out_of_range",
            rule=f"must lie in {_way(info.context or {}, limits_mm)}",
            remedy="Write it with its unit, such as 760 mm or 30 in; leave it out if nothing is in the way.",
        )
    return value


def _way(context: dict[str, Any], limits_mm: tuple[float, float]) -> str:
    if context.get(UNIT) == "in":
        return " .. ".join(show_limit(end, inch=True) for end in limits_mm)
    return f"{limits_mm[0]:g} mm .. {limits_mm[1] / 1000.0:g} m"


_WAY_MM = (200.0, 50_000.0)
"""Least and most a door, corridor or ceiling may be. [mm]"""
_SIDE_MM = (10.0, 50_000.0)
"""Least and most a side of what a stair takes may be. [mm]"""
_ARMS_MM = (300.0, 1500.0)
"""Lowest and highest the arms of a chair may be. [mm]"""
_UNEVEN_MM = (0.0, 60.0)
"""Least and most a floor may be out of flat: more is a step. [mm]"""
_Door = Annotated[Length, AfterValidator(_passable)]
_Side = Annotated[Length, AfterValidator(_carriable)]
_Arms = Annotated[Length, AfterValidator(_armed)]
_Uneven = Annotated[Length, AfterValidator(_trimmable)]


class BriefSpec(_Model):
    """What was asked for, to hold the design against."""

    seats: Count | None = Field(default=None, ge=0, le=100)
    """People to sit at it."""
    chair_arms: _Arms | None = None
    """How high the arms of its chairs are, which go under it."""
    door_width: _Door | None = None
    """Narrowest door on the way in."""
    door_height: _Door | None = None
    """Height of the lowest door on the way in."""
    corridor: tuple[_Door, _Door] | None = None
    """Widths of two corridors that meet at a corner."""
    ceiling: _Door | None = None
    """Lowest ceiling on the way."""
    largest: tuple[_Side, _Side, _Side] | None = None
    """Length, width and thickness of the largest thing that a stair or lift on the way takes, unwrapped."""
    load: MassKg | None = Field(default=None, ge=0, le=5000)
    """What stands on it, such as 40 kg."""
    drawer_load: MassKg | None = Field(default=None, ge=0, le=500)
    """What lies in each drawer, such as 6 kg; left out, clothing that fills it."""
    vents: tuple[Count, Length] | None = None
    """Holes bored for air in a chest with a lid: how many, and their diameter."""
    holds_people: bool = False
    """Whether it is to be sat or stood on."""
    leaned_on: bool = True
    """Whether people may lean on it, as on a table; false for what is left alone, like a plant stand."""
    floor_uneven: _Uneven = 0
    """How far the floor is out of flat: from the lowest to the highest place under its feet."""
    feet_trim: _Uneven = 0
    """How much taller than wanted it is drawn, to be taken off its feet where it stands."""
    photographs: bool = False
    """Whether its making is to be photographed and written up; the hours of that are then priced."""
    stands: Stands = Stands.FLOOR
    """What it stands on: floor, or wall for what is hung on one; its tipping is then not computed."""
    carried: dict[Name, tuple[Name, ...]] = {}
    """How it comes apart for moving: a name for each thing to carry, and its parts."""


def _worth(value: object) -> object:
    """``must``, or a sum of money."""
    if value == "must":
        return value
    number = isinstance(value, int | float) and not isinstance(value, bool)
    if not number or not 0 < float(value) <= 1e6:  # type: ignore[arg-type]
        raise custom_error(
            code="not_a_worth",
            rule="must be 'must', or a sum of money above 0",
            remedy="Write what you would pay to have it so, in the shop's currency, or leave it out: "
            "then it must be so.",
        )
    return value


class MatchingSpec(_Model):
    """Parts that belong together in the wood."""

    wish: WishKind
    """How they belong together: alike is one board or two neighbors in a flitch; book-matched is resawn."""
    parts: tuple[Name, ...] = Field(min_length=1, max_length=60)
    """The parts in order; one entry alone stands for itself and all its copies."""
    worth: Annotated[Literal["must"] | float, BeforeValidator(_worth)] = "must"
    """What it is worth to you, in the shop's currency; must, where nothing else will do."""


class FinishSpec(_Model):
    """What the surface gets."""

    system: str
    """Name of a finish in the shop profile (film varnish, oil-varnish blend...)."""
    coats: int = Field(default=3, ge=1, le=12)
    """Coats on the faces that show."""
    hidden_coats: int | None = Field(default=None, ge=0, le=12)
    """Coats on the faces that do not; left out, as many."""


class PieceSpec(_Model):
    """A piece of furniture: parameters, parts and joints. Everything else is computed."""

    scantling: Literal[1]
    """Version of the file's form."""
    title: str = Field(min_length=1, max_length=120)
    """What the piece is called."""
    about: str = ""
    """What it is for."""
    units: Literal["mm", "in"] = "mm"
    """Unit of bare numbers, and how lengths are shown."""
    fractions: Literal[16, 32, 64] = 32
    """Smallest fraction of an inch that sizes are shown to; gaps and slots are shown to 1/64."""
    both_units: bool = False
    """Whether lengths are shown in the other unit too, in square brackets behind ``units``."""
    parameters: dict[Name, ParameterSpec] = {}
    """Sizes a user may change."""
    values: dict[Name, str | int | float] = {}
    """Named expressions over parameters and other values."""
    parts: dict[Name, PartSpec] = Field(min_length=1, max_length=200)
    """The parts, by name."""
    joints: dict[Name, Any] = Field(default={}, max_length=300)
    """The joints, by name."""
    matching: dict[Name, MatchingSpec] = Field(default={}, max_length=40)
    """Parts that belong together in the wood, by a name for each wish."""
    finish: FinishSpec | None = None
    """What the surface gets."""
    brief: BriefSpec = BriefSpec()
    """What was asked for."""
    accept: dict[str, str] = {}
    """Rules of design set aside, with the reason (F07: the step is wanted as a shadow line)."""
