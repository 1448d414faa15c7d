"""A board kept as it was laid out, as one line of the bench notes."""

from __future__ import annotations

import math
from functools import lru_cache

from scantling.errors import InputError
from scantling.reading.nodes import source_of
from scantling.stock.layouts.layout import Cut, CutKind, Offcut
from scantling.stock.racks.laid import LaidBlank, LaidBoard

__all__ = ["laid_text", "read_laid"]


def laid_text(laid: LaidBoard) -> str:
    """A board as one line, sizes in mm.

    Blanks are name, x, y, length, width, stage; cuts are kind, piece, place, what is left near and far, then
    the kerf's x, y, length and width, and the stage; what is left over is name, x, y, length, width, use.
    """
    blanks = [(b.name, b.x_mm, b.y_mm, b.length_mm, b.width_mm, b.stage) for b in laid.blanks]
    cuts = [
        (c.kind.value, c.piece, c.at_mm, *c.yields, c.x_mm, c.y_mm, c.length_mm, c.width_mm, c.stage)
        for c in laid.cuts
    ]
    left = [
        (o.name, o.x_mm, o.y_mm, o.length_mm, o.width_mm, "keep" if o.usable else "waste")
        for o in laid.offcuts
    ]
    rows = (
        (name, ", ".join(map(_row, each)))
        for name, each in (("blanks", blanks), ("cuts", cuts), ("left", left))
    )
    return "{" + ", ".join(f"{name}: [{row}]" for name, row in rows) + "}"


def _row(values: tuple[str | float, ...]) -> str:
    return f"[{', '.join(_value(v) for v in values)}]"


def _value(value: str | float) -> str:
    if not isinstance(value, str):
        return f"{round(value, 4):.10g}"
    return _word(value)


@lru_cache(maxsize=1024)  # a board's names come again in every blank, cut and rest
def _word(name: str) -> str:
    return source_of(name, text=True)


def read_laid(board: str, data: object) -> LaidBoard:
    """A board as it was written.

    Raises
    ------
    InputError
        ``not_laid``: what is no such line.
    """
    try:
        if not isinstance(data, dict) or set(data) - {"blanks", "cuts", "left"}:
            raise ValueError("what is in it")
        blanks = tuple(_blank(row) for row in _rows(data, "blanks"))
        cuts = tuple(_cut(number, row) for number, row in enumerate(_rows(data, "cuts"), start=1))
        offcuts = tuple(_offcut(row) for row in _rows(data, "left"))
    except (ValueError, TypeError) as error:
        raise InputError(
            code="not_laid",
            field="laid",
            value=board,
            rule=f"must be as the program wrote it; this is not: {error}",
            remedy="Take the line out: the board is then laid out anew.",
        ) from error
    return LaidBoard(board=board, blanks=blanks, cuts=cuts, offcuts=offcuts)


def _rows(data: dict[str, object], name: str) -> list[list[object]]:
    rows = data.get(name) or []
    if not isinstance(rows, list) or not all(isinstance(row, list) for row in rows):
        raise ValueError(name)
    return rows


def _mm(value: object) -> float:
    number = float(str(value))
    if not math.isfinite(number):
        raise ValueError(str(value))
    return number


def _blank(row: list[object]) -> LaidBlank:
    name, x, y, length, width, stage = row
    return LaidBlank(
        name=str(name),
        x_mm=_mm(x),
        y_mm=_mm(y),
        length_mm=_mm(length),
        width_mm=_mm(width),
        stage=int(str(stage)),
    )


def _cut(order: int, row: list[object]) -> Cut:
    kind, piece, at, near, far, x, y, length, width, stage = row
    return Cut(
        order=order,
        kind=CutKind(str(kind)),
        piece=str(piece),
        at_mm=_mm(at),
        yields=(str(near or ""), str(far or "")),
        x_mm=_mm(x),
        y_mm=_mm(y),
        length_mm=_mm(length),
        width_mm=_mm(width),
        stage=int(str(stage)),
    )


def _offcut(row: list[object]) -> Offcut:
    name, x, y, length, width, use = row
    return Offcut(
        name=str(name),
        x_mm=_mm(x),
        y_mm=_mm(y),
        length_mm=_mm(length),
        width_mm=_mm(width),
        usable=str(use) == "keep",
    )
