"""Pictures of boards: figure from the rings, sizes to chalk from, and the chalk list that goes with them."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import combinations, pairwise

import pytest

from scantling.papers.boards import BoardFlaw, BoardPicture, BoardScale, board_scale, draw_board
from scantling.papers.boards.figure import figure_lines
from scantling.papers.drawing import Sheet, Text, simplified, text_box
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.timber_pages import begun_words, board_pictures
from scantling.papers.words.chalk_list import boards_to_cut, chalk_stands
from scantling.plan.made.bench import bench_state
from scantling.stock import Blank, Board, Cutting, verify_layout
from scantling.stock.layouts.layout import CutKind, Layout
from scantling.stock.racks.benchnotes import BenchNotes, CutPart, Left, Pin, begun_by
from scantling.stock.solving.solve import LayoutRequest
from scantling.units import LengthStyle, Round
from tests.papers.reading_table import BOARDS
from tests.plan.jobs import demo_plan

MM = Figures(style=LengthStyle(inch=False, denominator=32, step_mm=0.5))
INCH = Figures(style=LengthStyle(inch=True, denominator=32, step_mm=0.5))
PLAIN = BoardPicture(
    name="B1", about="", length_mm=2440.0, width_mm=200.0, far_width_mm=170.0, parts=(), ring_angle_deg=None
)


def _turns(line: tuple[tuple[float, float], ...]) -> bool:
    """Whether a line comes back along the board."""
    steps = {b[0] > a[0] for a, b in pairwise(line)}
    return steps == {True, False}


def test_a_flat_sawn_board_has_cathedrals_and_a_quarter_sawn_one_has_none() -> None:
    """The tips of the rings lie on a flat-sawn face; on a quarter-sawn one every line runs one way."""
    flat = figure_lines(replace(PLAIN, ring_angle_deg=0.0))
    quarter = figure_lines(replace(PLAIN, ring_angle_deg=90.0))
    assert any(map(_turns, flat))
    assert quarter
    assert not any(map(_turns, quarter))


def test_lines_of_a_quarter_sawn_board_are_straight_and_those_of_a_rift_sawn_one_spread() -> None:
    """A line of a quarter-sawn board keeps within 8 mm of its chord in 2.4 m; the waver drawn is 2 mm."""
    for line in figure_lines(replace(PLAIN, ring_angle_deg=90.0, far_width_mm=200.0)):
        assert len(simplified(line, within_mm=8.0)) == 2
    quarter, rift = (len(figure_lines(replace(PLAIN, ring_angle_deg=a))) for a in (90.0, 45.0))
    assert rift < quarter  # the same rings, cut at a slant, lie farther apart on the face


@pytest.mark.parametrize("angle", [None, 0.0, 30.0, 45.0, 90.0])
def test_the_figure_stays_on_the_board_and_repeats(angle: float | None) -> None:
    """Every point lies on the tapered face; the same board has the same figure, another board another."""
    picture = replace(PLAIN, ring_angle_deg=angle)
    lines = figure_lines(picture)
    assert lines == figure_lines(picture)
    assert lines != figure_lines(replace(picture, name="B2"))
    for x, y in (point for line in lines for point in line):
        assert -1e-6 <= x <= 2440.0 + 1e-6
        assert -0.1 <= y <= picture.width_at_mm(x) + 0.1


def _between(a: tuple[float, float], b: tuple[float, float]) -> list[tuple[float, float]]:
    return [(a[0] + (b[0] - a[0]) * i / 20.0, a[1] + (b[1] - a[1]) * i / 20.0) for i in range(21)]


def test_the_figure_parts_round_a_knot() -> None:
    """No line crosses a knot of 60 x 40 mm, whatever the rings; without it some would."""
    knot = BoardFlaw(kind="knot", x_mm=1000.0, y_mm=80.0, length_mm=60.0, width_mm=40.0)

    def crossing(picture: BoardPicture) -> int:
        inner = (knot.x_mm + 15, knot.x_mm + 45, knot.y_mm + 4, knot.y_mm + 36)
        points = (p for line in figure_lines(picture) for a, b in pairwise(line) for p in _between(a, b))
        return sum(inner[0] < x < inner[1] and inner[2] < y < inner[3] for x, y in points)

    for angle in (0.0, 45.0, 90.0):
        assert crossing(replace(PLAIN, ring_angle_deg=angle, flaws=(knot,))) == 0
        control = replace(PLAIN, ring_angle_deg=angle)
        assert crossing(control) > 0 or angle == 0.0  # cathedrals are drawn too sparsely to be sure of one


def _crowding(sheet: Sheet) -> list[tuple[str, str]]:
    """Pairs of words whose boxes share an area."""
    texts = [i for i in sheet.items if isinstance(i, Text)]
    boxes = [(t.text, text_box(t)) for t in texts]
    return [
        (one, other)
        for (one, a), (other, b) in combinations(boxes, 2)
        if a[0] < b[2] - 0.2 and b[0] < a[2] - 0.2 and a[1] < b[3] - 0.2 and b[1] < a[3] - 0.2
    ]


@pytest.mark.parametrize("figures", [MM, INCH], ids=["mm", "inch"])
def test_no_words_on_a_board_run_into_each_other(figures: Figures) -> None:
    """Names, sizes, numbers of cuts and running sizes of the demo's boards keep apart in both units."""
    pictures = board_pictures(demo_plan(), figures=figures)
    scale = board_scale(pictures, room_mm=173.0)
    for picture in pictures:
        assert _crowding(draw_board(picture, room_mm=173.0, scale=scale)) == [], picture.name


def test_running_sizes_run_from_one_end_and_from_the_straightened_edge() -> None:
    """Every crosscut is told from the left end; every rip from the straightened edge under it, rounded up."""
    plan = demo_plan()
    layout = plan.timber.layout
    assert layout is not None
    for laid, picture in zip(layout.boards, board_pictures(plan, figures=MM), strict=True):
        sheet = draw_board(picture, room_mm=173.0, scale=BoardScale(along=18.0, across=9.0))
        words = {i.text for i in sheet.items if isinstance(i, Text)}
        for cut in laid.cuts:
            if cut.kind.value == "crosscut":
                assert MM.bare(cut.x_mm, Round.UP) in words
        for placed in laid.placed:
            edge = {c.y_mm + c.width_mm for c in laid.cuts if c.kind.value == "straighten edge"}
            rips = {round(c.y_mm, 3) for c in laid.cuts if c.kind.value == "rip"}
            top = round(placed.y_mm + placed.width_mm, 3)
            if top in rips and placed.y_mm in edge:
                assert MM.bare(placed.width_mm, Round.UP) in words


def test_the_chalk_list_holds_every_cut_of_every_board_once() -> None:
    """Numbers told, runs of them unrolled, are those of the boards; parts come free once each."""
    plan = demo_plan()
    layout = plan.timber.layout
    assert layout is not None
    boards = boards_to_cut(layout, plan.timber.bench)
    told: Counter[tuple[str, int]] = Counter()
    freed: Counter[str] = Counter()
    for stand in chalk_stands(boards, plan.milling, figures=MM):
        for row in stand.rows:
            for run in row.order.split(", "):
                first, _, last = run.partition("\N{EN DASH}")
                told.update((row.board, n) for n in range(int(first), int(last or first) + 1))
            freed.update(row.parts)
    assert told == Counter((b.board.name, c.order) for b in boards for c in b.cuts)
    assert set(freed) == {p.blank.part for b in boards for p in b.placed}


@pytest.mark.parametrize(
    ("at_mm", "yields", "told"),
    [
        (120.0, ("", "leg_fl"), "waste off; front left leg stays"),
        (0.4, ("", "leg_fl"), "only the kerf off; front left leg stays"),
        (120.0, ("", "B1-A"), "waste off"),
        (620.0, ("leg_fl", ""), "Front left leg"),
        (620.0, ("leg_fl", "leg_fr"), "Front left leg; front right leg stays"),
    ],
)
def test_the_chalk_list_tells_what_is_cut_to_the_stop_from_what_stays(
    at_mm: float, yields: tuple[str, str], told: str
) -> None:
    """What stays after the last cut of a piece is not as long as the stop says: it is never named alone."""
    plan = demo_plan()
    layout = plan.timber.layout
    assert layout is not None
    laid = layout.boards[0]
    crosscut = next(cut for cut in laid.cuts if cut.kind is CutKind.CROSSCUT)
    cut = replace(crosscut, order=1, piece="B1-A", at_mm=at_mm, yields=yields)
    (stand,) = chalk_stands([replace(laid, cuts=(cut,), offcuts=())], plan.milling, figures=MM)
    assert [row.leaves for row in stand.rows] == [told]


def test_the_chalk_list_names_what_does_the_cutting() -> None:
    """The demo's shop has no miter saw that takes these boards: crosscuts stand under its track saw."""
    plan = demo_plan()
    layout = plan.timber.layout
    assert layout is not None
    titles = [s.title for s in chalk_stands(layout.boards, plan.milling, figures=MM)]
    assert titles[:3] == ["Crosscut: track saw", "Straighten the lower edge: jointer", "Rip: table saw"]
    assert titles[3].startswith("Crosscut again")


def _oak(name: str, length_mm: float, width_mm: float) -> Blank:
    return Blank(
        name=name, part=name, species="white oak", length_mm=length_mm, width_mm=width_mm, thickness_mm=25.4
    )


@pytest.mark.parametrize(("up_mm", "rips"), [(None, 1), (5.0, 1), (70.0, 2)])
def test_a_part_pinned_to_its_place_is_drawn_and_its_cuts_free_it(up_mm: float | None, rips: int) -> None:
    """A leg pinned 600 mm from the end of C1, or 70 mm up too: cuts that check out, told as pinned."""
    board = Board(name="C1", species="white oak", quarters=4.0, length_mm=2440.0, width_mm=200.0)
    leg = _oak("leg", 700.0, 60.0)
    request = LayoutRequest(boards=(board,), blanks=(leg,), cutting=Cutting())
    notes = BenchNotes(file="notes", pins=(Pin(name="leg", board="C1", at_mm=600.0, up_mm=up_mm),))
    begun = begun_by(request, notes)
    (parted,) = begun.parted
    assert [c.kind.value for c in parted.cuts] == ["crosscut", "crosscut", "straighten edge"] + ["rip"] * rips
    assert {o.name for o in parted.offcuts if o.usable} == {b.name for b in begun.request.boards}
    layout = Layout(
        boards=(parted,),
        unplaced=(),
        strips=(),
        unused=(),
        price=None,
        waste_pct=100.0 * (1.0 - 700.0 * 60.0 / (2440.0 * 200.0)),
        bound_price=None,
        gap_pct=None,
        short_proven=False,
        seed=1,
    )
    assert verify_layout(layout, boards=(board,), blanks=(leg,), cutting=Cutting()) == ()
    assert boards_to_cut(replace(layout, boards=()), bench_state(notes, begun)) == (parted,)


def test_a_board_left_of_one_begun_says_so() -> None:
    """The picture of what is left of C1 names what came out of it."""
    board = Board(name="C1", species="white oak", quarters=4.0, length_mm=2440.0, width_mm=200.0)
    request = LayoutRequest(boards=(board,), blanks=(_oak("leg", 700.0, 60.0), _oak("rail", 500.0, 60.0)))
    left = Left(board="C1", length_mm=1500.0, width_mm=200.0)
    notes = BenchNotes(file="notes", cut=(CutPart(name="leg", board="C1"),), left=(left,))
    bench = bench_state(notes, begun_by(request, notes))
    assert begun_words("C1 rest", bench) == ("What is left of C1; cut from it already: Leg.",)
    assert begun_words("C2", bench) == ()
    assert begun_words("C1 rest", None) == ()


def test_notes_on_a_board_stand_over_it() -> None:
    """A note takes a line of its own between the name and the board."""
    noted = replace(BOARDS[0], notes=("What is left of C2.",))
    scale = board_scale(BOARDS, room_mm=173.0)
    plain, told = (draw_board(b, room_mm=173.0, scale=scale) for b in (BOARDS[0], noted))
    assert told.height_mm > plain.height_mm
    assert "What is left of C2." in {i.text for i in told.items if isinstance(i, Text)}
