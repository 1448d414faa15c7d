"""The page of the boards, from the layout and the notes: drawings, and what lies where on them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scantling.papers.boards import (
    BoardPicture,
    BoardPlace,
    BoardScale,
    board_corner,
    board_scale,
    draw_board,
)
from scantling.papers.drawing.svg import Inking, to_svg
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.timber_pages import board_picture
from scantling.papers.sheets.show import Show, word
from scantling.papers.sheets.timber import bench_lines, layout_facts
from scantling.papers.words.chalk_list import boards_to_cut
from scantling.plan.made.bench import BenchState
from scantling.plan.result import Plan
from scantling.plan.timber.laying_out import Question
from scantling.plan.timber.placing import pin_name
from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.boards.board import Board, Defect
from scantling.stock.layouts.layout import BoardLayout, Layout, Placed
from scantling.stock.racks.notes_edits import mark_text
from scantling.units import Round
from scantling.web.sent.board_views import BoardsView, BoardView, LooseView, MarkView, NotesView, PlacedView
from scantling.web.sent.views import FindingView

__all__ = ["Drawer", "boards_view", "boxed", "drawn_layouts"]

ROOM_MM = 178.0
"""Width a drawing is made for, as in the packet; the page scales it. [mm]"""
_MOST_BARE = 60
"""Boards drawn of those nothing comes from."""
_NO_GAP_PCT = 1e-9
"""What a price lies above the least possible and is still that. [%]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawer:
    """Draws the boards of one question, all at one scale.

    Parameters
    ----------
    question
        What is asked of the boards, with the notes; None without boards.
    bench
        The notes in force.
    show
        How lengths are written.
    money
        Currency.
    """

    question: Question | None
    bench: BenchState | None
    show: Show
    money: str

    @classmethod
    def of(cls, plan: Plan, question: Question | None) -> Drawer:
        """Draws for a plan."""
        return cls(
            question=question, bench=plan.timber.bench, show=Show.of(plan), money=plan.pricing.currency
        )

    @property
    def figures(self) -> Figures:
        """How lengths are written on drawings."""
        return Figures(style=self.show.style, currency=self.money)

    def scale(self) -> BoardScale:
        """One scale for all boards of the rack, whatever is laid out on them."""
        boards = [] if self.question is None else self.question.asked.boards
        return board_scale((self._bare(b) for b in boards), room_mm=ROOM_MM)

    def boards(self, layout: Layout, *, bare: bool = True) -> tuple[BoardView, ...]:
        """Every board in the order of the rack: those cut, with pieces pins leave of them, and bare ones."""
        scale = self.scale()
        return tuple(self.view(b, scale) for b in drawn_layouts(self, layout, bare=bare))

    def bare(self, used: Iterable[str]) -> list[BoardLayout]:
        """Boards nothing comes from, with the marks on them."""
        assert self.question is not None
        there = {*used, *self._begun}
        others = [b for b in self.question.asked.boards if b.name not in there]
        return [_bare_layout(self._marked(b)) for b in others[:_MOST_BARE]]

    def root(self, name: str) -> str:
        """The board of the rack that a board or piece is of."""
        assert self.question is not None
        found = self.question.begun.pieces.get(name)
        return found[0] if found else name

    @property
    def _begun(self) -> frozenset[str]:
        notes = self.question.notes.cut if self.question else ()
        return frozenset(c.board for c in notes)

    def _bare(self, board: Board) -> BoardPicture:
        return board_picture(_bare_layout(board), figures=self.figures)

    def _marked(self, board: Board) -> Board:
        """A board with the marks found on it; one left out is not in the request."""
        assert self.question is not None
        fresh = tuple(mark for name, mark in self.question.notes.found if name == board.name)
        return replace(board, defects=(*board.defects, *fresh))

    def view(self, laid: BoardLayout, scale: BoardScale, *, takes: bool = True) -> BoardView:
        """One board with what is on it."""
        name = laid.board.name
        picture = board_picture(laid, figures=self.figures, bench=self.bench)
        drawing = draw_board(picture, room_mm=ROOM_MM, scale=scale)
        place = BoardPlace(board_corner(picture, scale), scale)
        root = self.root(name)
        left = self.question is not None and root in self.question.notes.leave
        parts = tuple(self._placed(p, place, root) for p in laid.placed)
        named = ", ".join(part.label for part in parts) or ("left out" if left else "nothing comes from it")
        known = self.question is not None and any(b.name == root for b in self.question.asked.boards)
        return BoardView(
            name=name,
            root=root,
            about=picture.about,
            words=f"Board {name}: {named}",
            svg=to_svg(drawing, inking=Inking.PAGE),
            paper=(drawing.width_mm, drawing.height_mm),
            box=boxed(place, (0.0, 0.0, laid.board.length_mm, max(picture.width_mm, picture.far_width_mm))),
            state="left" if left else "cut" if laid.placed else "bare",
            stays=self.question is not None
            and any(x.board == name for x in self.question.notes.laid)
            and root not in self._begun,
            begun=root in self._begun,
            takes=takes and known and not left and root not in self._begun,
            parts=parts,
            marks=tuple(self._marks(laid.board, root, place)),
        )

    def _placed(self, placed: Placed, place: BoardPlace, root: str) -> PlacedView:
        name = placed.blank.name
        held, held_by = self._held(name)
        figures = self.figures
        size = figures.sizes(placed.length_mm, placed.width_mm, direction=Round.UP, unit=True)
        cut = self.question.notes.cut if self.question else ()
        return PlacedView(
            name=name,
            label=word(name),
            size=size,
            box=boxed(place, (placed.x_mm, placed.y_mm, placed.length_mm, placed.width_mm)),
            held=held,
            held_by=held_by,
            cut=any(c.name == name and c.board == root for c in cut),
            parts=_parts(placed.blank),
        )

    def _held(self, name: str) -> tuple[str, str]:
        """Whether a blank is held to a board or a place, and by what name."""
        if self.question is None:
            return "", name
        called = pin_name(self.question, name)
        pin = next((p for p in self.question.notes.pins if p.name in (name, called)), None)
        if pin is None:
            return "", called
        return ("board" if pin.at_mm is None else "place"), pin.name

    def _marks(self, board: Board, root: str, place: BoardPlace) -> Iterable[MarkView]:
        """Marks on a board; those found at the bench can be taken off, on the board itself."""
        found = [] if self.question is None else [m for n, m in self.question.notes.found if n == root]
        for mark in board.defects:
            yield MarkView(
                written=mark_text(mark) if mark in found and board.name == root else "",
                words=self.mark_words(mark),
                box=boxed(place, (mark.x_mm, mark.y_mm, mark.length_mm, mark.width_mm)),
            )

    def mark_words(self, mark: Defect) -> str:
        """A mark in words, as it is written in a rack."""
        sizes = self.figures.sizes
        face = "" if mark.face.value == "through" else f" on the {mark.face.value}"
        at = sizes(mark.x_mm, mark.y_mm, unit=True)
        return f"{mark.kind.value} at {at}, {sizes(mark.length_mm, mark.width_mm, unit=True)}{face}"

    def loose(self, layout: Layout) -> tuple[LooseView, ...]:
        """Blanks and panels no board has a place for."""
        figures = self.figures
        found = [
            self._loose(b, figures.sizes(b.length_mm, b.width_mm, direction=Round.UP, unit=True))
            for b in layout.unplaced
        ]
        panels = {p.name: p for p in self.question.asked.panels} if self.question else {}
        for strips in layout.strips:
            if strips.missing_mm > 1e-6:
                size = f"strips {figures.length(panels[strips.panel].length_mm, Round.UP)} long, "
                size += f"{figures.length(strips.missing_mm, Round.UP)} of width"
                found.append(self._loose(panels[strips.panel], size))
        return tuple(found)

    def _loose(self, need: Blank | FreeWidthPanel, size: str) -> LooseView:
        held, held_by = self._held(need.name)
        return LooseView(name=need.name, label=word(need.name), size=size, held=held, held_by=held_by)

    def facts(self, layout: Layout) -> tuple[tuple[str, str], ...]:
        """How good a layout is, and how far from the best it may be."""
        facts = layout_facts(layout, show=self.show, money=self.money)
        if layout.gap_pct is None:
            return facts
        best = "nothing better exists" if is_best(layout) else f"{layout.gap_pct:.1f} % at most"
        return (*facts, ("Above the best possible", best))

    def lead(self, layout: Layout) -> str:
        """What is to be said first."""
        if layout.complete:
            return "Every blank has its place."
        missing = "is not there" if layout.short_proven else "has not been found"
        return f"{layout.missing_count} without wood: the place for it {missing} on these boards."

    def offcuts(self, layout: Layout) -> tuple[tuple[str, str], ...]:
        """What is left and worth keeping, largest first."""
        figures = self.figures
        kept = [o for b in boards_to_cut(layout, self.bench) for o in b.offcuts if o.usable]
        again = {b.board.name for b in layout.boards}
        kept = [o for o in kept if o.name not in again]
        kept.sort(key=lambda o: -o.length_mm * o.width_mm)
        return tuple(
            (o.name, figures.sizes(o.length_mm, o.width_mm, direction=Round.DOWN, unit=True)) for o in kept
        )


def is_best(layout: Layout) -> bool:
    """Whether it is proven that no better layout exists."""
    return layout.gap_pct is not None and layout.gap_pct <= _NO_GAP_PCT


def drawn_layouts(drawer: Drawer, layout: Layout, *, bare: bool = True) -> list[BoardLayout]:
    """The boards that are drawn, in the order of the rack.

    Parameters
    ----------
    drawer
        Draws them.
    layout
        What lies on them.
    bare
        Whether boards nothing comes from are among them.
    """
    assert drawer.question is not None
    laid = list(boards_to_cut(layout, drawer.bench))
    if bare:
        laid += drawer.bare(drawer.root(b.board.name) for b in laid)
    order = {b.name: n for n, b in enumerate(drawer.question.asked.boards)}
    return sorted(laid, key=lambda b: order.get(drawer.root(b.board.name), len(order)))


def boards_view(
    plan: Plan, question: Question | None, *, notes: NotesView, findings: Sequence[FindingView]
) -> BoardsView:
    """The page of the boards.

    Parameters
    ----------
    plan
        The plan with these notes.
    question
        What was asked of the boards; None without a rack.
    notes
        The notes as they stand.
    findings
        What the rules found about boards.
    """
    drawer, layout = Drawer.of(plan, question), plan.timber.layout
    sheets = plan.timber.sheets_cut
    wide = board_scale((board_picture(s, figures=drawer.figures) for s in sheets), room_mm=ROOM_MM)
    lead = "No rack was given: the plan says what to buy."
    if layout is not None:
        lead = drawer.lead(layout)
    bench = plan.timber.bench
    return BoardsView(
        ok=True,
        title=plan.title,
        units=drawer.show.lead_unit,
        both_units=plan.style.both,
        notes=notes,
        rack=question is not None,
        lead=lead,
        facts=() if layout is None else drawer.facts(layout),
        proven=layout is not None and is_best(layout),
        scale=drawer.scale().note,
        boards=() if layout is None else drawer.boards(layout),
        sheets=tuple(drawer.view(s, wide, takes=False) for s in sheets),
        loose=() if layout is None else drawer.loose(layout),
        offcuts=() if layout is None else drawer.offcuts(layout),
        more=() if bench is None else bench_lines(bench)[:-1],
        findings=tuple(findings),
    )


def _bare_layout(board: Board) -> BoardLayout:
    return BoardLayout(board=board, placed=(), cuts=(), offcuts=())


def boxed(place: BoardPlace, box: tuple[float, float, float, float]) -> tuple[float, float, float, float]:
    """A rectangle of the board as left, top, width, height on the drawing. [mm]"""
    (left, low), (right, _), (_, high), _ = place.box(*box)
    return (round(left, 2), round(high, 2), round(right - left, 2), round(low - high, 2))


def _parts(blank: Blank) -> tuple[str, ...]:
    return tuple(dict.fromkeys(member.part for member in (blank.members or (blank,))))
