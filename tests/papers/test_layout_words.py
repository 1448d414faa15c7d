"""How good a layout is, in words: the same at the page and the command line."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.cli.progress import Progress
from scantling.papers.words.layout_words import beside_words, layout_words
from scantling.piece.matching import WishKind
from scantling.stock.asked.blank import Blank
from scantling.stock.asked.wish import Wish, WishAnswer
from scantling.stock.layouts.layout import Layout
from scantling.stock.solving.solve import LayoutAnswer

_WISH = Wish(name="wish", kind=WishKind.SAME_BOARD, members=("a", "b"), worth=None)
_BROKEN = WishAnswer(wish=_WISH, granted=False, broken=True, boards=("A", "B"))
_KEPT = replace(_BROKEN, granted=True, broken=False, boards=("C",))
_LEG = Blank(name="a", part="a", species="cherry", length_mm=700, width_mm=60, thickness_mm=25, needed_mm=18)


def layout(*wishes: WishAnswer, price: float | None = 45.0, missing: int = 0) -> Layout:
    """A layout of which only what is told matters."""
    return Layout(
        boards=(),
        unplaced=(_LEG,) * missing,
        strips=(),
        unused=(),
        price=price,
        waste_pct=20.0,
        bound_price=None if price is None else 40.0,
        gap_pct=None if price is None else 12.5,
        short_proven=False,
        seed=1,
        wishes=wishes,
    )


def test_all_is_told_that_makes_a_layout_better() -> None:
    """Wood, musts, price, bound and gap."""
    told = layout_words(layout(_BROKEN, missing=2), money="USD", proven=False)
    assert told == (
        "2 without wood, 1 must broken, 45.00 USD, cannot cost less than 40.00, at most 12.5 % above the best"
    )
    assert layout_words(layout(_KEPT, price=None), money="USD", proven=False) == "every blank has its place"
    assert layout_words(layout(_KEPT), money="USD", proven=True).endswith("proven best")


def test_the_command_line_says_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    """Behind the seconds gone."""
    shown = layout(_BROKEN)
    Progress("USD")(LayoutAnswer(layout=shown, round=1, proven=False))
    assert capsys.readouterr().err.strip().endswith(f"s: {layout_words(shown, money='USD', proven=False)}")


@pytest.mark.parametrize(
    ("new", "before", "told"),
    [
        (layout(_KEPT), layout(_BROKEN, price=20.0), "No musts broken, 1 fewer than in the layout below."),
        (layout(missing=1), layout(missing=3), "2 more with wood than in the layout below."),
        (layout(price=40.0), layout(), "5.00 USD less than the layout below."),
        (layout(), layout(), "Better than the layout below by what the shop weighs."),
    ],
)
def test_what_makes_a_layout_better_than_the_one_below(new: Layout, before: Layout, told: str) -> None:
    """The first that counts: musts, then wood, then money."""
    assert beside_words(new, before, money="USD", better=True) == told
    assert beside_words(new, before, money="USD", better=False) == "Not better than the layout below yet."
