"""Sections through the joints of a plan, one for each way two kinds of part are joined."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scantling.joinery.work import Connector, ConnectorKind, JointWork, MarkKind
from scantling.papers.marking.joint_section import JointSection, LooseThing, SectionPiece
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.show import names_of
from scantling.piece.geometry import Frame, Vec, add, cross, dot, norm, scale, sub, unit
from scantling.piece.model import Part, Piece
from scantling.solids.loose import loose_solid
from scantling.solids.mesh import PartMesh
from scantling.solids.section import Loop, loose_loops, section_loops
from scantling.solids.view import View

__all__ = ["joint_sections"]

_MOST = 12
_PLAIN = 5
"""Corners of wood that shows no joint: an oblong, one of them cut off by the square."""
_HALF_MM = (30.0, 45.0, 60.0)
_HIDDEN = frozenset(
    {MarkKind.MORTISE, MarkKind.TENON, MarkKind.GROOVE, MarkKind.TONGUE, MarkKind.HOUSING, MarkKind.SLOT}
    | {MarkKind.HOLE, MarkKind.SOCKET, MarkKind.RABBET, MarkKind.RECESS}
)
"""Kinds of mark whose depth no outside view shows."""
_ROUND = frozenset(
    {ConnectorKind.PIN, ConnectorKind.DOWEL, ConnectorKind.SCREW, ConnectorKind.NAIL, ConnectorKind.BOLT}
    | {ConnectorKind.SHELF_PIN}
)
_HOLDS = frozenset(
    {
        ConnectorKind.LOOSE_TENON,
        ConnectorKind.SPLINE,
        ConnectorKind.KEY,
        ConnectorKind.PIN,
        ConnectorKind.DOWEL,
        ConnectorKind.SHELF_PIN,
    }
)
"""What a section is laid through where it lies beside the middle; in a joint of screws alone, these."""
_BORED = frozenset({MarkKind.HOLE, MarkKind.SLOT, MarkKind.RECESS})
_AT_END_MM = 1.0
"""A joint nearer than this to an end of its first part is that end's. [mm]"""
_LENGTHWISE, _BEYOND_MM = 0.7, 2.0
"""Cosine under which a plane lies along a thing; how far its axis is drawn past it. [1], [mm]"""


def joint_sections(
    piece: Piece, works: Sequence[JointWork], meshes: Mapping[str, PartMesh], *, figures: Figures
) -> tuple[JointSection, ...]:
    """A section through one joint of each kind that hides.

    The plane holds the way the first part leaves the second, and the thickness of the first: it shows how
    deep it goes in and what wall is left beside it. Where the plane meets nothing that hides there is none.

    Parameters
    ----------
    piece
        The piece.
    works
        What its joints answered.
    meshes
        Its parts with joints cut.
    figures
        How lengths are written.

    Returns
    -------
    tuple of JointSection
        At most a dozen, in the order of the joints.
    """
    found: dict[tuple[str, str, str], JointSection] = {}
    drawn: set[object] = set()
    for work in works:
        first, second = piece.parts.get(work.first), piece.parts.get(work.second)
        if first is None or second is None or not any(m.kind in _HIDDEN for m in work.marks):
            continue
        key = (work.family, first.like, second.like)
        if key in found or len(found) >= _MOST:
            continue
        section = _section(work, (first, second), meshes=meshes, figures=figures)
        if section is not None and (picture := _either_hand(section)) not in drawn:
            drawn.add(picture)
            found[key] = section
    return tuple(found.values())


def _either_hand(section: JointSection) -> object:
    """What a section shows whichever way round: the other hand, or upside down, tells nothing new."""
    groups = (*(piece.loops for piece in section.pieces), *(thing.loops for thing in section.loose))

    def turned(right: float, up: float) -> list[list[tuple[float, float]]]:
        return sorted(
            sorted((round(right * x, 1) + 0.0, round(up * y, 1) + 0.0) for loop in loops for x, y in loop)
            for loops in groups
        )

    ways = (turned(right, up) for right in (1.0, -1.0) for up in (1.0, -1.0))
    return section.note, repr(min(ways))


def _view(work: JointWork, first: Part) -> View | None:
    """Along the width of the first part, or its grain where it leaves sidewise; up is the way it leaves.

    Either way its thickness is seen, and what it goes into beside it. What is slid in sidewise with its end,
    as a shelf in a sliding dovetail, is seen along its width all the same: up is back along its grain.
    """
    frame = first.frame
    up = unit(work.leaves)
    along = frame.local(work.at)[0]
    ends = {1.0: along - first.start_mm, -1.0: first.end_mm - along}
    way = min(ends, key=lambda sign: ends[sign])
    if abs(dot(frame.width, up)) >= 0.9 and ends[way] < _AT_END_MM:
        up = scale(frame.grain, way)
    sight = frame.width if abs(dot(frame.width, up)) < 0.9 else frame.grain
    level = sub(sight, scale(up, dot(sight, up)))
    if norm(level) < 1e-6:
        return None
    toward = unit(level)
    return View(name="section", right=cross(up, toward), up=up)


def _section(
    work: JointWork, parts: tuple[Part, Part], *, meshes: Mapping[str, PartMesh], figures: Figures
) -> JointSection | None:
    first, second = parts
    view = _view(work, first)
    if view is None:
        return None
    at = _through(work, view)
    thick = max(first.thickness_mm, second.thickness_mm)
    half = next((h for h in _HALF_MM if h >= 1.2 * thick), _HALF_MM[-1])
    pieces = []
    for part in (first, second):
        loops = section_loops(part, meshes[part.name], view=view, at=at, half_mm=half)
        if not loops:
            return None
        pieces.append(SectionPiece(loops=loops))
    loose = _loose(work, view, at=at, half=half)
    if not loose and not any(len(piece.loops) > 1 or len(piece.loops[0]) > _PLAIN for piece in pieces):
        return None
    return JointSection(
        title=f"{names_of([first.name])} into {names_of([second.name])}",
        note=_note(work, figures),
        half_mm=half,
        pieces=tuple(pieces),
        loose=loose,
    )


def _through(work: JointWork, view: View) -> Vec:
    """The middle of the square: the joint's own, moved to what is loose in it where that lies beside it.

    Where all that holds is screws, they may stand far along the joint, and the square goes there.
    """
    bored = all(mark.kind in _BORED for mark in work.marks)
    held = [
        (sub(frame.origin, work.at), connector.kind in _HOLDS)
        for connector in work.connectors
        if connector.kind in _HOLDS or (bored and connector.kind in _ROUND)
        for frame in connector.frames
    ]
    if not held:
        return work.at
    off, holds = min(held, key=lambda each: (round(abs(dot(each[0], view.toward)), 3), norm(each[0])))
    at = add(work.at, scale(view.toward, dot(off, view.toward)))
    return at if holds else add(at, scale(view.right, dot(off, view.right)))


def _loose(work: JointWork, view: View, *, at: Vec, half: float) -> tuple[LooseThing, ...]:
    """Everything loose that the plane cuts."""
    found = []
    for connector in work.connectors:
        solid = loose_solid(connector) if connector.frames else None
        for frame in connector.frames if solid is not None else ():
            assert solid is not None
            loops = loose_loops(solid, frame, view=view, at=at, half_mm=half)
            if loops:
                found.append(_thing(connector, frame, loops, view=view, at=at))
    return tuple(found)


def _thing(connector: Connector, frame: Frame, loops: tuple[Loop, ...], *, view: View, at: Vec) -> LooseThing:
    lengthwise = abs(dot(frame.grain, view.toward)) < _LENGTHWISE
    axis: tuple[tuple[float, float], ...] = ()
    if lengthwise and connector.kind in _ROUND:
        half = connector.size_mm[-1] / 2.0 + _BEYOND_MM
        ends = (sub(add(frame.origin, scale(frame.grain, way * half)), at) for way in (1.0, -1.0))
        axis = tuple((dot(end, view.right), dot(end, view.up)) for end in ends)
    return LooseThing(loops=loops, lengthwise=lengthwise, axis=axis)


def _note(work: JointWork, figures: Figures) -> str:
    """The joint, and the width and depth of what is cut into the second part."""
    words = work.family.replace("_", " ")
    mark = next((m for m in work.marks if m.part == work.second and m.kind in _HIDDEN), None)
    if mark is None:
        return words
    fine = figures.fine
    what = "" if mark.kind.value in words else f"{mark.kind.value} "
    return f"{words}: {what}{fine.bare(mark.width_mm)} wide, {fine.bare(mark.depth_mm)} deep"
