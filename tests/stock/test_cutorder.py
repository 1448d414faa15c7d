"""The order of cuts: few walks, pieces kept long, no slivers, and every piece there in time."""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

import pytest

from scantling.stock import (
    Blank,
    Board,
    Defect,
    DefectKind,
    FreeWidthPanel,
    Layout,
    lay_out,
    verify_layout,
)
from scantling.stock.asked.cutting import Cutting
from scantling.stock.chalked.assemble import BlankNames, board_layout
from scantling.stock.chalked.slivers import with_slivers_left_on
from scantling.stock.layouts.cutorder import by_saw, visits
from scantling.stock.layouts.layout import Cut, CutKind
from scantling.stock.question.pattern import Pattern, Segment, Spot, Strip
from scantling.stock.question.problem import UNITS_PER_MM, build_problem
from scantling.stock.solving.solve import LayoutRequest

CUTTING = Cutting()
OAK = "white oak"


def _board(name: str = "B", length_mm: float = 2440.0, width_mm: float = 200.0) -> Board:
    return Board(name=name, species=OAK, quarters=4.0, length_mm=length_mm, width_mm=width_mm)


def _blank(name: str, length_mm: float, width_mm: float) -> Blank:
    return Blank(name=name, part=name, species=OAK, length_mm=length_mm, width_mm=width_mm, thickness_mm=25.4)


def _laid(boards: tuple[Board, ...], blanks: tuple[Blank, ...], *panels: FreeWidthPanel) -> Layout:
    layout = lay_out(LayoutRequest(boards=boards, blanks=blanks, panels=panels, cutting=CUTTING), rounds=2)
    broken = verify_layout(layout, boards=boards, blanks=blanks, panels=panels, cutting=CUTTING)
    assert broken == ()
    return layout


def _cut(kind: CutKind, piece: str, *yields: str) -> Cut:
    near, far = yields
    return Cut(
        order=0,
        kind=kind,
        piece=piece,
        at_mm=0.0,
        yields=(near, far),
        x_mm=0.0,
        y_mm=0.0,
        length_mm=1.0,
        width_mm=1.0,
        stage=1,
    )


def test_both_pieces_are_straightened_before_either_is_ripped() -> None:
    """Crosscut, edge A, rip A, edge B, rip B, crosscut a strip of A become four stands instead of six."""
    cuts = (
        _cut(CutKind.CROSSCUT, "S", "A", "B"),
        _cut(CutKind.STRAIGHTEN, "A", "", "A"),
        _cut(CutKind.RIP, "A", "A1", "A2"),
        _cut(CutKind.STRAIGHTEN, "B", "", "B"),
        _cut(CutKind.RIP, "B", "B1", "B2"),
        _cut(CutKind.CROSSCUT, "A1", "x", "y"),
    )
    ordered = by_saw(cuts)
    assert [c.piece for c in ordered] == ["S", "A", "B", "A", "B", "A1"]
    assert [c.order for c in ordered] == [1, 2, 3, 4, 5, 6]
    assert len([k for k, _ in groupby(c.kind for c in ordered)]) == 4


def test_what_is_left_of_a_piece_is_cut_after_it_is_left() -> None:
    """A remnant keeps its name: its cuts keep their order, and a piece is never cut before it is there."""
    cuts = (
        _cut(CutKind.CROSSCUT, "S", "A", "S"),
        _cut(CutKind.CROSSCUT, "S", "B", "S"),
        _cut(CutKind.RIP, "A", "A1", "A"),
        _cut(CutKind.CROSSCUT, "A1", "p", "q"),
        _cut(CutKind.RIP, "A", "A2", "w"),
    )
    assert [(c.piece, c.yields[0]) for c in by_saw(cuts)] == [
        ("S", "A"),
        ("S", "B"),
        ("A", "A1"),
        ("A", "A2"),
        ("A1", "p"),
    ]


def test_stands_at_the_saws_hold_every_cut_once() -> None:
    """Two boards share the stands; each board's own order is kept."""
    boards = (_board("B1"), _board("B2"))
    blanks = tuple(_blank(f"p{i}", 900.0 - 40 * i, 60.0 + 5 * i) for i in range(8))
    layout = _laid(boards, blanks)
    assert len(layout.boards) == 2
    stands = visits(layout.boards)
    for laid in layout.boards:
        told = [c.order for v in stands for name, cuts in v.boards for c in cuts if name == laid.board.name]
        assert told == [c.order for c in laid.cuts] == list(range(1, len(laid.cuts) + 1))
    assert all(c.kind is v.kind for v in stands for _, cuts in v.boards for c in cuts)
    assert len(stands) < sum(len(list(groupby(c.kind for c in b.cuts))) for b in layout.boards)


def test_pieces_ripped_alike_are_ripped_once_and_leave_one_offcut() -> None:
    """Two blanks of 478 x 96 mm beside a long one: one edge, one rip, and an offcut 959 mm long."""
    blanks = (_blank("top", 1346.0, 158.0), _blank("left", 478.0, 96.0), _blank("right", 478.0, 96.0))
    laid = _laid((_board(width_mm=175.0),), blanks).boards[0]
    kinds = [c.kind for c in laid.cuts]
    assert kinds.count(CutKind.STRAIGHTEN) == 2
    assert kinds.count(CutKind.RIP) == 2
    lengths = sorted(o.length_mm for o in laid.offcuts if o.usable)
    assert lengths == pytest.approx([478.0 * 2 + 3.2])


def test_nothing_is_joined_that_comes_longer_than_the_longest_blank() -> None:
    """Two blanks of 1000 mm stay apart: 2003 mm is longer than any blank, and its crook counts twice."""
    laid = _laid((_board(width_mm=175.0),), (_blank("a", 1000.0, 96.0), _blank("b", 1000.0, 96.0))).boards[0]
    assert [c.kind for c in laid.cuts].count(CutKind.STRAIGHTEN) == 2


def _panel(total_mm: float) -> FreeWidthPanel:
    return FreeWidthPanel(
        name="shelf",
        part="shelf",
        species=OAK,
        length_mm=800.0,
        total_width_mm=total_mm,
        thickness_mm=25.4,
        least_strip_mm=60.0,
        greatest_strip_mm=170.0,
        edge_loss_mm=4.0,
    )


@pytest.mark.parametrize(
    ("narrower_mm", "knot", "kept"), [(12.0, False, True), (40.0, False, False), (12.0, True, False)]
)
def test_a_strip_keeps_a_sliver_and_gives_up_a_stick(narrower_mm: float, knot: bool, kept: bool) -> None:
    """A strip 12 mm narrower than its ripping stays as wide; not one 40 mm narrower, nor beside a knot."""
    flaws = (Defect(kind=DefectKind.KNOT, x_mm=1000.0, y_mm=160.0, length_mm=20.0, width_mm=20.0),)
    board = replace(_board(length_mm=1700.0, width_mm=180.0), defects=flaws if knot else ())
    problem = build_problem((board,), (), (_panel(320.0),), cutting=CUTTING)
    length, wide, low = (round(mm * UNITS_PER_MM) for mm in (800.0, 170.0, 5.0))
    narrow = wide - round(narrower_mm * UNITS_PER_MM)
    after = length + problem.cross
    spots = [
        Spot(kind=0, x=0, y=low, length=length, width=wide),
        Spot(kind=0, x=after, y=low, length=length, width=narrow),
    ]
    strip = Strip(y=low, width=wide, spots=spots)
    pattern = Pattern(stock=0, segments=[Segment(x=0, length=after + length, strips=[strip])])
    widths = [spot.width for spot in with_slivers_left_on(problem, pattern).spots()]
    assert widths == [wide, wide if kept else narrow]
    laid = board_layout(problem, pattern, cutting=CUTTING, names=BlankNames.of(problem))
    assert [c.kind for c in laid.cuts].count(CutKind.RIP) == (1 if kept else 2)
