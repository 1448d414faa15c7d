"""Marking-out sheets: one for every form of part, with the twins it serves and their faces named."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from scantling.joinery.work import JointWork, Mark, MarkKind
from scantling.papers.marking.face_view import FaceMark, FaceView
from scantling.papers.marking.part_sheet import PartDrawing
from scantling.papers.packet.sections import JointSheet, MarkRow
from scantling.papers.pages.alike import Twin, place_of, twins_of
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.mark_rows import in_rows, mirrored
from scantling.papers.pages.part_faces import (
    Side,
    TaggedMark,
    end_name,
    end_view,
    face_view,
    looks_of,
    side_of,
)
from scantling.papers.pages.part_shapes import profile_axes, section_views, stopped_faces
from scantling.papers.pages.part_shoulders import shoulder_face, with_shoulders
from scantling.papers.sheets.show import names_of, word
from scantling.papers.words.built_words import built_line
from scantling.papers.words.mark_sizes import mark_depth, mark_width, set_up_words, size_rounding
from scantling.papers.words.shoulder_words import shoulder_words
from scantling.papers.words.sight_words import sight_words
from scantling.piece.built import AsBuilt
from scantling.piece.model import End, Part, Piece
from scantling.plan.steps.shape_steps import shape_words

__all__ = ["MarkedPart", "joint_sheets", "marked_parts", "shared_methods"]

_WHOLE_MM = 1.0
"""What stops no farther than this from both ends is told as running from end to end. [mm]"""
_FEW_SHEETS = 6
"""Up to so many sheets each tells how its joints are cut. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedPart:
    """Parts marked out alike: the first is drawn.

    Parameters
    ----------
    twins
        The parts, of the same hand and mirror images, each with how the first is turned to be it.
    marks
        Of the first part, with letters.
    views
        Faces and ends that are worked.
    methods
        How its joints are cut: names of the joints cut each way, by its words.
    shoulders
        What stands past the ends that it is measured from; empty if nothing does.
    """

    twins: tuple[Twin, ...]
    marks: tuple[TaggedMark, ...]
    views: tuple[FaceView, ...]
    methods: Mapping[tuple[str, ...], tuple[str, ...]]
    shoulders: str = ""

    @property
    def parts(self) -> tuple[Part, ...]:
        """All of them, the one drawn first."""
        return tuple(twin.part for twin in self.twins)


def _letters(count: int) -> Iterable[str]:
    """A, B, ... Z, A2, B2, ..."""
    for i in range(count):
        turn, letter = divmod(i, 26)
        yield chr(65 + letter) + (str(turn + 1) if turn else "")


def _tagged(part: Part, marks: Iterable[Mark]) -> tuple[TaggedMark, ...]:
    """Marks in the order they are drawn, equal places once."""
    unique = {place_of(part, m): m for m in marks}
    if _ends_alike(part, unique.values()):
        unique = {k: m for k, m in unique.items() if not (m.on_end and m.end is End.START)}
    rows = in_rows(sorted(unique.values(), key=lambda m: _order(part, m)))
    chosen = [mark for row in rows for mark in row]
    return tuple(TaggedMark(tag=t, mark=m) for t, m in zip(_letters(len(chosen)), chosen, strict=True))


def _ends_alike(part: Part, marks: Iterable[Mark]) -> bool:
    """Whether both ends carry the same marks, measured from the same faces."""
    by_end: dict[End, list[str]] = {end: [] for end in End}
    for mark in marks:
        if mark.on_end:
            by_end[mark.end].append(place_of(part, replace(mark, end=End.END)))
    return bool(by_end[End.START]) and sorted(by_end[End.START]) == sorted(by_end[End.END])


def _order(part: Part, mark: Mark) -> tuple[object, ...]:
    side = side_of(part, mark.face)
    along = mark.from_end_mm if mark.end is End.START else part.length_mm - mark.from_end_mm
    return (
        mark.on_end,
        mark.end.value if mark.on_end else "",
        side.axis,
        -side.sign,
        round(along, 1),
        mark.from_face_mm,
    )


def _title(side: Side, twins: Sequence[Twin]) -> str:
    """The face by where it looks on each of the twins."""
    looks: dict[str, list[str]] = {}
    for twin in twins:
        looks.setdefault(looks_of(twin.part, twin.turned(side)).value, []).append(twin.part.name)
    if len(looks) == 1:
        return f"{next(iter(looks)).capitalize()} face"
    return "Face that looks " + "; ".join(f"{way} on {names_of(names)}" for way, names in looks.items())


def _views(
    twins: Sequence[Twin], tags: Sequence[TaggedMark], marks_of: Sequence[Mark], *, figures: Figures
) -> tuple[FaceView, ...]:
    part = twins[0].part
    by_side: dict[Side, list[TaggedMark]] = {}
    by_end: dict[End, list[TaggedMark]] = {}
    for tagged in tags:
        if tagged.mark.on_end:
            by_end.setdefault(tagged.mark.end, []).append(tagged)
        else:
            by_side.setdefault(side_of(part, tagged.mark.face), []).append(tagged)
    for axis in profile_axes(part):
        if not any(side.axis == axis for side in by_side):
            by_side[Side(axis, 1)] = []
    for faces in stopped_faces(part):
        if not any((side.axis, side.sign) in faces for side in by_side):
            by_side[Side(*faces[0])] = []
    broad = shoulder_face(part, marks_of)
    if broad is not None and not any(side.axis == broad.axis for side in by_side):
        by_side = {broad: [], **by_side}
    if not by_side:  # joints at its ends alone: the part is seen along its length all the same
        by_side[Side(2, 1)] = []
    pencils = [FaceMark.FACE, FaceMark.EDGE, FaceMark.NONE, FaceMark.NONE]
    views = [
        with_shoulders(
            face_view(part, side, marks, title=_title(side, twins), pencil=pencil, figures=figures),
            part,
            side,
            marks=marks_of,
            figures=figures,
        )
        for (side, marks), pencil in zip(by_side.items(), pencils, strict=False)
    ]
    both = len(by_end) == 1 and _ends_alike(part, marks_of)
    names = {end: end_name(part, end).capitalize() for end in End}
    if both:
        names[End.END] = f"Both ends alike, the {end_name(part, End.END)} drawn"
    views += [end_view(part, end, marks, title=names[end], figures=figures) for end, marks in by_end.items()]
    return (*views, *section_views(part, start=end_name(part, End.START), figures=figures))


def marked_parts(piece: Piece, works: Sequence[JointWork], *, figures: Figures) -> tuple[MarkedPart, ...]:
    """Parts with joints, alike ones together, in the order of the piece.

    Parameters
    ----------
    piece
        The piece.
    works
        What its joints answered.
    figures
        How lengths are written.

    Returns
    -------
    tuple of MarkedPart
        Each with its faces drawn from the first of its parts.
    """
    marks: dict[str, list[Mark]] = {name: [] for name in piece.parts}
    steps: dict[str, dict[tuple[str, ...], list[str]]] = {name: {} for name in piece.parts}
    for work in works:
        for mark in work.marks:
            marks[mark.part].append(mark)
        for name in (work.first, work.second):
            if any(m.part == name for m in work.marks):
                lines = tuple(map(word, work.steps))
                steps[name].setdefault(lines, []).append(work.joint.partition(".")[0])
    found = []
    for twins in twins_of(
        {name: part for name, part in piece.parts.items() if marks[name] or part.shaping}, marks
    ):
        first = twins[0].part
        tags = _tagged(first, marks[first.name])
        views = _views(twins, tags, marks[first.name], figures=figures)
        short = shoulder_words(first.name, works, length=figures.length, end=partial(end_name, first))
        methods = {lines: tuple(dict.fromkeys(likes)) for lines, likes in steps[first.name].items()}
        found.append(MarkedPart(twins=twins, marks=tags, views=views, methods=methods, shoulders=short))
    return tuple(found)


def shared_methods(groups: Iterable[MarkedPart]) -> tuple[str, ...]:
    """How the joints are cut, told once for all sheets where they are many.

    Parameters
    ----------
    groups
        From :func:`marked_parts`.

    Returns
    -------
    tuple of str
        Empty where every sheet tells its own.
    """
    chosen = tuple(groups)
    if not _many(chosen):
        return ()
    ways: dict[tuple[str, ...], tuple[str, ...]] = {}
    for group in chosen:
        for lines, likes in group.methods.items():
            ways[lines] = tuple(dict.fromkeys((*ways.get(lines, ()), *likes)))
    return _told(ways, headed=True)


def _many(groups: Sequence[MarkedPart]) -> bool:
    return len(groups) > _FEW_SHEETS


def _pointer(group: MarkedPart) -> tuple[str, ...]:
    """Which joints are on a sheet, where how they are cut stands elsewhere."""
    heads = _heads(dict.fromkeys(like for lines, likes in group.methods.items() if lines for like in likes))
    return (f"How they are cut, at the end of this chapter: {heads}.",) if heads else ()


def _heads(likes: Iterable[str]) -> str:
    """Joints by name, each for itself, so that a name on a sheet is found again at the end of the chapter."""
    return "; ".join(names_of([like]) for like in likes)


def _told(steps: Mapping[tuple[str, ...], tuple[str, ...]], *, headed: bool = False) -> tuple[str, ...]:
    """How the joints are cut, under their names where there are several; no line stands there twice."""
    told: list[tuple[list[str], list[str]]] = []
    for lines, own in steps.items():
        if not lines:
            continue
        alike = next((block for block in told if block[1][0] == lines[0]), None)
        if alike is None:
            told.append((list(own), list(lines)))
            continue
        alike[0].extend(like for like in own if like not in alike[0])
        alike[1].extend(f"{_heads(own)}: {line}" for line in lines if line not in alike[1])
    told += _shared_lines(told)
    found: list[str] = []
    for likes, block in told:
        named = headed or len(told) > 1
        found += [f"{_heads(likes)}: {block[0]}" if named else block[0], *block[1:]]
    return tuple(found)


def _shared_lines(told: Sequence[tuple[list[str], list[str]]]) -> list[tuple[list[str], list[str]]]:
    """Lines after the first that stand in several blocks, taken out of them: each under all their names."""
    later = Counter(line for _, block in told for line in dict.fromkeys(block[1:]))
    shared: dict[str, list[str]] = {line: [] for line, count in later.items() if count > 1}
    for likes, block in told:
        for line in shared.keys() & set(block[1:]):
            shared[line].extend(like for like in likes if like not in shared[line])
        block[1:] = [line for line in block[1:] if line not in shared]
    return [(likes, [line]) for line, likes in shared.items()]


def _names(group: MarkedPart) -> str:
    same = [twin.part.name for twin in group.twins if not twin.mirrored]
    other = [twin.part.name for twin in group.twins if twin.mirrored]
    text = names_of(same)
    if other:
        text += f"; mirror image: {names_of(other)}"
    if len({twin.part.like for twin in group.twins}) > 1 and other:
        text += f". Faces in the list: those of {word(group.parts[0].name)}"
    return text


def _rows(
    group: MarkedPart, codes: Mapping[str, str], *, both: bool, figures: Figures
) -> tuple[MarkRow, ...]:
    """The list of a sheet: a line for each mark, and one for each row of holes."""
    letters = {id(tagged.mark): tagged.tag for tagged in group.marks}
    return tuple(
        _row(
            tuple(TaggedMark(tag=letters[id(mark)], mark=mark) for mark in row),
            codes,
            both=both,
            part=group.parts[0],
            figures=figures,
        )
        for row in in_rows(tagged.mark for tagged in group.marks)
    )


def _row(
    row: Sequence[TaggedMark], codes: Mapping[str, str], *, both: bool, part: Part, figures: Figures
) -> MarkRow:
    mark = row[0].mark
    end = end_name(part, mark.end)
    face = mark.face.value
    if mark.on_end:
        face = "both ends" if both else end
    way = size_rounding(mark)
    fine = figures.fine
    size = f"{fine.bare(mark.length_mm, way)} × {mark_width(mark, figures.style)}"
    return MarkRow(
        tag=row[0].tag if len(row) == 1 else f"{row[0].tag}–{row[-1].tag}",
        what=_what(row, figures),
        face=face,
        from_end=_from_end([one.mark for one in row], end, part, figures=figures),
        from_face=f"{fine.bare(mark.from_face_mm)} {mark.reference_face.value}",
        size=size,
        depth=mark_depth(mark, figures.style),
        fit=mark.fit.value,
        setup=codes[mark.setup],
    )


def _what(row: Sequence[TaggedMark], figures: Figures) -> str:
    """What a line of the list is, with what is to be known of it; in a row, by the hole it is said of."""
    mark = row[0].mark
    what = mark.kind.value if len(row) == 1 else f"{len(row)} {_many_of(mark.kind)}"
    if abs(mark.tilt_deg) > 0.05:
        what += f", tilted {figures.angle(mark.tilt_deg)}"
    if sight := sight_words(mark):
        what += f"; {sight}"
    notes = [one.mark.note for one in row]
    if len(row) == 1 or len(set(notes)) == 1:
        return f"{what}; {notes[0]}" if notes[0] else what
    return "; ".join([what, *(f"{one.tag} {one.mark.note}" for one in row if one.mark.note)])


def _many_of(kind: MarkKind) -> str:
    return (
        "notches" if kind is MarkKind.NOTCH else "recesses" if kind is MarkKind.RECESS else f"{kind.value}s"
    )


def _shapes(part: Part) -> tuple[str, ...]:
    """What is shaped on a part, as the order of work tells it; arrises alike in one line."""
    return tuple(
        f"Shape, once the joints fit: {words}."
        for words in dict.fromkeys(shape_words(part, s) for s in part.shaping)
    )


def _from_end(marks: Sequence[Mark], end: str, part: Part, *, figures: Figures) -> str:
    """Where along the grain its middle is; of what runs from end to end, that, and how far past them.

    Of marks that lie alike from both ends, or from both edges of an end, the places of one half.
    """
    mark = marks[0]
    if not mark.on_end and mark.angle_deg == 0.0:
        past = (mark.length_mm - part.length_mm) / 2.0
        if abs(past) < _WHOLE_MM:
            return "whole length"
        if past > 0.0 and abs(mark.from_end_mm - part.length_mm / 2.0) < _WHOLE_MM:
            return f"{figures.fine.bare(past)} past each end"
    from_where = mark.face.value if mark.on_end else end
    told = list(marks)
    if mirrored(marks):
        from_where = "each edge" if mark.on_end else "each end"
        told = told[: len(told) // 2]
    return f"{', '.join(figures.bare(each.from_end_mm) for each in told)} {from_where}"


def _codes(groups: Iterable[MarkedPart]) -> dict[str, str]:
    """A short code for every cutter set-up: equal set-ups of all parts share one."""
    setups = dict.fromkeys(t.mark.setup for group in groups for t in group.marks)
    return {setup: f"J{i + 1}" for i, setup in enumerate(setups)}


def joint_sheets(
    groups: Iterable[MarkedPart], *, figures: Figures, built: AsBuilt | None = None
) -> tuple[JointSheet, ...]:
    """The sheets as the packet sets them.

    Parameters
    ----------
    groups
        From :func:`marked_parts`.
    figures
        How lengths are written.
    built
        What is made already, told under the names of its parts; None for nothing.

    Returns
    -------
    tuple of JointSheet
        In the same order.
    """
    chosen = tuple(groups)
    codes = _codes(chosen)
    sheets = []
    for group in chosen:
        both = any(v.title.startswith("Both ends") for v in group.views)
        first = group.parts[0]
        title = word(first.name)
        title = title[:1].upper() + title[1:]
        names = _names(group) if len(group.parts) > 1 else ""
        made = built_line(built, (part.name for part in group.parts), figures.fine.length)
        if len(group.parts) > 1:
            title += f" and {len(group.parts) - 1} alike"
        sheets.append(
            JointSheet(
                title=title,
                parts=". ".join(line for line in (names, made) if line),
                drawing=PartDrawing(name=first.name, views=group.views),
                marks=_rows(group, codes, both=both, figures=figures),
                setups=tuple(
                    (codes[setup], set_up_words(mark, figures.style))
                    for setup, mark in {t.mark.setup: t.mark for t in group.marks}.items()
                ),
                steps=(
                    *((group.shoulders,) if group.shoulders else ()),
                    *_shapes(first),
                    *(_pointer(group) if _many(chosen) else _told(group.methods)),
                ),
            )
        )
    return tuple(sheets)
