"""The ways to say where a new part stands: between two faces, on a face, by points, about its middle."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from scantling.errors import InputError
from scantling.piece.adding.reach import middle_of, middle_shared, sides_of, span_of
from scantling.piece.adding.slots import AXES, PLACES, RUNS, Choice, Slot
from scantling.piece.adding.standing import extent_of, faces_of, facing, likely_face, shared_extent
from scantling.piece.adding.terms import halved, listed, minus, plus
from scantling.piece.adding.written_places import WrittenPlaces, axis_of, is_straight
from scantling.piece.convex import named_face
from scantling.piece.model import Direction, Part, Piece
from scantling.reading.nodes import source_of

__all__ = ["LAID", "Placed", "Placing", "between", "by_middle", "by_points", "on_face"]

LAID = ("from left to right", "from front to back", "upright")
"""Ways along the axes, in words."""
_AWAY = "away"
_SHORT_MM = 300.0
"""How far a part stands out from a face until its maker says (to begin from; invented). [mm]"""

Fields = tuple[tuple[str, str], ...]
"""Fields of an entry, each with its value as written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Placing:
    """What a way of placing begins from.

    Parameters
    ----------
    near
        The part it is near.
    typed
        What was said, by slot.
    flat
        Whether it is a panel or a sheet, which lie flat where sticks stand on edge.
    section
        Width and thickness as they will be written.
    """

    piece: Piece
    places: WrittenPlaces
    near: Part
    typed: Mapping[str, str]
    flat: bool
    section: tuple[str, str]

    def said(self, name: str, otherwise: str) -> str:
        """What was said, or what is usual."""
        return self.typed.get(name, "").strip() or otherwise

    def part(self, name: str, otherwise: Part) -> Part:
        """The part that was chosen; raises InputError ``no_such_choice``."""
        said = self.typed.get(name, "")
        if said and said not in self.piece.parts:
            raise InputError(
                code="no_such_choice", field=name, value=said[:60], rule="must be a part of the piece"
            )
        return self.piece.parts.get(said, otherwise)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A way of placing, filled up.

    Parameters
    ----------
    slots, sizes
        What is asked about where it stands, and about its size beside width and thickness.
    written
        The fields that place it, by the direction its width is laid in.
    trim
        What its ends follow; empty where they are square.
    free, laid
        Axes its width may lie along, and the one it usually does.
    told_at
        As of :class:`scantling.piece.adding.new_part.Filled`.
    """

    slots: tuple[Slot, ...]
    sizes: tuple[Slot, ...] = ()
    written: Callable[[str], Fields]
    trim: Fields = ()
    free: tuple[int, ...]
    laid: int
    told_at: Mapping[str, str] = field(default_factory=dict)


def between(placing: Placing) -> Placed:
    """Its ends against two faces, along a line that runs from one to the other."""
    part = placing.part("part", _with_room_beside(placing))
    face = _face(placing, "face", part, straight=False)
    axis, _ = axis_of(face)
    across = _across(axis)
    found = facing(placing.piece, part, face)
    other = placing.part("other", found[0] if found else _another(placing.piece, part))
    looking = found[1] if found and found[0].name == other.name else None
    other_face = _face(placing, "other_face", other, straight=False, otherwise=looking)
    spots = {k: placing.said(AXES[k], _shared(placing, part, other, k)) for k in across}
    ends = (_at(placing, part, face, axis), _at(placing, other, other_face, axis))
    first, last = (listed(end if k == axis else spots[k] for k in range(3)) for end in ends)
    return Placed(
        slots=(
            *_face_slots(placing, part, face, straight=False),
            *_face_slots(placing, other, other_face, straight=False, first=False),
            *_spot_slots(spots, "Where its middle runs"),
        ),
        written=lambda _: (("from", first), ("to", last)),
        trim=(("trim", f"{{start: {part.name}.{face}, end: {other.name}.{other_face}}}"),),
        free=across,
        laid=across[0] if axis == 2 else (across[0] if placing.flat else 2),
        told_at={
            "": "other_face",
            "trim": "other_face",
            "trim.start": "face",
            "trim.end": "other_face",
            "from": "face",
            "to": "other_face",
            **_told(("from", "to"), across),
        },
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Foot:
    """Where a part is against a face: the face's coordinate along its axis, and the two others."""

    at: str
    axis: int
    sign: float
    spots: Mapping[int, str]

    def away(self, length: str) -> Fields:
        """From the face, so far out."""
        return (("from", self._point(self.at)), ("to", self._point(self._out(length))))

    def lying(self, half: str) -> Fields:
        """Its middle, half its size out from the face."""
        return (("center", self._point(self._out(half))),)

    def _out(self, by: str) -> str:
        return plus(self.at, by) if self.sign > 0.0 else minus(self.at, by)

    def _point(self, along: str) -> str:
        return listed(along if k == self.axis else self.spots[k] for k in range(3))


def on_face(placing: Placing) -> Placed:
    """Against a face: lying on it, or standing out from it."""
    part = placing.part("part", placing.near)
    face = _face(placing, "face", part, straight=True)
    axis, sign = axis_of(face)
    across = _across(axis)
    along = _grain_on(placing, part, across)
    grain = axis if along == _AWAY else RUNS.index(along)
    usual = placing.places.figure(_SHORT_MM) if along == _AWAY else span_of(placing.places, (part,), grain)
    length = placing.said("length", usual)
    spots = {k: placing.said(AXES[k], placing.places.middle(part, k)) for k in across}
    foot = _Foot(at=placing.places.face(part, face), axis=axis, sign=sign, spots=spots)
    free = _across(grain)

    def written(toward: str) -> Fields:
        if along == _AWAY:
            return foot.away(length)
        out = halved(placing.section[0 if RUNS.index(toward) == axis else 1])
        return (*foot.lying(out), ("along", along), ("length", source_of(length)))

    grains = (Choice(value=_AWAY, label="away from the face"), *_runs(across))
    return Placed(
        slots=(
            *_face_slots(placing, part, face, straight=True),
            Slot(name="along", label="Its grain runs", text=along, choices=grains),
            *_spot_slots(spots, "Where its middle is"),
        ),
        sizes=(Slot(name="length", label="Length", text=length, group="Size"),),
        written=written,
        trim=(("trim", f"{{start: {part.name}.{face}}}"),) if along == _AWAY else (),
        free=free,
        laid=next(k for k in free if k != axis),
        told_at={
            **dict.fromkeys(("", "trim", "length", f"from[{axis + 1}]", f"to[{axis + 1}]"), "length"),
            "trim.start": "face",
            **_told(("from", "to", "center"), across),
        },
    )


def by_points(placing: Placing) -> Placed:
    """From one point to another."""
    parts = tuple(placing.piece.parts.values())
    middles = [middle_of(placing.places, parts, axis) for axis in (1, 2)]
    ends = {
        end: [
            placing.said(f"{end}_{axis}", usual) for axis, usual in zip(AXES, (side, *middles), strict=True)
        ]
        for end, side in zip(("from", "to"), sides_of(placing.places, parts, 0), strict=True)
    }
    groups = {"from": "Where its middle line begins", "to": "Where it ends"}
    slots = tuple(
        Slot(name=f"{end}_{AXES[k]}", label=PLACES[k], text=text, group=groups[end])
        for end, texts in ends.items()
        for k, text in enumerate(texts)
    )
    return Placed(
        slots=slots,
        written=lambda _: tuple((end, listed(texts)) for end, texts in ends.items()),
        free=(0, 1, 2),
        laid=1 if placing.flat else 2,
        told_at={"": "to_x", **{f"{end}[{k + 1}]": f"{end}_{AXES[k]}" for end in ends for k in range(3)}},
    )


def by_middle(placing: Placing) -> Placed:
    """About its middle, with the direction of its grain and its length."""
    parts = tuple(placing.piece.parts.values())
    along = placing.said("along", RUNS[0])
    grain = RUNS.index(along) if along in RUNS else 0
    length = placing.said("length", span_of(placing.places, parts, grain))
    spots = {k: placing.said(AXES[k], middle_of(placing.places, parts, k)) for k in range(3)}
    free = _across(grain)
    return Placed(
        slots=(
            Slot(name="along", label="Its grain runs", text=RUNS[grain], choices=_runs(range(3))),
            *_spot_slots(spots, "Where its middle is"),
        ),
        sizes=(Slot(name="length", label="Length", text=length, group="Size"),),
        written=lambda _: (
            ("center", listed(spots.values())),
            ("along", RUNS[grain]),
            ("length", source_of(length)),
        ),
        free=free,
        laid=free[0] if placing.flat or grain == 2 else 2,
        told_at={"": "length", "length": "length", **_told(("center",), range(3))},
    )


def _across(axis: int) -> tuple[int, ...]:
    """The two other axes, the level one first."""
    return tuple(k for k in range(3) if k != axis)


def _grain_on(placing: Placing, part: Part, across: tuple[int, ...]) -> str:
    """Which way the grain runs on a face: as was said, else a panel's along it and a stick's away from it."""
    sizes = {k: extent_of((part,), k) for k in across}
    longest = max(across, key=lambda k: sizes[k][1] - sizes[k][0])
    said = placing.said("along", "")
    if said in {_AWAY, *(RUNS[k] for k in across)}:
        return said
    return RUNS[longest] if placing.flat else _AWAY


def _told(names: Iterable[str], axes: Iterable[int]) -> dict[str, str]:
    """Coordinates of an entry, by the slots they are typed in."""
    axes = tuple(axes)
    return {f"{name}[{k + 1}]": AXES[k] for name in names for k in axes}


def _runs(axes: Iterable[int]) -> tuple[Choice, ...]:
    return tuple(Choice(value=RUNS[axis], label=LAID[axis]) for axis in axes)


def _spot_slots(spots: Mapping[int, str], group: str) -> tuple[Slot, ...]:
    return tuple(Slot(name=AXES[k], label=PLACES[k], text=text, group=group) for k, text in spots.items())


def _with_room_beside(placing: Placing) -> Part:
    """The part that is near, or the first of the piece with a face that another looks back at."""
    for part in (placing.near, *placing.piece.parts.values()):
        likely = likely_face(placing.piece, part, straight=False)
        if likely is not None and _facing_ways(placing.piece, part, first=likely):
            return part
    return placing.near


def _facing_ways(piece: Piece, part: Part, *, first: Direction) -> list[Direction]:
    """Faces of a part that another part looks back at, the likely one first."""
    ways = dict.fromkeys((first, *faces_of(part, straight=False)))
    return [way for way in ways if facing(piece, part, way) is not None]


def _another(piece: Piece, part: Part) -> Part:
    return next((each for each in piece.parts.values() if each.name != part.name), part)


def _face(
    placing: Placing, name: str, part: Part, *, straight: bool, otherwise: Direction | None = None
) -> Direction:
    """The face that was chosen, or the likely one; raises InputError ``no_face``."""
    said = placing.typed.get(name, "")
    if said in {way.value for way in faces_of(part, straight=straight)}:
        return Direction(said)
    usual = otherwise or likely_face(placing.piece, part, straight=straight)
    if usual is not None and name == "face" and not straight:
        usual = next(iter(_facing_ways(placing.piece, part, first=usual)), usual)
    if usual is None:
        raise InputError(
            code="no_face",
            field="part" if name == "face" else "other",
            value=part.name,
            rule="must have a flat face that looks straight to a side, up or down",
            remedy="Choose another part, or say where the new one stands by points.",
        )
    return usual


def _face_slots(
    placing: Placing, part: Part, face: Direction, *, straight: bool, first: bool = True
) -> tuple[Slot, Slot]:
    names = ("part", "face") if first else ("other", "other_face")
    parts = tuple(Choice(value=each, label=each) for each in placing.piece.parts)
    faces = tuple(
        Choice(value=way.value, label=f"{way.value} face") for way in faces_of(part, straight=straight)
    )
    group = "Where it begins" if first else "Where it ends"
    group = group if not straight else "Where it stands"
    return (
        Slot(name=names[0], label="Part", text=part.name, choices=parts, group=group),
        Slot(name=names[1], label="Face", text=face.value, choices=faces, group=group),
    )


def _shared(placing: Placing, part: Part, other: Part, axis: int) -> str:
    """The middle of where two parts lie beside each other; of the first, where they do nowhere."""
    if shared_extent(part, other, axis) is None:
        return placing.places.middle(part, axis)
    return middle_shared(placing.places, (part, other), axis)


def _at(placing: Placing, part: Part, face: Direction, axis: int) -> str:
    """About where a face lies along an axis: the trim says where the end is, the point only the way."""
    if is_straight(part, face):
        return placing.places.face(part, face)
    found = named_face(part, face)
    assert found is not None, "it was chosen among those there are"
    return placing.places.figure(found.center[axis])
