"""A part moved by hand: whether it can be cut where it is put, why not, and where it can."""

from __future__ import annotations

from dataclasses import dataclass, replace

from scantling.plan.timber.laying_out import Question
from scantling.stock.asked.blank import AND, Blank, FreeWidthPanel, accepts_board
from scantling.stock.asked.cutting import Cutting
from scantling.stock.chalked.parting import Place, part_off
from scantling.stock.racks.benchnotes import Begun, BenchNotes, Pin, begun_by
from scantling.stock.racks.snapping import NEAR_MM, Room, nearest, snapped

__all__ = ["Judged", "boards_of", "judge_place", "next_board", "pin_name", "rooms_of", "staying_with"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A part held to a board, or to a place on it.

    Parameters
    ----------
    pin
        As it would be noted.
    room
        The board or piece of it that it lies on; None where the place is left open or is on none of it.
    reason
        Why it cannot be; empty where it can.
    remedy
        The way out.
    better
        The nearest place where it can lie; None where there is none, or it lies well.
    width_mm, length_mm
        Of the part's blank. [mm]
    """

    pin: Pin
    room: Room | None = None
    reason: str = ""
    remedy: str = ""
    better: Pin | None = None
    length_mm: float = 0.0
    width_mm: float = 0.0


def pin_name(question: Question, name: str) -> str:
    """The name a blank is held by: that of its panel for a strip, its own for all others."""
    head, _, number = name.rpartition(" strip ")
    is_strip = number.isdecimal() and any(p.name == head for p in question.asked.panels)
    return head if is_strip else name


def boards_of(notes: BenchNotes, board: str) -> tuple[str, ...]:
    """What stays as it was laid out of a board of the rack: it, or the pieces of it."""
    return tuple(x.board for x in notes.laid if board in (x.board, notes.root(x.board)))


def staying_with(notes: BenchNotes, name: str) -> tuple[str, ...]:
    """Boards of the rack that stay as they were laid out with a blank on them."""
    return tuple(notes.root(x.board) for x in notes.laid if any(b.name == name for b in x.blanks))


def rooms_of(begun: Begun, board: str) -> tuple[Room, ...]:
    """What is there to cut of a board of the rack: it, or the pieces that pins have left of it."""
    found = []
    for one in begun.request.boards:
        root, x_mm, y_mm = begun.pieces.get(one.name, (one.name, 0.0, 0.0))
        if root == board:
            found.append(Room(board=one, x_mm=x_mm, y_mm=y_mm))
    return tuple(found)


def next_board(question: Question, name: str, board: str) -> str:
    """The next board of the rack that is of a blank's wood and free; the same if there is none."""
    notes = question.notes
    own = _own(question, pin_name(question, name))
    needs = own if isinstance(own, tuple) else (own,)
    taken = {c.board for c in notes.cut} | set(notes.leave)
    order = [b for b in question.asked.boards if b.name not in taken]
    right = [b.name for b in order if all(accepts_board(replace(n, boards=()), b) for n in needs)]
    whole = [b.name for b in question.asked.boards]
    at = whole.index(board) if board in whole else -1
    return min(right, key=lambda n: (whole.index(n) - at - 1) % len(whole), default=board)


def judge_place(
    question: Question,
    name: str,
    board: str,
    *,
    at_mm: tuple[float, float] | None,
    step_mm: float,
    near_mm: float = NEAR_MM,
) -> Judged:
    """Judge a part where it is put.

    Parameters
    ----------
    question
        What is asked of the boards, with the notes.
    name
        The blank.
    board
        The board of the rack.
    at_mm
        Its lower left corner on that board, as pointed at; None to leave the place open. [mm]
    step_mm
        What places are told in where the board draws to none. [mm]
    near_mm
        From how far it draws. [mm]
    """
    notes = question.notes
    pin = Pin(name=pin_name(question, name), board=board)
    told = _untouchable(notes, name, board)
    if told:
        return Judged(pin=pin, reason=told[0], remedy=told[1])
    let_go = {*boards_of(notes, board)}
    for root in staying_with(notes, name):
        let_go |= {*boards_of(notes, root)}
    free = replace(
        notes,
        pins=tuple(p for p in notes.pins if p.name not in (pin.name, name)),
        laid=tuple(x for x in notes.laid if x.board not in let_go),
    )
    rooms = rooms_of(begun_by(question.asked, free), board)
    own = _own(question, pin.name)
    if at_mm is None or not isinstance(own, Blank):
        return _on_board(question, pin, rooms, own=own, placed=at_mm is not None)
    return _at(question, pin, rooms, blank=own, at_mm=at_mm, steps_mm=(step_mm, near_mm))


def _untouchable(notes: BenchNotes, name: str, board: str) -> tuple[str, str] | None:
    """What is cut, begun or left alone is not touched by a pin."""
    cut = {c.board for c in notes.cut}
    here = [c.board for c in notes.cut if c.name == name]
    if here:
        return f"it is cut from {here[0]} already", "Take the tick off if it is not."
    if board in cut:
        return f"{board} is begun, and stays as it is", "Choose another board, or undo what is marked as cut."
    if board in notes.leave:
        return f"{board} is left out", "Let it be used again first."
    begun = [root for root in staying_with(notes, name) if root in cut]
    if begun:
        return f"it lies on {begun[0]}, which is begun", "What is on a board begun stays where it is."
    return None


def _own(question: Question, name: str) -> Blank | FreeWidthPanel | tuple[Blank, ...]:
    """The blank of that name; the panel; or several that go together."""
    panel = next((p for p in question.asked.panels if p.name == name), None)
    if panel is not None:
        return panel
    named = name.split(AND)
    found = tuple(b for b in question.asked.blanks if b.name in named or b.part in named)
    return found[0] if len(found) == 1 else found


def _on_board(
    question: Question,
    pin: Pin,
    rooms: tuple[Room, ...],
    *,
    own: Blank | FreeWidthPanel | tuple[Blank, ...],
    placed: bool,
) -> Judged:
    """A part held to a board: somewhere on it there must be a place for it."""
    cutting = question.asked.cutting
    if placed:
        several = "strips of a panel" if isinstance(own, FreeWidthPanel) else "parts cut in one length"
        return Judged(
            pin=pin,
            reason=f"{several} are held to a board together, not to a place",
            remedy=f"Hold all of {pin.name} to {pin.board}.",
            better=pin,
        )
    if isinstance(own, FreeWidthPanel):
        right = [room for room in rooms if accepts_board(replace(own, boards=()), room.board)]
        if any(_long_enough(own, room) for room in right):
            return Judged(pin=pin)
        return _no_place(pin, "its strips are longer than it, or of another wood or thickness")
    blanks = own if isinstance(own, tuple) else (own,)
    if not blanks:
        return _no_place(pin, "no part still to be cut has this name")
    for blank in blanks:
        if nearest(rooms, replace(blank, boards=()), Place(at_mm=0.0), cutting=cutting) is None:
            return _no_place(pin, _why_nowhere(rooms, replace(blank, boards=()), question))
    return Judged(pin=pin)


def _long_enough(panel: FreeWidthPanel, room: Room) -> bool:
    board = room.board
    return board.length_mm - board.left_trim_mm - board.right_trim_mm >= panel.length_mm


def _no_place(pin: Pin, reason: str) -> Judged:
    return Judged(pin=pin, reason=reason, remedy="Choose another board.")


def _why_nowhere(rooms: tuple[Room, ...], blank: Blank, question: Question) -> str:
    """Why a blank has no place on any of these, by the first of them."""
    if not rooms:
        return "nothing is left of it to cut"
    board = rooms[0].board
    said = part_off(board, blank, Place(at_mm=board.left_trim_mm), cutting=question.asked.cutting)
    return said if isinstance(said, str) else "marks and pinned parts leave no place for it"


def _at(
    question: Question,
    pin: Pin,
    rooms: tuple[Room, ...],
    *,
    blank: Blank,
    at_mm: tuple[float, float],
    steps_mm: tuple[float, float],
) -> Judged:
    """A part at a place: drawn to where the board draws it, and cut there on trial."""
    cutting, bare = question.asked.cutting, replace(blank, boards=())
    if not rooms:
        return _no_place(pin, "nothing is left of it to cut")
    room = min(rooms, key=lambda r: _off(r, bare, at_mm))
    put = (at_mm[0] - room.x_mm, at_mm[1] - room.y_mm)
    here = snapped(room, bare, put, cutting=cutting, step_mm=steps_mm[0], near_mm=steps_mm[1])
    said = part_off(room.board, bare, here, cutting=cutting)
    judged = Judged(
        pin=_pin(pin, room, here, cutting),
        room=room,
        length_mm=bare.length_mm,
        width_mm=bare.width_mm,
    )
    if not isinstance(said, str):
        return judged
    found = nearest(rooms, bare, Place(at_mm=at_mm[0], up_mm=at_mm[1]), cutting=cutting)
    return replace(
        judged,
        reason=said,
        remedy="There is a place nearby." if found else "It has no place on this board: choose another.",
        better=_pin(pin, *found, cutting) if found else None,
    )


def _off(room: Room, blank: Blank, at_mm: tuple[float, float]) -> float:
    """How far a blank put down sticks out of a room. [mm]"""
    x, y = at_mm[0] - room.x_mm, at_mm[1] - room.y_mm
    along = max(0.0, -x) + max(0.0, x + blank.length_mm - room.board.length_mm)
    width = max(room.board.width_mm, room.board.far_width_mm or 0.0)
    return along + max(0.0, -y) + max(0.0, y + blank.width_mm - width)


def _pin(pin: Pin, room: Room, place: Place, cutting: Cutting) -> Pin:
    """A place on a piece as it is noted, by the measures of the whole board."""
    up = place.up_mm
    if up is None and room.y_mm > 0.0:  # the lower edge of a piece is no lower edge of the board
        up = cutting.straight_edge_mm
    raised = None if up is None else round(up + room.y_mm, 3)
    return replace(pin, at_mm=round(place.at_mm + room.x_mm, 3), up_mm=raised)
