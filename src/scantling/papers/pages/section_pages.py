"""Sections through the joints of a plan, one for each way two kinds of part are joined."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from scantling.joinery.work import JointWork, MarkKind
from scantling.papers.joint_section import JointSection, SectionPiece
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.show import names_of
from scantling.piece.geometry import Vec, cross, dot, norm, scale, sub, unit
from scantling.piece.model import Part, Piece
from scantling.solids.mesh import PartMesh
from scantling.solids.section import section_loops
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
    for work in works:
        first, second = piece.parts.get(work.first), piece.parts.get(work.second)
        if first is None or second is None or not any(m.kind in _HIDDEN for m in work.marks):
            continue
        key = (work.family, first.like, second.like)
        if key in found or len(found) >= _MOST:
            continue
        section = _section(work, (first, second), meshes=meshes, figures=figures)
        if section is not None:
            found[key] = section
    return tuple(found.values())


def _view(work: JointWork, first: Part) -> View | None:
    """Looked at along the width of the first part, the way it leaves pointing up."""
    frame = first.frame
    up = unit(work.leaves)
    sights = sorted(
        (frame.width, frame.thickness, frame.grain), key=lambda axis: round(abs(dot(axis, up)), 6)
    )
    sight = frame.width if abs(dot(frame.width, up)) < 0.9 else sights[0]
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
    at: Vec = work.at
    thick = max(first.thickness_mm, second.thickness_mm)
    half = next((h for h in _HALF_MM if h >= 1.2 * thick), _HALF_MM[-1])
    pieces = []
    for part in (first, second):
        loops = section_loops(part, meshes[part.name], view=view, at=at, half_mm=half)
        if not loops:
            return None
        pieces.append(SectionPiece(loops=loops))
    if not any(len(piece.loops) > 1 or len(piece.loops[0]) > _PLAIN for piece in pieces):
        return None
    return JointSection(
        title=f"{names_of([first.name])} into {names_of([second.name])}",
        note=_note(work, figures),
        half_mm=half,
        pieces=tuple(pieces),
    )


def _note(work: JointWork, figures: Figures) -> str:
    """The joint, and the width and depth of what is cut into the second part."""
    words = work.family.replace("_", " ")
    mark = next((m for m in work.marks if m.part == work.second and m.kind in _HIDDEN), None)
    if mark is None:
        return words
    fine = figures.fine
    what = "" if mark.kind.value in words else f"{mark.kind.value} "
    return f"{words}: {what}{fine.bare(mark.width_mm)} wide, {fine.bare(mark.depth_mm)} deep"
