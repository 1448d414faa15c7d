"""At the rack: boards lifted one at a time, and for each what it would cover and whether to take it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from scantling.stock.blank import Blank, FreeWidthPanel, accepts_board
from scantling.stock.board import Board
from scantling.stock.cutting import Cutting
from scantling.stock.layout import Layout
from scantling.stock.solve import LayoutRequest, lay_out
from scantling.units.boardmeasure import MM3_PER_BOARD_FOOT

__all__ = [
    "Needs",
    "Verdict",
    "YardAnswer",
    "asked_of",
    "covered_pct_of",
    "judge_board",
    "lay_pile",
    "missing_of",
]


ROUNDS = 6
"""Rounds of search for one answer: well under a second for a piece of 70 blanks."""


class Verdict(StrEnum):
    """What to do with the board in hand."""

    TAKE = "take"
    SWAP = "swap"
    PUT_BACK = "put back"


@dataclass(frozen=True, slots=True, kw_only=True)
class Needs:
    """What the piece asks for, and how the shop cuts."""

    blanks: tuple[Blank, ...]
    panels: tuple[FreeWidthPanel, ...] = ()
    cutting: Cutting


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
    """

    verdict: Verdict
    reason: str
    layout: Layout
    covered_pct: float
    missing_m2: float
    give_back: tuple[str, ...]
    enough: bool
    gains: tuple[str, ...] = ()


def _missing_m2(layout: Layout, needs: Needs) -> float:
    by_name = {panel.name: panel for panel in needs.panels}
    area = sum(blank.area_mm2 for blank in layout.unplaced)
    area += sum(s.missing_mm * by_name[s.panel].length_mm for s in layout.strips)
    return area * 1e-6


def lay_pile(pile: Sequence[Board], needs: Needs, *, rounds: int = ROUNDS) -> Layout:
    """The pile so far, laid out."""
    request = LayoutRequest(
        boards=tuple(pile), blanks=needs.blanks, panels=needs.panels, cutting=needs.cutting
    )
    return lay_out(request, rounds=rounds)


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
    return 100.0 * (1.0 - _missing_m2(layout, needs) / whole) if whole else 100.0


def asked_of(needs: Needs) -> tuple[tuple[str, str, float], ...]:
    """What to look for: wood, thickness as the yard writes it, net board feet; the most first. [board ft]"""
    volumes: dict[tuple[str, str], float] = {}
    every: list[Blank | FreeWidthPanel] = [*needs.blanks, *needs.panels]
    for need in every:
        thickness = f"{need.quarters[0]:g}/4" if need.quarters else f"{need.thickness_mm:.0f} mm"
        key = (need.species, thickness)
        volumes[key] = volumes.get(key, 0.0) + need.area_mm2 * need.thickness_mm
    ordered = sorted(volumes.items(), key=lambda item: (-item[1], item[0]))
    return tuple((wood, thickness, mm3 / MM3_PER_BOARD_FOOT) for (wood, thickness), mm3 in ordered)


def _whole_m2(needs: Needs) -> float:
    """Face area asked for. [m2]"""
    panels = sum(p.length_mm * p.total_width_mm for p in needs.panels)
    return (sum(b.area_mm2 for b in needs.blanks) + panels) * 1e-6


def judge_board(
    lifted: Board,
    pile: Sequence[Board],
    *,
    needs: Needs,
    rounds: int = ROUNDS,
    before: Layout | None = None,
) -> YardAnswer:
    """Judge a board against the pile so far.

    A board is worth taking when it covers more of what is missing; where nothing is missing, when the piece
    comes cheaper with it than without.

    Parameters
    ----------
    lifted
        The board in hand; its name must differ from those of the pile.
    pile
        Boards taken so far.
    needs
        What the piece asks for.
    rounds
        Rounds of search for each of the two layouts.
    before
        The pile so far as :func:`lay_pile` lays it out, where it is at hand.
    """
    before = before or lay_pile(pile, needs, rounds=rounds)
    after = lay_pile([*pile, lifted], needs, rounds=rounds)
    old, new = _missing_m2(before, needs), _missing_m2(after, needs)
    used = {b.board.name for b in after.boards}
    idle = tuple(b.name for b in pile if b.name not in used)
    verdict, reason = _verdict(lifted, before, after, missing=(old, new), needs=needs)
    return YardAnswer(
        verdict=verdict,
        reason=reason,
        layout=before if verdict is Verdict.PUT_BACK else after,
        covered_pct=covered_pct_of(before if verdict is Verdict.PUT_BACK else after, needs),
        missing_m2=old if verdict is Verdict.PUT_BACK else new,
        give_back=idle if verdict is Verdict.SWAP else (),
        enough=before.complete if verdict is Verdict.PUT_BACK else after.complete,
        gains=_gains(before, after, needs) if verdict is Verdict.TAKE else (),
    )


def _gains(before: Layout, after: Layout, needs: Needs) -> tuple[str, ...]:
    """What is missing less, or no longer."""
    old = {name: width for name, _, width, _ in missing_of(before, needs)}
    new = {name: width for name, _, width, _ in missing_of(after, needs)}
    return tuple(name for name, width in old.items() if new.get(name, 0.0) < width - 1e-6)


def _verdict(
    lifted: Board, before: Layout, after: Layout, *, missing: tuple[float, float], needs: Needs
) -> tuple[Verdict, str]:
    every: list[Blank | FreeWidthPanel] = [*needs.blanks, *needs.panels]
    if not any(accepts_board(need, lifted) for need in every):
        return Verdict.PUT_BACK, f"Nothing here is cut from {lifted.nominal} {lifted.species}."
    old, new = missing
    if new < old - 1e-9:
        left = "nothing is missing then" if after.complete else f"{new:.2f} m² would still be missing"
        return Verdict.TAKE, f"Covers {old - new:.2f} m² more; {left}."
    if not before.complete:
        return Verdict.PUT_BACK, f"Covers nothing that is missing ({old:.2f} m²)."
    if before.price is not None and after.price is not None and after.price < before.price - 1e-9:
        saved = before.price - after.price
        return Verdict.SWAP, f"The piece costs {saved:.2f} less with it: {after.price:.2f}."
    return Verdict.PUT_BACK, "The pile is enough without it, and no cheaper with it."
