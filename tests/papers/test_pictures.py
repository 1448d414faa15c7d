"""Pictures say what their view models say: boards, parts, views, the year, the timetable."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations

import pytest

from scantling.papers.boards import (
    BoardCut,
    BoardPart,
    BoardPicture,
    BoardScale,
    board_scale,
    draw_board,
)
from scantling.papers.drawing import (
    Circle,
    Fill,
    Item,
    Polygon,
    Sheet,
    Side,
    Text,
    View,
    Window,
    bounds,
    draw_stack,
    text_box,
)
from scantling.papers.marking.face_detail import details_of
from scantling.papers.marking.face_drawing import draw_face, spans_above, spans_across, spans_below
from scantling.papers.marking.face_view import (
    Distance,
    EndAngle,
    FaceView,
    MarkedOut,
    MarkedShape,
    mark_outline,
)
from scantling.papers.marking.part_sheet import draw_part
from scantling.papers.marking.piece_views import Balloon, draw_picture, draw_views, line_pairs
from scantling.papers.pictures.timetable_picture import draw_timetable
from scantling.papers.pictures.year_picture import draw_year
from tests.papers.reading_table import BOARDS, LEG, LEG_FACE, PICTURE, TIMETABLE, TOP, VIEWS, YEAR

ROOM = 173.0


def _words(sheet: Sheet) -> list[str]:
    return _lettering(sheet.items)


def _lettering(items: tuple[Item, ...]) -> list[str]:
    found = []
    for item in items:
        if isinstance(item, Text):
            found.append(item.text)
        elif isinstance(item, Window):
            found += _lettering(item.items)
    return found


def _inked(items: tuple[Item, ...]) -> list[Polygon]:
    return [i for i in items if isinstance(i, Polygon) and i.fill is Fill.INK]


def test_a_board_names_its_parts_cuts_and_flaws() -> None:
    """Every part is named with its size, every cut has its number, the knot is named."""
    words = _words(draw_board(BOARDS[0], room_mm=ROOM, scale=board_scale(BOARDS, room_mm=ROOM)))
    for wanted in (
        "top strip 1",
        "1260 × 150 mm",
        "apron_front",
        "knot",
        "keep C2-a",
        "1",
        "2",
        "3",
        "4",
        "5",
    ):
        assert wanted in words
    assert any("cleat 120 × 28" in w for w in words), "a part too small for its name stands in the key"


def _narrow_strips() -> BoardPicture:
    """Three strips of 790 x 52 mm one above the other: their names fill them, and each has a rip."""
    strips = range(3)
    return BoardPicture(
        name="W2",
        about="white oak",
        length_mm=820.0,
        width_mm=165.0,
        far_width_mm=165.0,
        parts=tuple(
            BoardPart(
                name="back right leg",
                size="31 3/32 × 2 1/32",
                x_mm=5.0,
                y_mm=55.0 * i,
                length_mm=790.0,
                width_mm=52.0,
            )
            for i in strips
        ),
        cuts=tuple(
            BoardCut(
                order=i + 1, crosswise=False, x_mm=5.0, y_mm=55.0 * i + 52.0, length_mm=790.0, width_mm=3.0
            )
            for i in strips
        ),
    )


def test_numbers_of_cuts_cover_no_name_and_no_other_number() -> None:
    """On strips as narrow as their lettering the rings stand clear of names, sizes and each other."""
    sheet = draw_board(_narrow_strips(), room_mm=ROOM, scale=BoardScale(along=20.0, across=10.0))
    rings = [i for i in sheet.items if isinstance(i, Circle)]
    names = [text_box(i) for i in sheet.items if isinstance(i, Text) and "leg" in i.text]
    assert (len(rings), len(names)) == (3, 3)
    assert all("2 1/32" in word for word in _words(sheet) if "leg" in word)
    for ring in rings:
        for left, top, right, bottom in names:
            near = (min(max(ring.center[0], left), right), min(max(ring.center[1], top), bottom))
            assert math.dist(near, ring.center) >= ring.radius_mm
    for one, other in combinations(rings, 2):
        assert math.dist(one.center, other.center) > one.radius_mm + other.radius_mm


def test_the_figure_of_an_angle_keeps_clear_of_letters_and_sizes() -> None:
    """On a narrow leg with a mortise at each end no lettering runs into other lettering or the outline."""
    lean = (
        EndAngle(x_mm=0.0, y_mm=0.0, from_deg=87.0, to_deg=0.0, text="87.0°"),
        EndAngle(x_mm=734.0, y_mm=45.0, from_deg=-93.0, to_deg=-180.0, text="87.0°"),
    )
    marks = tuple(
        MarkedOut(
            tag=tag,
            x_mm=x,
            y_mm=20.0,
            length_mm=57.0,
            width_mm=6.0,
            from_far=far,
            from_end="46",
            from_edge="20",
        )
        for tag, x, far in (("A", 688.0, True), ("B", 155.0, False))
    )
    face = FaceView(
        title="Face",
        outline=((0.0, 0.0), (734.0, 0.0), (734.0, 45.0), (2.4, 45.0)),
        marks=marks,
        angles=lean,
        lengths=(
            Distance(low_mm=0.0, high_mm=734.0, text="734"),
            Distance(low_mm=644.0, high_mm=734.0, text="90"),
        ),
        widths=(Distance(low_mm=0.0, high_mm=45.0, text="45"),),
        start_widths=(Distance(low_mm=0.0, high_mm=45.0, text="45"),),
    )
    place = View(corner=(13.0, 60.0), box=bounds(face.outline), per=6.0)
    rows = [
        *draw_stack(spans_above(face, place), side=Side.ABOVE, edge_mm=place.top),
        *draw_stack(spans_below(face, place), side=Side.BELOW, edge_mm=place.bottom),
        *draw_stack(spans_across(face, place), side=Side.RIGHT, edge_mm=place.right),
    ]
    drawn = [*draw_face(face, place, beside=rows), *rows]
    figures = [i for i in drawn if isinstance(i, Text)]
    assert sum(i.text == "87.0°" for i in figures) == 2
    for one, other in combinations(figures, 2):
        (l0, t0, r0, b0), (l1, t1, r1, b1) = text_box(one), text_box(other)
        assert r0 <= l1 or r1 <= l0 or b0 <= t1 or b1 <= t0, (one.text, other.text)
    for figure in figures:
        if figure.text in {"87.0°", "A", "B"}:
            left, top, right, bottom = text_box(figure)
            assert not top < place.top < bottom, figure.text
            assert not top < place.bottom < bottom, figure.text
            assert not left < place.right < right, figure.text


def test_boards_of_one_packet_share_a_scale_that_fits_the_longest() -> None:
    """3050 mm in 169.5 mm asks for 1 to 18; widths are drawn twice as large, and the note says so."""
    scale = board_scale(BOARDS, room_mm=ROOM)
    assert (scale.along, scale.across) == (18.0, 9.0)
    assert scale.note == "lengths 1:18, widths 1:9"


def test_a_part_on_a_board_is_drawn_to_scale() -> None:
    """A blank of 1260 x 150 mm is 63.0 x 15.0 mm on paper at 1:20 and 1:10."""
    sheet = draw_board(BOARDS[0], room_mm=ROOM, scale=BoardScale(along=20.0, across=10.0))
    boxes = [bounds(i.points) for i in sheet.items if isinstance(i, Polygon) and i.fill is Fill.PAPER]
    assert any((b.width, b.height) == pytest.approx((63.0, 15.0)) for b in boxes)


def test_a_mortise_is_as_long_and_wide_as_it_says() -> None:
    """The outline of a slot 50 x 10 mm measures 50 x 10, and half a turn changes nothing."""
    mark = MarkedOut(tag="A", x_mm=45.0, y_mm=24.0, length_mm=50.0, width_mm=10.0)
    box = bounds(mark_outline(mark))
    assert (box.width, box.height) == pytest.approx((50.0, 10.0))
    turned = bounds(mark_outline(replace(mark, turn_deg=90.0)))
    assert (turned.width, turned.height) == pytest.approx((10.0, 50.0))
    hole = bounds(mark_outline(replace(mark, shape=MarkedShape.HOLE, length_mm=10.0)))
    assert (hole.width, hole.height) == pytest.approx((10.0, 10.0), abs=1e-9)


def test_joints_of_a_long_part_are_drawn_larger() -> None:
    """A leg's mortises near its end get a detail that reaches the end; a wide panel's pins get none."""
    details = details_of(LEG_FACE)
    assert len(details) == 1
    assert details[0].low_mm == 0.0
    assert 70.0 < details[0].high_mm < 110.0
    assert details_of(TOP.views[0]) == ()


def test_a_part_shows_each_figure_once_where_it_is_needed() -> None:
    """With a detail, the mortise's distances stand there and not on the whole face as well."""
    words = _words(draw_part(LEG, room_mm=ROOM))
    assert words.count("45 mm") == 2  # one for each of the two faces
    assert words.count("724.5 mm") == 2
    assert "83.0°" in words


def test_three_views_line_up() -> None:
    """Plan and front share their left edge, front and side their floor, at one round scale."""
    sheet = draw_views(VIEWS, room_mm=ROOM, height_mm=220.0)
    assert "1:15, third-angle views" in _words(sheet)
    for figure in ("1370 mm", "740 mm", "660 mm"):
        assert figure in _words(sheet)


def test_balloons_do_not_cover_each_other_and_stay_beside_the_picture() -> None:
    """The rings of numbers are clear of each other."""
    sheet = draw_picture(PICTURE, room_mm=ROOM, height_mm=200.0)
    rings = [i for i in sheet.items if isinstance(i, Circle) and i.fill is Fill.PAPER]
    assert len(rings) == len(PICTURE.balloons)
    for i, a in enumerate(rings):
        for b in rings[:i]:
            apart = ((a.center[0] - b.center[0]) ** 2 + (a.center[1] - b.center[1]) ** 2) ** 0.5
            assert apart > a.radius_mm + b.radius_mm


def test_a_column_of_many_numbers_stays_on_the_picture() -> None:
    """33 of them, most at the left: 18 rings stand over one another there, and the highest is not cut off."""
    crowd = tuple(Balloon(text=str(i), x_mm=float(i), y_mm=300.0) for i in range(33))
    low = replace(PICTURE, visible=(((0.0, 0.0), (1000.0, 0.0)), ((0.0, 0.0), (0.0, 300.0))), hidden=())
    sheet = draw_picture(replace(low, balloons=crowd), room_mm=ROOM, height_mm=100.0)
    rings = [i for i in sheet.items if isinstance(i, Circle) and i.fill is Fill.PAPER]
    assert len(rings) == 33
    assert min(ring.center[1] - ring.radius_mm for ring in rings) >= 0.0
    assert max(ring.center[1] + ring.radius_mm for ring in rings) <= sheet.height_mm


def test_the_year_names_its_lines_limit_and_worst_day() -> None:
    """Lines are told apart by their names, not by color."""
    words = _words(draw_year(YEAR, room_mm=ROOM))
    for wanted in ("daily mean", "top, 24 mm", "aprons, 20 mm", "must keep 0.5 mm", "least: 0.9 mm, 20 Feb"):
        assert wanted in words
    assert "built 15 Sep" in words
    assert [w for w in words if w in ("Jan", "Jun", "Dec")] == ["Jan", "Jun", "Dec"]


def test_a_flat_year_can_be_drawn() -> None:
    """A line that never moves is drawn without dividing by nothing."""
    panel = YEAR.panels[1]
    still = replace(panel, lines=(replace(panel.lines[0], values=(6.0,)),))
    assert "top, 24 mm" in _words(draw_year(replace(YEAR, panels=(still,)), room_mm=ROOM))


def test_the_timetable_shows_work_solid_and_waiting_hatched() -> None:
    """As many solid bars as stretches of work, and one in the key."""
    sheet = draw_timetable(TIMETABLE, room_mm=ROOM)
    work = sum(1 for row in TIMETABLE.rows for bar in row.bars if bar.kind.value == "work")
    assert len(_inked(sheet.items)) == work + 1


def test_projected_lines_are_rounded_so_that_drawings_repeat() -> None:
    """Noise beneath a thousandth of a millimeter does not change a drawing."""
    exact = line_pairs([[[0.0, 0.0], [1.0, 2.0]]])
    noisy = line_pairs([[[1e-7, -1e-7], [1.0 + 1e-7, 2.0]]])
    assert exact == noisy
