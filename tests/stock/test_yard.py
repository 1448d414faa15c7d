"""At the rack: a board that helps is taken, one that does not is put back, a better one is swapped in."""

import re
from dataclasses import replace

import pytest

from scantling.errors import InputError
from scantling.piece.matching import WishKind
from scantling.stock import Blank, Board, Cutting, Price
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.grades import FAS, NO_1_COMMON
from scantling.stock.boards.yardline import board_of_line
from scantling.stock.buying.simulate import ShortfallCurve, ShortfallQuestion, shortfall_curve
from scantling.stock.buying.yard import (
    Needs,
    Verdict,
    covered_pct_of,
    judge_board,
    lay_pile,
    spare_of,
    thicker_words,
)
from scantling.stock.solving.solve import LayoutRequest

RAIL = Blank(name="rail 1", part="rail", species="cherry", length_mm=900, width_mm=90, thickness_mm=25)
NEEDS = Needs(blanks=(RAIL, replace(RAIL, name="rail 2")), cutting=Cutting())
SHORT = Board(
    name="short", species="cherry", quarters=4, width_mm=120, length_mm=1000, price=Price(amount=20)
)
LONG = replace(SHORT, name="long", length_mm=1900, price=Price(amount=30))


def test_first_board_covers_half() -> None:
    """One rail of two: half is covered, and the answer says what is missing."""
    answer = judge_board(SHORT, [], needs=NEEDS)
    assert (answer.verdict, round(answer.covered_pct), answer.enough) == (Verdict.TAKE, 50, False)
    assert answer.missing_m2 == pytest.approx(0.081)


def test_a_better_board_is_swapped_in() -> None:
    """Two short boards are enough; the long one alone is cheaper, so they go back."""
    answer = judge_board(LONG, [SHORT, replace(SHORT, name="short 2")], needs=NEEDS)
    assert (answer.verdict, answer.give_back, answer.enough) == (Verdict.SWAP, ("short", "short 2"), True)
    assert answer.layout.price == 30


def test_boards_that_do_not_help() -> None:
    """Wrong wood, too narrow, or dearer than what is there."""
    assert judge_board(replace(LONG, species="oak"), [], needs=NEEDS).verdict is Verdict.PUT_BACK
    assert judge_board(replace(LONG, width_mm=80), [], needs=NEEDS).verdict is Verdict.PUT_BACK
    dear = replace(LONG, name="dear", price=Price(amount=99))
    answer = judge_board(dear, [LONG], needs=NEEDS)
    assert (answer.verdict, answer.enough, answer.layout.price) == (Verdict.PUT_BACK, True, 30)


def test_shortfall_is_read_off_the_draws() -> None:
    """With needs of 10, 12, 14 and 20 board feet, 12 falls short half of the time."""
    curve = ShortfallCurve(needed_board_feet=(10.0, 12.0, 14.0, 20.0))
    assert curve.chance_short(12.0) == 0.5
    assert (curve.buy_board_feet(0.25), curve.buy_board_feet(0.05)) == (14.0, 20.0)
    assert curve.points == ((10.0, 0.75), (12.0, 0.5), (14.0, 0.25), (20.0, 0.0))


def test_a_worse_grade_needs_more() -> None:
    """The same blanks ask for at least their own board feet, for more of a worse grade, and repeatably."""
    blanks = tuple(replace(RAIL, name=f"rail {n}") for n in range(8))
    net = 8 * 900 * 90 * 25.4 / 2359737.216
    good, poor = (
        shortfall_curve(ShortfallQuestion(blanks=blanks, grade=grade, quarters=4), draws=12)
        for grade in (FAS, NO_1_COMMON)
    )
    assert net < good.buy_board_feet(0.1) < poor.buy_board_feet(0.1)
    assert good == shortfall_curve(ShortfallQuestion(blanks=blanks, grade=FAS, quarters=4), draws=12)


def test_a_grade_that_cannot() -> None:
    """Blanks longer than any board of the grade are refused by name."""
    question = ShortfallQuestion(blanks=(replace(RAIL, length_mm=5000),), grade=FAS, quarters=4)
    with pytest.raises(InputError) as caught:
        shortfall_curve(question, draws=1)
    assert (caught.value.code, caught.value.value) == ("grade_cannot", "FAS")


def wishing(worth: float | None, kind: WishKind = WishKind.SAME_BOARD) -> Needs:
    """Both rails wished together."""
    return replace(NEEDS, wishes=(Wish(name="rails", kind=kind, members=("rail 1", "rail 2"), worth=worth),))


def test_a_board_that_lets_a_wish_be_granted_is_worth_what_the_wish_is() -> None:
    """Two short boards at 20 hold both rails; one long at 70 holds them together, 30 dearer than both.

    Worth 40 it is swapped in, 10 better; worth 25 it is put back, and the 5 that are lacking are told.
    """
    pile, dear = [SHORT, replace(SHORT, name="short 2")], replace(LONG, price=Price(amount=70))
    rich = judge_board(dear, pile, needs=wishing(40))
    assert (rich.verdict, rich.grants, rich.give_back) == (Verdict.SWAP, ("rails",), ("short", "short 2"))
    assert "worth 40: 10.00 more than it costs" in rich.reason
    poor = judge_board(dear, pile, needs=wishing(25))
    assert (poor.verdict, poor.grants) == (Verdict.PUT_BACK, ())
    assert "for 5.00 more than that is worth" in poor.reason


def test_blanks_that_must_belong_together_are_missing_until_they_do() -> None:
    """One short board holds one rail, but not both together: nothing is covered until the long one comes."""
    must = wishing(None)
    before = judge_board(SHORT, [], needs=must)
    assert not before.enough
    after = judge_board(replace(LONG, price=Price(amount=500)), [SHORT, replace(SHORT, name="b")], needs=must)
    assert (after.verdict, after.grants, after.enough) == (Verdict.TAKE, ("rails",), True)


def test_a_line_says_where_a_board_lay() -> None:
    """The flitch, and the place in it where it is known, among the defects or alone."""
    lines = (
        "A, 4/4, 2 m, 200",
        "A, 4/4, 2 m, 200; flitch K 3",
        "A, 4/4, 2 m, 200; knot at 5 x 5, 9 x 9; flitch old oak",
    )
    found = [board_of_line(line, wood="white oak", per="board") for line in lines]
    assert [(b.flitch, b.sequence, len(b.defects)) for b in found] == [
        ("", None, 0),
        ("K", 3, 0),
        ("old oak", None, 1),
    ]


def test_what_may_go_back_of_a_pile_that_is_enough_is_named() -> None:
    """Two short boards and a long one: the short ones, 20 each, may go back; before it is enough none may."""
    pile = [SHORT, replace(SHORT, name="short 2"), LONG]
    spare = spare_of(lay_pile(pile, NEEDS), pile)
    assert (spare.boards, spare.saved) == (("short", "short 2"), 40.0)
    assert spare.words == "short, short 2 may go back: 40.00 saved."
    assert spare_of(lay_pile([SHORT], NEEDS), [SHORT]).words == ""
    assert spare_of(lay_pile([LONG], NEEDS), [LONG]).words == ""


def test_a_board_that_goes_back_leaves_the_spare_ones_of_the_pile_named() -> None:
    """Against the advice all three were kept: the next board goes back, and so may the idle two."""
    pile = [SHORT, replace(SHORT, name="short 2"), LONG]
    answer = judge_board(replace(LONG, name="third"), pile, needs=NEEDS)
    assert (answer.verdict, answer.spare.boards) == (Verdict.PUT_BACK, ("short", "short 2"))
    swap = judge_board(LONG, pile[:2], needs=NEEDS)
    assert (swap.verdict, swap.give_back, swap.spare.boards) == (Verdict.SWAP, ("short", "short 2"), ())


def test_without_a_price_nothing_is_said_to_be_saved() -> None:
    """The boards are named all the same."""
    free = replace(SHORT, name="free", price=None)
    spare = spare_of(lay_pile([LONG], NEEDS), [LONG, free])
    assert (spare.boards, spare.saved, spare.words) == (("free",), None, "free may go back.")


def test_what_thicker_boards_of_the_pile_can_give_is_not_missing() -> None:
    """Room beside a post holds the last rail, planed down: enough, and told; where much is missing, not."""
    rails = tuple(replace(RAIL, name=f"rail {n}", quarters=(4.0,)) for n in range(1, 5))
    post = replace(RAIL, name="post", part="post", thickness_mm=50, quarters=(8.0,))
    thick = replace(LONG, name="thick", quarters=8)

    def wider(request: LayoutRequest) -> LayoutRequest:
        return replace(request, blanks=tuple(replace(b, quarters=(*b.quarters, 8.0)) for b in request.blanks))

    usual = Needs(blanks=(*rails, post), cutting=Cutting())
    pile = [LONG, SHORT, thick]
    assert covered_pct_of(lay_pile(pile, usual), usual) == pytest.approx(80)
    ways = replace(usual, ways=wider)
    layout = lay_pile(pile, ways)
    assert layout.complete
    assert re.fullmatch(r"From thicker boards, planed down or resawn: rail \d\.", thicker_words(layout, ways))
    assert thicker_words(lay_pile([LONG, SHORT], ways), ways) == ""
    assert covered_pct_of(lay_pile([SHORT, thick], ways), ways) == pytest.approx(40)


def test_a_board_that_covers_nothing_goes_back_with_what_is_still_missing() -> None:
    """The rails have wood, the post of another thickness has none: that thickness is named."""
    post = replace(RAIL, name="post", part="post", thickness_mm=50, quarters=(8.0,))
    needs = Needs(blanks=(replace(RAIL, quarters=(4.0,)), post), cutting=Cutting())
    answer = judge_board(LONG, [SHORT], needs=needs)
    told = "Covers nothing that is missing: 0.08 m² of 8/4."
    assert (answer.verdict, answer.reason) == (Verdict.PUT_BACK, told)
