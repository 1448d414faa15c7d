"""Notes from the bench: parts cut, what is left of boards begun, boards to leave, marks found, pins."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from scantling.stock.asked.blank import AND, Blank, FreeWidthPanel
from scantling.stock.boards.board import Board, Defect, Price
from scantling.stock.chalked.assemble import pinned_layout
from scantling.stock.chalked.parting import Piece, Place, part_off
from scantling.stock.layouts.layout import BoardLayout, Layout, StripWidths
from scantling.stock.racks.laid import LaidBoard, panel_left, renamed, still_wished
from scantling.stock.solving.request import LayoutRequest

__all__ = ["Begun", "BenchNotes", "CutPart", "Left", "Pin", "begun_by", "notes_about", "with_strips"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPart:
    """A part that is cut already.

    Parameters
    ----------
    name
        The part, or one blank of it.
    board
        The board it came from.
    width_mm
        Rough width of the strip, for a panel glued up from strips of free width. [mm]
    """

    name: str
    board: str
    width_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Left:
    """What is left of a board begun; a board of its own from now on. [mm]"""

    board: str
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Pin:
    """A part that is to come from a board.

    Parameters
    ----------
    at_mm
        Distance of its left end from the left end of the board; None leaves the place open. [mm]
    up_mm
        Distance of its lower edge from that of the board; None for the lowest it can lie. [mm]
    """

    name: str
    board: str
    at_mm: float | None = None
    up_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchNotes:
    """What has happened and been decided since the boards were measured.

    Parameters
    ----------
    file
        Where it is written; empty for no notes.
    leave
        Boards nothing may be cut from.
    found
        New defects, each with its board.
    laid
        Boards that stay as they were laid out.
    bound
        What no layout of all blanks was proven to undercut when they were, and what was asked then. [money]
    gone
        What was noted about boards that are in the rack no more, each with the reason.
    """

    file: str = ""
    cut: tuple[CutPart, ...] = ()
    left: tuple[Left, ...] = ()
    leave: tuple[str, ...] = ()
    found: tuple[tuple[str, Defect], ...] = ()
    pins: tuple[Pin, ...] = ()
    laid: tuple[LaidBoard, ...] = ()
    bound: tuple[float, str] | None = None
    gone: tuple[tuple[str, str], ...] = ()

    def root(self, board: str) -> str:
        """The board of the rack a piece is of that a pin has parted off; the board itself for a board."""
        named = {c.board for c in self.cut} | {p.board for p in self.pins}
        return max((n for n in named if board.startswith(f"{n} ")), key=len, default=board)

    @property
    def ticked(self) -> frozenset[tuple[str, str]]:
        """Parts that are cut from a board that stays as it was laid out, each with that board."""
        there = {(self.root(x.board), blank.name) for x in self.laid for blank in x.blanks}
        kept = {root for root, _ in there}
        there |= {(p.board, p.name) for p in self.pins if p.board in kept}
        return frozenset((c.board, c.name) for c in self.cut if (c.board, c.name) in there)


def notes_about(notes: BenchNotes, boards: Iterable[Board]) -> BenchNotes:
    """The notes that concern some boards of a rack."""
    names = {board.name for board in boards}
    away = {name for name, _ in notes.gone}
    return replace(
        notes,
        cut=tuple(c for c in notes.cut if c.board in names | away),
        left=tuple(x for x in notes.left if x.board in names),
        leave=tuple(n for n in notes.leave if n in names),
        found=tuple(f for f in notes.found if f[0] in names),
        pins=tuple(p for p in notes.pins if p.board in names),
        laid=tuple(x for x in notes.laid if x.board in names or notes.root(x.board) in names),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Begun:
    """What is left to lay out.

    Parameters
    ----------
    request
        The request without what is cut, on the boards that are left.
    price
        Price of the boards begun; None where one has none. [money]
    boards
        Boards begun, by name.
    strips
        Jointed widths of panel strips cut already, by panel. [mm]
    pinned
        Parts to cut first, in words: where, and from which board.
    parted
        The same as boards laid out.
    unknown
        Names in the notes that no blank has, or pins that cannot be, each with the reason.
    pieces
        Boards that pins have parted off: of which board each is, and where its corner lay there. [mm]
    """

    request: LayoutRequest
    price: float | None = 0.0
    boards: tuple[str, ...] = ()
    strips: dict[str, tuple[float, ...]] = field(default_factory=dict)
    pinned: tuple[str, ...] = ()
    parted: tuple[BoardLayout, ...] = ()
    unknown: tuple[tuple[str, str], ...] = ()
    pieces: dict[str, tuple[str, float, float]] = field(default_factory=dict)


def begun_by(request: LayoutRequest, notes: BenchNotes) -> Begun:
    """What the notes leave to lay out.

    Parameters
    ----------
    request
        Everything the piece asks for, on the whole rack.
    notes
        What has been cut, found and decided.
    """
    boards = {b.name: _marked(b, notes) for b in request.boards}
    whole = dict(boards)
    ticked = notes.ticked
    notes = replace(notes, cut=tuple(c for c in notes.cut if (c.board, c.name) not in ticked))
    kept = {root for root, _ in ticked}
    started = list(dict.fromkeys(c.board for c in notes.cut if c.board not in kept))
    blanks, panels, strips, unknown = _without_cut(request, notes)
    for name in started:
        boards.pop(name, None)
    for rest in notes.left:
        fresh = _rest(whole[rest.board], rest)
        boards[fresh.name] = fresh
    bench = _Bench(boards=boards)
    for pin in notes.pins:
        named = pin.name.split(AND)
        own = [b for b in blanks if b.part in named or b.name in named]
        reason = (
            "" if own or any(p.name == pin.name for p in panels) else "no blank still to be cut has this name"
        )
        if not reason and pin.at_mm is None:
            blanks = [_held(b, pin) if b in own else b for b in blanks]
            panels = [replace(p, boards=(pin.board,)) if p.name == pin.name else p for p in panels]
        elif not reason:
            reason = bench.cut_at(pin, own, request)
            if not reason:
                blanks = [b for b in blanks if b not in own]
                started.append(pin.board)
        if reason:
            unknown.append((pin.name, reason))
    names = {b.name for b in blanks} | {p.name for p in panels}
    prices = [whole[n].price_total for n in dict.fromkeys(started) if n in whole]
    rest_request = replace(
        request,
        boards=tuple(b for b in boards.values() if b.name not in notes.leave),
        blanks=tuple(blanks),
        panels=tuple(panels),
        wishes=tuple(w for w in (still_wished(w, names) for w in request.wishes) if w is not None),
    )
    return Begun(
        request=rest_request,
        price=None if any(p is None for p in prices) else sum(p for p in prices if p is not None),
        boards=tuple(dict.fromkeys(started)),
        strips=strips,
        pinned=tuple(bench.said),
        parted=tuple(bench.parted),
        unknown=tuple(unknown),
        pieces=dict(bench.pieces),
    )


def _marked(board: Board, notes: BenchNotes) -> Board:
    fresh = tuple(defect for name, defect in notes.found if name == board.name)
    return replace(board, defects=(*board.defects, *fresh)) if fresh else board


def _held(blank: Blank, pin: Pin) -> Blank:
    return replace(blank, boards=(pin.board,))


def _rest(board: Board, left: Left) -> Board:
    """What is left of a board, paid for with it; its marks are no longer where they were."""
    return replace(
        board,
        name=f"{board.name} rest",
        length_mm=left.length_mm,
        width_mm=left.width_mm,
        far_width_mm=None,
        defects=(),
        left_trim_mm=0.0,
        right_trim_mm=0.0,
        price=Price(amount=0.0),
    )


def _without_cut(
    request: LayoutRequest, notes: BenchNotes
) -> tuple[list[Blank], list[FreeWidthPanel], dict[str, tuple[float, ...]], list[tuple[str, str]]]:
    """Blanks and panels still to be cut, strips that are there, and names nothing is called."""
    blanks = list(request.blanks)
    panels = {p.name: p for p in request.panels}
    strips: dict[str, tuple[float, ...]] = {}
    unknown: list[tuple[str, str]] = []
    for done in notes.cut:
        if done.name in {p.name for p in request.panels}:
            if done.width_mm is None:
                unknown.append(
                    (done.name, f"is glued up: write its strips with their widths, {done.name}: 120 mm")
                )
                continue
            loss = next(p.edge_loss_mm for p in request.panels if p.name == done.name)
            strips[done.name] = (*strips.get(done.name, ()), done.width_mm - loss)
            continue
        for name in done.name.split(AND):
            kept = [b for b in blanks if name not in (b.part, b.name)]
            if len(kept) == len(blanks):
                unknown.append((name, "no blank has this name"))
            blanks = kept
    left = [panel_left(panels[n], strips.get(n, ())) for n in panels]
    return blanks, [p for p in left if p is not None], strips, unknown


@dataclass(slots=True)
class _Bench:
    """Boards as pins part them: every piece with the board it came from and where it lay there."""

    boards: dict[str, Board]
    pieces: dict[str, tuple[str, float, float]] = field(default_factory=dict)
    said: list[str] = field(default_factory=list)
    parted: list[BoardLayout] = field(default_factory=list)

    def cut_at(self, pin: Pin, own: list[Blank], request: LayoutRequest) -> str:
        """Part a board at the place of a pin; the reason where that cannot be, else empty."""
        if len(own) != 1:
            return "a place can be given to a part of one blank only"
        reasons = []
        for name, x_mm, y_mm in self._pieces_of(pin.board):
            assert pin.at_mm is not None
            up_mm = None if pin.up_mm is None else pin.up_mm - y_mm
            place = Place(at_mm=pin.at_mm - x_mm, up_mm=up_mm)
            parted = part_off(self.boards[name], own[0], place, cutting=request.cutting)
            if isinstance(parted, str):
                reasons.append(parted)
                continue
            board = self.boards.pop(name)
            for rest in parted:
                self.boards[rest.board.name] = rest.board
                self.pieces[rest.board.name] = (pin.board, x_mm + rest.x_mm, y_mm + rest.y_mm)
            kept = {rest.board.name for rest in parted}
            self.said.append(_said(own[0], board, place, parted, request))
            self.parted.append(pinned_layout(board, own[0], place, cutting=request.cutting, kept=kept))
            return ""
        return reasons[-1] if reasons else f"{pin.board} is begun already"

    def _pieces_of(self, board: str) -> list[tuple[str, float, float]]:
        """The board itself, or what pins before have left of it."""
        if board in self.boards:
            return [(board, 0.0, 0.0)]
        found = [(name, x, y) for name, (root, x, y) in self.pieces.items() if root == board]
        return [each for each in found if each[0] in self.boards]


def _said(blank: Blank, board: Board, place: Place, parted: tuple[Piece, ...], request: LayoutRequest) -> str:
    """How a pinned blank is cut out of its board."""
    rests = ", ".join(rest.board.name for rest in parted) or "nothing"
    rip = (
        f"rip {blank.width_mm:g} mm"
        if place.up_mm is None
        else f"rip at {place.up_mm - request.cutting.rip_kerf_mm:g} mm and at "
        f"{place.up_mm + blank.width_mm:g} mm from it"
    )
    return (
        f"{blank.name}: crosscut {board.name} at {place.at_mm:g} mm and {place.at_mm + blank.length_mm:g} mm "
        f"from its left end, straighten the lower edge, {rip}. Chalk what is left: {rests}."
    )


def with_strips(
    layout: Layout, panels: Iterable[FreeWidthPanel], strips: dict[str, tuple[float, ...]]
) -> Layout:
    """The layout with strips cut already counted to their panels; new ones are numbered on.

    Parameters
    ----------
    layout
        Of what was left to cut.
    panels
        The panels as they were asked for.
    strips
        Jointed widths of the strips that are there. [mm]
    """
    if not strips:
        return layout
    found = {s.panel: s for s in layout.strips}
    joined = []
    for panel in panels:
        there, new = strips.get(panel.name, ()), found.get(panel.name)
        widths = (*there, *(new.widths_mm if new else ()))
        joined.append(
            StripWidths(panel=panel.name, widths_mm=widths, missing_mm=new.missing_mm if new else 0.0)
        )
    names = {
        f"{name} strip {n}": f"{name} strip {n + len(there)}"
        for name, there in strips.items()
        for n in range(1, len(found[name].widths_mm if name in found else ()) + 1)
    }
    boards = tuple(renamed(b, names) for b in layout.boards)
    return replace(layout, boards=boards, strips=tuple(joined))
