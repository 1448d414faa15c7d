"""All parts on whole sheets by hand rules, then bettered by emptying a few sheets and filling them anew.

Every sheet is cut edge to edge: a part goes into a corner of a free rectangle, and one cut along or across
parts what is left of it into two.

References
----------
.. [1] Jylänki, "A thousand ways to pack the bin" (2010): rules for guillotine cutting of free rectangles.
.. [2] Schrimpf, Schneider, Stamm-Wilbrandt, Dueck, "Record breaking optimization results using the ruin and
   recreate principle", Journal of Computational Physics 159 (2000) 139-171.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product
from random import Random

__all__ = ["PackedSheet", "Packing", "SheetDemand", "pack_sheets"]

Rect = tuple[int, int, int, int]
"""Left, bottom, length, width."""
STARTS = 20
"""Packings tried from nothing before the best is bettered."""
IDLE = 10_000
"""So many tries without a better packing end a search."""
SEARCHES = 20
"""So often it is begun anew."""
LOOK = 50
"""After so many parts it is asked whether it is late."""
SLACK = 0.02
"""How much less uneven a packing may be that is gone on from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetDemand:
    """What is asked.

    Parameters
    ----------
    sizes, costs, limits
        Length and width of each kind of sheet, its cost, and how many there are (None: any number).
    parts, wanted
        Length and width of each part, the kerf included as in the sheets, and how many of it.
    turns
        Whether parts may be turned.
    """

    sizes: Sequence[tuple[int, int]]
    costs: Sequence[int]
    limits: Sequence[int | None]
    parts: Sequence[tuple[int, int]]
    wanted: Sequence[int]
    turns: bool = False


@dataclass(slots=True)
class PackedSheet:
    """One sheet: its kind, the rectangles that are free, and what lies on it."""

    kind: int
    free: list[Rect]
    placed: list[tuple[int, int, int, int, int]] = field(default_factory=list)
    """Left, bottom, length, width, number of the part."""
    covered: int = 0

    def copy(self) -> PackedSheet:
        """A sheet that can be filled on without changing this one."""
        return PackedSheet(self.kind, self.free.copy(), self.placed.copy(), self.covered)


@dataclass(frozen=True, slots=True)
class Packing:
    """All parts on sheets."""

    cost: int
    sheets: tuple[PackedSheet, ...]


@dataclass(frozen=True, slots=True)
class _Way:
    """How parts are put down in one try."""

    by_area: bool
    """Whether the free rectangle with the least area left is taken, or that with the shortest side left."""
    split: int
    """0: the cut that leaves the largest rectangle; 1: along; 2: across; 3: by the shorter side left."""

    def cuts_along(self, length: int, width: int, over: int, aside: int) -> bool:
        """Whether the cut runs along above the part, through the whole rectangle."""
        if self.split == 0:
            return over * width < aside * length
        return self.split == 1 or (self.split == 3 and over < aside)


@dataclass(slots=True)
class _Packer:
    """One question being answered."""

    asked: SheetDemand
    rng: Random
    late: Callable[[], bool]
    poses: tuple[tuple[tuple[int, int], ...], ...] = field(init=False)
    """Of each part: its length and width, as it lies and turned."""

    def __post_init__(self) -> None:
        turns = self.asked.turns
        self.poses = tuple(((a, b), (b, a)) if turns and a != b else ((a, b),) for a, b in self.asked.parts)

    def fill(self, sheets: list[PackedSheet], numbers: Sequence[int], left: list[int | None]) -> bool:
        """Put all parts down, on new sheets where they must; False without a sheet for one, or late."""
        way = _Way(self.rng.random() < 0.5, self.rng.randrange(4))
        order, there = self._order(numbers), len(sheets)
        spread = self.rng.choice((0.2, 0.2, 2.0))
        for at, number in enumerate(order):
            if at % LOOK == LOOK - 1 and self.late():
                return False
            if _put(sheets, number, self.poses[number], way):
                continue
            kind = self._new(order[at:], left, spread)
            if kind is None:
                return False
            _take(left, kind)
            sheets.append(PackedSheet(kind, [(0, 0, *self.asked.sizes[kind])]))
            _put(sheets[-1:], number, self.poses[number], way)
        for sheet in sheets[there:]:
            self._shrink(sheet, left)
        return True

    def _shrink(self, sheet: PackedSheet, left: list[int | None]) -> None:
        """Take the cheapest kind that what lies on a sheet has room on, cut as it is."""
        long = max(x + length for x, _, length, _, _ in sheet.placed)
        wide = max(y + width for _, y, _, width, _ in sheet.placed)
        sizes, costs = self.asked.sizes, self.asked.costs
        able = [
            kind
            for kind, (a, b) in enumerate(sizes)
            if a >= long and b >= wide and left[kind] != 0 and costs[kind] < costs[sheet.kind]
        ]
        if not able:
            return
        back = left[sheet.kind]
        left[sheet.kind] = None if back is None else back + 1
        sheet.kind = min(able, key=lambda kind: costs[kind])
        _take(left, sheet.kind)
        end, top = sizes[sheet.kind]
        clipped = ((x, y, min(x + a, end) - x, min(y + b, top) - y) for x, y, a, b in sheet.free)
        sheet.free = [r for r in clipped if r[2] > 0 and r[3] > 0]

    def _order(self, numbers: Sequence[int]) -> list[int]:
        """Large parts first, by a measure and a disorder drawn anew."""
        measure = self.rng.randrange(4)
        noise = self.rng.choice((0.0, 0.1, 0.3))

        def key(number: int) -> float:
            a, b = self.asked.parts[number]
            size = (a * b, max(a, b), a + b, min(a, b))[measure]
            return -size * (1.0 + noise * (self.rng.random() - 0.5))

        return sorted(numbers, key=key)

    def _new(self, numbers: Sequence[int], left: Sequence[int | None], spread: float) -> int | None:
        """Which kind of sheet is begun for these parts: cheap for what will lie on it, with some chance."""
        area = sum(self.asked.parts[n][0] * self.asked.parts[n][1] for n in numbers)
        best, chosen = 0.0, None
        for kind, (long, wide) in enumerate(self.asked.sizes):
            fits = any(a <= long and b <= wide for a, b in self.poses[numbers[0]])
            if not fits or left[kind] == 0:
                continue
            worth = min(area, 0.9 * long * wide) / self.asked.costs[kind] * (1.0 + spread * self.rng.random())
            if worth > best:
                best, chosen = worth, kind
        return chosen

    def cost(self, sheets: Sequence[PackedSheet]) -> int:
        """What the sheets cost."""
        return sum(self.asked.costs[s.kind] for s in sheets)

    def unevenness(self, sheets: Sequence[PackedSheet]) -> float:
        """Large where some sheets are full and others all but empty: such a one is soon not needed."""
        sizes = self.asked.sizes
        return sum((s.covered / (sizes[s.kind][0] * sizes[s.kind][1])) ** 2 for s in sheets)

    def renewed(self, now: Sequence[PackedSheet]) -> list[PackedSheet]:
        """The same parts with a few sheets filled anew; empty where they do not fit."""
        rng = self.rng
        emptied = set(rng.sample(range(len(now)), min(len(now), rng.choice((1, 2, 2, 3, 3, 4)))))
        if rng.random() < 0.5:
            emptied.add(min(range(len(now)), key=lambda n: now[n].covered))
        numbers = [p[4] for n in sorted(emptied) for p in now[n].placed]
        kept = [s for n, s in enumerate(now) if n not in emptied]
        left = list(self.asked.limits)
        for sheet in kept:
            _take(left, sheet.kind)
        if rng.random() < 0.5:  # the gaps of the others take what fits
            filled = [s.copy() for s in kept]
            return filled if self.fill(filled, numbers, left) else []
        fresh: list[PackedSheet] = []
        return [*kept, *fresh] if self.fill(fresh, numbers, left) else []


def _put(sheets: Sequence[PackedSheet], number: int, poses: Sequence[tuple[int, int]], way: _Way) -> bool:
    """Put a part where it fits best; False where it fits nowhere."""
    best: tuple[int, int] | None = None
    where: tuple[PackedSheet, int, int, int] | None = None
    for sheet, (length, width) in product(sheets, poses):
        for place, (_, _, long, wide) in enumerate(sheet.free):
            over, aside = long - length, wide - width
            if over < 0 or aside < 0:
                continue
            short = over if over < aside else aside
            key = (long * wide, short) if way.by_area else (short, over + aside)
            if best is None or key < best:
                best, where = key, (sheet, place, length, width)
    if where is None:
        return False
    sheet, place, length, width = where
    x, y, long, wide = sheet.free.pop(place)
    sheet.placed.append((x, y, length, width, number))
    sheet.covered += length * width
    over, aside = long - length, wide - width
    along = way.cuts_along(length, width, over, aside)
    right = (x + length, y, over, width if along else wide)
    above = (x, y + width, long if along else length, aside)
    sheet.free.extend(r for r in (right, above) if r[2] > 0 and r[3] > 0)
    return True


def _take(left: list[int | None], kind: int) -> None:
    """One sheet of a kind less."""
    there = left[kind]
    left[kind] = None if there is None else there - 1


def pack_sheets(asked: SheetDemand, *, enough: Callable[[int], bool], seed: int = 0) -> Iterator[Packing]:
    """Packings, each cheaper than the one before; none where a part fits no sheet, or sheets run out.

    Parameters
    ----------
    asked
        The question.
    enough
        Called before every try with the least cost so far (0 before the first), and with 0 while many parts
        are put down; true ends the search.
    seed
        Of what is drawn.
    """
    packer = _Packer(asked, Random(seed), lambda: enough(0))
    best = 0
    for _ in range(SEARCHES):
        for cost, sheets in _search(packer, enough):
            if not best or cost < best:
                best = cost
                yield Packing(cost, tuple(sheets))
        if not best or enough(best):
            return


def _search(packer: _Packer, enough: Callable[[int], bool]) -> Iterator[tuple[int, list[PackedSheet]]]:
    """From the best of a few packings made anew to cheaper ones, until that helps no more."""
    numbers = [n for n, often in enumerate(packer.asked.wanted) for _ in range(often)]
    now: list[PackedSheet] = []
    for _ in range(STARTS):
        tried: list[PackedSheet] = []
        if packer.fill(tried, numbers, list(packer.asked.limits)) and (
            not now or packer.cost(tried) < packer.cost(now)
        ):
            now = tried
            yield packer.cost(now), now
        if enough(packer.cost(now)):
            return
    least, mark, idle = packer.cost(now), packer.unevenness(now), 0
    while now and idle < IDLE and not enough(least):
        idle += 1
        tried = packer.renewed(now)
        if not tried:
            continue
        cost, level = packer.cost(tried), packer.unevenness(tried)
        # a packing that costs no more and is hardly less uneven is gone on from
        if (-cost, level) > (-packer.cost(now), mark - SLACK * packer.rng.random()):
            now, mark = tried, level
        if cost < least:
            least, idle = cost, 0
            yield cost, now
