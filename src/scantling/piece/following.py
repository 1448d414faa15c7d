"""What follows a part whose size is a fact: ends against it, edges flush with it, what hangs on it alone.

Two faces belong together that lie in one plane as the piece is drawn, against each other or flush, and so do
the edge of a panel and the face it stands in the groove of. When one has moved, what is not made follows it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from scantling.piece.built import Loose, Meeting
from scantling.piece.contact import TOUCH_MM, contacts
from scantling.piece.geometry import Plane, Vec, add, dot, scale, sub
from scantling.piece.model import JointRequest, Part, PartKind

__all__ = ["Adjusted", "Followed", "follow"]

_PARALLEL = 1.0 - 2e-5
"""Cosine of a third of a degree. [1]"""
_GROOVE_MM = 25.0
"""Deepest a panel stands in its groove. [mm]"""
_STILL_MM = 1e-4
_ROUNDS = 8
_FLOOR = "floor"


@dataclass(frozen=True, slots=True)
class _Face:
    """A face of a part: a trim by its number, or a side of the section (axis 1 or 2, sign)."""

    part: str
    trim: int | None
    axis: int = 0
    sign: float = 0.0


@dataclass(frozen=True, slots=True)
class _Bond:
    """Two faces that belong together, and how far the second lies out from the first. [mm]"""

    one: _Face
    other: _Face
    meeting: Meeting
    offset_mm: float


@dataclass(slots=True)
class Adjusted:
    """What has to give in one part. [mm]

    Parameters
    ----------
    trims_mm
        Outward shifts of the planes that trim it, by number.
    sides_mm
        Outward shifts of its long faces, by axis (1 width, 2 thickness) and sign.
    moved_mm
        How far it stands from where the file places it.
    """

    trims_mm: dict[int, float] = field(default_factory=dict)
    sides_mm: dict[tuple[int, float], float] = field(default_factory=dict)
    moved_mm: Vec = (0.0, 0.0, 0.0)

    def grown_mm(self, axis: int) -> float:
        """How much its width (1) or thickness (2) gives. [mm]"""
        return self.sides_mm.get((axis, 1.0), 0.0) + self.sides_mm.get((axis, -1.0), 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Followed:
    """The parts as they follow, what was adjusted for it, and what could not follow."""

    parts: Mapping[str, Part]
    adjusted: Mapping[str, Adjusted]
    loose: tuple[Loose, ...]


Redraw = Callable[[Mapping[str, Adjusted]], Mapping[str, Part]]


def follow(
    drawn: Mapping[str, Part],
    joints: Iterable[JointRequest],
    *,
    made: frozenset[tuple[str, str]],
    redraw: Redraw,
) -> Followed:
    """Let what is not made yet follow what has a size of its own.

    Parameters
    ----------
    drawn
        The parts as the file draws them.
    joints
        Of the piece.
    made
        Sizes that are facts: part, and ``length``, ``width`` or ``thickness``; lengths only of parts whose
        ends follow no face.
    redraw
        Draws the parts with the facts in them and some of them adjusted.
    """
    pairs = {tuple(sorted((j.first.part, j.second.part))) for j in joints}
    bonds = _bonds(drawn, pairs)
    solver = _Solver(drawn=drawn, pairs=pairs, bonds=bonds, made=made)
    adjusted: dict[str, Adjusted] = {}
    solver.keep_standing(redraw(adjusted), adjusted)
    parts = redraw(adjusted)
    for _ in range(_ROUNDS):
        if not solver.give(parts, adjusted):
            break
        parts = redraw(adjusted)
    return Followed(parts=parts, adjusted=adjusted, loose=tuple(solver.loose(parts)))


@dataclass(slots=True, kw_only=True)
class _Solver:
    drawn: Mapping[str, Part]
    pairs: set[tuple[str, ...]]
    bonds: list[_Bond]
    made: frozenset[tuple[str, str]]

    def keep_standing(self, parts: Mapping[str, Part], adjusted: dict[str, Adjusted]) -> None:
        """Where something lies against one face of what is made, that face stays and the other gives."""
        for name, size in self.made:
            if size == "length":
                continue
            part, axis = parts[name], 1 if size == "width" else 2
            grown = getattr(part, f"{size}_mm") - getattr(self.drawn[name], f"{size}_mm")
            faces = [_Face(name, None, axis, sign) for sign in (1.0, -1.0)]
            plus, minus = map(self._stands, faces)
            if (
                plus and minus
            ):  # an end, as a muntin's under a rail, gives sooner than a face that lies against it
                plus, minus = map(self._stands_on_a_face, faces)
            if abs(grown) > _STILL_MM and plus != minus:
                along = part.frame.width if axis == 1 else part.frame.thickness
                own = adjusted.setdefault(name, Adjusted())
                move = add(own.moved_mm, scale(along, (-0.5 if plus else 0.5) * grown))
                own.moved_mm = _on_the_floor(part, move)

    def give(self, parts: Mapping[str, Part], adjusted: dict[str, Adjusted]) -> bool:
        """One round: every face that is off and can give, gives once; whether any did."""
        given: set[_Face] = set()
        for bond in self.bonds:
            off = _off_mm(bond, parts)
            if abs(off) <= _STILL_MM:
                continue
            for face, outward in self._sides(bond, off, parts):
                if face not in given and self._gives(face, bond, outward, parts, adjusted):
                    given.add(face)
                    break
        return bool(given)

    def _sides(self, bond: _Bond, off: float, parts: Mapping[str, Part]) -> list[tuple[_Face, float]]:
        """Either face with the shift along its own outward normal that would close the bond."""
        same = dot(_plane(parts, bond.one).normal, _plane(parts, bond.other).normal)
        sides = [(bond.other, -off * (1.0 if same > 0.0 else -1.0)), (bond.one, off)]
        return sorted(sides, key=lambda side: self._is_made(side[0]))

    def _gives(
        self,
        face: _Face,
        bond: _Bond,
        outward: float,
        parts: Mapping[str, Part],
        adjusted: dict[str, Adjusted],
    ) -> bool:
        """Whether a face could give; then it has."""
        other = bond.one if face == bond.other else bond.other
        own = adjusted.setdefault(face.part, Adjusted())
        if bond.meeting is Meeting.FLUSH and (self._held(face) or not self._leads(other, face)):
            return False
        if face.trim is not None:
            if parts[face.part].trims[face.trim].by == _FLOOR or self._is_made(face):
                return False
            own.trims_mm[face.trim] = own.trims_mm.get(face.trim, 0.0) + outward
            return True
        back = _Face(face.part, None, face.axis, -face.sign)
        if not self._is_made(face) and (bond.meeting is Meeting.FLUSH or self._held(back)):
            key = (face.axis, face.sign)
            own.sides_mm[key] = own.sides_mm.get(key, 0.0) + outward
            return True
        if bond.meeting is Meeting.AGAINST and self._hangs(face.part, other.part):
            own.moved_mm = add(own.moved_mm, scale(_plane(parts, face).normal, outward))
            return True
        return False

    def _leads(self, other: _Face, face: _Face) -> bool:
        """Whether a face flush with another follows it: an end, or a section flush on both sides."""
        if not self._is_made(other):
            return False
        if face.trim is not None:
            return True
        back = _Face(face.part, None, face.axis, -face.sign)
        flush = [b for b in self.bonds if b.meeting is Meeting.FLUSH]
        pairs = [
            {b.one.part, b.other.part} for side in (face, back) for b in flush if side in (b.one, b.other)
        ]
        return len(pairs) >= 2 and all(pair == {face.part, other.part} for pair in pairs)

    def _is_made(self, face: _Face) -> bool:
        size = "length" if face.trim is not None else ("", "width", "thickness")[face.axis]
        return (face.part, size) in self.made

    def _held(self, face: _Face) -> bool:
        """Whether something lies against a face, or stands in a groove behind it."""
        return any(b.meeting is not Meeting.FLUSH for b in self.bonds if face in (b.one, b.other))

    def _stands(self, face: _Face) -> bool:
        """Whether something lies against a face."""
        return any(b.meeting is Meeting.AGAINST for b in self.bonds if face in (b.one, b.other))

    def _stands_on_a_face(self, face: _Face) -> bool:
        """Whether what lies against a face does so by a long face of its own, not by an end."""
        against = [b for b in self.bonds if b.meeting is Meeting.AGAINST and face in (b.one, b.other)]
        return any((b.other if face == b.one else b.one).trim is None for b in against)

    def _hangs(self, part: str, on: str) -> bool:
        """Whether a part is joined to another alone, and stands on no floor."""
        others = {name for pair in self.pairs if part in pair for name in pair} - {part}
        return others == {on} and all(trim.by != _FLOOR for trim in self.drawn[part].trims)

    def loose(self, parts: Mapping[str, Part]) -> Iterable[Loose]:
        """What is off still, the part that is made first."""
        for bond in self.bonds:
            off = _off_mm(bond, parts)
            if abs(off) <= _STILL_MM:
                continue
            if bond.meeting is Meeting.FLUSH and not self._shows(bond):
                continue
            face, outward = max(self._sides(bond, off, parts), key=lambda side: self._is_made(side[0]))
            other = bond.one if face == bond.other else bond.other
            yield Loose(part=face.part, other=other.part, meeting=bond.meeting, off_mm=-outward)

    def _shows(self, bond: _Bond) -> bool:
        """Whether a step between two flush faces shows, and is of what is made: nothing lies over them."""
        ends = (bond.one, bond.other)
        return any(self._is_made(face) for face in ends) and not any(self._held(face) for face in ends)


def _bonds(parts: Mapping[str, Part], pairs: set[tuple[str, ...]]) -> list[_Bond]:
    faces = {name: list(_faces(part)) for name, part in parts.items()}
    found: list[_Bond] = []
    names = list(parts)
    for number, one in enumerate(names):
        for other in names[number + 1 :]:
            joined = tuple(sorted((one, other))) in pairs
            if not joined and not _near(parts[one], parts[other]):
                continue
            fits = [
                bond
                for a in faces[one]
                for b in faces[other]
                if (bond := _bond(parts, a, b, joined=joined)) is not None
            ]
            if fits and (joined or contacts(parts[one], parts[other])):
                found += fits
    return found


def _bond(parts: Mapping[str, Part], a: _Face, b: _Face, *, joined: bool) -> _Bond | None:
    """How two faces belong together; None if they do not."""
    one, other = _plane(parts, a), _plane(parts, b)
    same = dot(one.normal, other.normal)
    if abs(same) < _PARALLEL:
        return None
    offset = dot(sub(other.point, one.point), one.normal)
    if same < 0.0:
        if abs(offset) <= TOUCH_MM:
            return _Bond(a, b, Meeting.AGAINST, offset)
        thin = any(parts[f.part].kind in (PartKind.PANEL, PartKind.SHEET) for f in (a, b))
        if joined and thin and -_GROOVE_MM <= offset < 0.0 and not _wide(parts, a) and not _wide(parts, b):
            return _Bond(a, b, Meeting.IN_GROOVE, offset)
        return None
    return _Bond(a, b, Meeting.FLUSH, offset) if joined and abs(offset) <= TOUCH_MM else None


def _wide(parts: Mapping[str, Part], face: _Face) -> bool:
    """Whether it is a wide face of a panel: that stands in no groove by its whole face."""
    return parts[face.part].kind in (PartKind.PANEL, PartKind.SHEET) and face.axis == 2


def _faces(part: Part) -> Iterable[_Face]:
    for number in range(len(part.trims)):
        yield _Face(part.name, number)
    if part.round is not None:
        return
    ripped = {edge.side for edge in part.edges}
    for axis, size in ((1, "width"), (2, "thickness")):
        for sign, mark in ((1.0, "+"), (-1.0, "-")):
            if f"{size}{mark}" not in ripped:
                yield _Face(part.name, None, axis, sign)


def _plane(parts: Mapping[str, Part], face: _Face) -> Plane:
    """A face in the world."""
    part = parts[face.part]
    if face.trim is not None:
        return part.frame.plane_out(part.trims[face.trim].plane)
    axis = part.frame.width if face.axis == 1 else part.frame.thickness
    size = part.width_mm if face.axis == 1 else part.thickness_mm
    normal = scale(axis, face.sign)
    return Plane(point=add(part.middle, scale(normal, size / 2.0)), normal=normal)


def _off_mm(bond: _Bond, parts: Mapping[str, Part]) -> float:
    """How much farther out the second face lies than it was drawn. [mm]"""
    one, other = _plane(parts, bond.one), _plane(parts, bond.other)
    return dot(sub(other.point, one.point), one.normal) - bond.offset_mm


def _on_the_floor(part: Part, move: Vec) -> Vec:
    """A move of a part that stands on the floor, made along its grain too so that it stays standing there."""
    rise = part.frame.grain[2]
    if abs(rise) < 0.1 or all(trim.by != _FLOOR for trim in part.trims):
        return move
    return sub(move, scale(part.frame.grain, move[2] / rise))


def _near(one: Part, other: Part) -> bool:
    """Whether two parts can touch, by balls about them."""
    reach = sum((p.length_mm + p.width_mm + p.thickness_mm) / 2.0 for p in (one, other))
    gap = sub(one.middle, other.middle)
    return dot(gap, gap) <= reach * reach
