"""Drawings of the packet, as the sheets show them."""

from __future__ import annotations

from scantling.papers.boards import BoardPicture, board_scale, draw_board
from scantling.papers.drawing.items import Sheet as Drawing
from scantling.papers.drawing.svg import Inking, to_svg
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.season_pages import year_picture
from scantling.papers.pages.timber_pages import board_picture, board_pictures
from scantling.papers.pages.work_pages import timetables
from scantling.papers.pictures.shortfall_picture import draw_shortfall
from scantling.papers.pictures.timetable_picture import draw_timetable
from scantling.papers.pictures.year_picture import draw_year
from scantling.papers.sheets.model import Picture
from scantling.papers.sheets.shortfall import shortfall_picture
from scantling.papers.sheets.show import Show
from scantling.papers.words.asking_words import whole_feet
from scantling.papers.words.order_rows import likes_of
from scantling.plan.result import Plan

__all__ = ["board_drawings", "order_drawings", "sheet_drawings", "shortfall_drawings", "year_drawing"]

ROOM_MM = 178.0
"""Width a drawing is made for; the page scales it. [mm]"""


def _figures(plan: Plan) -> Figures:
    return Figures(style=Show.of(plan).style, currency=plan.pricing.currency)


def _picture(title: str, drawing: Drawing, words: str) -> Picture:
    return Picture(title=title, svg=to_svg(drawing, inking=Inking.PAGE), words=words)


def board_drawings(plan: Plan) -> tuple[Picture, ...]:
    """Every board that is cut, with its blanks, flaws and cuts."""
    return _drawn(board_pictures(plan, figures=_figures(plan)), "Board")


def sheet_drawings(plan: Plan) -> tuple[Picture, ...]:
    """Every sheet that is cut, with its parts and cuts."""
    boards = plan.timber.sheets_cut
    return _drawn(tuple(board_picture(board, figures=_figures(plan)) for board in boards), "Sheet")


def _drawn(pictures: tuple[BoardPicture, ...], kind: str) -> tuple[Picture, ...]:
    if not pictures:
        return ()
    scale = board_scale(pictures, room_mm=ROOM_MM)
    return tuple(
        _picture(
            f"{kind} {picture.name}",
            draw_board(picture, room_mm=ROOM_MM, scale=scale),
            f"{kind} {picture.name}: {', '.join(part.name for part in picture.parts)}",
        )
        for picture in pictures
    )


def shortfall_drawings(plan: Plan) -> tuple[Picture, ...]:
    """How often an amount of wood falls short, a picture each wood and thickness."""
    return tuple(
        _picture(
            f"{s.species}, {s.quarters:g}/4: how much to ask for",
            draw_shortfall(shortfall_picture(s), room_mm=ROOM_MM),
            f"Chance that an amount of {s.species} {s.quarters:g}/4 is not enough: "
            f"{whole_feet(s.ask_board_feet)} board feet fall short at most 5 times in 100",
        )
        for s in plan.timber.shortfalls
    )


def year_drawing(plan: Plan) -> Picture:
    """The year: air, moisture of the wood, width of the parts that move most."""
    drawing = draw_year(year_picture(plan.seasons, plan.year, figures=_figures(plan)), room_mm=ROOM_MM)
    words = "Humidity, moisture of the wood, width of the parts and room at the tightest place, by month"
    return _picture("The year", drawing, words)


def order_drawings(plan: Plan) -> tuple[Picture, ...]:
    """The order of work by day."""
    pictures = timetables(plan.order, likes_of(plan.parts), figures=_figures(plan))
    words = "Steps by day: hands at work, drying"
    parts = (
        [""] if len(pictures) == 1 else [f", part {n + 1} of {len(pictures)}" for n in range(len(pictures))]
    )
    return tuple(
        _picture(f"Day by day{part}", draw_timetable(picture, room_mm=ROOM_MM), words)
        for picture, part in zip(pictures, parts, strict=True)
    )
