"""What is to be said of the rings of boards: none sawn as a part asks for, or rings nobody has looked at."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from scantling.errors import Finding, Severity
from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_board, accepts_rings
from scantling.stock.boards.board import Board
from scantling.stock.layouts.layout import BoardLayout, Layout
from scantling.wood.ring import RING_SPANS, Sawn

__all__ = ["asked_sawn", "board_sawn", "no_rings", "rings_to_look_at", "sawn_shares", "sawn_words", "untold"]

Need = Blank | FreeWidthPanel
_NAMED = 4
"""Boards or parts named one by one; of more, how many more."""


def asked_sawn(need: Need) -> str:
    """How a board must be sawn for a blank, in words; empty where any will do.

    Of several ways that serve it is the one asked for: a square stick to be quarter-sawn may be turned.
    """
    return need.sawn[-1].value if need.sawn else ""


def sawn_shares(feet: Iterable[tuple[Need, float]]) -> tuple[tuple[str, float], ...]:
    """How much is to be sawn one way, the most first; what takes any board is left out. [board ft]"""
    shares: dict[str, float] = {}
    for need, each in feet:
        if need.sawn:
            shares[asked_sawn(need)] = shares.get(asked_sawn(need), 0.0) + each
    return tuple(sorted(shares.items(), key=lambda share: (-share[1], share[0])))


def sawn_words(shares: Iterable[tuple[str, float]], whole_board_feet: float) -> str:
    """What a yard must know of the rings: all of it one way, or how much; empty where any board will do.

    Examples
    --------
    >>> sawn_words([("quarter-sawn", 12.0)], 12.0), sawn_words([("rift-sawn", 3.25)], 12.0)
    ('quarter-sawn', '3.2 bf net rift-sawn')
    """
    return "; ".join(
        way if feet >= whole_board_feet - 1e-9 else f"{feet:.1f} bf net {way}" for way, feet in shares
    )


def board_sawn(board: Board) -> str:
    """How a board is sawn, as its rings say; ``not looked at`` where nobody told."""
    if board.rings is None:
        return "not looked at"
    word = board.rings.sawn.value
    return word if board.rings.word in ("flat", "rift", "quarter") else f"{word}, {board.rings.word}"


def _angles(sawn: Sequence[Sawn]) -> str:
    """The angles that serve, in words."""
    spans = [RING_SPANS[one] for one in sawn]
    return " or ".join(f"{low:g} to {high:g}\u00b0" for low, high in spans)


def no_rings(need: Need, boards: Sequence[Board], *, smallest: str) -> Finding | None:
    """T17: boards of the wood and thickness there are, and none is sawn as asked; None where that is not why.

    Parameters
    ----------
    need
        What has no board.
    boards
        The rack.
    smallest
        The board that would do, by its size, in words.
    """
    bare = replace(need, sawn=())
    there = [board for board in boards if accepts_board(bare, board)]
    if not there or any(accepts_rings(need, board) for board in there):
        return None
    wanted = asked_sawn(need)
    told = _listed([f"{board.name} ({board_sawn(board)})" for board in there])
    pinned = f" It is held to {', '.join(need.boards)}." if need.boards else ""
    return Finding(
        code="T17",
        severity=Severity.HIGH,
        where=need.name,
        message=(
            f"Asked for as {wanted} (rings {_angles(need.sawn)} to the wide face); of its wood and thickness "
            f"there is only {told}.{pinned}"
        ),
        advice=(
            f"Bring {smallest}.{_edge(need, there)} Or write rings: flat at {need.part}: any board "
            "serves then, and the part is reckoned to move as much as flat-sawn wood does."
        ),
        numbers={"boards": float(len(there))},
    )


def _edge(need: Need, there: Sequence[Board]) -> str:
    """Rift off the edges of a flat-sawn board, where rings run from corner to corner (common practice)."""
    flat = [board.name for board in there if board.rings is not None and board.rings.sawn is Sawn.FLAT]
    if Sawn.RIFT not in need.sawn or not flat:
        return ""
    return (
        f" Or look at the edges of {_listed(flat)}: where the rings run there from corner to corner, write "
        "that edge as a board of its own, rings: rift."
    )


def untold(laid: BoardLayout) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """Ways of sawing asked for on a board nobody has looked at, each with the parts that ask for it."""
    asked = [p.blank for p in laid.placed if p.blank.sawn] if laid.board.rings is None else []
    ways = dict.fromkeys(asked_sawn(blank) for blank in asked)
    return tuple((way, tuple(_parts(b for b in asked if asked_sawn(b) == way))) for way in ways)


def rings_to_look_at(layout: Layout) -> tuple[Finding, ...]:
    """T18: boards nobody has looked at, that parts are laid out on which ask for rings."""
    boards: list[str] = []
    asked: dict[str, list[str]] = {}
    for laid in layout.boards:
        for way, parts in untold(laid):
            boards += [] if laid.board.name in boards else [laid.board.name]
            asked.setdefault(way, []).extend(parts)
    if not boards:
        return ()
    told = "; ".join(f"{_listed(list(dict.fromkeys(parts)))} {way}" for way, parts in asked.items())
    return (
        Finding(
            code="T18",
            severity=Severity.NOTE,
            where="rack",
            message=(
                f"Nobody has told the rings of {_listed(boards)}, and parts laid out there ask for them: "
                f"{told}."
            ),
            advice=(
                "Look at the ends before you saw, and write rings beside the board: flat, rift, quarter or "
                "the angle. What does not serve is then laid out elsewhere."
            ),
            numbers={"boards": float(len(boards))},
        ),
    )


def _parts(blanks: Iterable[Blank]) -> list[str]:
    return list(dict.fromkeys(m.part for blank in blanks for m in (blank.members or (blank,)) if m.sawn))


def _listed(names: Sequence[str]) -> str:
    if len(names) <= _NAMED + 1:
        return ", ".join(names)
    return f"{', '.join(names[:_NAMED])} and {len(names) - _NAMED} more"
