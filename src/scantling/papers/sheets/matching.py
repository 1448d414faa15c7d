"""What is to be seen to when parts belong together in the wood, in words."""

from __future__ import annotations

from scantling.papers.sheets.model import Column, Table, Tone
from scantling.papers.sheets.show import Show, names_of
from scantling.piece.matching import WishKind
from scantling.stock.asked.blank import Blank
from scantling.stock.asked.wish import Wish, WishAnswer
from scantling.stock.layouts.layout import Layout
from scantling.units import Round

__all__ = ["matching_lines", "matching_table"]

_LOOK_FOR = {
    WishKind.SAME_BOARD: "one board large enough for all of them",
    WishKind.SAME_FLITCH: "boards of one flitch, and their order in it",
    WishKind.ALIKE: "one board large enough, or two neighbors of one flitch",
    WishKind.RUN_THROUGH: "one board long enough for all of them, end to end",
    WishKind.SIDE_BY_SIDE: "one board wide enough for all of them, side by side",
    WishKind.RESAWN: "a board thick enough to be resawn into both",
    WishKind.BOOK: "a board thick enough to be resawn into both leaves",
}


def matching_table(wishes: tuple[Wish, ...], layout: Layout | None, *, show: Show) -> Table | None:
    """Each wish, whether it is granted and what that takes; None where nothing is wished.

    Parameters
    ----------
    wishes
        What is wished.
    layout
        The layout, or None where wood is still to be bought.
    show
        How lengths are written.
    """
    if not wishes:
        return None
    answers = {a.wish.name: a for a in layout.wishes} if layout else {}
    rows, tones = [], []
    for wish in wishes:
        answer = answers.get(wish.name)
        rows.append(
            (
                names_of(wish.members),
                str(wish.kind),
                "must" if wish.worth is None else f"worth {wish.worth:g}" if wish.worth else "saves wood",
                "" if answer is None else "yes" if answer.granted else "no",
                _what(wish, answer, layout, show),
            )
        )
        tones.append(Tone.WARN if answer is not None and not answer.granted else Tone.PLAIN)
    return Table(
        title="Matching",
        columns=(
            Column(title="Parts"),
            Column(title="Wish"),
            Column(title="Weight"),
            Column(title="Granted"),
            Column(title="Look for" if layout is None else "What it takes"),
        ),
        rows=tuple(rows),
        tones=tuple(tones),
    )


def matching_lines(wishes: tuple[Wish, ...], layout: Layout, *, show: Show) -> tuple[str, ...]:
    """The same as sentences, one a wish."""
    answers = {a.wish.name: a for a in layout.wishes}
    return tuple(
        f"{names_of(wish.members)} ({wish.kind}): "
        + ("" if answers[wish.name].granted else "not granted. ")
        + _what(wish, answers[wish.name], layout, show)
        for wish in wishes
    )


def _what(wish: Wish, answer: WishAnswer | None, layout: Layout | None, show: Show) -> str:
    if answer is None or layout is None:
        return _LOOK_FOR[wish.kind] + "."
    if not answer.granted:
        return f"They lie on {', '.join(answer.boards)}." if answer.boards else "They have no place."
    placed = [
        p.blank
        for b in layout.boards
        for p in b.placed
        if p.blank.members and p.blank.members[0].name in wish.members
    ]
    if wish.kind.leaves:
        book = wish.kind is WishKind.BOOK
        return (
            " ".join(_leaves(blank, show, book=book) for blank in placed)
            + f" From {', '.join(answer.boards)}."
        )
    if wish.kind in (WishKind.RUN_THROUGH, WishKind.SIDE_BY_SIDE):
        how = "crosscut it" if wish.kind is WishKind.RUN_THROUGH else "rip it"
        return (
            f"Mill the piece from {', '.join(answer.boards)} whole, strike a line over all of them, "
            f"then {how} apart in this order."
        )
    return f"From {', '.join(answer.boards)}."


def _leaves(blank: Blank, show: Show, *, book: bool) -> str:
    """How one thickness becomes two leaves."""
    leaf = max(m.needed_mm for m in blank.members)
    return (
        f"Resaw {names_of(m.name for m in blank.members)} out of "
        f"{show.length(blank.thickness_mm, Round.UP, unit=True)} into leaves of at least "
        f"{show.length(leaf, Round.UP, unit=True)}"
        + ("; open them like a book, sawn faces up." if book else ".")
    )
