"""Short parts of one section laid out, milled and kept as one length until they are crosscut apart."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from scantling.piece.matching import WishKind
from scantling.piece.model import PartKind, Piece
from scantling.shop.milling.ganging import safe_length, share_mm
from scantling.shop.milling.ledger import MillingLedger
from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.gang import INNER_END_MM, Gang
from scantling.stock.asked.blank import AND, Blank, accepts_board
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.wish import FOLDED, Wish
from scantling.stock.boards.board import Board
from scantling.stock.layouts.layout import Layout
from scantling.stock.solving.solve import LayoutRequest

__all__ = ["gang_up", "lengths_of_grain"]

_LONGEST_MM = 2400.0
"""Length that short parts are joined up to where no rack limits it: of the boards yards keep. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Short:
    """A blank with its milling and the length its machines ask for."""

    blank: Blank
    ledger: MillingLedger
    least_mm: float
    machine: str


def gang_up(
    request: LayoutRequest, *, piece: Piece, ledgers: Iterable[MillingLedger], shop: Shop
) -> tuple[LayoutRequest, tuple[Gang, ...]]:
    """Join sticks shorter than the jointer and the planer take to lengths of one section.

    Short ones are joined to each other in the order of the piece until the length is safe; what is left over
    goes with the shortest other part of its section, or keeps a tail. Parts cut as one by a wish stay as they
    are, and parts of different wishes stay apart.

    Parameters
    ----------
    request
        What is still to be cut, and the boards; none without a rack.
    piece, ledgers
        The piece, and the milling of each part on its own.
    shop
        Its machines.

    Returns
    -------
    tuple
        The request with the lengths in place of their parts, in the wishes too, and the lengths.
    """
    blanks, wishes, cutting = request.blanks, request.wishes, request.cutting
    of = {ledger.part: ledger for ledger in ledgers}
    folded = {m for w in wishes if w.kind in FOLDED for m in w.members}
    groups: dict[tuple[object, ...], list[_Short]] = {}
    for blank in blanks:
        ledger = of[blank.part]
        if piece.parts[blank.part].kind is PartKind.STICK and blank.name not in folded:
            least_mm, machine = safe_length(ledger, shop.machines)
            item = _Short(blank=blank, ledger=ledger, least_mm=least_mm, machine=machine)
            groups.setdefault(_section(blank, ledger, wishes), []).append(item)
    made: list[tuple[Blank, Gang]] = []
    for members in groups.values():
        room = _longest_mm(members[0].blank, request.boards, shop)
        made += [_gang(run, cutting) for run in _runs(members, cutting, room)]
    return _with(request, made), tuple(gang for _, gang in made)


def lengths_of_grain(layout: Layout, asked: Iterable[Gang], cutting: Cutting) -> tuple[Gang, ...]:
    """Lengths that parts are milled in because a wish for grain that runs through is granted.

    Parameters
    ----------
    layout
        Where the folded blanks lie.
    asked
        Lengths asked for by the machines; those are no wish.
    cutting
        The kerf that parts them.
    """
    known = {gang.name for gang in asked}
    through = {a.wish.members for a in layout.wishes if a.granted and a.wish.kind is WishKind.RUN_THROUGH}
    blanks = [placed.blank for board in layout.boards for placed in board.placed]
    return tuple(
        Gang(
            name=blank.name,
            blanks=tuple(m.name for m in blank.members),
            parts=tuple(m.part for m in blank.members),
            length_mm=blank.length_mm,
            least_mm=0.0,
            tail_mm=0.0,
            kerf_mm=cutting.crosscut_kerf_mm,
            machine="",
            grain=True,
        )
        for blank in blanks
        if blank.name not in known and tuple(m.name for m in blank.members) in through
    )


def _section(blank: Blank, ledger: MillingLedger, wishes: Sequence[Wish]) -> tuple[object, ...]:
    """What blanks must have in common to be milled in one length."""
    sizes = (blank.width_mm, ledger.needed_mm, ledger.milled.width_mm, ledger.milled.thickness_mm)
    return (
        blank.species,
        blank.quarters,
        tuple(round(size, 2) for size in sizes),
        blank.looks,
        blank.boards,
        blank.sawn,
        frozenset(w.name for w in wishes if blank.name in w.members),
    )


def _longest_mm(blank: Blank, boards: Sequence[Board], shop: Shop) -> float:
    """The longest length worth joining blanks to. [mm]"""
    fit = [b.length_mm - b.left_trim_mm - b.right_trim_mm for b in boards if accepts_board(blank, b)]
    return min(max(fit, default=_LONGEST_MM), shop.space.run_out_mm)


def _total_mm(run: Sequence[_Short], cutting: Cutting) -> float:
    """Rough length of some blanks end to end. [mm]"""
    ends = (run[0].ledger.rough.length_mm - run[0].ledger.milled.length_mm) / 2.0 - INNER_END_MM
    inner = sum(share_mm(item.ledger) for item in run)
    return inner + (len(run) - 1) * cutting.crosscut_kerf_mm + 2.0 * ends


def _runs(members: list[_Short], cutting: Cutting, room_mm: float) -> list[list[_Short]]:
    """The short ones of one section, joined until each run is long enough."""
    runs = _filled([m for m in members if m.machine], cutting, room_mm)
    others = sorted((m for m in members if m.least_mm == 0.0), key=lambda m: m.ledger.rough.length_mm)
    if runs and _total_mm(runs[-1], cutting) < runs[-1][0].least_mm:
        mate = next((o for o in others if _total_mm([*runs[-1], o], cutting) <= room_mm), None)
        runs[-1] += [mate] if mate else []
    small: dict[str, list[_Short]] = {}
    for member in members:
        if member.least_mm > 0.0 and not member.machine:
            small.setdefault(member.ledger.like, []).append(member)
    for alike in small.values():
        runs += [run for run in _filled(alike, cutting, room_mm) if len(run) > 1]
    return runs


def _filled(short: Sequence[_Short], cutting: Cutting, room_mm: float) -> list[list[_Short]]:
    runs: list[list[_Short]] = []
    for item in short:
        if not runs or _total_mm(runs[-1], cutting) >= max(i.least_mm for i in runs[-1]):
            runs.append([])
        runs[-1].append(item)
    if len(runs) > 1 and _total_mm(runs[-1], cutting) < runs[-1][0].least_mm:
        joined = [*runs[-2], *runs[-1]]
        runs[-2:] = [joined] if _total_mm(joined, cutting) <= room_mm else runs[-2:]
    return runs


def _gang(run: Sequence[_Short], cutting: Cutting) -> tuple[Blank, Gang]:
    """The blank a run is cut as, and what is to be known of it."""
    asks = max(run, key=lambda item: item.least_mm)
    total, first = _total_mm(run, cutting), run[0].blank
    length = max(total, asks.least_mm if asks.machine else 0.0)
    members = tuple(replace(item.blank, length_mm=share_mm(item.ledger)) for item in run)
    name = AND.join(member.name for member in members)
    gang = Gang(
        name=name,
        blanks=tuple(member.name for member in members),
        parts=tuple(member.part for member in members),
        length_mm=length,
        least_mm=asks.least_mm,
        tail_mm=length - total,
        kerf_mm=cutting.crosscut_kerf_mm,
        machine=asks.machine,
    )
    return replace(first, name=name, length_mm=length, grain_fixed=True, members=members), gang


def _with(request: LayoutRequest, made: Sequence[tuple[Blank, Gang]]) -> LayoutRequest:
    """The request with the lengths in place of their members."""
    heads = {gang.blanks[0]: blank for blank, gang in made}
    into = {name: gang.name for _, gang in made for name in gang.blanks}
    return replace(
        request,
        blanks=tuple(heads.get(b.name, b) for b in request.blanks if b.name in heads or b.name not in into),
        wishes=tuple(
            replace(w, members=tuple(dict.fromkeys(into.get(m, m) for m in w.members)))
            for w in request.wishes
        ),
    )
