"""Shapings of a part as a piece file writes them, and as they lie on the part."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from scantling.errors import InputError
from scantling.piece.files.fields import Length
from scantling.piece.model import Direction, Part
from scantling.piece.shaping import Shaping, ShapingKind

__all__ = ["ShapingSpec", "shapings"]

_LEFT_MM = 3.0
"""Wood an arch or a chamfer leaves across a part, at the least (common practice). [mm]"""
_UNDER_MM = 12.0
"""Wood a scoop leaves under it, at the least: half an inch (common practice). [mm]"""

_FLAT = 8.0
"""A scoop is at least so many times as long as it is deep, or no sole of a plane follows it (common practice;
it begins at a slope of 8 in 15 then). [1]"""


class _Model(BaseModel):
    model_config = ConfigDict(
        extra="forbid", frozen=True, use_attribute_docstrings=True, populate_by_name=True
    )


class ArrisSpec(_Model):
    """Long arrises chamfered or rounded over."""

    kind: Literal["chamfer", "round_over"]
    """What is done to them."""
    size: Length = Field(gt=0)
    """Leg of the chamfer, or radius."""
    edges: tuple[tuple[Direction, Direction], ...] | Literal["all"] = "all"
    """Arrises, each by the two faces it lies between, or all four along the grain."""
    stop: Length = Field(default=0, ge=0)
    """How far it stops short of both ends."""


class ArchSpec(_Model):
    """A face arched in one plane: hollow, or high in its middle."""

    kind: Literal["hollow", "crown"]
    """Whether the face is hollowed, or left high in its middle and lowered at its ends."""
    rise: Length = Field(gt=0)
    """Height of the arc over its chord, in its middle."""
    face: Direction
    """The face, along the grain."""
    from_: Length | None = Field(default=None, alias="from", ge=0)
    """Where a hollow begins, from the part's start; left out, at the start."""
    to: Length | None = Field(default=None, gt=0)
    """Where a hollow ends, from the part's start; left out, at the end."""


class ScoopSpec(_Model):
    """A broad face hollowed to be sat in: an arc along the grain, straight across from edge to edge."""

    kind: Literal["scoop"]
    """Scooped."""
    depth: Length = Field(gt=0)
    """How deep it is in its middle."""
    margin: Length | tuple[Length, Length]
    """What is left straight at both ends, or at the start and at the end."""
    face: Direction = Direction.TOP
    """The broad face."""


class TurnedSpec(_Model):
    """A length turned round, between square ends."""

    kind: Literal["turned"]
    """Turned."""
    diameter: Length = Field(gt=0)
    """Diameter."""
    from_: Length = Field(alias="from", ge=0)
    """Where it begins, from the part's start."""
    to: Length = Field(gt=0)
    """Where it ends, from the part's start."""


class CutOutSpec(_Model):
    """An opening sawn in from a long face, right through the part, as between the feet of a chest's end."""

    kind: Literal["cut_out"]
    """Cut out."""
    high: Length = Field(gt=0)
    """How far it goes in from the face."""
    face: Direction
    """The face, along the grain, that it is sawn in from."""
    from_: Length = Field(alias="from", gt=0)
    """Where it begins, from the part's start."""
    to: Length = Field(gt=0)
    """Where it ends, from the part's start."""
    corner: Length = Field(default=0, ge=0)
    """Radius of its two inner corners; 0 leaves them sharp."""


ShapingSpec = Annotated[
    ArrisSpec | ArchSpec | ScoopSpec | TurnedSpec | CutOutSpec, Field(discriminator="kind")
]


def shapings(part: Part, specs: Iterable[ShapingSpec], *, name: str) -> tuple[Shaping, ...]:
    """The shapings as they lie on a part.

    Parameters
    ----------
    part
        Placed and trimmed.
    specs
        As written.
    name
        Of the entry, for faults.

    Raises
    ------
    InputError
        ``shape_not_possible``, with the figures.
    """
    found: list[Shaping] = []
    for number, spec in enumerate(specs):
        field = f"parts.{name}.shape.{number}"
        if part.round is not None or part.tapers or part.edges:
            raise _impossible(
                field,
                "a part that is round, tapered or ripped out of square",
                "shape a straight square section",
            )
        found += [replace(one, entry=number) for one in _shaped(part, spec, field)]
    return tuple(found)


def _shaped(part: Part, spec: ShapingSpec, field: str) -> list[Shaping]:
    if isinstance(spec, ArrisSpec):
        return _arrises(part, spec, field)
    if isinstance(spec, ArchSpec):
        return [_arch(part, spec, field)]
    if isinstance(spec, ScoopSpec):
        return [_scoop(part, spec, field)]
    if isinstance(spec, CutOutSpec):
        return [_cut_out(part, spec, field)]
    return [_turned(part, spec, field)]


def _impossible(
    field: str, value: str, rule: str, *, remedy: str = "Make it smaller, or name another face or arris."
) -> InputError:
    return InputError(code="shape_not_possible", field=field, value=value, rule=f"must {rule}", remedy=remedy)


def _side(part: Part, direction: Direction) -> tuple[int, int]:
    """Which long face looks that way: sign on the width axis, sign on the thickness axis."""
    u, v, w = part.frame.local_direction(direction.vector)
    if abs(u) > max(abs(v), abs(w)):
        return (0, 0)
    if abs(v) >= abs(w):
        return (1 if v > 0.0 else -1, 0)
    return (0, 1 if w > 0.0 else -1)


def _arrises(part: Part, spec: ArrisSpec, field: str) -> list[Shaping]:
    if spec.edges == "all":
        sides = [((v, w), "all long arrises") for v in (1, -1) for w in (1, -1)]
    else:
        sides = []
        for one, other in spec.edges:
            a, b = _side(part, one), _side(part, other)
            side = (a[0] + b[0], a[1] + b[1])
            if abs(side[0]) != 1 or abs(side[1]) != 1:
                raise _impossible(field, f"{one.value} {other.value}", "name two neighboring long faces")
            sides.append((side, f"{one.value} {other.value}"))
    twice = 2.0 if len(sides) > 1 else 1.0
    left = min(part.width_mm, part.thickness_mm) - twice * spec.size
    if left < _LEFT_MM - 1e-9:
        raise _impossible(field, f"{left:.1f} mm left of the section", f"leave {_LEFT_MM:g} mm")
    start, end = part.start_mm + spec.stop, part.end_mm - spec.stop
    if end - start < spec.size:
        raise _impossible(field, f"{max(0.0, end - start):.1f} mm long", "be longer than it is wide")
    kind = ShapingKind.CHAMFER if spec.kind == "chamfer" else ShapingKind.ROUND_OVER
    return [
        Shaping(kind=kind, size_mm=spec.size, start_mm=start, end_mm=end, side=side, where=where)
        for side, where in sides
    ]


def _arch(part: Part, spec: ArchSpec, field: str) -> Shaping:
    side = _side(part, spec.face)
    if side == (0, 0):
        raise _impossible(field, spec.face.value, "name a face along the grain")
    start = part.start_mm + (spec.from_ or 0.0)
    end = part.end_mm if spec.to is None else part.start_mm + spec.to
    if spec.kind == "crown" and (spec.from_ is not None or spec.to is not None):
        raise _impossible(field, "a crown over part of a face", "run from end to end where it is a crown")
    if end > part.end_mm + 1e-6 or end - start < 2.0 * spec.rise:
        raise _impossible(
            field,
            f"{spec.rise:.1f} mm over {end - start:.1f} mm",
            "lie on the part, no steeper than a half circle",
        )
    left = (part.width_mm if side[0] else part.thickness_mm) - spec.rise
    if left < _LEFT_MM - 1e-9:
        raise _impossible(field, f"{left:.1f} mm left of the section", f"leave {_LEFT_MM:g} mm")
    kind = ShapingKind.HOLLOW if spec.kind == "hollow" else ShapingKind.CROWN
    return Shaping(
        kind=kind, size_mm=spec.rise, start_mm=start, end_mm=end, side=side, where=f"{spec.face.value} face"
    )


def _cut_out(part: Part, spec: CutOutSpec, field: str) -> Shaping:
    side = _side(part, spec.face)
    if side == (0, 0):
        raise _impossible(field, spec.face.value, "name a face along the grain")
    start, end = part.start_mm + spec.from_, part.start_mm + spec.to
    if end > part.end_mm - _LEFT_MM + 1e-6 or start < part.start_mm + _LEFT_MM - 1e-6 or end <= start:
        value = f"from {spec.from_:.1f} to {spec.to:.1f} mm on {part.length_mm:.1f} mm"
        raise _impossible(field, value, f"leave {_LEFT_MM:g} mm at both ends of the part")
    most = min(spec.high, (end - start) / 2.0)
    if spec.corner > most + 1e-9:
        value = f"corners of {spec.corner:.1f} mm in {end - start:.1f} mm by {spec.high:.1f} mm"
        raise _impossible(field, value, f"have corners of at most {most:.1f} mm")
    left = (part.width_mm if side[0] else part.thickness_mm) - spec.high
    if left < _LEFT_MM - 1e-9:
        raise _impossible(field, f"{left:.1f} mm left of the section", f"leave {_LEFT_MM:g} mm")
    return Shaping(
        kind=ShapingKind.CUT_OUT,
        size_mm=spec.high,
        start_mm=start,
        end_mm=end,
        side=side,
        where=f"{spec.face.value} face",
        corner_mm=spec.corner,
    )


def _scoop(part: Part, spec: ScoopSpec, field: str) -> Shaping:
    """A scoop between its margins, shallow enough to be worked down to, with wood left under it."""
    side = _side(part, spec.face)
    broad = side[1] != 0 if part.thickness_mm <= part.width_mm else side[0] != 0
    if not broad:
        remedy = "Name the face that is sat on, such as face: top."
        raise _impossible(field, spec.face.value, "lie in a broad face along the grain", remedy=remedy)
    margins = spec.margin if isinstance(spec.margin, tuple) else (spec.margin, spec.margin)
    long = part.length_mm - sum(margins)
    if min(margins) < 0.0 or long < 1e-6:
        raise _impossible(
            field,
            f"margins of {margins[0]:.1f} and {margins[1]:.1f} mm on {part.length_mm:.1f} mm",
            "leave a length to scoop between two margins of 0 mm or more",
            remedy=f"Make the margins less than {part.length_mm / 2.0:.1f} mm each.",
        )
    deepest = (min(part.width_mm, part.thickness_mm)) - _UNDER_MM
    if spec.depth > deepest + 1e-9:
        raise _impossible(
            field,
            f"{spec.depth:.1f} mm deep in {deepest + _UNDER_MM:.1f} mm",
            f"leave {_UNDER_MM:g} mm of wood under it",
            remedy=f"Scoop it {deepest:.1f} mm deep at most, or make the part thicker."
            if deepest > 0.0
            else "Make the part thicker.",
        )
    if long < _FLAT * spec.depth - 1e-9:
        raise _impossible(
            field,
            f"{spec.depth:.1f} mm deep over {long:.1f} mm",
            f"be at least {_FLAT:g} times as long as it is deep",
            remedy=f"Scoop it {long / _FLAT:.1f} mm deep at most, or make the margins smaller.",
        )
    return Shaping(
        kind=ShapingKind.SCOOP,
        size_mm=spec.depth,
        start_mm=part.start_mm + margins[0],
        end_mm=part.end_mm - margins[1],
        side=side,
        where=f"{spec.face.value} face",
    )


def _turned(part: Part, spec: TurnedSpec, field: str) -> Shaping:
    start, end = part.start_mm + spec.from_, part.start_mm + spec.to
    thin = min(part.width_mm, part.thickness_mm)
    if not part.start_mm <= start < end <= part.end_mm + 1e-6:
        raise _impossible(field, f"from {spec.from_:.1f} to {spec.to:.1f} mm", "lie on the part")
    if spec.diameter > thin + 1e-9:
        raise _impossible(field, f"{spec.diameter:.1f} mm in {thin:.1f} mm", "be no thicker than the blank")
    return Shaping(
        kind=ShapingKind.TURNED,
        size_mm=spec.diameter,
        start_mm=start,
        end_mm=end,
        side=(0, 0),
        where="middle",
    )
