"""What the ends and edges of a part follow, as written: a face of another part, or a miter with it.

``leg_left.right`` is a face, ``slat_*.left`` that face of a whole row, ``slat_last.left`` of its last.
In a ring ``slat_*.inside`` and ``.outside`` are the long faces toward the ring's upright and away from it.
``rail.back + 4 mm`` goes so far past the face, square to the part, as a panel does that stands in a groove.
``miter with rail`` is the plane at which both parts are mitered; in a row ``miter with next`` and
``miter with previous`` are those with the part one step on and one step back.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType

from scantling.errors import FileFaults, InputError
from scantling.piece.convex import Face, body_of, met_face
from scantling.piece.files.copies import copied, repeated, stepped
from scantling.piece.files.edges import LEVEL, PLUMB, PlaneOf, edge_side
from scantling.piece.files.firsts import first_part
from scantling.piece.files.placement import FLOOR, SQUARE, untrimmed
from scantling.piece.files.spec import PartSpec, RepeatSpec, TrimSpec
from scantling.piece.geometry import Plane, Vec, add, dot, norm, scale, sub, unit
from scantling.piece.miter import MITER, edge_miter, end_miter
from scantling.piece.model import Direction, End, Part
from scantling.reading import did_you_mean

__all__ = ["PLAIN", "Followed"]

PLAIN = (FLOOR, SQUARE, LEVEL, PLUMB)
"""What is followed and is no part."""
_STEPS = {"next": 1, "previous": -1}
_INSIDE, _OUTSIDE = "inside", "outside"


class Followed:
    """The planes that ends and edges follow.

    Parameters
    ----------
    owner
        The entry each name of a part belongs to, copies included, rows not.
    spec_of
        An entry, its expressions numbers.
    base_of
        An entry's part, placed and trimmed, as it is before it is copied for one of its names.
    length_of
        Works out a length as written. [mm]
    moved
        How far some parts stand from where the file places them. [mm]
    """

    def __init__(
        self,
        owner: Mapping[str, str],
        *,
        spec_of: Callable[[str], PartSpec],
        base_of: Callable[[str, str], Part],
        length_of: Callable[[str], float],
        moved: Mapping[str, Vec] = MappingProxyType({}),
    ) -> None:
        self._owner, self._spec_of, self._base_of = owner, spec_of, base_of
        self._length_of, self._moved = length_of, moved
        self._named: dict[str, Part] = {}

    def check(self, entry: str, ref: str) -> None:
        """Refuse what is not written as a face or a miter of a part there is.

        Raises
        ------
        InputError
            ``unknown_face``, ``not_a_row``.
        """
        if ref.startswith(MITER):
            name = ref.removeprefix(MITER).strip()
            if name in _STEPS:
                self._row(entry, entry, ref)
            else:
                self._entry(entry, ref, name)
            return
        for each in self._all(entry, ref):
            self._face(entry, _parted(each)[0])

    def spelled(self, entry: str, spec: PartSpec) -> PartSpec:
        """The entry with the face of a whole row written out for each part of it."""
        ends = {}
        for end, refs in (("start", spec.trim.start), ("end", spec.trim.end)):
            listed = (refs,) if isinstance(refs, str) else refs
            ends[end] = tuple(each for ref in listed for each in self._all(entry, ref))
        return spec.model_copy(update={"trim": TrimSpec(start=ends["start"], end=ends["end"])})

    def plane_of(self, entry: str) -> PlaneOf:
        """Gives the planes that an entry's ends and edges follow."""

        def plane(ref: str, start: Vec, way: Vec, edge: Direction | None) -> Plane:
            if ref.startswith(MITER):
                return self._miter(entry, ref, way, edge).flipped()
            followed, past = _parted(ref)
            name, face = self._face(entry, followed)
            part = self.named(name)
            found = (
                met_face(part, face, start=start, way=way)
                if isinstance(face, Direction)
                else self._ring_face(part, self._row(entry, _row_of(part.name), ref), face)
            )
            if found is None:
                raise _bad_ref(entry, ref, f"{name} has no face that looks that way.", edge)
            if not past or edge is not None:
                return found.plane
            return self._standing_in(entry, found.plane, way, past_mm=self._past_mm(entry, ref, past))

        return plane

    def _past_mm(self, entry: str, ref: str, past: str) -> float:
        """How far past a face, as written; what is wrong with it is told at the trim."""
        try:
            return self._length_of(past)
        except (InputError, FileFaults) as error:
            fault = error.faults[0] if isinstance(error, FileFaults) else error.fault
            raise InputError(
                code=fault.code,
                field=f"parts.{entry}.trim",
                value=f"{fault.value} in {ref}",
                rule=fault.rule,
                remedy=fault.remedy,
            ) from error

    def _standing_in(self, entry: str, plane: Plane, way: Vec, *, past_mm: float) -> Plane:
        """Square to the wide faces, so far past where the middle of the thickness meets a face."""
        frame = self._bare(entry, entry).frame
        lean = dot(plane.normal, frame.thickness)
        square = sub(plane.normal, scale(frame.thickness, lean))
        normal = unit(square) if norm(square) > 0.1 else plane.normal
        share = dot(plane.normal, way)
        if abs(share) < 1e-6:
            return plane
        reach = dot(sub(plane.point, frame.origin), plane.normal) / share
        point = add(frame.origin, scale(way, reach))
        return Plane(point=sub(point, scale(normal, past_mm)), normal=normal)

    def _miter(self, entry: str, ref: str, way: Vec, edge: Direction | None) -> Plane:
        name = ref.removeprefix(MITER).strip()
        own = self._bare(entry, entry)
        if name in _STEPS:
            other = replace(stepped(own, self._row(entry, entry, ref), _STEPS[name]), name=name)
        else:
            other = self._bare(self._entry(entry, ref, name), self._last(name))
        try:
            if edge is not None:
                on_width, side = edge_side(own, edge)
                return edge_miter(own, on_width, side, other=other)
            end = End.END if dot(way, own.frame.grain) > 0.0 else End.START
            return end_miter(own, end, other)
        except InputError as error:
            fault = error.fault
            field = f"parts.{entry}.edges" if edge else f"parts.{entry}.trim"
            raise InputError(
                code=fault.code, field=field, value=fault.value, rule=fault.rule, remedy=fault.remedy
            ) from error

    def _bare(self, entry: str, name: str) -> Part:
        """A part as it stands before anything trims it."""
        spec = self._spec_of(entry)
        return self._of(entry, name, untrimmed(spec, name=entry))

    def named(self, name: str) -> Part:
        """A part as it is trimmed, made once."""
        if name not in self._named:
            self._named[name] = first_part(self._trimmed(name))
        return self._named[name]

    def _trimmed(self, name: str) -> Part:
        last = self._last(name)
        entry = self._owner.get(name) or _row_of(last)
        part = self._of(entry, last, self._base_of(entry, last))
        if last not in self._moved:
            return part
        return replace(part, frame=replace(part.frame, origin=add(part.frame.origin, self._moved[last])))

    def _of(self, entry: str, name: str, base: Part) -> Part:
        spec = self._spec_of(entry)
        if spec.repeat is not None:
            row = repeated(base, spec.repeat)
            return next((part for part in row if part.name == name), row[0])
        return base if name == entry else copied(base, name, spec.copies[name])

    def _ring_face(self, part: Part, row: RepeatSpec, face: str) -> Face | None:
        """The long face of a ring's part that looks most toward its upright, or away from it."""
        x, y, _ = part.middle
        way = (row.about[0] - x, row.about[1] - y, 0.0)
        way = scale(way, -1.0) if face == _OUTSIDE else way
        long = [each for each in body_of(part).faces if each.label[-1] in "+-"]
        return max(long, key=lambda each: dot(each.normal, way), default=None)

    def _face(self, entry: str, ref: str) -> tuple[str, Direction | str]:
        """The part and the side of it that an end follows, as written."""
        name, _, face = ref.partition(".")
        owner = self._entry(entry, ref, name)
        if face in (_INSIDE, _OUTSIDE):
            if self._row(entry, owner, ref).turn is None:
                raise _bad_ref(entry, ref, "Only a ring has an inside: a row with a turn.")
            return name, face
        if face not in set(Direction):
            raise _bad_ref(entry, ref, f"Name a face: {name}.left, {name}.top and so on.")
        return name, Direction(face)

    def _entry(self, entry: str, ref: str, name: str) -> str:
        """The entry a name belongs to."""
        if name in self._owner:
            return self._owner[name]
        row = _row_of(name)
        if row in self._owner:
            repeat = self._row(entry, row, ref)
            if name == f"{row}_last" or 1 <= int(name.removeprefix(f"{row}_")) <= int(repeat.count):
                return row
        near = did_you_mean(name, self._owner, otherwise="Name a face of a part: top.bottom.")
        raise _bad_ref(entry, ref, near)

    def _last(self, name: str) -> str:
        """NAME_last by its number."""
        row = name.removesuffix("_last")
        if name in self._owner or row == name:
            return name
        repeat = self._spec_of(row).repeat
        return name if repeat is None else f"{row}_{int(repeat.count)}"

    def _row(self, entry: str, row: str, ref: str) -> RepeatSpec:
        repeat = self._spec_of(row).repeat
        if repeat is None:
            raise InputError(
                code="not_a_row",
                field=f"parts.{entry}.trim",
                value=ref,
                rule="must name a part of a row",
                remedy=f"Repeat {row}, or name the part that it meets.",
            )
        return repeat

    def _all(self, entry: str, ref: str) -> Iterable[str]:
        """A face of a row written out for each of its parts."""
        name, dot_, face = ref.partition(".")
        row = name.removesuffix("_*")
        if row == name or row not in self._owner:
            return (ref,)
        count = int(self._row(entry, row, ref).count)
        return tuple(f"{row}_{k + 1}{dot_}{face}" for k in range(count))


def _parted(ref: str) -> tuple[str, str]:
    """A face, and how far past it an end goes, as written; empty for to the face."""
    face, _, past = ref.partition("+")
    return face.strip(), past.strip()


def _row_of(name: str) -> str:
    """The entry whose row a name belongs to, as it is written; empty for no such name."""
    found = re.fullmatch(r"(.+)_(?:\d+|last)", name)
    return found.group(1) if found else ""


def _bad_ref(entry: str, ref: str, remedy: str, edge: Direction | None = None) -> InputError:
    return InputError(
        code="unknown_face",
        field=f"parts.{entry}.edges" if edge else f"parts.{entry}.trim",
        value=ref,
        rule="must be floor, square, PART.FACE, PART.FACE + 4 mm, or miter with PART",
        remedy=remedy,
    )
