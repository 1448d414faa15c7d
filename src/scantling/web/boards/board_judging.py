"""A part put down on a drawing, and a mark drawn on one: what they are on the board, in words."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.errors import InputError
from scantling.papers.boards import BoardPlace, board_corner
from scantling.papers.pages.timber_pages import board_picture
from scantling.plan.timber.laying_out import Question
from scantling.plan.timber.placing import Judged, judge_place, next_board
from scantling.stock.boards.board import Board
from scantling.stock.layouts.layout import Layout
from scantling.stock.racks.benchnotes import Pin
from scantling.stock.racks.snapping import NEAR_MM
from scantling.units.sentences import sentence_in_style
from scantling.web.boards.board_making import Drawer, boxed, drawn_layouts
from scantling.web.sent.board_bodies import JudgeIn, MarkIn
from scantling.web.sent.board_views import JudgedView, MeasuredView

__all__ = ["Judge"]

_LEAST_MARK_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Judge:
    """Says where things lie on the drawings as they are.

    Parameters
    ----------
    drawer
        Draws them.
    question
        What is asked of the boards.
    layout
        What lies on them.
    """

    drawer: Drawer
    question: Question
    layout: Layout

    def place(self, asked: JudgeIn) -> JudgedView:
        """A part where it is put."""
        root, at_mm = self._put(asked)
        near_mm = (
            NEAR_MM if asked.at_mm is None else 0.4 * (self.fine_mm if asked.fine else self.step_mm / 2.0)
        )
        judged = judge_place(
            self.question, asked.part, root, at_mm=at_mm, step_mm=self.fine_mm, near_mm=near_mm
        )
        pin, better = judged.pin, judged.better
        drawing, box = self._box(judged)
        style = self.drawer.show.style
        why, remedy = (sentence_in_style(told, style) for told in (judged.reason, judged.remedy))
        return JudgedView(
            ok=True,
            fits=not judged.reason,
            part=asked.part,
            board=root,
            words=f"It cannot lie there: {why}." if why else f"{self.words(judged)}.",
            remedy=remedy,
            at_mm=pin.at_mm,
            up_mm=pin.up_mm,
            better="" if better is None else self._pinned(better),
            better_at_mm=None if better is None else better.at_mm,
            better_up_mm=None if better is None else better.up_mm,
            drawing=drawing,
            box=box,
        )

    def words(self, judged: Judged) -> str:
        """Where a part is held, in words."""
        return self._pinned(judged.pin)

    def _pinned(self, pin: Pin) -> str:
        if pin.at_mm is None:
            return f"to {pin.board}"
        long = self.drawer.figures.length
        up = "on the lower edge" if pin.up_mm is None else f"{long(pin.up_mm)} up"
        return f"on {pin.board} at {long(pin.at_mm)}, {up}"

    @property
    def fine_mm(self) -> float:
        """The step places are told in. [mm]"""
        return 25.4 / 16.0 if self.drawer.show.style.inch else 1.0

    @property
    def step_mm(self) -> float:
        """The step of an arrow key. [mm]"""
        return 12.7 if self.drawer.show.style.inch else 10.0

    def _put(self, asked: JudgeIn) -> tuple[str, tuple[float, float] | None]:
        """The board of the rack, and the part's corner on it."""
        if asked.corner is not None:
            return self._point(asked.drawing, asked.corner)
        if asked.first or asked.next_board:
            name = next_board(self.question, asked.part, asked.board) if asked.next_board else asked.board
            board = next((b for b in self.question.asked.boards if b.name == name), None)
            return name, (0.0 if board is None else board.left_trim_mm, 0.0)
        if asked.at_mm is None:
            return asked.board, None
        step = self.fine_mm if asked.fine else self.step_mm
        low = self.question.asked.cutting.straight_edge_mm
        up = low if asked.up_mm is None else asked.up_mm
        across = self.fine_mm if asked.fine else self.step_mm / 2.0
        return asked.board, (asked.at_mm + asked.steps[0] * step, up + asked.steps[1] * across)

    def _point(self, drawing: str, corner: tuple[float, float]) -> tuple[str, tuple[float, float]]:
        """A point of a drawing on the board of the rack."""
        place = self._place(drawing)
        root, x0, y0 = self.question.begun.pieces.get(drawing, (drawing, 0.0, 0.0))
        x, y = place.of(corner)
        return root, (x + x0, y + y0)

    def _place(self, drawing: str) -> BoardPlace:
        for laid in drawn_layouts(self.drawer, self.layout):
            if laid.board.name == drawing:
                picture = board_picture(laid, figures=self.drawer.figures, bench=self.drawer.bench)
                scale = self.drawer.scale()
                return BoardPlace(board_corner(picture, scale), scale)
        raise InputError(
            code="unknown_board",
            field="drawing",
            value=drawing[:60],
            rule="must be a board that is drawn",
            remedy="Look at the boards as they are now.",
        )

    def _box(self, judged: Judged) -> tuple[str, tuple[float, float, float, float] | None]:
        """Where a part lies on which drawing."""
        pin = judged.pin
        if pin.at_mm is None or judged.room is None:
            return "", None
        drawn = {b.board.name for b in drawn_layouts(self.drawer, self.layout)}
        room = judged.room
        inside = room.board.name in drawn
        name, x0, y0 = (room.board.name, room.x_mm, room.y_mm) if inside else (pin.board, 0.0, 0.0)
        if name not in drawn:
            return "", None
        low = self.question.asked.cutting.straight_edge_mm
        up = low if pin.up_mm is None else pin.up_mm - y0
        box = (pin.at_mm - x0, up, judged.length_mm, judged.width_mm)
        return name, boxed(self._place(name), box)

    def mark(self, asked: MarkIn) -> MeasuredView:
        """A rectangle drawn on a board, as sizes to be corrected."""
        root, one = self._point(asked.drawing, asked.one)
        _, other = self._point(asked.drawing, asked.other)
        board = next(b for b in self.question.asked.boards if b.name == root)
        left, low, length, width = _on_board(board, one, other, self.fine_mm)
        _, x0, y0 = self.question.begun.pieces.get(asked.drawing, (root, 0.0, 0.0))
        figures = self.drawer.figures
        bare = replace(figures, style=figures.style.styles[0]).bare  # what is typed is in one unit
        return MeasuredView(
            ok=True,
            board=root,
            x=bare(left),
            y=bare(low),
            length=bare(length),
            width=bare(width),
            box=boxed(self._place(asked.drawing), (left - x0, low - y0, length, width)),
        )


def _on_board(
    board: Board, one: tuple[float, float], other: tuple[float, float], step_mm: float
) -> tuple[float, float, float, float]:
    """A rectangle in whole steps, kept on its board: left, low, length, width. [mm]"""
    most = (board.length_mm, max(board.width_mm, board.far_width_mm or 0.0))
    found = []
    for axis in (0, 1):
        near, far = sorted((one[axis], other[axis]))
        near = min(max(0.0, near), most[axis] - _LEAST_MARK_MM)
        far = min(max(far, near + _LEAST_MARK_MM), most[axis])
        first = int(near / step_mm) * step_mm
        size = max(step_mm, int((far - first) / step_mm + 0.5) * step_mm)
        found.append((first, min(size, most[axis] - first)))
    (left, length), (low, width) = found
    return left, low, length, width
