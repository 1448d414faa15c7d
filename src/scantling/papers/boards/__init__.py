"""Rough boards as drawings: parts, figure, flaws, cuts in order, running sizes, what is left."""

from scantling.papers.boards.drawing import BoardScale, board_corner, board_scale, draw_board
from scantling.papers.boards.picture import (
    BoardCut,
    BoardFlaw,
    BoardOffcut,
    BoardPart,
    BoardPicture,
    BoardStretch,
)
from scantling.papers.boards.place import BoardPlace

__all__ = [
    "BoardCut",
    "BoardFlaw",
    "BoardOffcut",
    "BoardPart",
    "BoardPicture",
    "BoardPlace",
    "BoardScale",
    "BoardStretch",
    "board_corner",
    "board_scale",
    "draw_board",
]
