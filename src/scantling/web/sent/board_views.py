"""What the page of the boards is sent: drawings, and where on them a finger finds parts and marks."""

from __future__ import annotations

from dataclasses import dataclass

from scantling.web.sent.views import FindingView

__all__ = [
    "BoardView",
    "BoardsView",
    "JudgedView",
    "LooseView",
    "MarkView",
    "MeasuredView",
    "NotesView",
    "PlacedView",
    "SearchView",
]

Box = tuple[float, float, float, float]
"""Left, top, width and height on a drawing. [mm on paper]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedView:
    """A blank on a drawing.

    Parameters
    ----------
    name
        As it is chalked.
    label, size
        As words, and as shown.
    held
        ``place``, ``board`` or empty.
    held_by
        The name it is held by: that of its panel for a strip.
    cut
        Whether it is cut already.
    parts
        Names of the parts that come of it.
    """

    name: str
    label: str
    size: str
    box: Box
    held: str
    held_by: str
    cut: bool
    parts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkView:
    """A knot or another mark; ``written`` names it as the notes do, and is empty for the rack's."""

    written: str
    words: str
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardView:
    """A board, or a piece a pin has parted off.

    Parameters
    ----------
    name
        As it is chalked.
    root
        The board of the rack it is, or is a piece of.
    about, words
        Wood and size as shown; what the drawing shows, for who cannot see it.
    svg, paper
        The drawing, and its size. [mm on paper]
    box
        Where the board lies on it.
    state
        ``cut``, ``bare`` where nothing comes from it, or ``left`` where it is left out.
    stays
        Whether it stays as it was laid out.
    begun
        Whether something is cut from it already.
    takes
        Whether a part can be held to it.
    """

    name: str
    root: str
    about: str
    words: str
    svg: str
    paper: tuple[float, float]
    box: Box
    state: str
    stays: bool
    begun: bool
    takes: bool
    parts: tuple[PlacedView, ...]
    marks: tuple[MarkView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LooseView:
    """A blank no board has a place for."""

    name: str
    label: str
    size: str
    held: str
    held_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NotesView:
    """The notes as they stand.

    Parameters
    ----------
    parent
        What the next mark is made from.
    text, name
        As written, and what the file is called.
    undo, redo
        Whether there is a step.
    kept
        ``version`` for a piece that is kept, ``file`` for notes beside a rack, else ``nowhere``.
    written
        Whether the plan and the packet show them.
    place
        Where they are written when asked to be.
    said
        What became of it.
    run, held
        The first step of this run of the program, and the name by which a browser holds what is not written:
        another for each file. 0 and empty where every mark is kept at once.
    """

    parent: int
    text: str
    name: str
    undo: bool
    redo: bool
    kept: str
    written: bool
    place: str
    said: str
    run: int = 0
    held: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardsView:
    """Every board, and how good the layout is.

    Parameters
    ----------
    proven
        Whether no better layout exists on these boards, so that there is nothing to search for.
    scale
        That of the drawings on paper.
    """

    ok: bool
    title: str
    units: str
    both_units: bool
    notes: NotesView
    rack: bool
    lead: str
    facts: tuple[tuple[str, str], ...]
    proven: bool
    scale: str
    boards: tuple[BoardView, ...]
    sheets: tuple[BoardView, ...]
    loose: tuple[LooseView, ...]
    offcuts: tuple[tuple[str, str], ...]
    more: tuple[str, ...]
    findings: tuple[FindingView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedView:
    """A part where it is put.

    Parameters
    ----------
    fits
        Whether it can lie there.
    words, remedy
        Where it lies, or why it cannot; the way out.
    at_mm, up_mm
        Its place on the whole board; None for the lower edge, both None where the place is open. [mm]
    better_at_mm, better_up_mm, better
        The nearest place, and in words; empty where there is none.
    drawing
        The board or piece on whose drawing ``box`` lies.
    """

    ok: bool
    fits: bool
    part: str
    board: str
    words: str
    remedy: str
    at_mm: float | None
    up_mm: float | None
    better: str
    better_at_mm: float | None
    better_up_mm: float | None
    drawing: str
    box: Box | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredView:
    """A mark drawn on a board, in the unit on show, and where it lies on the drawing."""

    ok: bool
    board: str
    x: str
    y: str
    length: str
    width: str
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class SearchView:
    """A better layout while the search goes on.

    Parameters
    ----------
    number
        Of the search, to keep its layout by.
    seconds
        Since it began. [s]
    words
        Price, bound and gap; how it stands beside the layout shown before.
    better
        Whether it is better than that; then its boards are drawn.
    """

    number: int
    seconds: float
    words: str
    beside: str
    better: bool
    proven: bool
    facts: tuple[tuple[str, str], ...]
    boards: tuple[BoardView, ...]
    loose: tuple[LooseView, ...]
