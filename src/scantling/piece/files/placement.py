"""Placing a part: axis, section, the planes that trim its ends, its tapers and its edges."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from types import MappingProxyType

from scantling.errors import InputError
from scantling.piece.convex import box_body, clip, face_direction, rod_body
from scantling.piece.files.edges import PlaneOf, edges_of
from scantling.piece.files.shaping import shapings
from scantling.piece.files.spec import LayerSpec, PartSpec, StripSpec, TaperSpec
from scantling.piece.geometry import Frame, Plane, Vec, add, cross, dot, norm, scale, sub, unit
from scantling.piece.model import (
    Direction,
    End,
    LayerRule,
    Part,
    PartKind,
    RoundSection,
    StripRule,
    Taper,
    Trim,
)

__all__ = [
    "FLOOR",
    "SQUARE",
    "PlaneOf",
    "place",
    "section_frame",
    "untrimmed",
]

NO_SHIFT: Mapping[int, float] = MappingProxyType({})
FLOOR = "floor"
SQUARE = "square"

_FLOOR_PLANE = Plane(point=(0.0, 0.0, 0.0), normal=(0.0, 0.0, 1.0))
_LEAST_LENGTH_MM = 1.0
_GLANCING = 0.08
"""Sine of the angle below which a trim plane runs along the part rather than across it (about 5 deg)."""
_REACH_MM = 20000.0


def section_frame(spec: PartSpec, *, name: str) -> tuple[Frame, float]:
    """Frame of a part and the length of its axis before trimming. [mm]

    Raises
    ------
    InputError
        ``no_axis``, ``axis_twice``, ``axis_too_short``, ``width_along_grain``, ``leans_nowhere``.
    """
    begin, axis = _axis(spec, name)
    length = norm(axis)
    if length < _LEAST_LENGTH_MM:
        raise InputError(
            code="axis_too_short",
            field=f"parts.{name}",
            value=f"an axis of {length:.3f} mm",
            rule="must have an axis longer than 1 mm",
            remedy="Move 'from' and 'to' apart.",
        )
    grain = unit(axis)
    toward = spec.width_toward.vector
    across = sub(toward, scale(grain, dot(toward, grain)))
    if norm(across) < 0.1:
        raise InputError(
            code="width_along_grain",
            field=f"parts.{name}.width_toward",
            value=spec.width_toward.value,
            rule="must not be the direction of the grain",
            remedy="Name the direction in which the first figure of the section is laid.",
        )
    width = unit(across) if spec.lean is None else _leaning(unit(across), grain, spec.lean, name)
    return Frame(origin=begin, grain=grain, width=width, thickness=cross(grain, width)), length


def _leaning(width: Vec, grain: Vec, lean: tuple[float, Direction], name: str) -> Vec:
    """The direction of the width, leaned over about the grain."""
    angle, toward = math.radians(lean[0]), lean[1]
    side = cross(grain, width)
    share = dot(side, toward.vector)
    if abs(share) < 0.1:
        raise InputError(
            code="leans_nowhere",
            field=f"parts.{name}.lean",
            value=toward.value,
            rule="must lean square to the grain and to width_toward",
            remedy="Name the side that the part leans out to.",
        )
    lifted = scale(side, math.sin(angle) * (1.0 if share > 0.0 else -1.0))
    return add(scale(width, math.cos(angle)), lifted)


def _axis(spec: PartSpec, name: str) -> tuple[Vec, Vec]:
    by_points = spec.from_ is not None and spec.to is not None
    by_center = spec.center is not None and spec.along is not None and spec.length is not None
    some_center = spec.center is not None or spec.along is not None or spec.length is not None
    some_points = spec.from_ is not None or spec.to is not None
    if some_center and some_points:
        raise InputError(
            code="axis_twice",
            field=f"parts.{name}",
            value="both from/to and center/along/length",
            rule="must be placed one way",
            remedy="Keep either from and to, or center, along and length.",
        )
    if by_points:
        assert spec.from_ is not None
        assert spec.to is not None
        return spec.from_, sub(spec.to, spec.from_)
    if by_center:
        assert spec.center is not None
        assert spec.along is not None
        assert spec.length is not None
        axis = scale(spec.along.vector, spec.length)
        return sub(spec.center, scale(axis, 0.5)), axis
    raise InputError(
        code="no_axis",
        field=f"parts.{name}",
        value="no complete placing",
        rule="must have from and to, or center, along and length",
        remedy="Write from: [x, y, z] and to: [x, y, z].",
    )


def place(
    spec: PartSpec, *, name: str, species: str, plane_of: PlaneOf, shifts_mm: Mapping[int, float] = NO_SHIFT
) -> Part:
    """The part an entry describes, in place and trimmed.

    Parameters
    ----------
    spec
        The entry, its expressions already numbers.
    name
        Its name.
    species
        Full name in the species table.
    plane_of
        Gives the plane a trim names, where the part's axis runs into it.
    shifts_mm
        How far some of the planes that trim it are moved outward, by their number. [mm]

    Raises
    ------
    InputError
        As :func:`section_frame`, and ``section_not_positive``, ``trim_along_part``, ``trim_wrong_side``,
        ``no_length_left``, ``taper_not_possible``, ``shape_not_possible``, ``rule_of_other_kind``.
    """
    part = replace(
        untrimmed(spec, name=name),
        species=species,
        show=_shown(spec),
        strips=_strips(spec.strips, spec, name),
        layers=_layers(spec.layers, spec, name),
        quarters=spec.quarters,
        looks=spec.looks,
        whole=spec.whole,
        note=spec.note,
    )
    trims = _trims(spec, name, part.frame, part.end_mm, plane_of)
    moved = [replace(t, plane=t.plane.shifted(shifts_mm.get(n, 0.0))) for n, t in enumerate(trims)]
    part = _to_long_points(replace(part, trims=tuple(moved)), name)
    if spec.edges:
        part = replace(part, edges=edges_of(spec.edges, part, plane_of))
    wanted = (spec.taper,) if isinstance(spec.taper, TaperSpec) else spec.taper
    tapers: list[Taper] = []
    for number, taper in enumerate(wanted):
        place_of = "taper" if isinstance(spec.taper, TaperSpec) else f"taper.{number}"
        tapers.extend(_taper(part, taper, field=f"parts.{name}.{place_of}"))
    if tapers:
        part = replace(part, tapers=tuple(tapers))
    return replace(part, shaping=shapings(part, spec.shape, name=name)) if spec.shape else part


def untrimmed(spec: PartSpec, *, name: str) -> Part:
    """A part where it stands, both ends square where its axis begins and ends, with nothing else to it."""
    frame, axis_mm = section_frame(spec, name=name)
    _check_section(spec, name)
    return Part(
        name=name,
        like=name,
        kind=spec.kind,
        species=spec.species,
        frame=frame,
        width_mm=spec.section[0],
        thickness_mm=spec.section[1],
        start_mm=0.0,
        end_mm=axis_mm,
        trims=(),
        ring=spec.rings,
        round=RoundSection(start_mm=spec.round[0], end_mm=spec.round[1]) if spec.round else None,
    )


def _check_section(spec: PartSpec, name: str) -> None:
    named = zip(spec.section, ("width", "thickness"), strict=True)
    sizes = [(number, f"{what} {size:.2f} mm", size) for number, (size, what) in enumerate(named)]
    wrong = [(number, said) for number, said, size in sizes if not 0.5 <= size <= _REACH_MM / 4.0]
    if wrong:
        raise InputError(
            code="section_not_positive",
            field=f"parts.{name}.section" + (f".{wrong[0][0]}" if len(wrong) == 1 else ""),
            value=" and ".join(said for _, said in wrong),
            rule="must lie between 0.5 and 5000 mm",
            remedy="Look at the expression it comes from.",
        )
    if spec.round is not None and min(spec.round) < 0.5:
        raise InputError(
            code="round_not_positive",
            field=f"parts.{name}.round",
            value=f"{min(spec.round):.2f} mm",
            rule="must be at least 0.5 mm at both ends",
            remedy="Look at the expression it comes from.",
        )
    if spec.round is not None and max(spec.round) > min(spec.section) + 1e-6:
        raise InputError(
            code="round_over_section",
            field=f"parts.{name}.round",
            value=f"{max(spec.round):.1f} mm",
            rule=f"must not be more than the section, {min(spec.section):.1f} mm",
            remedy="Give the square blank it is shaved from as the section.",
        )


def _shown(spec: PartSpec) -> frozenset[Direction]:
    return frozenset(Direction) if spec.show == "all" else frozenset(spec.show)


def _strips(rule: StripSpec | None, spec: PartSpec, name: str) -> StripRule | None:
    if spec.kind is not PartKind.PANEL:
        if rule is not None:
            raise _other_kind(name, "strips", "panel")
        return None
    rule = rule or StripSpec()
    if rule.least > rule.most:
        raise InputError(
            code="strips_crossed",
            field=f"parts.{name}.strips.least",
            value=f"{rule.least:.1f} mm",
            rule=f"must not be more than the widest strip, {rule.most:.1f} mm",
        )
    count = None if rule.count is None else int(rule.count)
    if rule.rings and count is not None and count != len(rule.rings):
        raise InputError(
            code="rings_not_counted",
            field=f"parts.{name}.strips.rings",
            value=f"{len(rule.rings)} strips",
            rule=f"must give the rings of as many strips as count does, {count}",
            remedy="Leave count out: the list says how many there are.",
        )
    return StripRule(count=len(rule.rings) or count, least_mm=rule.least, most_mm=rule.most, rings=rule.rings)


def _layers(rule: LayerSpec | None, spec: PartSpec, name: str) -> LayerRule | None:
    if spec.kind is not PartKind.LAMINATION:
        if rule is not None:
            raise _other_kind(name, "layers", "lamination")
        return None
    rule = rule or LayerSpec()
    return LayerRule(count=None if rule.count is None else int(rule.count), quarters=rule.quarters)


def _other_kind(name: str, what: str, kind: str) -> InputError:
    return InputError(
        code="rule_of_other_kind",
        field=f"parts.{name}.{what}",
        value=what,
        rule=f"belongs to a {kind} only",
        remedy=f"Write kind: {kind}, or leave {what} out.",
    )


def _trims(spec: PartSpec, name: str, frame: Frame, axis_mm: float, plane_of: PlaneOf) -> tuple[Trim, ...]:
    trims: list[Trim] = []
    for end, refs, u in ((End.START, spec.trim.start, 0.0), (End.END, spec.trim.end, axis_mm)):
        sign = -1.0 if end is End.START else 1.0
        for ref in (refs,) if isinstance(refs, str) else refs:
            if ref == SQUARE:
                plane = Plane(point=(u, 0.0, 0.0), normal=(sign, 0.0, 0.0))
            else:
                outward = scale(frame.grain, sign)
                world = _FLOOR_PLANE if ref == FLOOR else plane_of(ref, frame.origin, outward, None)
                plane = frame.plane_in(world.flipped())
                _check_trim(plane, sign=sign, field=f"parts.{name}.trim.{end.value}", ref=ref)
            trims.append(Trim(plane=plane, end=end, by=ref))
    return tuple(trims)


def _check_trim(plane: Plane, *, sign: float, field: str, ref: str) -> None:
    if abs(plane.normal[0]) < _GLANCING:
        raise InputError(
            code="trim_along_part",
            field=field,
            value=ref,
            rule="must cross the part, not run along it",
            remedy="Name a face that the end of the part runs against.",
        )
    if plane.normal[0] * sign < 0.0:
        raise InputError(
            code="trim_wrong_side",
            field=field,
            value=ref,
            rule="must face the part from beyond this end: it is the far face of what the part runs into",
            remedy="Swap from and to, or name the face on the near side of the other part.",
        )


def _to_long_points(part: Part, name: str) -> Part:
    """The part with its extent taken from its trimmed body."""
    reach = sum(max(abs(c) for c in trim.plane.point) for trim in part.trims) + 4.0 * max(
        part.width_mm, part.thickness_mm
    )
    start, end = _trimmed_extent(part, reach)
    if end - start < _LEAST_LENGTH_MM:
        raise InputError(
            code="no_length_left",
            field=f"parts.{name}.trim",
            value=_trimmed_length(part),
            rule="must leave more than 1 mm of length between the trimmed ends",
            remedy="Look at the sizes that place the two things it is trimmed by.",
        )
    if part.round is None:
        return replace(part, start_mm=start, end_mm=end)
    slope = (part.round.end_mm - part.round.start_mm) / part.end_mm
    first, last = part.round.start_mm + slope * start, part.round.start_mm + slope * end
    if min(first, last) < 0.5:
        raise InputError(
            code="round_not_positive",
            field=f"parts.{name}.round",
            value=f"{min(first, last):.2f} mm where the part is trimmed",
            rule="must be at least 0.5 mm at both ends",
            remedy="Set 'from' and 'to' nearer the trimmed ends, or taper less.",
        )
    return replace(part, start_mm=start, end_mm=end, round=RoundSection(start_mm=first, end_mm=last))


@lru_cache(maxsize=4096)
def _trimmed_extent(part: Part, reach: float) -> tuple[float, float]:
    """Long point to long point along the axis, local. [mm]"""
    low, high = -reach, part.end_mm + reach
    box = box_body(start_mm=low, end_mm=high, width_mm=part.width_mm, thickness_mm=part.thickness_mm)
    bodies = (box, box)
    if part.round is not None:
        sizes = (part.round.start_mm, part.round.end_mm)
        first, last = (rod_body(start_mm=low, end_mm=high, diameters_mm=(d, d)) for d in sizes)
        bodies = (first, last)
    extents = []
    for whole in bodies:
        body = whole
        for trim in part.trims:
            body = clip(body, trim.plane, trim.end.value)
        extents.append(body.extent((1.0, 0.0, 0.0)) if len(body.faces) >= 4 else (0.0, 0.0))
    return extents[0][0], extents[1][1]


def _trimmed_length(part: Part) -> str:
    at = {End.START: -_REACH_MM, End.END: _REACH_MM}
    for trim in part.trims:
        u = dot(trim.plane.point, trim.plane.normal) / trim.plane.normal[0]
        at[trim.end] = max(at[trim.end], u) if trim.end is End.START else min(at[trim.end], u)
    return f"a length of {at[End.END] - at[End.START]:.1f} mm"


def _taper(part: Part, spec: TaperSpec, *, field: str) -> list[Taper]:
    chosen: set[tuple[int, float]] = set()
    for direction in spec.faces:
        local = part.frame.local_direction(direction.vector)
        axis = 1 if abs(local[1]) >= abs(local[2]) else 2
        chosen.add((axis, 1.0 if local[axis] > 0 else -1.0))
    tapers: list[Taper] = []
    for axis, side in sorted(chosen):
        size = part.width_mm if axis == 1 else part.thickness_mm
        shared = 2.0 if (axis, -side) in chosen else 1.0
        loss = (size - spec.to) / shared
        run = part.length_mm - spec.begin
        if loss <= 0.0 or run <= 1.0 or spec.to <= 0.0 or spec.begin < 0.0:
            raise InputError(
                code="taper_not_possible",
                field=field,
                value=f"from {size:.1f} to {spec.to:.1f} mm, beginning at {spec.begin:.1f} mm",
                rule=f"must get thinner within the part's {part.length_mm:.1f} mm",
                remedy="Make 'to' less than the section and 'begin' less than the length.",
            )
        tapers.append(_taper_plane(part, axis, side, spec=spec, loss=loss))
    return tapers


def _taper_plane(part: Part, axis: int, side: float, *, spec: TaperSpec, loss: float) -> Taper:
    half = (part.width_mm if axis == 1 else part.thickness_mm) / 2.0
    toward_end = spec.toward is End.END
    begin_u = part.start_mm + spec.begin if toward_end else part.end_mm - spec.begin
    tip_u = part.end_mm if toward_end else part.start_mm
    run = tip_u - begin_u
    normal = [loss / abs(run) * (1.0 if run > 0 else -1.0), 0.0, 0.0]
    normal[axis] = side
    point = [begin_u, 0.0, 0.0]
    point[axis] = side * half
    plane = Plane(point=(point[0], point[1], point[2]), normal=unit((normal[0], normal[1], normal[2])))
    facing = face_direction(
        part.frame.direction((0.0, side if axis == 1 else 0.0, side if axis == 2 else 0.0))
    )
    return Taper(plane=plane, toward=spec.toward, begin_mm=spec.begin, loss_mm=loss, face=facing)
