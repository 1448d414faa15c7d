"""What the page of the boards sends: one mark at a time, and where a part is put."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from scantling.web.sent.bodies import Body, Text, Word
from scantling.web.sent.numbers import Step

__all__ = ["Act", "JudgeIn", "MarkIn", "StepIn"]

_Mm = Annotated[float, Field(ge=-100_000, le=100_000, allow_inf_nan=False)]
Named = Annotated[str, Field(min_length=1, max_length=200)]


class Act(Body):
    """One mark: what is done, to which part or board, and what it was made from.

    ``hold`` a part to ``board``, at ``at_mm`` and ``up_mm`` where they are given, or ``let go``; ``leave`` a
    board out or ``use`` it; ``mark`` what was found on it, or ``unmark`` the ``mark`` so written; ``cut`` a
    part from a board or ``uncut`` it; let a board ``stay`` as it is laid out or ``free`` it; ``keep`` the
    layout of the search ``number``; take other notes as ``text``.
    """

    act: Literal[
        "hold", "let go", "leave", "use", "mark", "unmark", "cut", "uncut", "stay", "free", "keep", "text"
    ]
    parent: Step
    part: Word = ""
    board: Word = ""
    at_mm: _Mm | None = None
    up_mm: _Mm | None = None
    kind: Word = "knot"
    face: Word = "through"
    x: Word = ""
    y: Word = ""
    length: Word = ""
    width: Word = ""
    mark: Word = ""
    number: Step = 0
    text: Text = ""


class JudgeIn(Body):
    """A part put down: its lower left corner on a drawing, or a place moved by steps, or a board alone.

    With ``first`` it goes to the left end of the board, with ``next_board`` to that of the next one after it
    that is of its wood and free.
    """

    part: Named
    drawing: Word = ""
    corner: tuple[_Mm, _Mm] | None = None
    board: Word = ""
    at_mm: _Mm | None = None
    up_mm: _Mm | None = None
    steps: tuple[Annotated[int, Field(ge=-1000, le=1000)], Annotated[int, Field(ge=-1000, le=1000)]] = (0, 0)
    fine: bool = False
    first: bool = False
    next_board: bool = False


class MarkIn(Body):
    """Two corners of a mark on a drawing."""

    drawing: Named
    one: tuple[_Mm, _Mm]
    other: tuple[_Mm, _Mm]


class StepIn(Body):
    """What a step back or forth, or a writing, is made from."""

    parent: Step
