"""Where a part that is moved by hand comes to lie: where the board draws it, or the nearest it can."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from scantling.stock.asked.blank import Blank
from scantling.stock.asked.cutting import Cutting
from scantling.stock.boards.board import Board
from scantling.stock.chalked.parting import Place, part_off

__all__ = ["NEAR_MM", "Room", "nearest", "snapped"]

NEAR_MM = 15.0
"""What lies this near to where a part would be laid by rule is laid so. [mm]"""
_GRID_MM = 5.0
"""Places are looked for this far apart. [mm]"""
_MOST = 4000


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A board, or a piece left of one, and where its lower left corner lies on the whole board. [mm]"""

    board: Board
    x_mm: float = 0.0
    y_mm: float = 0.0


def snapped(
    room: Room,
    blank: Blank,
    at: tuple[float, float],
    *,
    cutting: Cutting,
    step_mm: float,
    near_mm: float = NEAR_MM,
) -> Place:
    """The place meant by a point that was only pointed at.

    Parameters
    ----------
    room
        The board it is moved on.
    blank
        The part's blank.
    at
        Its lower left corner on that board, as pointed at. [mm]
    cutting
        Kerfs and edges.
    step_mm
        What places are told in where none is near that follows from the board. [mm]
    near_mm
        How near is near. [mm]

    Returns
    -------
    Place
        On the board: ends, edges and marks draw it; without a height where it lies on the lower edge.
    """
    board = room.board
    x = _drawn(at[0], _lefts(board, blank), step_mm, near_mm)
    y = _drawn(at[1], _lows(board, blank, cutting, x), step_mm, near_mm)
    return Place(at_mm=x, up_mm=None if y <= cutting.straight_edge_mm + 1e-6 else y)


def nearest(
    rooms: Iterable[Room], blank: Blank, place: Place, *, cutting: Cutting
) -> tuple[Room, Place] | None:
    """The place nearest to one where a blank can be cut; None where no board of these has one.

    Parameters
    ----------
    rooms
        Boards and pieces to look at, all of one board.
    blank
        The part's blank.
    place
        Where it was to lie, on the whole board.
    cutting
        Kerfs and edges.
    """
    low = cutting.straight_edge_mm
    wanted = (place.at_mm, low if place.up_mm is None else place.up_mm)
    for room, x, y in _by_distance(list(rooms), blank, wanted, cutting):
        here = Place(at_mm=x, up_mm=None if y <= low + 1e-6 else y)
        if not isinstance(part_off(room.board, blank, here, cutting=cutting), str):
            return room, here
    return None


def _by_distance(
    rooms: list[Room], blank: Blank, wanted: tuple[float, float], cutting: Cutting
) -> list[tuple[Room, float, float]]:
    found = [(room, x, y) for room in rooms for x, y in _places(room.board, blank, cutting)]

    def far(place: tuple[Room, float, float]) -> float:
        room, x, y = place
        return abs(x + room.x_mm - wanted[0]) + abs(y + room.y_mm - wanted[1])

    return sorted(found, key=far)[:_MOST]


def _places(board: Board, blank: Blank, cutting: Cutting) -> Iterator[tuple[float, float]]:
    """Places by rule, and a grid between them along the board."""
    last = board.length_mm - board.right_trim_mm - blank.length_mm
    lefts = set(_lefts(board, blank))
    steps = int((last - board.left_trim_mm) / _GRID_MM) + 1
    lefts |= {board.left_trim_mm + _GRID_MM * n for n in range(steps)}
    for x in sorted(lefts):
        for y in _lows(board, blank, cutting, x):
            yield x, y


def _lefts(board: Board, blank: Blank) -> list[float]:
    """Where a left end lies by rule: at either end of the board, beside a mark."""
    found = [board.left_trim_mm, board.length_mm - board.right_trim_mm - blank.length_mm]
    for mark in board.defects:
        found += [mark.x_mm + mark.length_mm, mark.x_mm - blank.length_mm]
    least, most = found[0], found[1]
    return [x for x in found if least - 1e-6 <= x <= most + 1e-6]


def _lows(board: Board, blank: Blank, cutting: Cutting, x: float) -> list[float]:
    """Where a lower edge lies by rule: on the straightened edge, under the far one, over or under a mark."""
    width = min(board.width_at_mm(max(0.0, x)), board.width_at_mm(min(x + blank.length_mm, board.length_mm)))
    found = [cutting.straight_edge_mm, width - cutting.far_edge_mm - blank.width_mm]
    for mark in board.defects:
        found += [mark.y_mm + mark.width_mm, mark.y_mm - blank.width_mm]
    return [y for y in found if found[0] - 1e-6 <= y <= found[1] + 1e-6] or found[:1]


def _drawn(value: float, rules: list[float], step_mm: float, near_mm: float) -> float:
    """The value by rule where one is near, else in whole steps."""
    near = min(rules, key=lambda rule: abs(rule - value), default=value)
    if rules and abs(near - value) <= near_mm:
        return near
    return round(value / step_mm) * step_mm
