"""Names in the cells of a board: as large as they fit, clear of the numbers of cuts, or in a key under it."""

from __future__ import annotations

from itertools import product

from scantling.papers.boards.cuts import Tag, clear_of
from scantling.papers.boards.picture import BoardPicture
from scantling.papers.boards.place import BoardPlace, Corners
from scantling.papers.drawing import Anchor, Text, Weight, text_box, text_width_mm

__all__ = ["key_lines", "lettered", "part_names"]

_SIZES = (3.6, 3.2, 2.8, 2.5)


def lettered(
    box: Corners, lines: tuple[str, ...], tags: list[Tag], *, bold: int = 1, sizes: tuple[float, ...] = _SIZES
) -> list[Text] | None:
    """Lines in the middle of a box, or of what the tags leave of it; None where they do not fit.

    Parameters
    ----------
    box, lines
        A cell of the board, and what is to stand in it.
    tags
        What the lettering keeps clear of.
    bold
        How many of the lines are bold.
    sizes
        Lettering to try, the largest first; level before turned. [mm]
    """
    left, right = clear_of(box, tags)
    for turn, size, ends in product((0.0, -90.0), sizes, ((box[0][0], box[1][0]), (left, right))):
        items = _set(lines, size, (*ends, box[2][1], box[0][1]), turn=turn, bold=bold)
        if items and not any(tag.covers(text_box(item)) for tag in tags for item in items):
            return items
    return None


def _set(
    lines: tuple[str, ...], size: float, room: tuple[float, float, float, float], *, turn: float, bold: int
) -> list[Text] | None:
    """Lines in the middle of an upright rectangle: left, right, top, bottom; None where they do not fit."""
    left, right, top, bottom = room
    wide, high = (right - left, bottom - top) if turn == 0.0 else (bottom - top, right - left)
    weights = [Weight.BOLD if i < bold else Weight.REGULAR for i in range(len(lines))]
    widest = max(text_width_mm(t, size, weight=w) for t, w in zip(lines, weights, strict=True))
    if widest > wide - 3.2 or len(lines) * size * 1.1 > high - 0.3:
        return None
    cx, cy = (left + right) / 2.0, (top + bottom) / 2.0
    items: list[Text] = []
    for i, (line, weight) in enumerate(zip(lines, weights, strict=True)):
        shift = (i - (len(lines) - 1) / 2.0) * size * 1.15 + 0.35 * size
        at = (cx, cy + shift) if turn == 0.0 else (cx + shift, cy)
        items.append(Text(at, line, size, Anchor.MIDDLE, turn, weight))
    return items


def part_names(picture: BoardPicture, place: BoardPlace, tags: list[Tag]) -> tuple[list[Text], list[str]]:
    """Names and sizes of the blanks; what has no room in one stands in a key under the board."""
    items: list[Text] = []
    key: list[str] = []
    letters = iter("abcdefghijklmnopqrstuvwxyz" * len(picture.parts))
    for part in picture.parts:
        box = place.box(part.x_mm, part.y_mm, part.length_mm, part.width_mm)
        whole = [(1, (part.name, part.size)), (1, (f"{part.name}  {part.size}",))]
        whole += [(2, (*halves, part.size)) for halves in _halves(part.name)]
        tried = (lettered(box, lines, tags, bold=bold) for bold, lines in whole)
        words = next(filter(None, tried), None)
        if words is None:
            words = lettered(box, (part.name,), tags)
            letter = "" if words else next(letters)
            key.append(f"{letter} = {part.name} {part.size}" if letter else f"{part.name} {part.size}")
            words = words or [_letter(letter, box, tags)]
        items += words
    return items, list(dict.fromkeys(key))


def _letter(letter: str, box: Corners, tags: list[Tag]) -> Text:
    """The letter of the key at the first place of a cell that is free, from its left end."""
    y = (box[0][1] + box[2][1]) / 2.0 + 1.0
    room = max(box[1][0] - box[0][0] - 4.0, 0.0)
    places = (box[0][0] + 2.0 + room * i / 24.0 for i in range(25))
    tried = [Text((x, y), letter, 3.0, Anchor.MIDDLE, weight=Weight.BOLD) for x in places]
    return next((t for t in tried if not any(tag.covers(text_box(t)) for tag in tags)), tried[12])


def _halves(name: str) -> list[tuple[str, str]]:
    """A name on two lines as even as its words allow; none for a single word."""
    words = name.split(" ")
    parted = [(" ".join(words[:i]), " ".join(words[i:])) for i in range(1, len(words))]
    return sorted(parted, key=lambda two: max(map(len, two)))[:1]


def key_lines(key: list[str], *, room_mm: float, size_mm: float) -> list[str]:
    """The key in lines that fit the drawing."""
    lines: list[str] = []
    for entry in key:
        joined = f"{lines[-1]},  {entry}" if lines else entry
        if lines and text_width_mm(joined, size_mm) <= room_mm:
            lines[-1] = joined
        else:
            lines.append(entry)
    return lines
