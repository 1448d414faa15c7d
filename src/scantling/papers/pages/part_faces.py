"""A part's faces as they lie in the hand, marks where the joints put them."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from scantling.joinery.work import Mark, MarkKind
from scantling.papers.drawing import Point
from scantling.papers.marking.face_view import Distance, EndAngle, FaceMark, FaceView, MarkedOut, MarkedShape
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.hole_pitch import stepped
from scantling.papers.pages.part_shapes import shaped_end, shaped_view
from scantling.papers.pages.sights import sight_of
from scantling.papers.words.mark_sizes import size_rounding
from scantling.piece.convex import face_direction, local_body
from scantling.piece.geometry import Vec, cross, dot, scale
from scantling.piece.model import Direction, End, Part

__all__ = ["Side", "TaggedMark", "end_name", "end_view", "face_view", "looks_of", "side_of", "up_of"]

_SQUARE_DEG = 0.05
_UPRIGHT = 0.5
_ROUND_ENDED = (MarkKind.MORTISE, MarkKind.SLOT)


@dataclass(frozen=True, slots=True)
class Side:
    """A long face of a part by its own axes: 1 is width, 2 is thickness; the sign says which of the two."""

    axis: int
    sign: int

    @property
    def normal(self) -> Vec:
        """Outward, in u, v, w. [1]"""
        return (0.0, float(self.sign), 0.0) if self.axis == 1 else (0.0, 0.0, float(self.sign))


@dataclass(frozen=True, slots=True, kw_only=True)
class TaggedMark:
    """A mark and the letter it goes by on its sheet."""

    tag: str
    mark: Mark


def side_of(part: Part, direction: Direction) -> Side:
    """The long face of a part that looks most in a direction."""
    sides = [Side(axis, sign) for axis in (1, 2) for sign in (1, -1)]
    return max(sides, key=lambda s: round(dot(part.frame.direction(s.normal), direction.vector), 9))


def end_name(part: Part, end: End) -> str:
    """An end by where it looks in the piece: ``top end``."""
    way = 1.0 if end is End.END else -1.0
    return f"{face_direction(part.frame.direction((way, 0.0, 0.0))).value} end"


def looks_of(part: Part, side: Side) -> Direction:
    """Where a long face of a part looks in the piece."""
    return face_direction(part.frame.direction(side.normal))


def up_of(part: Part, side: Side) -> Vec:
    """Direction up on the drawing of a face, in u, v, w: the grain runs to the right. [1]"""
    out = part.frame.direction(side.normal)
    up = part.frame.local_direction(cross(out, part.frame.grain))
    return tuple(float(round(x)) for x in up)  # type: ignore[return-value]


def _hull(points: Iterable[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """Convex outline, anticlockwise (Andrew's chain)."""
    ordered = sorted({(round(x, 4), round(y, 4)) for x, y in points})
    chains: list[list[tuple[float, float]]] = []
    for run in (ordered, ordered[::-1]):
        chain: list[tuple[float, float]] = []
        for p in run:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 1e-9:
                chain.pop()
            chain.append(p)
        chains.append(chain[:-1])
    return tuple(chains[0] + chains[1])


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _across(part: Part, side: Side) -> float:
    return part.thickness_mm if side.axis == 1 else part.width_mm


def _outline(part: Part, side: Side) -> tuple[tuple[float, float], ...]:
    up, half = up_of(part, side), _across(part, side) / 2.0
    corners = [corner for face in local_body(part).faces for corner in face.corners]
    return _hull((c[0] - part.start_mm, dot(c, up) + half) for c in corners)


def _marked(part: Part, side: Side, tagged: TaggedMark, *, figures: Figures) -> MarkedOut:
    mark, high = tagged.mark, _across(part, side)
    from_top = dot(side_of(part, mark.reference_face).normal, up_of(part, side)) > 0.5
    far = mark.end is End.END
    whole = mark.length_mm > 0.95 * part.length_mm
    return MarkedOut(
        tag=tagged.tag,
        x_mm=part.length_mm - mark.from_end_mm if far else mark.from_end_mm,
        y_mm=high - mark.from_face_mm if from_top else mark.from_face_mm,
        length_mm=mark.length_mm,
        width_mm=mark.width_mm,
        shape=_shape(mark),
        turn_deg=0.0 if mark.kind is MarkKind.HOLE else mark.angle_deg,
        from_far=far,
        from_top=from_top,
        from_end="" if whole else figures.bare(mark.from_end_mm),
        from_edge=figures.fine.bare(mark.from_face_mm),
        length=figures.fine.bare(mark.length_mm, size_rounding(mark)) if mark.kind in _ROUND_ENDED else "",
        sight=sight_of(
            mark, right=part.frame.grain, up=part.frame.direction(up_of(part, side)), figures=figures
        ),
    )


def _shape(mark: Mark) -> MarkedShape:
    if mark.kind in _ROUND_ENDED:
        return MarkedShape.ROUND_ENDED
    return MarkedShape.HOLE if mark.kind is MarkKind.HOLE else MarkedShape.SQUARE


def _angles(
    part: Part, side: Side, outline: tuple[tuple[float, float], ...], figures: Figures
) -> list[EndAngle]:
    """The sharp corner of each end that is not square to the face's edges."""
    up, high = up_of(part, side), _across(part, side)
    found: list[EndAngle] = []
    for end in End:
        trim = next((t for t in part.trims if t.end is end), None)
        if trim is None:
            continue
        out, lean = trim.plane.normal[0], dot(trim.plane.normal, up)
        off = math.degrees(math.atan2(-lean, out) if out > 0 else math.atan2(lean, -out))
        if abs(off) < _SQUARE_DEG:
            continue
        # off > 0: the end runs toward the far end as it goes up
        sharp_low = (off > 0) == (end is End.START)
        reach = [x for x, y in outline if abs(y - (0.0 if sharp_low else high)) < 0.5]
        if not reach:
            continue
        x = min(reach) if end is End.START else max(reach)
        grain = 0.0 if end is End.START else 180.0
        turned = 90.0 - abs(off) if end is End.START else 90.0 + abs(off)
        edge = turned if sharp_low else -turned
        flat = grain if sharp_low or end is End.START else -grain
        found.append(
            EndAngle(
                x_mm=x,
                y_mm=0.0 if sharp_low else high,
                from_deg=edge,
                to_deg=flat,
                text=figures.angle(90.0 - abs(off)),
            )
        )
    return found


def _lengths(part: Part, figures: Figures) -> list[Distance]:
    length = part.length_mm
    found = [Distance(low_mm=0.0, high_mm=length, text=figures.bare(length))]
    for taper in part.tapers:
        if taper.toward is End.START:
            low, high = length - taper.begin_mm, length
        else:
            low, high = 0.0, taper.begin_mm
        text = figures.bare(taper.begin_mm)
        if all(abs(d.low_mm - low) > 0.5 or abs(d.high_mm - high) > 0.5 for d in found):
            found.append(Distance(low_mm=low, high_mm=high, text=text))
    return found


def _widths(
    outline: tuple[tuple[float, float], ...], *, at_mm: float, figures: Figures
) -> tuple[Distance, ...]:
    """Extent of an end across, from the corners of the outline nearest to it."""
    near = sorted(outline, key=lambda p: abs(p[0] - at_mm))[:2]
    low, high = sorted(y for _, y in near)
    return (Distance(low_mm=low, high_mm=high, text=figures.bare(high - low)),) if high - low > 1.0 else ()


def face_view(
    part: Part, side: Side, marks: Iterable[TaggedMark], *, title: str, pencil: FaceMark, figures: Figures
) -> FaceView:
    """One long face with what is marked on it.

    Parameters
    ----------
    part
        The part.
    side
        Which face.
    marks
        Those on this face.
    title
        Of the face.
    pencil
        Mark it carries.
    figures
        How lengths are written.

    Returns
    -------
    FaceView
        The start at the left, or the right where that puts the piece's top up.
    """
    outline = _outline(part, side)
    chosen = tuple(marks)
    right = _widths(outline, at_mm=part.length_mm, figures=figures)
    left = _widths(outline, at_mm=0.0, figures=figures)
    drawn, rows = stepped(
        [t.mark for t in chosen],
        [_marked(part, side, t, figures=figures) for t in chosen],
        figures=figures,
    )
    tops = [dot(side_of(part, t.mark.reference_face).normal, up_of(part, side)) > 0.5 for t in chosen]
    view = FaceView(
        title=title,
        outline=outline,
        marks=drawn,
        lengths=(*_lengths(part, figures), *rows),
        widths=right,
        start_widths=left if right and left and left[0].text != right[0].text else (),
        angles=tuple(_angles(part, side, outline, figures)),
        mark=pencil,
        mark_at_top=sum(tops) > len(tops) / 2.0,
        left_name=end_name(part, End.START),
        right_name=end_name(part, End.END),
    )
    view = shaped_view(view, part, axis=side.axis, sign=side.sign, up=up_of(part, side), figures=figures)
    upward = part.frame.direction(up_of(part, side))[2]
    return _half_turned(view, part.length_mm, _across(part, side)) if upward < -_UPRIGHT else view


def _half_turned(view: FaceView, length: float, high: float) -> FaceView:
    """The face turned half round, so that what is up in the piece is up on the sheet."""

    def across(distances: tuple[Distance, ...]) -> tuple[Distance, ...]:
        return tuple(replace(d, low_mm=high - d.high_mm, high_mm=high - d.low_mm) for d in distances)

    def round_about(lines: tuple[tuple[Point, Point], ...]) -> tuple[tuple[Point, Point], ...]:
        return tuple(((length - a, high - b), (length - c, high - d)) for (a, b), (c, d) in lines)

    return replace(
        view,
        outline=tuple((length - x, high - y) for x, y in view.outline),
        visible=round_about(view.visible),
        hidden=round_about(view.hidden),
        fine=round_about(view.fine),
        center=round_about(view.center),
        notes=tuple(replace(n, x_mm=length - n.x_mm, y_mm=high - n.y_mm) for n in view.notes),
        marks=tuple(
            replace(
                m,
                x_mm=length - m.x_mm,
                y_mm=high - m.y_mm,
                from_far=not m.from_far,
                from_top=not m.from_top,
                sight=m.sight and replace(m.sight, turn_deg=m.sight.turn_deg + 180.0),
            )
            for m in view.marks
        ),
        lengths=tuple(replace(d, low_mm=length - d.high_mm, high_mm=length - d.low_mm) for d in view.lengths),
        widths=across(view.start_widths or view.widths),
        start_widths=across(view.widths) if view.start_widths else (),
        angles=tuple(
            replace(
                a,
                x_mm=length - a.x_mm,
                y_mm=high - a.y_mm,
                from_deg=a.from_deg + 180.0,
                to_deg=a.to_deg + 180.0,
            )
            for a in view.angles
        ),
        mark_at_top=not view.mark_at_top,
        left_name=view.right_name,
        right_name=view.left_name,
    )


def _end_outline(part: Part, end: End, hand: float) -> tuple[tuple[float, float], ...]:
    wide, high = part.width_mm, part.thickness_mm
    if part.round is None:
        return shaped_end(part, end, hand=hand)
    turns = [math.radians(7.5 * i) for i in range(48)]
    return tuple((wide / 2.0 * (1.0 + math.cos(t)), high / 2.0 * (1.0 + math.sin(t))) for t in turns)


def _end_shape(part: Part, mark: Mark, *, across: bool) -> MarkedShape:
    if across:
        return MarkedShape.SQUARE
    return MarkedShape.HOLE if part.round is not None or mark.round else _shape(mark)


def end_view(part: Part, end: End, marks: Iterable[TaggedMark], *, title: str, figures: Figures) -> FaceView:
    """An end as it is looked at, the width level.

    Parameters
    ----------
    part
        The part.
    end
        Which end.
    marks
        Those on this end.
    title
        Of the end.
    figures
        How lengths are written.

    Returns
    -------
    FaceView
        Width to the right, thickness up.
    """
    out = part.frame.grain if end is End.END else tuple(-x for x in part.frame.grain)
    # up is the thickness axis; what lies to the right then follows from which end is looked at
    right = part.frame.local_direction(cross(part.frame.thickness, out))  # type: ignore[arg-type]
    hand = 1.0 if right[1] > 0 else -1.0
    wide, high = part.width_mm, part.thickness_mm
    marked = []
    for tagged in marks:
        mark = tagged.mark
        far = side_of(part, mark.face).sign * hand > 0
        from_top = side_of(part, mark.reference_face).sign > 0
        across = mark.kind in (MarkKind.HOLE, MarkKind.SLOT)  # bored through the tenon, not into the end
        marked.append(
            MarkedOut(
                tag=tagged.tag,
                x_mm=wide - mark.from_end_mm if far else mark.from_end_mm,
                y_mm=high - mark.from_face_mm if from_top else mark.from_face_mm,
                length_mm=mark.length_mm,
                width_mm=mark.width_mm,
                shape=_end_shape(part, mark, across=across),
                hidden=across,
                from_far=far,
                from_top=from_top,
                from_end=figures.bare(mark.from_end_mm),
                from_edge=figures.fine.bare(mark.from_face_mm),
                length=figures.fine.bare(mark.length_mm, size_rounding(mark)),
                sight=sight_of(
                    mark,
                    right=scale(part.frame.width, hand),
                    up=part.frame.thickness,
                    figures=figures,
                ),
            )
        )
    return FaceView(
        title=title,
        outline=_end_outline(part, end, hand),
        marks=tuple(marked),
        lengths=(Distance(low_mm=0.0, high_mm=wide, text=figures.bare(wide)),),
        widths=(Distance(low_mm=0.0, high_mm=high, text=figures.bare(high)),),
    )
