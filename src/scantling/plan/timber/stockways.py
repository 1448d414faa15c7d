"""Which stock the blanks come from: the usual, thicker boards planed down, or leaves resawn out of one."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from concurrent.futures import Executor
from dataclasses import dataclass, replace

from scantling.piece.matching import WishKind
from scantling.piece.model import Piece
from scantling.shop.profile.profile import Shop
from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_rings
from scantling.stock.asked.folding import folded
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.board import QUARTER_MM, Board
from scantling.stock.layouts.layout import Layout
from scantling.stock.solving.engine import Method
from scantling.stock.solving.hands import hands
from scantling.stock.solving.matching import layout_key
from scantling.stock.solving.solve import LayoutAnswer, LayoutRequest, StopRule, solve

__all__ = ["OFFER", "Chosen", "Limits", "choose_stock", "fixed_stock", "other_ways"]

OFFER = "resawn: "
"""Begins the names of pairs that may be resawn out of one thickness, though no wish asks for it."""
_MOST_OFFERS = 8

Told = Callable[[LayoutAnswer], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """How long to search, and from which seed; one of rounds and seconds [s] is given.

    ``workers`` is how many processes may work at once: by rounds they change nothing.
    """

    rounds: int | None
    seconds: float | None
    seed: int
    workers: int = 1

    def shared(self) -> Limits:
        """Half of the time; as many rounds."""
        return replace(self, seconds=None if self.seconds is None else self.seconds / 2.0)

    def rule(self) -> StopRule:
        """When a search ends."""
        return StopRule(rounds=self.rounds, seconds=self.seconds)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """A layout, and what it was asked: with what may come from thicker stock and the leaves resawn."""

    layout: Layout
    request: LayoutRequest


Found = Callable[[LayoutAnswer, Chosen], None]


def fixed_stock(piece: Piece) -> frozenset[str]:
    """Parts whose nominal stock the piece fixes."""
    return frozenset(
        part.name
        for part in piece.parts.values()
        if part.quarters is not None or (part.layers is not None and part.layers.quarters)
    )


def other_ways(request: LayoutRequest, shop: Shop, *, fixed: frozenset[str] = frozenset()) -> LayoutRequest:
    """The request with every thickness of the rack its blanks may come from, and leaves that may be resawn.

    Parameters
    ----------
    request
        Every blank with its usual stock.
    shop
        How much thicker a board may be that is planed down, and its saw for resawing.
    fixed
        Parts whose stock the piece fixes.
    """
    thicker_mm = shop.allowances.thicker_mm

    def wider(need: Blank | FreeWidthPanel) -> tuple[float, ...]:
        if not need.quarters or need.part in fixed:
            return need.quarters
        most = max(need.quarters) + thicker_mm / QUARTER_MM + 1e-6
        there = {b.nominal_quarters for b in request.boards if b.species == need.species}
        return (*need.quarters, *sorted(q for q in there if max(need.quarters) < q <= most))

    return replace(
        request,
        blanks=tuple(replace(b, quarters=wider(b)) for b in request.blanks),
        panels=tuple(replace(p, quarters=wider(p)) for p in request.panels),
        wishes=(*request.wishes, *_offers(request, fixed)),
    )


def _offers(request: LayoutRequest, fixed: frozenset[str]) -> Iterator[Wish]:
    """Pairs of equal blanks that some board is thick enough for, the largest first."""
    cutting = request.cutting
    wished = {m for w in request.wishes for m in w.members}
    groups: dict[tuple[object, ...], list[Blank]] = {}
    for blank in request.blanks:
        if blank.members or blank.name in wished or blank.part in fixed or not blank.quarters:
            continue
        if blank.width_mm > cutting.resaw_most_mm or cutting.resaw_most_mm <= 0:
            continue
        sizes = (blank.length_mm, blank.width_mm, blank.needed_mm or blank.thickness_mm)
        key = (blank.species, blank.looks, blank.boards, blank.sawn, tuple(round(size, 2) for size in sizes))
        groups.setdefault(key, []).append(blank)
    pairs = [
        (first, second)
        for alike in groups.values()
        for first, second in zip(alike[::2], alike[1::2], strict=False)
        if any(_thick_enough(first, second, board, cutting.resaw_kerf_mm) for board in request.boards)
    ]
    pairs.sort(key=lambda pair: -pair[0].area_mm2)
    for first, second in pairs[:_MOST_OFFERS]:
        names = (first.name, second.name)
        yield Wish(name=OFFER + " and ".join(names), kind=WishKind.RESAWN, members=names, worth=0.0)


def _thick_enough(first: Blank, second: Blank, board: Board, kerf_mm: float) -> bool:
    need_mm = sum(b.needed_mm or b.thickness_mm for b in (first, second)) + kerf_mm
    right = board.species == first.species and accepts_rings(first, board)
    return right and board.rough_thickness_mm >= need_mm - 1e-6


def choose_stock(
    usual: LayoutRequest,
    other: LayoutRequest,
    *,
    limits: Limits,
    told: Told | None = None,
    found: Found | None = None,
) -> Chosen:
    """The best layout, thicker and resawn stock taken only where that holds more or costs less.

    By rounds, the other ways are searched where the usual stock does not hold everything, or where a layout
    of theirs by hand rules is better already; by seconds, always, in half of the time. The bound is that of
    the request whose layout is taken.

    Parameters
    ----------
    usual, other
        What is asked for from the usual stock, and with the other ways.
    limits
        Of each search; seconds are shared.
    told
        Is told of every better answer. Who listens may interrupt: the best one so far is then returned.
    found
        Is told the same, with what would be returned were the search over.
    """
    search = _Search(told=told, found=found)
    with hands(workers=limits.workers) as search.executor:
        try:
            search.run(usual, limits if other == usual else limits.shared())
            if other != usual and (limits.seconds is not None or search.wants(other, limits.seed)):
                search.run(other, limits.shared())
        except KeyboardInterrupt:
            if told is None or search.best is None:
                raise
    return search.chosen()


class _Search:
    """The best answer of several requests."""

    def __init__(self, *, told: Told | None, found: Found | None = None) -> None:
        self.told, self.found = told, found
        self.executor: Executor | None = None
        self.best: LayoutAnswer | None = None
        self.request: LayoutRequest | None = None

    def run(self, request: LayoutRequest, limits: Limits) -> None:
        """Search one request; a later one counts only where it is better."""
        for answer in solve(request, stop=limits.rule(), seed=limits.seed, executor=self.executor):
            if not answer.news:
                if self.told is not None:
                    self.told(answer)
            elif request is self.request or self._better(answer, request):
                self.best, self.request = answer, request
                if self.told is not None:
                    self.told(answer)
                if self.found is not None:
                    self.found(answer, self.chosen())

    def wants(self, other: LayoutRequest, seed: int) -> bool:
        """Whether other ways are worth a search, by hand rules: with no leaves resawn, or with all."""
        if self.best is None or not self.best.layout.complete:
            return True
        offers = [wish for wish in other.wishes if wish.name.startswith(OFFER)]
        apart = replace(other, wishes=tuple(wish for wish in other.wishes if wish not in offers))
        resawn = replace(apart, blanks=folded(apart.blanks, offers, apart.cutting))
        for request in (apart, resawn) if offers else (apart,):
            *_, quick = solve(request, stop=StopRule(rounds=1, method=Method.QUICK), seed=seed)
            if self._better(quick, request):
                return True
        return False

    def _better(self, answer: LayoutAnswer, request: LayoutRequest) -> bool:
        if self.best is None or self.request is None:
            return True
        return layout_key(answer.layout, request) < layout_key(self.best.layout, self.request)

    def chosen(self) -> Chosen:
        """The best layout, with only those offers that were taken up."""
        assert self.best is not None
        assert self.request is not None
        layout = self.best.layout
        answers = tuple(a for a in layout.wishes if a.granted or not a.wish.name.startswith(OFFER))
        wishes = tuple(a.wish for a in answers) if layout.wishes else self.request.wishes
        return Chosen(layout=replace(layout, wishes=answers), request=replace(self.request, wishes=wishes))
