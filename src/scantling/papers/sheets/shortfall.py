"""How much wood to ask for, in words and as what is drawn."""

from __future__ import annotations

from scantling.papers.pictures.shortfall_picture import ShortfallPicture
from scantling.papers.words.asking_words import whole_feet
from scantling.plan.timber.shortfall import CHANCE, Shortfall

__all__ = ["shortfall_lines", "shortfall_picture"]


def shortfall_picture(found: Shortfall) -> ShortfallPicture:
    """One wood and thickness, to draw."""
    return ShortfallPicture(
        title=f"{found.species}, {found.quarters:g}/4: chance that so much is not enough",
        points=found.points,
        ask=found.ask_board_feet,
        chance=CHANCE,
        marks=(
            (found.net_board_feet, f"blanks alone {_feet(found.net_board_feet)}"),
            (found.yield_board_feet, f"on average {_feet(found.yield_board_feet)}"),
        ),
    )


def _feet(board_feet: float) -> str:
    """Board feet of a mark: to a tenth where whole ones would hide the difference."""
    return f"{board_feet:.{1 if board_feet < 9.95 else 0}f}"


def shortfall_lines(shortfalls: tuple[Shortfall, ...]) -> tuple[str, ...]:
    """What to ask for, and what was assumed."""
    asked = [
        f"{s.species}, {s.quarters:g}/4: ask for {whole_feet(s.ask_board_feet)} board feet; half of the "
        f"time {whole_feet(s.half_board_feet)} would do."
        for s in shortfalls
    ]
    draws = max(s.draws for s in shortfalls)
    grades = dict.fromkeys(s.grade for s in shortfalls)
    return (
        *asked,
        f"{draws} racks were drawn for each, boards taken as they come and laid out by hand rules, which "
        "errs upwards. Boards picked by eye need less.",
        *(f"Assumed, not measured: {grade}. Your own yard may differ." for grade in grades),
    )
