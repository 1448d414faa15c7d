"""The chalk list: every cut of the rough stage in order, stand by stand at the saws, board by board."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from scantling.papers.pages.figures import Figures
from scantling.papers.words.naming import names_of, plain_words
from scantling.plan.made.bench import BenchState
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.operations.routing import Operation
from scantling.stock.layouts.cutorder import Visit, visits
from scantling.stock.layouts.layout import BoardLayout, Cut, CutKind, Layout
from scantling.units import Round

__all__ = ["CHALK_NOTE", "ChalkRow", "ChalkStand", "boards_to_cut", "chalk_stands"]

CHALK_NOTE = (
    "A crosscut's stop is measured from the left end of the piece named, a rip's fence from its straightened "
    "lower edge. What is named first is cut to it, what stays is the rest; waste is not named. Blanks joined "
    "by + stay one piece until they are milled."
)
"""How the settings are meant."""

_TRIM_MM = 1.0
"""Waste less wide than this comes off as sawdust. [mm]"""
_DONE_AS = {
    CutKind.CROSSCUT: ("Crosscut", Operation.CROSSCUT_ROUGH),
    CutKind.STRAIGHTEN: ("Straighten the lower edge", Operation.EDGE),
    CutKind.RIP: ("Rip", Operation.RIP),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ChalkRow:
    """One cut, or several at one setting.

    Parameters
    ----------
    board, order
        The number in a ring on the picture of that board; several that need no new setting.
    piece
        What is cut, as it is chalked.
    setting
        Of the stop or the fence as shown, without unit; empty where nothing is set.
    leaves
        What comes off at the setting, and what stays when that is the last cut.
    parts
        Names of the parts that come free.
    """

    board: str
    order: str
    piece: str
    setting: str
    leaves: str
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChalkStand:
    """One stand at one saw."""

    title: str
    rows: tuple[ChalkRow, ...]


def boards_to_cut(layout: Layout, bench: BenchState | None) -> tuple[BoardLayout, ...]:
    """Boards with a part pinned to its place, which is cut first, then the boards laid out."""
    return (*(bench.parted if bench else ()), *layout.boards)


def chalk_stands(
    boards: Iterable[BoardLayout], ledgers: Iterable[MillingLedger], *, figures: Figures
) -> tuple[ChalkStand, ...]:
    """The chalk list of some boards.

    Parameters
    ----------
    boards
        Boards with their cuts.
    ledgers
        Milling of the parts, which says what does the cutting in this shop.
    figures
        How lengths are written.

    Returns
    -------
    tuple of ChalkStand
        In order; every cut is in one of them.
    """
    laid = tuple(boards)
    by_name = {board.board.name: board for board in laid}
    saws = _saws(ledgers)
    been: Counter[CutKind] = Counter()
    stands: list[ChalkStand] = []
    for visit in visits(laid):
        been[visit.kind] += 1
        rows = tuple(
            _row(cuts, by_name[name], figures=figures)
            for name, done in visit.boards
            for _, cuts in groupby(done, key=lambda cut: _set_to(cut, figures))
        )
        stands.append(ChalkStand(title=_title(visit, saws, been[visit.kind]), rows=rows))
    return tuple(stands)


def _saws(ledgers: Iterable[MillingLedger]) -> dict[CutKind, str]:
    """What does each kind of cut, the commonest first."""
    done = [(p.operation, p.machine.value) for ledger in ledgers for p in ledger.passes if p.machine.value]
    counted = {
        kind: Counter(saw for operation, saw in done if operation is wanted)
        for kind, (_, wanted) in _DONE_AS.items()
    }
    return {kind: " or ".join(saw for saw, _ in saws.most_common()) for kind, saws in counted.items()}


def _title(visit: Visit, saws: dict[CutKind, str], time: int) -> str:
    words, _ = _DONE_AS[visit.kind]
    again = "" if time == 1 else " again"
    saw = saws[visit.kind]
    return f"{words}{again}: {saw}" if saw else f"{words}{again}"


def _set_to(cut: Cut, figures: Figures) -> str:
    """Of the stop or the fence; a blank is never cut short by rounding."""
    return "" if cut.kind is CutKind.STRAIGHTEN else figures.bare(cut.at_mm, Round.UP)


def _numbers(orders: Sequence[int]) -> str:
    """Numbers of cuts, those that follow each other as a stretch."""
    runs: list[list[int]] = []
    for order in orders:
        if runs and order == runs[-1][-1] + 1:
            runs[-1].append(order)
        else:
            runs.append([order])
    return ", ".join(f"{run[0]}\u2013{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def _row(cuts: Iterable[Cut], laid: BoardLayout, *, figures: Figures) -> ChalkRow:
    """Cuts at one setting."""
    made = tuple(cuts)
    pieces = tuple(dict.fromkeys(cut.piece for cut in made))
    waste = {offcut.name for offcut in laid.offcuts if not offcut.usable}
    near = [cut.yields[0] for cut in made if cut.yields[0] and cut.yields[0] not in waste]
    last = made[-1].yields[1]
    far = [last] if last and last not in waste and last != made[-1].piece else []
    blanks = {placed.blank.name: placed.blank for placed in laid.placed}
    freed = [blanks[name] for name in (*near, *made[-1].yields) if name in blanks]
    straight = made[0].kind is CutKind.STRAIGHTEN
    return ChalkRow(
        board=laid.board.name,
        order=_numbers([cut.order for cut in made]),
        piece=", ".join(plain_words(piece) for piece in pieces),
        setting=_set_to(made[0], figures),
        leaves="" if straight else _leaves(near, far, trims=made[0].at_mm < _TRIM_MM),
        parts=tuple(dict.fromkeys(b.part for blank in freed for b in (blank.members or (blank,)))),
    )


def _leaves(near: list[str], far: list[str], *, trims: bool) -> str:
    """What is cut to the setting, then what stays of the piece: a name alone is as long as the stop says.

    A cut at the very end takes nothing off but its kerf.
    """
    cut = names_of(near) or ("only the kerf off" if trims else "waste off")
    return f"{cut}; {plain_words(far[0])} stays" if far else cut
