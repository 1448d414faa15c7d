"""The drawing model: lettering, dimensions, rows of dimensions, hatching, SVG."""

from __future__ import annotations

import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from io import BytesIO

import pdfplumber
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.papers.boards import board_scale, draw_board
from scantling.papers.drawing import (
    AngleDimension,
    DimensionAxis,
    Hatch,
    Inking,
    Line,
    LinearDimension,
    Sheet,
    Side,
    Span,
    Text,
    Weight,
    Window,
    draw_angle,
    draw_dimension,
    draw_stack,
    text_box,
    text_width_mm,
    to_svg,
)
from scantling.papers.drawing.hatching import hatch_lines
from scantling.papers.marking.part_sheet import draw_part
from scantling.papers.marking.piece_views import draw_picture, draw_views
from scantling.papers.packet import Fact, Figure, PacketData, Section, compile_packet
from scantling.papers.pictures.timetable_picture import draw_timetable
from scantling.papers.pictures.year_picture import draw_year
from tests.papers.reading_table import BOARDS, LEG, PICTURE, TIMETABLE, VIEWS, YEAR

ROOM = 173.0
SHEETS = {
    "board": lambda: draw_board(BOARDS[0], room_mm=ROOM, scale=board_scale(BOARDS, room_mm=ROOM)),
    "part": lambda: draw_part(LEG, room_mm=ROOM),
    "views": lambda: draw_views(VIEWS, room_mm=ROOM, height_mm=220.0),
    "picture": lambda: draw_picture(PICTURE, room_mm=ROOM, height_mm=200.0),
    "year": lambda: draw_year(YEAR, room_mm=ROOM),
    "timetable": lambda: draw_timetable(TIMETABLE, room_mm=ROOM),
}


def _texts(sheet: Sheet) -> list[Text]:
    return [item for item in sheet.items if isinstance(item, Text)]


@pytest.mark.parametrize("name", SHEETS)
@pytest.mark.parametrize("inking", list(Inking))
def test_every_drawing_is_well_formed_and_repeats_exactly(name: str, inking: Inking) -> None:
    """Drawing the same thing twice gives the same characters, and they parse as XML with paths in it."""
    first, second = to_svg(SHEETS[name](), inking=inking), to_svg(SHEETS[name](), inking=inking)
    assert first == second
    root = ET.fromstring(first)  # noqa: S314 - our own characters
    assert len(list(root.iter("{http://www.w3.org/2000/svg}path"))) > 5


@pytest.mark.parametrize("name", SHEETS)
def test_lettering_stays_on_the_sheet(name: str) -> None:
    """No line of lettering of any drawing leaves its sheet."""
    sheet = SHEETS[name]()
    for text in _texts(sheet):
        left, top, right, bottom = text_box(text)
        assert left >= -0.5, text
        assert top >= -0.5, text
        assert right <= sheet.width_mm + 0.5, text
        assert bottom <= sheet.height_mm + 0.5, text


def test_a_page_picture_takes_its_colors_from_the_page() -> None:
    """The page's picture names variables, so that a dark page can turn it; the paper's names none."""
    sheet = SHEETS["board"]()
    assert "var(--sheet-ink" in to_svg(sheet, inking=Inking.PAGE)
    assert "var(" not in to_svg(sheet, inking=Inking.PAPER)
    assert "class=" not in to_svg(sheet, inking=Inking.PAPER)


def test_lettering_is_escaped() -> None:
    """A name with markup in it is shown as written."""
    svg = to_svg(Sheet(width_mm=50, height_mm=10, items=(Text((1.0, 5.0), '<b> & "x"'),)))
    text = next(ET.fromstring(svg).iter("{http://www.w3.org/2000/svg}text"))  # noqa: S314
    assert text.text == '<b> & "x"'


def test_reckoned_width_of_lettering_is_what_the_typesetter_sets() -> None:
    """Widths from the table are within 3 % of the glyphs placed in a PDF."""
    words = ("apron_front 928 x 96 mm", "724.5", "Reference end", "0123456789", "28 in")
    items = tuple(Text((2.0, 10.0 + 10.0 * i), w, 5.0, weight=Weight.REGULAR) for i, w in enumerate(words))
    sheet = Sheet(width_mm=170, height_mm=80, items=items)
    packet = PacketData(
        title="x",
        about="x",
        fingerprint="x",
        facts=(Fact(label="a", value="b"),),
        sections=(Section(title="s", lead="l", blocks=(Figure(sheet=sheet),)),),
        notice="n",
    )
    with pdfplumber.open(BytesIO(compile_packet(packet))) as pdf:
        lines = pdf.pages[1].extract_text_lines()
    set_mm = {line["text"]: (line["x1"] - line["x0"]) * 25.4 / 72.0 for line in lines}
    for word in words:
        assert set_mm[word] == pytest.approx(text_width_mm(word, 5.0), rel=0.03)


def test_a_dimension_stands_where_it_is_asked_to() -> None:
    """A level dimension below two points lies at the offset from the lower one, its figure above it."""
    d = LinearDimension(start=(10.0, 20.0), end=(60.0, 24.0), text="50", offset_mm=7.0)
    items = draw_dimension(d)
    level = [i for i in items if isinstance(i, Line) and i.start[1] == i.end[1] == 31.0]
    assert len(level) == 1
    assert (level[0].start[0], level[0].end[0]) == (10.0, 60.0)
    figure = next(i for i in items if isinstance(i, Text))
    assert text_box(figure)[3] < 31.0
    assert figure.at[0] == pytest.approx(35.0)


def test_an_upright_figure_reads_from_the_right() -> None:
    """A figure along an upright dimension is turned a quarter anticlockwise."""
    d = LinearDimension(
        start=(0.0, 10.0), end=(0.0, 60.0), text="50", offset_mm=-7.0, axis=DimensionAxis.VERTICAL
    )
    figure = next(i for i in draw_dimension(d) if isinstance(i, Text))
    assert figure.turn_deg == pytest.approx(-90.0)
    assert figure.at[0] < -7.0


def test_an_aligned_dimension_keeps_its_distance() -> None:
    """The line of an aligned dimension is parallel to the points, at the offset."""
    d = LinearDimension(
        start=(0.0, 0.0), end=(30.0, 40.0), text="50", offset_mm=5.0, axis=DimensionAxis.ALIGNED
    )
    line = next(
        i
        for i in draw_dimension(d)
        if isinstance(i, Line) and math.dist(i.start, i.end) == pytest.approx(50.0)
    )
    nx, ny = -40.0 / 50.0, 30.0 / 50.0
    assert line.start[0] * nx + line.start[1] * ny == pytest.approx(5.0)
    assert line.end[0] * nx + line.end[1] * ny == pytest.approx(5.0)


def test_a_narrow_dimension_puts_its_figure_outside() -> None:
    """A figure that does not fit between the strokes stands beyond the second one."""
    d = LinearDimension(start=(0.0, 0.0), end=(2.0, 0.0), text="24.5 mm", offset_mm=7.0)
    figure = next(i for i in draw_dimension(d) if isinstance(i, Text))
    assert text_box(figure)[0] > 2.0


def test_an_angle_is_marked_outside_its_arc() -> None:
    """The figure of an angle lies farther from the corner than the arc."""
    d = AngleDimension(center=(0.0, 0.0), radius_mm=9.0, from_deg=-83.0, to_deg=0.0, text="83.0°")
    figure = next(i for i in draw_angle(d) if isinstance(i, Text))
    assert math.hypot(figure.at[0], figure.at[1] - 0.35 * d.size_mm) > 9.0


SPANS = st.lists(
    st.tuples(st.floats(0.0, 150.0), st.floats(0.0, 150.0)).filter(lambda p: abs(p[0] - p[1]) > 0.2),
    min_size=1,
    max_size=9,
)


@given(spans=SPANS, side=st.sampled_from(list(Side)))
def test_no_figure_runs_into_another(spans: list[tuple[float, float]], side: Side) -> None:
    """Whatever the distances, the figures of one side never overlap."""
    chosen = [Span(low=a, high=b, text=f"{abs(a - b):.1f}") for a, b in spans]
    figures = [i for i in draw_stack(chosen, side=side, edge_mm=0.0) if isinstance(i, Text)]
    assert len(figures) == len(chosen)
    boxes = [text_box(f) for f in figures]
    for i, (l0, t0, r0, b0) in enumerate(boxes):
        for l1, t1, r1, b1 in boxes[:i]:
            assert r0 <= l1 + 0.05 or r1 <= l0 + 0.05 or b0 <= t1 + 0.05 or b1 <= t0 + 0.05


def test_hatching_covers_its_outline_and_nothing_else() -> None:
    """Lines 1 mm apart in a 30 x 20 rectangle add up to its area, and all lie inside it."""
    box = ((0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0))
    lines = hatch_lines(Hatch(box, 1.0, 45.0)).lines
    assert sum(math.dist(a, b) for a, b in lines) == pytest.approx(600.0, rel=0.02)
    for point in (p for line in lines for p in line):
        assert -1e-9 <= point[0] <= 30.0 + 1e-9
        assert -1e-9 <= point[1] <= 20.0 + 1e-9


def test_windows_of_one_sheet_do_not_share_an_opening() -> None:
    """Two windows at different places get clip paths of different names."""
    inner = (Line((0.0, 0.0), (5.0, 5.0)),)
    sheet = Sheet(
        width_mm=20,
        height_mm=20,
        items=(Window(inner, (0.0, 0.0), (0, 0, 5, 5)), Window(inner, (6.0, 0.0), (6, 0, 9, 5))),
    )
    root = ET.fromstring(to_svg(sheet))  # noqa: S314
    names = [c.attrib["id"] for c in root.iter("{http://www.w3.org/2000/svg}clipPath")]
    assert len(set(names)) == 2


def test_a_turned_sheet_is_another_sheet() -> None:
    """Changing one figure changes the characters."""
    sheet = Sheet(width_mm=20, height_mm=20, items=(Text((1.0, 5.0), "724"),))
    other = replace(sheet, items=(Text((1.0, 5.0), "725"),))
    assert to_svg(sheet) != to_svg(other)
