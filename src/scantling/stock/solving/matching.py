"""Laying out with wishes: which are granted, and from which boards, then the layout for that.

A wish is granted by cutting its members as one (grain that runs through, leaves of one thickness) or by
keeping them to a *home*: a board, a flitch, two neighbors in a flitch. Homes are chosen one wish after the
other by quick layouts; then the boards are laid out thoroughly for the homes chosen. The bound is that of a
thorough search that keeps to no home, so it holds whatever home is chosen; of leaves that may be resawn it
asks for one of each pair.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from scantling.stock.asked.blank import Blank, FreeWidthPanel
from scantling.stock.asked.folding import folded, unfoldable
from scantling.stock.asked.homes import Home, homes_for, housed
from scantling.stock.asked.wish import FOLDED, Wish, pairs
from scantling.stock.layouts.aim import largest_offcut_m2
from scantling.stock.layouts.answering import answered
from scantling.stock.layouts.layout import BoardLayout, Layout, StripWidths
from scantling.stock.question.problem import weighed_costs
from scantling.stock.solving.engine import Method
from scantling.stock.solving.request import LayoutAnswer, LayoutRequest, StopRule

__all__ = ["Key", "arranged", "layout_key", "missing_m2", "solve_matched", "value_of"]

_MOST_TRIALS = 40
_MOST_HOMES = 8
_HOME_ROUNDS = 4
_DIGITS = 6
"""Digits of area and money that count: beyond them sums differ by rounding alone."""
_WORK = 40_000
"""Quick layouts tried, times boards, times blanks, at most."""
Plain = Callable[..., Iterator["LayoutAnswer"]]
Key = tuple[float, float, float]
_WORSE_THAN_ANY: Key = (float("inf"),) * 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """How each wish is to be granted: by its home, by folding, or by leaving its members out."""

    homes: dict[str, Home] = field(default_factory=dict)
    folds: frozenset[str] = frozenset()
    out: frozenset[str] = frozenset()

    def members_out(self, request: LayoutRequest) -> set[str]:
        """Blanks and panels left out, because a must of theirs cannot be."""
        return {m for w in request.wishes if w.name in self.out for m in w.members}


def _needs(request: LayoutRequest) -> dict[str, Blank | FreeWidthPanel]:
    """Blanks and panels by name."""
    every: list[Blank | FreeWidthPanel] = [*request.blanks, *request.panels]
    return {need.name: need for need in every}


def arranged(request: LayoutRequest, decision: Decision) -> LayoutRequest:
    """The request with its wishes made into limits of the blanks."""
    needs = _needs(request)
    for wish in request.wishes:
        if wish.name in decision.homes:
            for name in wish.members:
                needs[name] = housed(needs[name], decision.homes[wish.name])
    out = decision.members_out(request)
    blanks = [n for n in needs.values() if isinstance(n, Blank) and n.name not in out]
    wishes = [w for w in request.wishes if w.name in decision.folds and not out & set(w.members)]
    return replace(
        request,
        blanks=folded(blanks, wishes, request.cutting),
        panels=tuple(n for n in needs.values() if isinstance(n, FreeWidthPanel) and n.name not in out),
        wishes=(),
    )


def value_of(layout: Layout, request: LayoutRequest) -> float:
    """What a layout counts: boards, cuts, largest offcut, wishes not granted. [money]"""
    costs = dict(
        zip((b.name for b in request.boards), weighed_costs(request.boards, request.aim), strict=True)
    )
    aim = request.aim
    value = sum(costs[b.board.name] for b in layout.boards)
    value += aim.cut * sum(len(b.cuts) for b in layout.boards)
    value -= aim.offcut * largest_offcut_m2(layout)
    return value + aim.looks * sum(a.wish.worth or 0.0 for a in layout.wishes if not a.granted)


def missing_m2(layout: Layout, request: LayoutRequest) -> float:
    """Face of what has no wood. [m2]"""
    panels = {p.name: p for p in request.panels}
    asked = {b.name for b in request.blanks}
    parted = (b.members if b.members and b.name not in asked else (b,) for b in layout.unplaced)
    area = sum(b.area_mm2 for each in parted for b in each)
    return 1e-6 * (area + sum(s.missing_mm * panels[s.panel].length_mm for s in layout.strips))


def layout_key(layout: Layout, request: LayoutRequest) -> Key:
    """How good a layout is, smaller being better: musts broken, wood missing [m2], what it counts [money].

    Parameters
    ----------
    layout
        Parts on boards, with its wishes answered.
    request
        What is asked for. A layout with a board it does not know is worse than any.
    """
    known = {board.name for board in request.boards}
    if not known.issuperset(laid.board.name for laid in layout.boards):
        return _WORSE_THAN_ANY
    missing = round(missing_m2(layout, request), _DIGITS)
    return (layout.musts_broken, missing, round(value_of(layout, request), _DIGITS))


@dataclass(slots=True)
class _Matcher:
    request: LayoutRequest
    plain: Plain
    seed: int
    trials: int = field(init=False)
    best: Layout | None = None
    key: Key = _WORSE_THAN_ANY
    decision: Decision = field(default_factory=Decision)

    def __post_init__(self) -> None:
        work = len(self.request.boards) * (len(self.request.blanks) + len(self.request.panels))
        self.trials = min(_MOST_TRIALS, max(8, _WORK // max(1, work)))

    def told(self, layout: Layout, decision: Decision) -> Layout:
        """The layout with its blanks as they were asked for, and its wishes answered."""
        plain = arranged(self.request, replace(decision, homes={}))
        asked = {b.name: b for b in plain.blanks}
        panels = {p.name: p for p in plain.panels}
        boards = tuple(_as_asked(b, asked, panels) for b in layout.boards)
        request, out = self.request, decision.members_out(self.request)
        left = (*(asked[b.name] for b in layout.unplaced), *(b for b in request.blanks if b.name in out))
        bare = {p.name: _none_of(p) for p in request.panels if p.name in out}
        strips = {s.panel: s for s in layout.strips} | bare
        shown = replace(
            layout,
            boards=boards,
            unplaced=left,
            strips=tuple(strips[p.name] for p in request.panels),
        )
        answers = answered(shown, request.wishes, blanks=request.blanks, panels=request.panels)
        return replace(shown, wishes=answers)

    def offer(self, layout: Layout, decision: Decision) -> bool:
        """Keep a layout if it is better."""
        shown = self.told(layout, decision)
        key = layout_key(shown, self.request)
        if key >= self.key:
            return False
        self.best, self.key, self.decision = shown, key, decision
        return True

    def quick(self, decision: Decision, stop: StopRule) -> bool:
        """Lay out by hand rules, and keep the layout if it is better."""
        self.trials -= 1
        quick = replace(stop, rounds=1, method=Method.QUICK)
        last = None
        for answer in self.plain(arranged(self.request, decision), stop=quick, seed=self.seed):
            last = answer
        return last is not None and self.offer(last.layout, decision)

    def must_folds(self) -> frozenset[str]:
        return frozenset(w.name for w in self.request.wishes if w.kind in FOLDED and w.worth is None)

    def choose(self, stop: StopRule) -> Iterator[None]:
        """Try folds and homes, one wish after the other; yields after every better layout."""
        self.quick(Decision(folds=self.must_folds()), stop)
        wishes = sorted(self.request.wishes, key=lambda w: -(w.worth or float("inf")))
        for wish in (w for w in wishes if w.worth is None):
            list(self.grant(wish, stop))
        for wish in (w for w in wishes if w.worth is None):
            if self.best and any(a.broken and a.wish == wish for a in self.best.wishes):
                held = self.settled()
                self.quick(replace(held, out=held.out | self.bound_to(wish)), stop)
        yield
        for _ in range(2):
            for wish in wishes:
                yield from self.grant(wish, stop)

    def grant(self, wish: Wish, stop: StopRule) -> Iterator[None]:
        """Try the ways to grant one wish; a must is tried at least once."""
        blanks = {b.name: b for b in self.request.blanks}
        granted = {a.wish.name for a in self.best.wishes if a.granted} if self.best else set()
        if wish.name in granted or (wish.kind in FOLDED and unfoldable(wish, blanks, self.request.cutting)):
            return
        for number, decision in enumerate(self.options(wish)):
            if self.trials <= 0 and (number or wish.worth is not None):
                return
            if self.quick(decision, stop):
                yield

    def bound_to(self, wish: Wish) -> set[str]:
        """A must and the musts that cannot be without its members, because they are cut as one with them."""
        names, members = {wish.name}, set(wish.members)
        for _ in self.request.wishes:
            for other in self.request.wishes:
                if other.worth is None and other.kind in FOLDED and members & set(other.members):
                    names.add(other.name)
                    members |= set(other.members)
        return names

    def options(self, wish: Wish) -> Iterator[Decision]:
        """Ways to grant a wish beside those granted now."""
        held = self.settled()
        if wish.kind in FOLDED:
            yield replace(held, folds=held.folds | {wish.name})
            return
        by_name = _needs(self.request)
        needs = [by_name[m] for m in wish.members]
        for home in homes_for(wish, needs, self.request.boards):
            yield replace(held, homes={**held.homes, wish.name: home})

    def settled(self) -> Decision:
        """The best decision, with every wish that is granted now held to the boards that grant it."""
        if self.best is None:
            return self.decision
        homes = dict(self.decision.homes)
        for answer in self.best.wishes:
            if answer.granted and answer.wish.kind not in FOLDED:
                homes[answer.wish.name] = answer.boards
        return replace(self.decision, homes=homes)


def _none_of(panel: FreeWidthPanel) -> StripWidths:
    return StripWidths(panel=panel.name, widths_mm=(), missing_mm=panel.total_width_mm)


def _as_asked(laid: BoardLayout, asked: dict[str, Blank], panels: dict[str, FreeWidthPanel]) -> BoardLayout:
    """A board's blanks without the homes they were held to."""

    def plain(blank: Blank) -> Blank:
        if blank.name in asked:
            return asked[blank.name]
        return replace(blank, boards=panels[blank.name.rpartition(" strip ")[0]].boards)

    return replace(laid, placed=tuple(replace(p, blank=plain(p.blank)) for p in laid.placed))


def _share(stop: StopRule, *, begun: float, until: float) -> StopRule:
    """The same rule, to end at a share of the time."""
    if stop.seconds is None:
        return stop
    return replace(stop, seconds=max(0.05, begun + stop.seconds * until - stop.clock()))


def solve_matched(
    request: LayoutRequest, *, plain: Plain, stop: StopRule, seed: int
) -> Iterator[LayoutAnswer]:
    """As :func:`~scantling.stock.solving.solve.solve`, for a request with wishes.

    Parameters
    ----------
    request
        The request.
    plain
        What lays out a request without wishes.
    stop, seed
        When to stop, and the seed.
    """
    begun = stop.clock()
    matcher = _Matcher(request, plain, seed)
    bound = _Bound()
    done = 0
    for _ in matcher.choose(_share(stop, begun=begun, until=0.25)):
        yield _answer(matcher, bound, done)
        if stop.seconds is not None and stop.clock() - begun > 0.25 * stop.seconds:
            break
    musts = Decision(folds=matcher.must_folds())
    halved = _with_halved_leaves(request)
    if halved is not request:
        rule = _share(stop, begun=begun, until=0.4)
        for answer in plain(arranged(halved, musts), stop=rule, seed=seed):
            if bound.take(answer):
                yield _answer(matcher, bound, done)
    runs = ((musts, 0.55), (matcher.settled(), 1.0))
    for number, (decision, until) in enumerate(runs):
        rule = _share(stop, begun=begun, until=until)
        for answer in plain(arranged(request, decision), stop=rule, seed=seed):
            done = max(done, answer.round)
            better = matcher.offer(answer.layout, decision)
            raised = number == 0 and halved is request and bound.take(answer)
            if better or raised:
                yield _answer(matcher, bound, done)
            elif not answer.news:
                yield replace(_answer(matcher, bound, done), news=False, doing=answer.doing)
    _raise_by_homes(halved, musts, bound, plain=plain, stop=_share(stop, begun=begun, until=1.0), seed=seed)
    yield _answer(matcher, bound, done)


def _raise_by_homes(
    request: LayoutRequest, musts: Decision, bound: _Bound, *, plain: Plain, stop: StopRule, seed: int
) -> None:
    """Raise the bound by what must come from one home.

    Whatever layout there is, the members of a must lie in one of its homes: the least of the bounds with each
    home holds for all. The must with the fewest homes is taken; of many homes none.
    """
    needs = _needs(request)
    homes = [
        (wish, homes_for(wish, [needs[m] for m in wish.members], request.boards))
        for wish in request.wishes
        if wish.worth is None and wish.kind not in FOLDED
    ]
    few = [(wish, each) for wish, each in homes if 0 < len(each) <= _MOST_HOMES]
    if not few or bound.short:
        return
    wish, each = min(few, key=lambda pair: len(pair[1]))
    least = _Bound(cost=float("inf"))
    for home in each:
        with_home = replace(musts, homes={wish.name: home})
        here = _Bound()
        for answer in plain(arranged(request, with_home), stop=replace(stop, rounds=_HOME_ROUNDS), seed=seed):
            here.take(answer)
        if not here.short and here.cost < least.cost:
            least = here
        if least.cost <= bound.cost:
            return
    if least.cost == float("inf"):
        bound.short = True
    else:
        bound.cost, bound.price = least.cost, least.price


def _with_halved_leaves(request: LayoutRequest) -> LayoutRequest:
    """The request with one of each pair that may, but need not, be resawn out of one thickness.

    Two leaves in one take the face of one: a bound that holds whether they are resawn or not is that of the
    first of each pair alone, from any board thick enough. The same request where there are no such pairs.
    """
    tied = {m for w in request.wishes if w.worth is None and w.kind in FOLDED for m in w.members}
    loose = (w for w in request.wishes if w.worth is not None and w.kind.leaves)
    named = [p for w in loose for p in pairs(w.members) if len(p) == 2 and not tied & set(p)]
    if not named:
        return request
    gone = {second for _, second in named}
    kept = {first for first, _ in named} - gone
    return replace(
        request,
        blanks=tuple(
            replace(b, quarters=()) if b.name in kept else b for b in request.blanks if b.name not in gone
        ),
        wishes=tuple(w for w in request.wishes if not gone & set(w.members)),
    )


@dataclass(slots=True)
class _Bound:
    """What the search without homes has proven."""

    cost: float = 0.0
    price: float | None = None
    short: bool = False

    def take(self, answer: LayoutAnswer) -> bool:
        old = (self.cost, self.short)
        self.short = answer.layout.short_proven
        self.cost, self.price = max(self.cost, answer.bound), answer.layout.bound_price
        return old != (self.cost, self.short)


def _answer(matcher: _Matcher, bound: _Bound, done: int) -> LayoutAnswer:
    assert matcher.best is not None, "the first quick layout is always kept"
    value = value_of(matcher.best, matcher.request)
    gap = None
    if matcher.best.complete and value > 0 and not matcher.key[0]:
        gap = max(0.0, 100.0 * (value - bound.cost) / value)
    layout = replace(
        matcher.best,
        bound_price=None if bound.short else bound.price,
        gap_pct=gap,
        short_proven=bound.short,
        seed=matcher.seed,
    )
    proven = matcher.best.complete and value - bound.cost <= 1e-6 * max(1.0, value)
    return LayoutAnswer(layout=layout, round=done, proven=proven, cost=value, bound=bound.cost)
