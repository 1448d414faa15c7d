"""What the ends and edges of a part follow, as written: a face of another part, or a miter with it.

``leg_left.right`` is a face, ``slat_*.left`` that face of a whole row, ``slat_last.left`` of its last.
``miter with rail`` is the plane at which both parts are mitered; in a row ``miter with next`` and
``miter with previous`` are those with the part one step on and one step back.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from scantling.errors import InputError
from scantling.piece.convex import met_face
from scantling.piece.files.copies import copied, repeated, stepped
from scantling.piece.files.placement import FLOOR, LEVEL, PLUMB, SQUARE, PlaneOf, edge_side, untrimmed
from scantling.piece.files.spec import PartSpec, RepeatSpec, TrimSpec
from scantling.piece.geometry import Plane, Vec, dot
from scantling.piece.miter import edge_miter, end_miter
from scantling.piece.model import Direction, End, Part
from scantling.reading import did_you_mean

__all__ = ["MITER", "PLAIN", "Followed"]

MITER = "miter with "
"""What stands before the name of the part that an end or edge is mitered with."""
PLAIN = (FLOOR, SQUARE, LEVEL, PLUMB)
"""What is followed and is no part."""
_STEPS = {"next": 1, "previous": -1}


class Followed:
    """The planes that ends and edges follow.

    Parameters
    ----------
    owner
        The entry each name of a part belongs to, copies included, rows not.
    spec_of
        An entry, its expressions numbers.
    base_of
        An entry's part, placed and trimmed.
    """

    def __init__(
        self,
        owner: Mapping[str, str],
        *,
        spec_of: Callable[[str], PartSpec],
        base_of: Callable[[str], Part],
    ) -> None:
        self._owner, self._spec_of, self._base_of = owner, spec_of, base_of

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
            self._face(entry, each)

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
            name, face = self._face(entry, ref)
            found = met_face(self._named(name), face, start=start, way=way)
            if found is None:
                raise _bad_ref(entry, ref, f"{name} has no face that looks that way.", edge)
            return found.plane

        return plane

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

    def _named(self, name: str) -> Part:
        """A part as it is trimmed."""
        entry = self._owner.get(name) or _row_of(self._last(name))
        return self._of(entry, self._last(name), self._base_of(entry))

    def _of(self, entry: str, name: str, base: Part) -> Part:
        spec = self._spec_of(entry)
        if spec.repeat is not None:
            row = repeated(base, spec.repeat)
            return next((part for part in row if part.name == name), row[0])
        return base if name == entry else copied(base, name, spec.copies[name])

    def _face(self, entry: str, ref: str) -> tuple[str, Direction]:
        """The part and the side of it that an end follows, as written."""
        name, _, face = ref.partition(".")
        self._entry(entry, ref, name)
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


def _row_of(name: str) -> str:
    """The entry whose row a name belongs to, as it is written; empty for no such name."""
    found = re.fullmatch(r"(.+)_(?:\d+|last)", name)
    return found.group(1) if found else ""


def _bad_ref(entry: str, ref: str, remedy: str, edge: Direction | None = None) -> InputError:
    return InputError(
        code="unknown_face",
        field=f"parts.{entry}.edges" if edge else f"parts.{entry}.trim",
        value=ref,
        rule="must be floor, square, PART.FACE, or miter with PART",
        remedy=remedy,
    )
