"""At the rack: boards lifted one at a time, and for each what it would cover and whether to take it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from scantling.stock.asked.blank import Blank, FreeWidthPanel, accepts_board, accepts_rings
from scantling.stock.asked.cutting import Cutting
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.board import Board
from scantling.stock.checking.rings_told import asked_sawn, board_sawn, sawn_shares, untold
from scantling.stock.layouts.aim import Aim
from scantling.stock.layouts.layout import Layout
from scantling.stock.solving.matching import missing_m2, value_of
from scantling.stock.solving.solve import LayoutRequest, lay_out
from scantling.units.boardmeasure import MM3_PER_BOARD_FOOT

__all__ = [
    "Asked",
    "Needs",
    "Spare",
    "Verdict",
    "YardAnswer",
    "asked_of",
    "covered_pct_of",
    "judge_board",
    "lay_pile",
    "missing_of",
    "rounds_for",
    "spare_of",
    "thicker_words",
]


_FEW, _FEW_ROUNDS = 60, 3
"""Blanks and panels up to which an answer takes some rounds of search; with more it goes by hand rules."""
_NEARLY_PCT = 75.0
"""Covered so far from the usual stock, thicker boards are tried for the rest. [%]"""


class Verdict(StrEnum):
    """What to do with the board in hand."""

    TAKE = "take"
    SWAP = "swap"
    PUT_BACK = "put back"


@dataclass(frozen=True, slots=True, kw_only=True)
class Needs:
    """What the piece asks for and wishes, how the shop cuts, and what counts there.

    ``ways`` gives a request the other ways its blanks may be had, such as from thicker boards planed down.
    """

    blanks: tuple[Blank, ...]
    panels: tuple[FreeWidthPanel, ...] = ()
    cutting: Cutting
    wishes: tuple[Wish, ...] = ()
    aim: Aim = field(default_factory=Aim)
    ways: Callable[[LayoutRequest], LayoutRequest] | None = None

    def on(self, boards: Sequence[Board]) -> LayoutRequest:
        """All of it, asked of some boards."""
        return LayoutRequest(
            boards=tuple(boards),
            blanks=self.blanks,
            panels=self.panels,
            cutting=self.cutting,
            wishes=self.wishes,
            aim=self.aim,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """Boards of a pile that may go back.

    Parameters
    ----------
    boards
        Their names, in the order of the pile.
    saved
        What they cost together; None where one of them has no price. [money]
    """

    boards: tuple[str, ...] = ()
    saved: float | None = 0.0

    @property
    def words(self) -> str:
        """Which boards may go back, and what that saves; empty where there are none.

        Examples
        --------
        >>> Spare(boards=("A3", "A5"), saved=23.5).words
        'A3, A5 may go back: 23.50 saved.'
        """
        if not self.boards:
            return ""
        saved = f": {self.saved:,.2f} saved" if self.saved else ""
        return f"{', '.join(self.boards)} may go back{saved}."


@dataclass(frozen=True, slots=True, kw_only=True)
class YardAnswer:
    """What one more board would change.

    Parameters
    ----------
    verdict
        Take it, swap it for the boards in ``give_back``, or put it back.
    reason
        Why, with the figures.
    layout
        Layout of the pile with this board.
    covered_pct
        Share of the blanks' face area the pile then covers. [%]
    missing_m2
        Face area still missing. [m2]
    give_back
        Boards of the pile that nothing is cut from any more.
    enough
        Whether the pile is enough.
    gains
        Blanks and panels that have wood, or more of it, only with the board.
    grants
        Wishes that are granted only with the board.
    spare
        Boards of the pile that may go back once it is enough, beside those to give back for this one.
    """

    verdict: Verdict
    reason: str
    layout: Layout
    covered_pct: float
    missing_m2: float
    give_back: tuple[str, ...]
    enough: bool
    gains: tuple[str, ...] = ()
    grants: tuple[str, ...] = ()
    spare: Spare = field(default_factory=Spare)


def lay_pile(pile: Sequence[Board], needs: Needs, *, rounds: int | None = None) -> Layout:
    """The pile so far, laid out; rounds as in :func:`judge_board`.

    From the usual stock, which is what to look for; other ways count where little is missing and they leave
    nothing missing, since a plan of this pile would take them.
    """
    usual, rounds = needs.on(pile), rounds or rounds_for(needs)
    layout = lay_out(usual, rounds=rounds)
    if layout.complete or needs.ways is None or covered_pct_of(layout, needs) < _NEARLY_PCT:
        return layout
    other = needs.ways(usual)
    tried = layout if other == usual else lay_out(other, rounds=rounds)
    if not tried.complete:
        return layout
    asked = {wish.name for wish in needs.wishes}
    return replace(tried, wishes=tuple(a for a in tried.wishes if a.granted or a.wish.name in asked))


def thicker_words(layout: Layout, needs: Needs) -> str:
    """What a layout takes from thicker boards than those to look for, in a sentence; empty where nothing."""
    every: list[Blank | FreeWidthPanel] = [*needs.blanks, *needs.panels]
    usual: dict[str, set[float]] = {}
    for need in every:
        usual.setdefault(need.part, set()).update(need.quarters)
    found = [
        placed.blank.name.replace("_", " ")
        for laid in layout.boards
        for placed in laid.placed
        if usual.get(placed.blank.part) and laid.board.nominal_quarters not in usual[placed.blank.part]
    ]
    return f"From thicker boards, planed down or resawn: {', '.join(found)}." if found else ""


def spare_of(layout: Layout, pile: Sequence[Board]) -> Spare:
    """Boards of a pile that nothing is cut from, once it holds everything; none before.

    The layout is the cheapest found, so what it leaves alone is what costs most to keep.

    Parameters
    ----------
    layout
        The pile as :func:`lay_pile` lays it out.
    pile
        Boards taken so far.
    """
    if not layout.complete:
        return Spare()
    used = {b.board.name for b in layout.boards}
    idle = [b for b in pile if b.name not in used]
    prices = [b.price_total for b in idle]
    return Spare(
        boards=tuple(b.name for b in idle),
        saved=None if None in prices else sum(p for p in prices if p is not None),
    )


def rounds_for(needs: Needs) -> int:
    """Rounds of search that leave one answer well under a second: whoever holds a board does not wait."""
    return _FEW_ROUNDS if len(needs.blanks) + len(needs.panels) <= _FEW else 1


def missing_of(layout: Layout, needs: Needs) -> tuple[tuple[str, float, float, float], ...]:
    """What has no wood yet: name, length, width and thickness, alike ones once, largest first. [mm]"""
    by_name = {panel.name: panel for panel in needs.panels}
    found = [(b.name, b.length_mm, b.width_mm, b.thickness_mm) for b in layout.unplaced]
    for strips in layout.strips:
        if strips.missing_mm > 1e-6:
            panel = by_name[strips.panel]
            found.append((panel.name, panel.length_mm, strips.missing_mm, panel.thickness_mm))
    return tuple(sorted(found, key=lambda m: (-m[1] * m[2], m[0])))


def covered_pct_of(layout: Layout, needs: Needs) -> float:
    """Share of the face area asked for that has wood in a layout. [%]"""
    whole = _whole_m2(needs)
    return 100.0 * (1.0 - missing_m2(layout, needs.on(())) / whole) if whole else 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A wood and thickness to look for.

    Parameters
    ----------
    species, thickness
        The wood, and its thickness as the yard writes it.
    board_feet
        Net of every loss at the boards. [board ft]
    sawn
        How much of it is to be sawn one way, by the way, the most first. [board ft]
    """

    species: str
    thickness: str
    board_feet: float
    sawn: tuple[tuple[str, float], ...] = ()


def asked_of(needs: Needs) -> tuple[Asked, ...]:
    """What to look for, by wood and thickness; the most first."""
    stacks: dict[tuple[str, str], list[tuple[Blank | FreeWidthPanel, float]]] = {}
    every: list[Blank | FreeWidthPanel] = [*needs.blanks, *needs.panels]
    for need in every:
        thickness = f"{need.quarters[0]:g}/4" if need.quarters else f"{need.thickness_mm:.0f} mm"
        feet = need.area_mm2 * need.thickness_mm / MM3_PER_BOARD_FOOT
        stacks.setdefault((need.species, thickness), []).append((need, feet))
    found = [
        Asked(
            species=wood,
            thickness=thickness,
            board_feet=sum(feet for _, feet in stack),
            sawn=sawn_shares(stack),
        )
        for (wood, thickness), stack in stacks.items()
    ]
    return tuple(sorted(found, key=lambda one: (-one.board_feet, one.species, one.thickness)))


def _whole_m2(needs: Needs) -> float:
    """Face area asked for. [m2]"""
    panels = sum(p.length_mm * p.total_width_mm for p in needs.panels)
    return (sum(b.area_mm2 for b in needs.blanks) + panels) * 1e-6


def judge_board(
    lifted: Board,
    pile: Sequence[Board],
    *,
    needs: Needs,
    rounds: int | None = None,
    before: Layout | None = None,
) -> YardAnswer:
    """Judge a board against the pile so far.

    A board is worth taking when it covers more of what is missing; else where the piece comes cheaper with it
    than without, or it lets a wish be granted that is worth more than the board costs. Blanks that must
    belong together and do not yet are missing.

    Parameters
    ----------
    lifted
        The board in hand; its name must differ from those of the pile.
    pile
        Boards taken so far.
    needs
        What the piece asks for.
    rounds
        Rounds of search for each of the two layouts; None takes those of :func:`rounds_for`.
    before
        The pile so far as :func:`lay_pile` lays it out, where it is at hand.
    """
    before = before or lay_pile(pile, needs, rounds=rounds)
    after = lay_pile([*pile, lifted], needs, rounds=rounds)
    old, new = (missing_m2(layout, needs.on(())) for layout in (before, after))
    grants = _grants(before, after)
    used = {b.board.name for b in after.boards}
    idle = tuple(b.name for b in pile if b.name not in used)
    if _nothing_from(lifted, needs):
        verdict, reason = Verdict.PUT_BACK, _why_nothing(lifted, needs)
    else:
        verdict, reason = _verdict(before, after, missing=(old, new), stock=_stock_missing(before, needs))
        values = [value_of(x, needs.on([*pile, lifted])) for x in (before, after)]
        if verdict is Verdict.PUT_BACK and grants and values[1] < values[0] - 1e-9:
            verdict, reason = _for_wishes(grants, values[0] - values[1], idle=idle)
        elif verdict is Verdict.PUT_BACK:
            reason += _too_dear([*pile, lifted], before, needs=needs, rounds=rounds)
    if verdict is not Verdict.PUT_BACK:
        reason += _look_at(lifted, after)
    return YardAnswer(
        verdict=verdict,
        reason=reason,
        layout=before if verdict is Verdict.PUT_BACK else after,
        covered_pct=covered_pct_of(before if verdict is Verdict.PUT_BACK else after, needs),
        missing_m2=old if verdict is Verdict.PUT_BACK else new,
        give_back=idle if verdict is Verdict.SWAP else (),
        enough=before.complete if verdict is Verdict.PUT_BACK else after.complete,
        gains=_gains(before, after, needs) if verdict is Verdict.TAKE else (),
        grants=() if verdict is Verdict.PUT_BACK else tuple(wish.name for wish in grants),
        spare=_spare(verdict, before, after, pile=pile),
    )


def _gains(before: Layout, after: Layout, needs: Needs) -> tuple[str, ...]:
    """What is missing less, or no longer."""
    old = {name: width for name, _, width, _ in missing_of(before, needs)}
    new = {name: width for name, _, width, _ in missing_of(after, needs)}
    return tuple(name for name, width in old.items() if new.get(name, 0.0) < width - 1e-6)


def _grants(before: Layout, after: Layout) -> tuple[Wish, ...]:
    """Wishes granted with the board and not without."""
    had = {answer.wish.name for answer in before.wishes if answer.granted}
    return tuple(a.wish for a in after.wishes if a.granted and a.wish.name not in had)


def _nothing_from(lifted: Board, needs: Needs) -> bool:
    every: list[Blank | FreeWidthPanel] = [*needs.blanks, *needs.panels]
    thick = any(wish.kind.leaves for wish in needs.wishes)
    return not any(
        accepts_board(need, lifted) or (thick and need.species == lifted.species) for need in every
    )


def _spare(verdict: Verdict, before: Layout, after: Layout, *, pile: Sequence[Board]) -> Spare:
    """What else may go back as the pile stands after the advice; a swap names all of it already."""
    if verdict is Verdict.SWAP:
        return Spare()
    return spare_of(before if verdict is Verdict.PUT_BACK else after, pile)


def _why_nothing(lifted: Board, needs: Needs) -> str:
    """Why nothing is cut from a board: its wood and thickness, or its rings."""
    every: list[Blank | FreeWidthPanel] = [*needs.blanks, *needs.panels]
    bare = replace(lifted, rings=None)
    ways = sorted({asked_sawn(n) for n in every if accepts_board(n, bare) and not accepts_rings(n, lifted)})
    if not ways:
        return f"Nothing here is cut from {lifted.nominal} {lifted.species}."
    return (
        f"All that is cut from {lifted.nominal} {lifted.species} is to be {' or '.join(ways)}; "
        f"this board is {board_sawn(lifted)}."
    )


def _look_at(lifted: Board, after: Layout) -> str:
    """What to look at in the end of a board whose rings are not told, before it is taken."""
    laid = next((b for b in after.boards if b.board.name == lifted.name), None)
    ways = [way for way, _ in untold(laid)] if laid is not None else []
    return f" Look at its end first: some of that is to be {' or '.join(ways)}." if ways else ""


def _for_wishes(grants: tuple[Wish, ...], gained: float, *, idle: tuple[str, ...]) -> tuple[Verdict, str]:
    """What to do with a board that covers and saves nothing, but lets wishes be granted."""
    worth = sum(wish.worth or 0.0 for wish in grants)
    said = f"Lets {_named(grants)} be granted, worth {worth:g}: {gained:.2f} more than it costs."
    return Verdict.SWAP if idle else Verdict.TAKE, said


def _named(wishes: Sequence[Wish]) -> str:
    return ", ".join(f"{wish.name.replace('_', ' ')} ({wish.kind})" for wish in wishes)


def _too_dear(boards: Sequence[Board], before: Layout, *, needs: Needs, rounds: int | None) -> str:
    """What it would cost to have wishes granted with the board; empty where it grants none."""
    had = {answer.wish.name for answer in before.wishes if answer.granted}
    if not before.complete or had == {wish.name for wish in needs.wishes}:
        return ""
    musts = tuple(w if w.name in had else replace(w, worth=None) for w in needs.wishes)
    layout = lay_pile(boards, replace(needs, wishes=musts), rounds=rounds)
    granted = {wish.name for wish in _grants(before, layout)} if layout.complete else set()
    grants = tuple(wish for wish in needs.wishes if wish.name in granted)
    bare = replace(needs.on(boards), wishes=())
    costs = [value_of(replace(x, wishes=()), bare) for x in (before, layout)]
    over = costs[1] - costs[0] - needs.aim.looks * sum(wish.worth or 0.0 for wish in grants)
    if not grants or over <= 0:
        return ""
    return f" It would let {_named(grants)} be granted, for {over:.2f} more than that is worth."


def _stock_missing(layout: Layout, needs: Needs) -> str:
    """Woods and thicknesses that something without wood is cut from; the thicknesses alone of one wood."""
    short = {strips.panel for strips in layout.strips if strips.missing_mm > 1e-6}
    lacking: list[Blank | FreeWidthPanel] = [*layout.unplaced, *(p for p in needs.panels if p.name in short)]
    stock = {(need.species, min(need.quarters)) for need in lacking if need.quarters}
    woods = {species for species, _ in stock}
    named = [
        f"{quarters:g}/4{'' if len(woods) == 1 else f' {species}'}" for species, quarters in sorted(stock)
    ]
    return f" of {' and '.join(filter(None, (', '.join(named[:-1]), *named[-1:])))}" if named else ""


def _verdict(
    before: Layout, after: Layout, *, missing: tuple[float, float], stock: str
) -> tuple[Verdict, str]:
    old, new = missing
    if new < old - 1e-9:
        left = "nothing is missing then" if after.complete else f"{new:.2f} m² would still be missing"
        return Verdict.TAKE, f"Covers {old - new:.2f} m² more; {left}."
    if not before.complete:
        return Verdict.PUT_BACK, f"Covers nothing that is missing: {old:.2f} m²{stock}."
    if before.price is not None and after.price is not None and after.price < before.price - 1e-9:
        saved = before.price - after.price
        return Verdict.SWAP, f"The piece costs {saved:.2f} less with it: {after.price:.2f}."
    return Verdict.PUT_BACK, "The pile is enough without it, and no cheaper with it."
