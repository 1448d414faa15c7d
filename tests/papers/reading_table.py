"""Drawings of an invented reading table, for the tests of papers: plain view models, no plan behind them."""

from __future__ import annotations

import math

from scantling.papers.boards import BoardCut, BoardFlaw, BoardOffcut, BoardPart, BoardPicture
from scantling.papers.drawing import Side
from scantling.papers.marking.face_view import Distance, EndAngle, FaceMark, FaceView, MarkedOut, MarkedShape
from scantling.papers.marking.part_sheet import PartDrawing
from scantling.papers.marking.piece_views import Balloon, PiecePicture, PieceView, PieceViews, ViewSize
from scantling.papers.pictures.timetable_picture import Bar, BarKind, TimetablePicture, TimetableRow
from scantling.papers.pictures.year_picture import YearLine, YearLineStyle, YearMark, YearPanel, YearPicture

__all__ = ["BOARDS", "LEG", "PICTURE", "TIMETABLE", "TOP", "VIEWS", "YEAR"]

LEG_FACE = FaceView(
    title="Inside face, seen from the left",
    outline=((0.0, 0.0), (718.2, 0.0), (724.1, 48.0), (5.9, 48.0)),
    visible=(((90.0, 0.0), (90.0, 48.0)),),
    hidden=(((90.0, 8.0), (720.0, 10.0)),),
    marks=(
        MarkedOut(
            tag="A",
            x_mm=45.0,
            y_mm=24.0,
            length_mm=50.0,
            width_mm=10.0,
            length="50",
            from_end="45 mm",
            from_edge="24 mm",
        ),
        MarkedOut(
            tag="B",
            x_mm=45.0,
            y_mm=40.0,
            length_mm=10.0,
            width_mm=10.0,
            shape=MarkedShape.HOLE,
            hidden=True,
        ),
    ),
    lengths=(
        Distance(low_mm=0.0, high_mm=724.1, text="724.5 mm"),
        Distance(low_mm=0.0, high_mm=90.0, text="90 mm"),
    ),
    widths=(Distance(low_mm=0.0, high_mm=48.0, text="48 mm"),),
    angles=(EndAngle(x_mm=0.0, y_mm=0.0, from_deg=83.03, to_deg=0.0, text="83.0°"),),
    mark=FaceMark.FACE,
)
LEG = PartDrawing(
    name="leg_fl",
    views=(
        LEG_FACE,
        FaceView(
            title="Back face, seen from behind",
            outline=((0.0, 0.0), (720.0, 0.0), (724.1, 48.0), (4.2, 48.0)),
            marks=(
                MarkedOut(
                    tag="C",
                    x_mm=45.0,
                    y_mm=20.0,
                    length_mm=56.0,
                    width_mm=10.0,
                    length="50",
                    from_end="45 mm",
                    from_edge="20 mm",
                ),
            ),
            lengths=(Distance(low_mm=0.0, high_mm=724.1, text="724.5 mm"),),
            widths=(Distance(low_mm=0.0, high_mm=48.0, text="48 mm"),),
            mark=FaceMark.EDGE,
        ),
    ),
)
TOP = PartDrawing(
    name="top",
    views=(
        FaceView(
            title="Under face",
            outline=((0.0, 0.0), (1220.0, 0.0), (1220.0, 660.0), (0.0, 660.0)),
            marks=tuple(
                MarkedOut(
                    tag=f"P{i + 1}",
                    x_mm=15.0,
                    y_mm=y,
                    length_mm=18.0 if i != 2 else 6.0,
                    width_mm=6.0,
                    turn_deg=90.0,
                    from_end="15 mm" if i == 0 else "",
                    from_edge=f"{y:g} mm",
                )
                for i, y in enumerate((60.0, 195.0, 330.0, 465.0, 600.0))
            ),
            lengths=(Distance(low_mm=0.0, high_mm=1220.0, text="1220 mm"),),
            widths=(Distance(low_mm=0.0, high_mm=660.0, text="660 mm"),),
            mark=FaceMark.FACE,
        ),
    ),
)
BOARDS = (
    BoardPicture(
        name="C2",
        about="cherry, 5/4, 2440 × 190 mm",
        length_mm=2440.0,
        width_mm=190.0,
        far_width_mm=182.0,
        parts=(
            BoardPart(
                name="top strip 1", size="1260 × 150 mm", x_mm=30, y_mm=5, length_mm=1260, width_mm=150
            ),
            BoardPart(
                name="apron_front", size="930 × 100 mm", x_mm=1293.2, y_mm=5, length_mm=930, width_mm=100
            ),
            BoardPart(name="cleat", size="120 × 28", x_mm=1293.2, y_mm=110, length_mm=120, width_mm=28),
        ),
        flaws=(BoardFlaw(kind="knot", x_mm=2270, y_mm=60, length_mm=60, width_mm=45),),
        cuts=(
            BoardCut(
                order=1, crosswise=True, x_mm=26.8, y_mm=0, length_mm=3.2, width_mm=190, running="27 mm"
            ),
            BoardCut(
                order=2, crosswise=True, x_mm=1290, y_mm=0, length_mm=3.2, width_mm=187, running="1290 mm"
            ),
            BoardCut(
                order=3, crosswise=True, x_mm=2223.2, y_mm=0, length_mm=3.2, width_mm=184, running="2223 mm"
            ),
            BoardCut(
                order=4, crosswise=False, x_mm=30, y_mm=155, length_mm=1260, width_mm=3.2, running="150 mm"
            ),
            BoardCut(order=5, crosswise=False, x_mm=1293.2, y_mm=105, length_mm=930, width_mm=3.2),
        ),
        offcuts=(
            BoardOffcut(name="", x_mm=0, y_mm=0, length_mm=26.8, width_mm=190),
            BoardOffcut(name="", x_mm=30, y_mm=158.2, length_mm=1260, width_mm=28),
            BoardOffcut(name="keep C2-a", x_mm=1416, y_mm=108.2, length_mm=807, width_mm=76),
            BoardOffcut(name="", x_mm=2226.4, y_mm=0, length_mm=213.6, width_mm=182),
        ),
    ),
    BoardPicture(
        name="C3",
        about="cherry, 5/4, 3050 × 165 mm",
        length_mm=3050.0,
        width_mm=165.0,
        far_width_mm=165.0,
        parts=(
            BoardPart(name="end_left", size="700 × 85", x_mm=20, y_mm=5, length_mm=700, width_mm=85),
            BoardPart(
                name="top strip 2", size="1260 × 150", x_mm=723.2, y_mm=5, length_mm=1260, width_mm=150
            ),
        ),
        cuts=(
            BoardCut(
                order=1, crosswise=True, x_mm=720, y_mm=0, length_mm=3.2, width_mm=165, running="720 mm"
            ),
            BoardCut(
                order=2, crosswise=True, x_mm=1983.2, y_mm=0, length_mm=3.2, width_mm=165, running="1983 mm"
            ),
        ),
        offcuts=(BoardOffcut(name="keep C3-a", x_mm=1986.4, y_mm=0, length_mm=1063.6, width_mm=165),),
    ),
)


def _wave(middle: float, swing: float, late_d: float) -> tuple[float, ...]:
    return tuple(
        middle - swing * math.cos(2.0 * math.pi * (d * 5.0 - 20.0 - late_d) / 365.0) for d in range(74)
    )


YEAR = YearPicture(
    title="The year in the room",
    panels=(
        YearPanel(
            title="Air of the room, relative humidity, %",
            low=0.0,
            high=60.0,
            ticks=(0.0, 20.0, 40.0, 60.0),
            band=tuple((v - 5.0, v + 5.0) for v in _wave(32.0, 12.0, 0.0)),
            lines=(YearLine(name="daily mean", values=_wave(32.0, 12.0, 0.0)),),
        ),
        YearPanel(
            title="Moisture of the wood, %",
            low=4.0,
            high=10.0,
            ticks=(4.0, 6.0, 8.0, 10.0),
            lines=(
                YearLine(name="top, 24 mm", values=_wave(6.4, 1.5, 30.0), style=YearLineStyle.FIRM),
                YearLine(name="aprons, 20 mm", values=_wave(6.4, 1.7, 18.0), style=YearLineStyle.DASHED),
            ),
        ),
        YearPanel(
            title="Room left at pin slot 1, mm",
            low=0.0,
            high=4.0,
            ticks=(0.0, 1.0, 2.0, 3.0, 4.0),
            lines=(YearLine(name="pin slot 1", values=_wave(2.2, 1.3, 30.0), style=YearLineStyle.FIRM),),
            limit=0.5,
            limit_name="must keep 0.5 mm",
            spot=YearMark(day=51, text="least: 0.9 mm, 20 Feb"),
        ),
    ),
    marks=(YearMark(day=258, text="built 15 Sep"),),
)
_TASKS = (
    ("Rough out", 0.0, 0.25, 0.0, "4 h"),
    ("Rest the rough blanks", 0.25, 0.25, 2.0, ""),
    ("Joint and plane to size", 2.3, 0.5, 0.0, "6 h 30"),
    ("Glue the field panel, stage 1", 3.0, 0.15, 1.0, "1 h 10"),
    ("Cut mortises in legs", 3.2, 0.4, 0.0, "3 h"),
    ("Glue up the base", 4.1, 0.2, 1.0, "1 h 30"),
    ("Fit breadboard ends", 5.1, 0.6, 0.0, "5 h"),
    ("Sand", 6.0, 0.6, 0.0, "5 h 15"),
    ("Coat 1", 7.0, 0.1, 1.0, "0 h 50"),
    ("Coat 2", 8.1, 0.1, 1.0, "0 h 50"),
    ("Cure before use", 9.2, 0.0, 3.0, ""),
)
TIMETABLE = TimetablePicture(
    rows=tuple(
        TimetableRow(
            number=str(i + 1),
            name=name,
            hours=hours,
            bars=(
                *((Bar(kind=BarKind.WORK, start_d=at, end_d=at + work),) if work and hours else ()),
                *((Bar(kind=BarKind.WAIT, start_d=at + work, end_d=at + work + wait),) if wait else ()),
            ),
        )
        for i, (name, at, work, wait, hours) in enumerate(_TASKS)
    ),
    days=tuple(
        f"{d} {14 + i}"
        for i, d in enumerate(("Mo", "Tu", "We", "Th", "Fr", "Sa", "Su", "Mo", "Tu", "We", "Th", "Fr", "Sa"))
    ),
    free=(5, 6, 12),
)


def _box(
    x0: float, y0: float, x1: float, y1: float
) -> tuple[tuple[tuple[float, float], tuple[float, float]], ...]:
    corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    return tuple((corners[i], corners[(i + 1) % 4]) for i in range(4))


VIEWS = PieceViews(
    front=PieceView(
        title="Front",
        visible=(
            *_box(0, 716, 1370, 740),
            ((110, 716), (30, 0)),
            ((158, 716), (62, 0)),
            ((30, 0), (62, 0)),
            ((1260, 716), (1340, 0)),
            ((1212, 716), (1308, 0)),
            ((1340, 0), (1308, 0)),
            ((150, 640), (1220, 640)),
        ),
        hidden=(((75, 730), (95, 730)),),
        sizes=(
            ViewSize(side=Side.BELOW, low_mm=30, high_mm=1340, text="1310 mm"),
            ViewSize(side=Side.ABOVE, low_mm=0, high_mm=1370, text="1370 mm"),
            ViewSize(side=Side.ABOVE, low_mm=0, high_mm=75, text="75 mm"),
            ViewSize(side=Side.LEFT, low_mm=0, high_mm=740, text="740 mm"),
            ViewSize(side=Side.LEFT, low_mm=716, high_mm=740, text="24 mm"),
        ),
    ),
    plan=PieceView(
        title="Plan",
        visible=(*_box(0, 0, 1370, 660), *_box(0, 0, 75, 660), *_box(1295, 0, 1370, 660)),
        sizes=(ViewSize(side=Side.LEFT, low_mm=0, high_mm=660, text="660 mm"),),
    ),
    side=PieceView(
        title="Right side",
        visible=(*_box(0, 716, 660, 740), ((80, 716), (20, 0)), ((580, 716), (640, 0))),
        sizes=(ViewSize(side=Side.BELOW, low_mm=20, high_mm=640, text="620 mm"),),
    ),
)


def _iso(x: float, y: float, z: float) -> tuple[float, float]:
    return ((x + y) * math.cos(math.pi / 6), (y - x) * math.sin(math.pi / 6) + z)


def _solid(
    x0: float, y0: float, z0: float, x1: float, y1: float, z1: float
) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    low = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    lines = []
    for i, (a, b) in enumerate(zip(low, low[1:] + low[:1], strict=True)):
        lines.append((_iso(*a, z1), _iso(*b, z1)))
        if i < 2:
            lines.append((_iso(*a, z0), _iso(*b, z0)))
        if i < 3:
            lines.append((_iso(*a, z0), _iso(*a, z1)))
    return lines


PICTURE = PiecePicture(
    title="Reading table",
    visible=tuple(
        _solid(0, 0, 716, 1370, 660, 740)
        + _solid(60, 40, 0, 100, 80, 716)
        + _solid(1270, 40, 0, 1310, 80, 716)
        + _solid(1270, 580, 0, 1310, 620, 716)
    ),
    balloons=tuple(
        Balloon(text=str(i + 1), x_mm=_iso(*p)[0], y_mm=_iso(*p)[1])
        for i, p in enumerate(
            (
                (700, 300, 740),
                (30, 300, 740),
                (1340, 300, 740),
                (80, 60, 300),
                (1290, 60, 300),
                (1290, 600, 300),
                (700, 40, 716),
            )
        )
    ),
)
