"""Parts marked out alike: copies, and parts of other entries that are the same turned over or mirrored."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from scantling.joinery.work import Mark
from scantling.papers.pages.part_faces import Side, end_name, side_of
from scantling.piece.geometry import cross, dot
from scantling.piece.model import End, Part

__all__ = ["Twin", "place_of", "twins_of"]

_SQUARE = 1.0 - 1e-6

_Turn = tuple[int, int, int]
"""Signs of length, width and thickness: how a part's own axes lie in its twin."""
_SAME: _Turn = (1, 1, 1)
_TURNS: tuple[_Turn, ...] = tuple(sorted(product((1, -1), repeat=3), key=lambda t: -sum(t)))  # type: ignore[arg-type]


@dataclass(frozen=True, slots=True, kw_only=True)
class Twin:
    """A part of a group, and how the first of the group lies in it.

    Parameters
    ----------
    part
        The part.
    turn
        Sign of each of the first part's axes (length, width, thickness) in this part's.
    mirrored
        Whether it is the first part's mirror image.
    """

    part: Part
    turn: _Turn
    mirrored: bool

    def turned(self, side: Side) -> Side:
        """The face of this part that answers a face of the first."""
        return Side(side.axis, side.sign * self.turn[side.axis])


def place_of(part: Part, mark: Mark, turn: _Turn = _SAME) -> str:
    """Where a mark is in a part's own terms, its axes turned first, so that twins can be compared.

    Parameters
    ----------
    part
        The part.
    mark
        What is marked on it.
    turn
        Sign for each of its axes.

    Returns
    -------
    str
        Equal for what is in equal places and cut with one setting.
    """
    end = _end(mark.end, turn)
    lies = {0: turn[0] * _along_mm(part, mark)} if not mark.on_end else {}
    face = side_of(part, mark.face)
    for side, from_mm in (
        (face, mark.from_end_mm if mark.on_end else 0.0),
        (side_of(part, mark.reference_face), mark.from_face_mm),
    ):
        half = (part.width_mm if side.axis == 1 else part.thickness_mm) / 2.0
        lies[side.axis] = turn[side.axis] * side.sign * (half - from_mm)
    numbers = (mark.length_mm, mark.width_mm, mark.depth_mm, mark.angle_deg)
    return repr(
        (
            mark.on_end,
            end.value if mark.on_end else (face.axis, face.sign * turn[face.axis]),
            mark.kind.value,
            mark.fit.value,
            mark.setup,
            *((axis, round(mm, 2) + 0.0) for axis, mm in sorted(lies.items())),
            *(round(n, 2) for n in numbers),
        )
    )


def _along_mm(part: Part, mark: Mark) -> float:
    """Where a mark on a face lies along the part, from its middle. [mm]"""
    from_middle = part.length_mm / 2.0 - mark.from_end_mm
    return from_middle if mark.end is End.END else -from_middle


def twins_of(parts: Mapping[str, Part], marks: Mapping[str, Sequence[Mark]]) -> tuple[tuple[Twin, ...], ...]:
    """Parts alike together: same size, same marks in the same places once one is turned or mirrored.

    Copies of one entry are compared as they are. A part of another entry is compared in all eight ways
    its axes can lie, where wood and size are the same, both are square bars, and the ends look the same
    way: then one sheet serves both with nothing more than a left read for a right.

    Parameters
    ----------
    parts
        In the order of the piece.
    marks
        Of each part.

    Returns
    -------
    tuple
        Groups in the order of their first parts.
    """
    groups: list[list[Twin]] = []
    for name, part in parts.items():
        for group in groups:
            turn = _turn_to(group[0].part, part, marks[group[0].part.name], marks[name])
            if turn is not None:
                group.append(Twin(part=part, turn=turn, mirrored=_mirrored(group[0].part, part, turn)))
                break
        else:
            groups.append([Twin(part=part, turn=_SAME, mirrored=False)])
    return tuple(tuple(group) for group in groups)


def _turn_to(first: Part, other: Part, ones: Sequence[Mark], others: Sequence[Mark]) -> _Turn | None:
    """How the first part lies in the other; None where they are not alike."""
    if _size(first) != _size(other) or len(ones) != len(others):
        return None
    wanted = sorted(place_of(other, mark) for mark in others)
    for turn in (_SAME,) if first.like == other.like else _TURNS:
        if first.like != other.like and not _can_share(first, other, turn):
            continue
        if sorted(place_of(first, mark, turn) for mark in ones) == wanted:
            return turn
    return None


def _can_share(first: Part, other: Part, turn: _Turn) -> bool:
    """Whether parts of two entries may stand on one sheet: square bars of one wood, ends looking alike."""
    if (first.kind, first.species) != (other.kind, other.species) or not (_square(first) and _square(other)):
        return False
    return all(end_name(first, end) == end_name(other, _end(end, turn)) for end in End)


def _square(part: Part) -> bool:
    trims = all(abs(trim.plane.normal[0]) > _SQUARE for trim in part.trims)
    return trims and not (part.tapers or part.edges or part.shaping) and part.round is None


def _end(end: End, turn: _Turn) -> End:
    if turn[0] > 0:
        return end
    return End.START if end is End.END else End.END


def _size(part: Part) -> tuple[float, ...]:
    return (round(part.length_mm, 2), round(part.width_mm, 2), round(part.thickness_mm, 2))


def _mirrored(first: Part, other: Part, turn: _Turn) -> bool:
    return turn[0] * turn[1] * turn[2] * _hand(first) * _hand(other) < 0.0


def _hand(part: Part) -> float:
    frame = part.frame
    return dot(cross(frame.grain, frame.width), frame.thickness)
