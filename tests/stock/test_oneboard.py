"""The one board that would do, where little wood is wanted."""

from __future__ import annotations

from dataclasses import replace

from scantling.papers.words.asking_words import one_board_words
from scantling.stock import Blank, Cutting, FreeWidthPanel, LayoutRequest, Method, StopRule, solve
from scantling.stock.boards.board import Board
from scantling.stock.boards.grades import FAS
from scantling.stock.buying.oneboard import END_MM, one_board
from scantling.stock.buying.simulate import ShortfallQuestion
from tests.plan.jobs import shipped_plan

CUTTING = Cutting(crosscut_kerf_mm=3.0, rip_kerf_mm=3.0, straight_edge_mm=4.0, far_edge_mm=2.0)


def blank(name: str, length_mm: float, width_mm: float) -> Blank:
    """A blank of oak for 4/4."""
    return Blank(
        name=name,
        part=name,
        species="oak",
        length_mm=length_mm,
        width_mm=width_mm,
        thickness_mm=24.0,
        quarters=(4.0,),
    )


def holds(question: ShortfallQuestion, length_mm: float, width_mm: float) -> bool:
    """Whether hand rules lay everything out on a board of some size."""
    board = Board(
        name="1",
        species="oak",
        width_mm=width_mm,
        length_mm=length_mm,
        quarters=question.quarters,
        left_trim_mm=END_MM,
        right_trim_mm=END_MM,
    )
    request = LayoutRequest(
        boards=(board,), blanks=question.blanks, panels=question.panels, cutting=question.cutting
    )
    *_, last = solve(request, stop=StopRule(rounds=1, method=Method.QUICK), seed=1)
    return last.layout.complete


def test_a_stick_asks_for_its_own_size_edges_and_ends() -> None:
    """By hand: 700 and 20 off each end are 740; 60, 4 for the straight edge and 2 are 66, so 70."""
    question = ShortfallQuestion(blanks=(blank("a", 700.0, 60.0),), grade=FAS, quarters=4.0, cutting=CUTTING)
    assert one_board(question) == (740.0, 70.0)


def test_of_boards_alike_in_face_the_short_one_is_told() -> None:
    """By hand: side by side 2 x 60 + 3 + 6 = 129, so 130 x 740; end to end 70 x 1443 has more face."""
    blanks = (blank("a", 700.0, 60.0), blank("b", 700.0, 60.0))
    question = ShortfallQuestion(blanks=blanks, grade=FAS, quarters=4.0, cutting=CUTTING)
    assert one_board(question) == (740.0, 130.0)


def test_the_board_told_holds_everything_and_a_shorter_one_does_not() -> None:
    """Blanks and strips of a panel are laid out on it; 10 mm less either way and something is left."""
    blanks = (blank("a", 500.0, 80.0), blank("b", 300.0, 40.0), blank("c", 310.0, 45.0))
    panel = FreeWidthPanel(
        name="p",
        part="p",
        species="oak",
        length_mm=400.0,
        total_width_mm=150.0,
        least_strip_mm=40.0,
        greatest_strip_mm=90.0,
        greatest_count=3,
        thickness_mm=24.0,
        quarters=(4.0,),
    )
    question = ShortfallQuestion(blanks=blanks, panels=(panel,), grade=FAS, quarters=4.0, cutting=CUTTING)
    told = one_board(question)
    assert told is not None
    length, width = told
    assert holds(question, length, width)
    assert not holds(question, length - 10.0, width)


def test_nothing_is_told_where_no_board_of_the_grade_is_large_enough() -> None:
    """A blank wider or longer than any board that is sold has no board to ask for."""
    for wide, long in ((600.0, 700.0), (60.0, 9000.0)):
        question = ShortfallQuestion(
            blanks=(blank("a", long, wide),), grade=FAS, quarters=4.0, cutting=CUTTING
        )
        assert one_board(question) is None


def test_it_is_told_where_most_of_the_wood_asked_for_is_left_over() -> None:
    """The bench takes 0.9 bf of 6/4 and asks for 15: one board would do. The bookcase uses what it buys."""
    bench = shipped_plan("hall_bench", rack=False).timber.ask_for
    thin = next(w for w in bench if w.quarters == 6)
    assert thin.one_board_mm is not None
    assert thin.one_board_mm[0] >= thin.longest_mm + 2 * END_MM
    assert thin.one_board_mm[1] > thin.widest_mm
    assert one_board_words(thin).endswith("mm or more holds all of it")
    assert one_board_words(replace(thin, one_board_mm=None)) == ""
    assert all(w.one_board_mm is None for w in shipped_plan("bookcase", rack=False).timber.ask_for)
