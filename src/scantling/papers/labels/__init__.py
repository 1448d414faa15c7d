"""Labels for boards: what a board is, to read from across the shop, and for a phone."""

from scantling.papers.labels.board_label import Origin, board_label
from scantling.papers.labels.label import Label
from scantling.papers.labels.sheet import COLUMNS, HEIGHT_MM, ROWS, WIDTH_MM, labels_pdf

__all__ = ["COLUMNS", "HEIGHT_MM", "ROWS", "WIDTH_MM", "Label", "Origin", "board_label", "labels_pdf"]
