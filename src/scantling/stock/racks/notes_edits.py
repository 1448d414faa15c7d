"""Bench notes changed by one mark at a time; what else is written in them stays as it is, comments too."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from scantling.errors import InputError
from scantling.reading import parse_on
from scantling.reading.editing import added, changed, removed
from scantling.reading.nodes import source_of
from scantling.stock.boards.board import Defect, Face
from scantling.stock.racks.benchnotes import Pin
from scantling.stock.racks.laid import LaidBoard
from scantling.stock.racks.laid_text import laid_text
from scantling.stock.racks.notes_file import only_comments

__all__ = [
    "mark_text",
    "with_bound",
    "with_cut",
    "with_laid",
    "with_leave",
    "with_mark",
    "with_pin",
    "without_cut",
    "without_laid",
    "without_leave",
    "without_mark",
    "without_pin",
]


def with_pin(text: str, pin: Pin) -> str:
    """Notes with a part held to a board, or to a place on it."""
    place = pin.board
    if pin.at_mm is not None:
        place += f" at {_mm(pin.at_mm)} mm"
        place += "" if pin.up_mm is None else f", {_mm(pin.up_mm)} mm up"
    return _set(text, "pin", pin.name, _word(place))


def without_pin(text: str, name: str) -> str:
    """Notes that let a part go."""
    return _set(text, "pin", name, None)


def with_leave(text: str, board: str) -> str:
    """Notes with a board nothing may come from."""
    return _list(text, [*(n for n in _left_alone(text) if n != board), board])


def without_leave(text: str, board: str) -> str:
    """Notes with a board that may be cut again."""
    return _list(text, [n for n in _left_alone(text) if n != board])


def mark_text(mark: Defect) -> str:
    """A mark as a rack writes it. [mm]"""
    place = f"{mark.kind.value} at {_mm(mark.x_mm)} x {_mm(mark.y_mm)}"
    face = "" if mark.face is Face.THROUGH else f" on {mark.face.value}"
    return f"{place}, {_mm(mark.length_mm)} x {_mm(mark.width_mm)}{face}"


def with_mark(text: str, board: str, mark: Defect) -> str:
    """Notes with one more mark found on a board."""
    return _set(text, "found", board, _word("; ".join([*_marks(text, board), mark_text(mark)])))


def without_mark(text: str, board: str, number: int) -> str:
    """Notes without one of the marks found on a board, counted from 0."""
    kept = [mark for n, mark in enumerate(_marks(text, board)) if n != number]
    return _set(text, "found", board, _word("; ".join(kept)) if kept else None)


def with_cut(text: str, board: str, name: str) -> str:
    """Notes with a part that is cut from a board."""
    parts = [*(p for p in _cut(text, board) if p != _word(name)), _word(name)]
    return _set(text, "cut", board, f"[{', '.join(parts)}]")


def without_cut(text: str, board: str, name: str) -> str:
    """Notes with a part that is not cut after all."""
    parts = [p for p in _cut(text, board) if p != _word(name)]
    return _set(text, "cut", board, f"[{', '.join(parts)}]" if parts else None)


def with_laid(text: str, laid: Iterable[LaidBoard]) -> str:
    """Notes with boards that stay as they were laid out."""
    for one in laid:
        text = _set(text, "laid", one.board, laid_text(one))
    return text


def without_laid(text: str, boards: Iterable[str]) -> str:
    """Notes with boards that may be laid out anew; nothing is proven of what is left."""
    there = _block(text, "laid")
    for board in boards:
        text = _set(text, "laid", board, None) if board in there else text
    return with_bound(text, None)


def with_bound(text: str, bound: tuple[float, str] | None) -> str:
    """Notes with what was proven of the layout that is kept, or without it."""
    return _top(text, "bound", None if bound is None else f"{bound[0]:.4f} of {bound[1]}")


def _mm(value: float) -> str:
    return f"{round(value, 3):.10g}"


def _word(text: str) -> str:
    """A word as it can be written in a list or behind a colon."""
    return source_of(text, text=True)


def _data(text: str) -> dict[str, object]:
    """What the notes hold; nothing where they are none, or comments alone."""
    data = None if only_comments(text) else parse_on(text, file="notes").data
    return dict(data) if isinstance(data, dict) else {}


def _block(text: str, name: str) -> dict[str, object]:
    found = _data(text).get(name)
    return dict(found) if isinstance(found, dict) else {}


def _left_alone(text: str) -> list[str]:
    found = _data(text).get("leave")
    return [str(n) for n in found] if isinstance(found, list) else [] if found is None else [str(found)]


def _marks(text: str, board: str) -> list[str]:
    found = _block(text, "found").get(board)
    listed = found if isinstance(found, list) else str(found or "").split(";")
    return [str(mark).strip() for mark in listed if str(mark).strip()]


def _cut(text: str, board: str) -> list[str]:
    """Parts cut from a board, each as it is written."""
    found = _block(text, "cut").get(board)
    return [_written(part) for part in (found if isinstance(found, list) else [found] if found else [])]


def _written(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f"{_word(str(k))}: {_written(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return f"[{', '.join(_written(v) for v in value)}]"
    return _word(str(value))


def _list(text: str, boards: Sequence[str]) -> str:
    return _top(text, "leave", f"[{', '.join(_word(b) for b in boards)}]" if boards else None)


def _top(text: str, name: str, value: str | None) -> str:
    """A line of its own at the top of the notes set, or taken out."""
    there = _data(text).get(name) is not None
    if value is None:
        return _without_top(text, name) if there else text
    if there:
        return changed(text, (name,), value)
    return f"{_ended(text)}{name}: {value}\n"


def _set(text: str, block: str, key: str, value: str | None) -> str:
    """One line of a block set, or taken out, in place where that can be; else the block is written anew."""
    lines = _block(text, block)
    if value is None and key not in lines:
        return text
    if not lines:
        fresh = _without_top(text, block)
        return f"{_ended(fresh)}{block}:\n  {_word(key)}: {value}\n"
    if value is None and len(lines) == 1:
        return _without_top(text, block)
    try:
        if value is None:
            return removed(text, (block, key))
        return (
            changed(text, (block, key), value) if key in lines else added(text, (block,), _word(key), value)
        )
    except InputError:
        rows = {name: _written(data) for name, data in lines.items()}
        rows |= {key: value or ""}
        kept = "".join(f"  {_word(name)}: {row}\n" for name, row in rows.items() if row)
        return f"{_ended(_without_top(text, block))}{block}:\n{kept}"


def _without_top(text: str, name: str) -> str:
    """The notes without a block; where it was the last of them, the comments that have lines of their own."""
    data = _data(text)
    if name not in data:
        return text
    if len(data) == 1:
        lines = (line.strip() for line in text.splitlines())
        return "".join(f"{line}\n" for line in lines if line.startswith("#"))
    return removed(text, (name,))


def _ended(text: str) -> str:
    return text if not text or text.endswith("\n") else f"{text}\n"
