"""Writing boards as a rack table that reads back as the same boards."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from scantling.stock.boards.board import Board, Face
from scantling.stock.boards.rackrow import FIELDS
from scantling.wood.ring import RING_NAMES

__all__ = ["rack_csv", "rack_row"]


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:.10g}"


def _defects(board: Board) -> str:
    return "; ".join(
        f"{d.kind.value} at {_number(d.x_mm)} x {_number(d.y_mm)}, "
        f"{_number(d.length_mm)} x {_number(d.width_mm)}"
        + ("" if d.face is Face.THROUGH else f" on {d.face.value}")
        for d in board.defects
    )


def _rings(board: Board) -> str:
    if board.rings is None:
        return ""
    return next(
        (name for name, ring in RING_NAMES.items() if ring == board.rings),
        _number(board.rings.ring_angle_deg),
    )


def rack_row(board: Board) -> dict[str, str]:
    """A board as one line of a rack: every column, empty where it says nothing; lengths in millimeters."""
    b = board
    return {
        "name": b.name,
        "species": b.species,
        "thickness": f"{b.quarters:g}/4" if b.quarters is not None else f"{_number(b.thickness_mm)} mm",
        "width": _number(b.width_mm),
        "length": _number(b.length_mm),
        "far_width": _number(b.far_width_mm),
        "left_trim": _number(b.left_trim_mm or None),
        "right_trim": _number(b.right_trim_mm or None),
        "moisture": _number(b.moisture_pct),
        "price": "" if b.price is None else _number(b.price.amount),
        "price_per": "" if b.price is None else b.price.basis.value,
        "first_cut": b.first_cut.value if b.first_cut.value != "crosscut" else "",
        "rings": _rings(b),
        "flitch": b.flitch,
        "sequence": "" if b.sequence is None else str(b.sequence),
        "grade": b.grade,
        "defects": _defects(b),
        "note": b.note,
        "photo": b.photo,
    }


def rack_csv(boards: Sequence[Board]) -> str:
    """A rack as a CSV table; lengths in millimeters, only the columns that say something."""
    rows = [rack_row(board) for board in boards]
    used = [name for name in FIELDS if any(row[name] for row in rows)]
    text = io.StringIO()
    table = csv.DictWriter(text, used, extrasaction="ignore", lineterminator="\n")
    table.writeheader()
    table.writerows(rows)
    return text.getvalue()
