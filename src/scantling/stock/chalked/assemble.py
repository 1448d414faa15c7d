"""From patterns in whole units to a layout a maker can chalk: names, cuts in order, offcuts."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass, field, replace

from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import Board, Defect
from scantling.stock.boards.looks import show_side
from scantling.stock.chalked.joining import joined_segments
from scantling.stock.chalked.parting import Place
from scantling.stock.chalked.slivers import with_slivers_left_on
from scantling.stock.layouts.cutorder import by_saw
from scantling.stock.layouts.layout import BoardLayout, Cut, CutKind, Offcut, Placed
from scantling.stock.question.pattern import Pattern, Segment, Spot, Strip
from scantling.stock.question.problem import UNITS_PER_MM, Problem

__all__ = ["BlankNames", "board_layout", "pinned_layout"]


@dataclass(slots=True)
class BlankNames:
    """Hands out the blanks of each kind in order, and names panel strips."""

    problem: Problem
    given: list[int]
    strips: list[list[Blank]]

    @classmethod
    def of(cls, problem: Problem) -> BlankNames:
        """Nothing handed out yet."""
        return cls(problem=problem, given=[0] * len(problem.kinds), strips=[[] for _ in problem.panels])

    def take(self, kind: int, width: int) -> Blank:
        """The next blank of a kind, or a new strip of a panel."""
        base = len(self.problem.kinds)
        if kind < base:
            blank = self.problem.kinds[kind].blanks[self.given[kind]]
            self.given[kind] += 1
            return blank
        made = self.strips[kind - base]
        panel = self.problem.panels[kind - base].panel
        made.append(strip_blank(panel, number=len(made) + 1, width_mm=width / UNITS_PER_MM))
        return made[-1]


def strip_blank(panel: FreeWidthPanel, *, number: int, width_mm: float) -> Blank:
    """A strip of a panel as a blank; ``width_mm`` holds its edge loss. [mm]"""
    return Blank(
        name=f"{panel.name} strip {number}",
        part=panel.part,
        species=panel.species,
        length_mm=panel.length_mm,
        width_mm=width_mm,
        thickness_mm=panel.thickness_mm,
        quarters=panel.quarters,
        same_board=panel.same_board,
        looks=panel.looks,
        boards=panel.boards,
        sawn=panel.sawn,
    )


@dataclass(slots=True)
class _Piece:
    name: str
    x: float
    y: float
    length: float
    width: float


@dataclass(slots=True)
class _Bench:
    """The board as it is taken apart: cuts and offcuts so far."""

    board: Board
    cutting: Cutting
    cuts: list[Cut] = field(default_factory=list)
    offcuts: list[Offcut] = field(default_factory=list)

    def offcut(self, piece: _Piece) -> None:
        """Put a piece aside."""
        usable = (
            piece.length >= self.cutting.keep_length_mm - 1e-9
            and piece.width >= self.cutting.keep_width_mm - 1e-9
        )
        self.offcuts.append(
            Offcut(
                name=piece.name,
                x_mm=piece.x,
                y_mm=piece.y,
                length_mm=piece.length,
                width_mm=piece.width,
                usable=usable,
            )
        )

    def next_offcut(self) -> str:
        return f"{self.board.name} offcut {len(self.offcuts) + 1}"

    def cut(
        self,
        piece: _Piece,
        kerf_span: tuple[float, float],
        *,
        kind: CutKind,
        stage: int,
        names: tuple[str, str],
    ) -> None:
        """Record one cut across a piece; the kerf spans two board coordinates."""
        along = kind is CutKind.CROSSCUT
        at, until = kerf_span
        kerf = until - at
        start = piece.x if along else piece.y
        self.cuts.append(
            Cut(
                order=0,
                kind=kind,
                piece=piece.name,
                at_mm=at - start,
                yields=names,
                x_mm=at if along else piece.x,
                y_mm=piece.y if along else at,
                length_mm=kerf if along else piece.length,
                width_mm=piece.width if along else kerf,
                stage=stage,
            )
        )

    def divide(
        self, piece: _Piece, spans: list[tuple[float, float, str]], *, kind: CutKind, stage: int
    ) -> list[_Piece]:
        """Cut a piece into named spans along x (crosscut) or y (rip); the rest becomes offcuts."""
        along = kind is CutKind.CROSSCUT
        kerf = self.cutting.crosscut_kerf_mm if along else self.cutting.rip_kerf_mm
        end = piece.x + piece.length if along else piece.y + piece.width
        parts: list[_Piece] = []
        before = len(self.cuts)
        for start, extent, name in spans:
            here = piece.x if along else piece.y
            if start - here > 1e-6:
                at = max(here, start - kerf)
                waste = _split(piece, at - here, along, self.next_offcut())
                self.cut(piece, (at, start), kind=kind, stage=stage, names=(_thick(waste), piece.name))
                if _thick(waste):
                    self.offcut(waste)
                _advance(piece, start, along)
            part = _split(piece, extent, along, name)
            if end - (start + extent) > 1e-6:
                until = min(start + extent + kerf, end)
                far = piece.name if end - until > 1e-6 else ""
                self.cut(piece, (start + extent, until), kind=kind, stage=stage, names=(name, far))
                _advance(piece, until, along)
            else:
                self._last(part, piece.name, cut=len(self.cuts) > before)
                _advance(piece, end, along)
            parts.append(part)
        left = end - (piece.x if along else piece.y)
        if left > 1e-6:
            rest = replace(piece, name=self.next_offcut())
            if self.cuts and spans:
                last = self.cuts[-1]
                self.cuts[-1] = replace(last, yields=(last.yields[0], rest.name))
            self.offcut(rest)
        return parts

    def _last(self, part: _Piece, whole: str, *, cut: bool) -> None:
        """A part that reaches the end needs no cut of its own: it is the last far side, or the piece."""
        if cut:
            self.cuts[-1] = replace(self.cuts[-1], yields=(self.cuts[-1].yields[0], part.name))
        else:
            part.name = whole

    def straighten(self, piece: _Piece, stage: int) -> None:
        """Take the lower edge off before the first rip."""
        edge = self.cutting.straight_edge_mm
        if edge <= 0:
            return
        self.cuts.append(
            Cut(
                order=0,
                kind=CutKind.STRAIGHTEN,
                piece=piece.name,
                at_mm=0.0,
                yields=("", piece.name),
                x_mm=piece.x,
                y_mm=piece.y,
                length_mm=piece.length,
                width_mm=edge,
                stage=stage,
            )
        )
        piece.y += edge
        piece.width -= edge


def _thick(piece: _Piece) -> str:
    return piece.name if min(piece.length, piece.width) > 1e-6 else ""


def _split(piece: _Piece, extent: float, along: bool, name: str) -> _Piece:
    if along:
        return _Piece(name, piece.x, piece.y, extent, piece.width)
    return _Piece(name, piece.x, piece.y, piece.length, extent)


def _advance(piece: _Piece, to: float, along: bool) -> None:
    if along:
        piece.length -= to - piece.x
        piece.x = to
    else:
        piece.width -= to - piece.y
        piece.y = to


def _letters(number: int) -> str:
    text = ""
    number += 1
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(65 + rest) + text
    return text


def _mm(units: int) -> float:
    return units / UNITS_PER_MM


def _cut_segment(
    bench: _Bench, piece: _Piece, segment: Segment, *, names: BlankNames, stage: int
) -> list[Placed]:
    bench.straighten(piece, stage)
    strips = sorted(segment.strips, key=lambda s: s.y)
    spans = [
        (_mm(strip.y), _mm(strip.width), f"{piece.name}{number}")
        for number, strip in enumerate(strips, start=1)
    ]
    parts = bench.divide(piece, spans, kind=CutKind.RIP, stage=stage)
    placed: list[Placed] = []
    for strip, part in zip(strips, parts, strict=True):
        placed += _cut_strip(bench, part, strip, names=names, stage=stage + 1)
    return placed


def _cut_strip(bench: _Bench, piece: _Piece, strip: Strip, *, names: BlankNames, stage: int) -> list[Placed]:
    spots = sorted(strip.spots, key=lambda s: s.x)
    blanks = [names.take(spot.kind, spot.width) for spot in spots]
    spans = [(_mm(s.x), _mm(s.length), b.name) for s, b in zip(spots, blanks, strict=True)]
    before = len(bench.cuts)
    parts = bench.divide(piece, spans, kind=CutKind.CROSSCUT, stage=stage)
    crosscut = len(bench.cuts) > before
    placed = []
    for spot, blank, part in zip(spots, blanks, parts, strict=True):
        deep = stage if crosscut else stage - 1
        if not crosscut and part.width - _mm(spot.width) <= 1e-6:
            _rename(bench, part.name, blank.name)
        if part.width - _mm(spot.width) > 1e-6:
            bench.divide(
                part, [(_mm(spot.y), _mm(spot.width), blank.name)], kind=CutKind.RIP, stage=stage + 1
            )
            deep = stage + 1
        placed.append(
            Placed(
                blank=blank,
                board=bench.board.name,
                x_mm=_mm(spot.x),
                y_mm=_mm(spot.y),
                length_mm=_mm(spot.length),
                width_mm=_mm(spot.width),
                stage=deep,
                shows=show_side(blank.looks, _under(bench.board, spot)),
            )
        )
    return placed


def _under(board: Board, spot: Spot) -> list[Defect]:
    """Defects a spot covers."""
    return [
        d
        for d in board.defects
        if d.x_mm < _mm(spot.x + spot.length)
        and d.x_mm + d.length_mm > _mm(spot.x)
        and d.y_mm < _mm(spot.y + spot.width)
        and d.y_mm + d.width_mm > _mm(spot.y)
    ]


def _rename(bench: _Bench, old: str, new: str) -> None:
    """A strip that needs no crosscut is the blank itself."""
    for number in reversed(range(len(bench.cuts))):
        cut = bench.cuts[number]
        if old in cut.yields:
            first, second = cut.yields
            names = (new if first == old else first, new if second == old else second)
            bench.cuts[number] = replace(cut, yields=names)
            return


def board_layout(problem: Problem, pattern: Pattern, *, cutting: Cutting, names: BlankNames) -> BoardLayout:
    """Take one board apart by its pattern.

    Crosscuts come first, then each piece is straightened and ripped, then its strips are cut to length, and
    blanks narrower than their strip are ripped last. Stretches ripped alike stay together until then.
    """
    stock = problem.stocks[pattern.stock]
    board = stock.board
    pattern = with_slivers_left_on(problem, pattern)
    bench = _Bench(board=board, cutting=cutting)
    whole = _Piece(board.name, 0.0, 0.0, board.length_mm, max(board.width_mm, board.far_width_mm or 0.0))
    placed: list[Placed] = []
    if stock.rip_first:
        for segment in pattern.segments:
            placed += _cut_segment(bench, whole, segment, names=names, stage=1)
    else:
        longest = max([k.length for k in problem.kinds] + [p.length for p in problem.panels], default=0)
        segments = joined_segments(pattern, kerf=problem.cross, longest=longest)
        spans = [(_mm(s.x), _mm(s.length), f"{board.name}-{_letters(n)}") for n, s in enumerate(segments)]
        pieces = bench.divide(whole, spans, kind=CutKind.CROSSCUT, stage=1)
        for segment, piece in zip(segments, pieces, strict=True):
            placed += _cut_segment(bench, piece, segment, names=names, stage=2)
    ordered = sorted(bench.cuts, key=lambda c: c.stage)
    placed.sort(key=lambda p: (p.x_mm, p.y_mm))
    return _told_apart(
        BoardLayout(board=board, placed=tuple(placed), cuts=by_saw(ordered), offcuts=tuple(bench.offcuts))
    )


def _told_apart(layout: BoardLayout) -> BoardLayout:
    """The layout with offcuts worth keeping numbered on their own, and the rest called waste."""
    names: dict[str, str] = {}
    for usable, what in ((True, "offcut"), (False, "waste")):
        chosen = [o.name for o in layout.offcuts if o.usable is usable]
        names |= {old: f"{layout.board.name} {what} {n}" for n, old in enumerate(chosen, start=1)}
    offcuts = tuple(replace(o, name=names[o.name]) for o in layout.offcuts)
    return replace(layout, cuts=_renamed(layout.cuts, names), offcuts=offcuts)


def _renamed(cuts: Iterable[Cut], names: dict[str, str]) -> tuple[Cut, ...]:
    """Cuts with what they leave by other names."""
    return tuple(
        replace(
            cut, yields=(names.get(cut.yields[0], cut.yields[0]), names.get(cut.yields[1], cut.yields[1]))
        )
        for cut in cuts
    )


def _side(offcut: Offcut, at_mm: float, end_mm: float, low_mm: float) -> str:
    """Where an offcut lies beside a blank cut from its own place."""
    if offcut.x_mm < at_mm - 1e-6:
        return "left"
    if offcut.x_mm >= end_mm:
        return "right"
    return "under" if offcut.y_mm < low_mm - 1e-6 else "over"


def pinned_layout(
    board: Board, blank: Blank, place: Place, *, cutting: Cutting, kept: Collection[str]
) -> BoardLayout:
    """The cuts that free one blank from its place on a board.

    Parameters
    ----------
    board, blank
        What is cut, and from what.
    place
        Where it lies.
    cutting
        Kerfs and edges.
    kept
        Names of what is kept to be laid out: the board's with ``left``, ``right``, ``under`` or ``over``.
    """
    bench = _Bench(board=board, cutting=cutting)
    at_mm, end = place.at_mm, place.at_mm + blank.length_mm
    low = cutting.straight_edge_mm if place.up_mm is None else place.up_mm
    whole = _Piece(board.name, 0.0, 0.0, board.length_mm, max(board.width_mm, board.far_width_mm or 0.0))
    span = (at_mm, blank.length_mm, f"{board.name}-A")
    (stretch,) = bench.divide(whole, [span], kind=CutKind.CROSSCUT, stage=1)
    bench.straighten(stretch, stage=2)
    (part,) = bench.divide(stretch, [(low, blank.width_mm, blank.name)], kind=CutKind.RIP, stage=2)
    if part.name != blank.name:
        _rename(bench, part.name, blank.name)
    sides = {o.name: f"{board.name} {_side(o, at_mm, end, low)}" for o in bench.offcuts}
    placed = Placed(
        blank=replace(blank, boards=(board.name,)),
        board=board.name,
        x_mm=at_mm,
        y_mm=low,
        length_mm=blank.length_mm,
        width_mm=blank.width_mm,
        stage=2,
    )
    cuts = _renamed(by_saw(bench.cuts), sides)
    offcuts = (replace(o, name=sides[o.name], usable=sides[o.name] in kept) for o in bench.offcuts)
    return BoardLayout(board=board, placed=(placed,), cuts=cuts, offcuts=tuple(offcuts))
