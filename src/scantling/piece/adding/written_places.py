"""Where parts lie, as expressions of the piece file: what is placed by one goes along when sizes change."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeGuard

from scantling.errors import FileFaults, InputError
from scantling.piece.adding.slots import AXES, MIRRORS
from scantling.piece.adding.terms import halved, literal, minus, negated, plus, times
from scantling.piece.convex import body_of, named_face
from scantling.piece.geometry import Vec, dot
from scantling.piece.model import Direction, Part, Piece
from scantling.reading import Document

__all__ = ["WrittenPlaces", "axis_of", "is_straight"]

_SAME_MM = 0.02
_STRAIGHT = 1.0 - 1e-9
_LONGEST = 90
"""An expression longer than this is not read any more: the figure is. [characters]"""


def axis_of(direction: Direction) -> tuple[int, float]:
    """The axis a direction runs along, 0 to 2, and its sign."""
    axis = next(k for k in range(3) if direction.vector[k])
    return axis, direction.vector[axis]


def is_straight(part: Part, direction: Direction) -> bool:
    """Whether the face that looks in a direction looks straight there."""
    face = named_face(part, direction)
    return face is not None and dot(face.normal, direction.vector) > _STRAIGHT


class WrittenPlaces:
    """Where the parts of a piece lie, in the words of its file.

    An expression is given only where it comes to where the part lies, to 0.02 mm; else a figure is.

    Parameters
    ----------
    document
        The file.
    piece
        The piece.
    length_of
        Works out a length as written; raises InputError or FileFaults. [mm]
    """

    def __init__(self, document: Document, piece: Piece, *, length_of: Callable[[str], float]) -> None:
        self._document, self._piece, self._length_of = document, piece, length_of

    def middle(self, part: Part, axis: int) -> str:
        """The middle of a part along an axis."""
        unit: Vec = tuple(float(k == axis) for k in range(3))  # type: ignore[assignment]
        low, high = body_of(part).extent(unit)
        return self.checked(self._middle(part, axis), (low + high) / 2.0)

    def face(self, part: Part, direction: Direction) -> str:
        """The coordinate of a face that looks straight in a direction, along its axis."""
        face = named_face(part, direction)
        assert face is not None, "a face that is there was asked for"
        axis, sign = axis_of(direction)
        middle, half = self._middle(part, axis), self._half(part, direction)
        written: str | None
        if middle is not None and half is not None:
            written = plus(middle, half) if sign > 0.0 else minus(middle, half)
        else:
            written = self._trimmed(part, direction)
        return self.checked(written, face.center[axis])

    def size(self, part: Part, axis: int) -> str | None:
        """How much of an axis a part takes up, where it lies along it; None where that is not written."""
        unit: Vec = tuple(float(k == axis) for k in range(3))  # type: ignore[assignment]
        return self._size(part, unit)

    def section(self, part: Part) -> tuple[str, str] | None:
        """Width and thickness of a part as they are written."""
        found = self._entry(part).get("section")
        return (str(found[0]), str(found[1])) if isinstance(found, list) and len(found) == 2 else None

    def figure(self, mm: float) -> str:
        """A length as a figure of the file."""
        return literal(mm, self._piece.units)

    def checked(self, written: str | None, mm: float) -> str:
        """An expression, where it can be read and comes to a length; else the length as a figure."""
        if abs(mm) < _SAME_MM:
            return "0"
        if written is None or len(written) > _LONGEST:
            return self.figure(mm)
        try:
            found = self._length_of(written)
        except (InputError, FileFaults):
            return self.figure(mm)
        return written if abs(found - mm) < _SAME_MM else self.figure(mm)

    def _entry(self, part: Part) -> dict[str, Any]:
        found = self._document.get(("parts", part.like))
        return found if isinstance(found, dict) else {}

    def _middle(self, part: Part, axis: int) -> str | None:
        entry = self._entry(part)
        center, begin, end = (entry.get(name) for name in ("center", "from", "to"))
        base = None
        if _is_place(center):
            base = str(center[axis])
        elif _is_place(begin) and _is_place(end):
            first, last = str(begin[axis]), str(end[axis])
            base = first if first == last else halved(plus(first, last))
        return None if base is None else _as_copied(part, entry, base, axis)

    def _half(self, part: Part, direction: Direction) -> str | None:
        """Half the size of a part in a direction; None for an end that follows something."""
        size = self._size(part, direction.vector)
        return None if size is None else halved(size)

    def _trimmed(self, part: Part, direction: Direction) -> str | None:
        """Where an end lies that follows the floor or a face of another part."""
        local = part.frame.local_direction(direction.vector)
        trim = self._entry(part).get("trim")
        if abs(local[0]) <= max(abs(local[1]), abs(local[2])) or not isinstance(trim, dict):
            return None
        told = str(trim.get("end" if local[0] > 0.0 else "start"))
        if told == "floor":
            return "0"
        name, _, looks = told.partition(".")
        other = self._piece.parts.get(name)
        if other is None or looks not in {way.value for way in Direction}:
            return None
        if "trim" in self._entry(other) or named_face(other, Direction(looks)) is None:
            return None  # one that follows another in its turn is not followed
        return self.face(other, Direction(looks))

    def _size(self, part: Part, vector: Vec) -> str | None:
        local = part.frame.local_direction(vector)
        along = max(range(3), key=lambda k: abs(local[k]))
        entry = self._entry(part)
        if abs(local[along]) < _STRAIGHT:
            return None
        if along:
            written = self.section(part)
            return None if written is None else written[along - 1]
        length = entry.get("length")
        return str(length) if length is not None and "trim" not in entry else None


def _is_place(found: object) -> TypeGuard[list[Any]]:
    return isinstance(found, list) and len(found) == len(AXES)


def _as_copied(part: Part, entry: dict[str, Any], base: str, axis: int) -> str | None:
    """A coordinate of the entry's own part, for one of its copies or of its row."""
    if part.name == part.like:
        return base
    copy = (entry.get("copies") or {}).get(part.name)
    if isinstance(copy, dict):
        if copy.get("turn") is not None:
            return None
        mirrored = axis < 2 and MIRRORS[axis] in (copy.get("mirror") or ())
        moved = copy.get("move") or ["0", "0", "0"]
        return plus(negated(base) if mirrored else base, str(moved[axis]))
    row = entry.get("repeat")
    number = part.name.removeprefix(f"{part.like}_")
    if not isinstance(row, dict) or not number.isdigit() or row.get("turn") is not None:
        return None
    step = row.get("step")
    steps = int(number) - 1
    return plus(base, times(steps, str(step[axis]))) if _is_place(step) and steps else base
