"""Wishes between blanks: granted where they must be or are worth it, and told as they are."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from scantling.piece.matching import Looks, WishKind
from scantling.stock import (
    Blank,
    Board,
    Cutting,
    Defect,
    DefectKind,
    Face,
    Layout,
    LayoutRequest,
    Price,
    lay_out,
    verify_layout,
)
from scantling.stock.asked.wish import Wish
from scantling.stock.solving.matching import layout_key

LEG = Blank(
    name="leg", part="leg", species="cherry", length_mm=700, width_mm=60, thickness_mm=25, needed_mm=18
)


def board(name: str, length: float, price: float, *, quarters: float = 4, **more: object) -> Board:
    """A board 150 mm wide; two legs lie side by side in it."""
    return Board(
        name=name,
        species="cherry",
        quarters=quarters,
        width_mm=150,
        length_mm=length,
        price=Price(amount=price),
        **more,  # type: ignore[arg-type]
    )


def legs(count: int, **more: object) -> tuple[Blank, ...]:
    """Legs by number."""
    return tuple(replace(LEG, name=f"leg {n}", **more) for n in range(1, count + 1))  # type: ignore[arg-type]


def asked(
    boards: tuple[Board, ...],
    blanks: tuple[Blank, ...],
    kind: WishKind,
    *,
    worth: float | None = None,
    cutting: Cutting | None = None,
) -> Layout:
    """All blanks with one wish, laid out; the checker has nothing to say."""
    cutting = cutting or Cutting()
    wishes = (Wish(name="wish", kind=kind, members=tuple(b.name for b in blanks), worth=worth),)
    layout = lay_out(LayoutRequest(boards=boards, blanks=blanks, wishes=wishes, cutting=cutting))
    assert verify_layout(layout, boards=boards, blanks=blanks, cutting=cutting, wishes=wishes) == ()
    return layout


def used(layout: Layout) -> list[str]:
    """Boards that are cut."""
    return [b.board.name for b in layout.boards]


def recut(layout: Layout, **changes: float) -> Layout:
    """The first blank's first member changed."""
    laid = layout.boards[0]
    blank = laid.placed[0].blank
    members = (replace(blank.members[0], **changes), *blank.members[1:])
    placed = (replace(laid.placed[0], blank=replace(blank, members=members)), *laid.placed[1:])
    return replace(layout, boards=(replace(laid, placed=placed), *layout.boards[1:]))


def shortened(layout: Layout) -> Layout:
    """The first blank a kerf shorter."""
    laid = layout.boards[0]
    placed = (replace(laid.placed[0], length_mm=laid.placed[0].length_mm - 3.2), *laid.placed[1:])
    return replace(layout, boards=(replace(laid, placed=placed), *layout.boards[1:]))


SHORT = (board("A", 760, 10), board("B", 760, 10))
LONG = board("C", 1500, 45)


def test_same_board_costs_what_it_is_worth() -> None:
    """Four legs: two short boards for 20, or one long one for 45. The wish decides, by what it is worth."""
    rack, four = (*SHORT, LONG), legs(4)
    assert used(asked(rack, four, WishKind.SAME_BOARD)) == ["C"]
    assert used(asked(rack, four, WishKind.SAME_BOARD, worth=30)) == ["C"]
    poor = asked(rack, four, WishKind.SAME_BOARD, worth=20)
    assert (used(poor), poor.wishes[0].granted, poor.price) == (["A", "B"], False, 20)


def test_one_flitch_or_two_neighbors_in_it() -> None:
    """Boards 1 and 3 of a flitch are of one flitch, but not alike; 1 and 2 are both."""
    a, b = (replace(s, flitch="F", sequence=n) for s, n in zip(SHORT, (1, 3), strict=True))
    d = board("D", 760, 30, flitch="F", sequence=2)
    stray = board("E", 760, 5, flitch="G", sequence=1)
    rack, four = (a, b, d, stray), legs(4)
    assert used(asked(rack, four, WishKind.SAME_FLITCH)) == ["A", "B"]
    assert set(used(asked(rack, four, WishKind.ALIKE))) in ({"A", "D"}, {"B", "D"})


def test_what_must_be_and_cannot_is_left_out() -> None:
    """Four legs that must come from one board, and no board holds four: none is laid out apart."""
    layout = asked(SHORT, legs(4), WishKind.SAME_BOARD)
    assert not layout.complete
    assert len(used(layout)) <= 1


def test_musts_that_contradict_each_other_are_left_out_together() -> None:
    """A leg cannot be cut as one with two others in two ways; only the fourth is laid out."""
    blanks, rack = legs(4), (LONG, board("D", 2400, 50))
    first = Wish(name="a", kind=WishKind.RUN_THROUGH, members=("leg 1", "leg 2"))
    second = Wish(name="b", kind=WishKind.SIDE_BY_SIDE, members=("leg 2", "leg 3"))
    layout = lay_out(LayoutRequest(boards=rack, blanks=blanks, wishes=(first, second)))
    checked = verify_layout(layout, boards=rack, blanks=blanks, cutting=Cutting(), wishes=(first, second))
    assert checked == ()
    assert {b.name for b in layout.unplaced} == {"leg 1", "leg 2", "leg 3"}


def test_grain_runs_through_in_one_length() -> None:
    """Three fronts of 700 mm and two kerfs of 3.2 are one blank of 2106.4 mm, parted later."""
    rack = (board("A", 1500, 10), board("B", 1500, 10), board("C", 2200, 90))
    layout = asked(rack, legs(3), WishKind.RUN_THROUGH)
    blank = layout.boards[0].placed[0].blank
    assert (used(layout), blank.name) == (["C"], "leg 1 + leg 2 + leg 3")
    assert blank.length_mm == pytest.approx(2106.4)
    assert used(asked(rack, legs(3), WishKind.RUN_THROUGH, worth=50)) == ["A"]


def test_side_by_side_across_one_board() -> None:
    """Two of 60 mm and a kerf of 3.2 are 123.2 mm of one board's width."""
    blank = asked(SHORT, legs(2), WishKind.SIDE_BY_SIDE).boards[0].placed[0].blank
    assert blank.width_mm == pytest.approx(123.2)


def test_book_matched_leaves_come_out_of_one_thickness() -> None:
    """Two leaves of 18 mm and a resaw kerf of 1.5 are 37.5 mm: 6/4 (38.1 mm), not 5/4."""
    rack = (board("A", 760, 10), board("B", 760, 20, quarters=5), board("C", 760, 40, quarters=6))
    layout = asked(rack, legs(2), WishKind.BOOK)
    assert (used(layout), layout.wishes[0].granted) == (["C"], True)
    none = asked(rack, legs(2), WishKind.BOOK, worth=99, cutting=Cutting(resaw_most_mm=0.0))
    assert (none.complete, none.wishes[0].granted) == (True, False)


MARKED = replace(
    LONG,
    length_mm=760,
    width_mm=70,
    defects=(
        Defect(kind=DefectKind.KNOT, x_mm=300, y_mm=10, length_mm=40, width_mm=40, face=Face.BACK),
        Defect(kind=DefectKind.SAPWOOD, x_mm=0, y_mm=0, length_mm=200, width_mm=20, face=Face.BACK),
    ),
)


@pytest.mark.parametrize(
    ("looks", "face", "placed"),
    [
        (Looks.CLEAR, Face.BACK, False),
        (Looks.SAP_INSIDE, Face.BACK, False),
        (Looks.SHOW_CLEAR, Face.BACK, True),
        (Looks.SHOW_CLEAR, Face.FACE, False),
        (Looks.SHOW_CLEAR, Face.THROUGH, False),
        (Looks.SOUND, Face.THROUGH, True),
    ],
)
def test_looks_decide_what_a_blank_may_hold(looks: Looks, face: Face, placed: bool) -> None:
    """A knot on the back, on the face as well, through: a part with a hidden side takes only the first."""
    knot, sap = MARKED.defects
    rack = (replace(MARKED, defects=(replace(knot, face=face), sap)),)
    blanks = legs(1, looks=looks)
    layout = lay_out(LayoutRequest(boards=rack, blanks=blanks))
    assert verify_layout(layout, boards=rack, blanks=blanks, cutting=Cutting()) == ()
    assert layout.complete is placed


def test_the_hidden_side_is_told() -> None:
    """Sapwood on the back: the face shows. The checker refuses the other, and silence."""
    rack, blanks = (replace(MARKED, defects=MARKED.defects[1:]),), legs(1, looks=Looks.SAP_INSIDE)
    layout = lay_out(LayoutRequest(boards=rack, blanks=blanks))
    laid = layout.boards[0]
    assert laid.placed[0].shows is Face.FACE
    for wrong in (Face.BACK, None):
        placed = (replace(laid.placed[0], shows=wrong),)
        told = replace(layout, boards=(replace(laid, placed=placed),))
        broken = verify_layout(told, boards=rack, blanks=blanks, cutting=Cutting())
        assert {b.code for b in broken} == {"no_show_face"}


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (lambda lay: replace(lay, wishes=(replace(lay.wishes[0], granted=False),)), "wish_told"),
        (lambda lay: recut(lay, thickness_mm=26.0), "fold_unasked"),
        (shortened, "fold_size"),
    ],
)
def test_the_checker_knows_wishes(change: Callable[[Layout], Layout], code: str) -> None:
    """A wish told otherwise than it is, parts not asked for, a blank too short for its parts: all caught."""
    blanks, rack = legs(2), (LONG,)
    wishes = (Wish(name="wish", kind=WishKind.RUN_THROUGH, members=("leg 1", "leg 2")),)
    layout = lay_out(LayoutRequest(boards=rack, blanks=blanks, wishes=wishes))
    broken = verify_layout(change(layout), boards=rack, blanks=blanks, cutting=Cutting(), wishes=wishes)
    assert code in {b.code for b in broken}


def test_the_checker_sees_a_must_broken() -> None:
    """Legs on two boards, though they must come from one."""
    blanks = legs(4)
    wishes = (Wish(name="wish", kind=WishKind.SAME_BOARD, members=tuple(b.name for b in blanks)),)
    apart = lay_out(LayoutRequest(boards=SHORT, blanks=blanks))
    broken = verify_layout(apart, boards=SHORT, blanks=blanks, cutting=Cutting(), wishes=wishes)
    assert "wish_broken" in {b.code for b in broken}


def test_leaves_that_cost_less_than_parts_apart_keep_the_bound_true() -> None:
    """Each board holds one leg: apart they cost 150, as leaves of C 50. No bound may stand above 50."""
    narrow = tuple(replace(b, width_mm=70) for b in (board("A", 760, 100), board("B", 760, 100)))
    rack = (*narrow, replace(board("C", 760, 50, quarters=6), width_mm=70))
    for kind in (WishKind.BOOK, WishKind.RESAWN):
        layout = asked(rack, legs(2), kind, worth=0)
        assert (used(layout), layout.price, layout.bound_price, layout.gap_pct) == (["C"], 50, 50, 0)


def test_what_must_come_from_one_board_raises_the_bound() -> None:
    """Four legs from A and B cost 20; together only C holds them, so that no layout costs less than 45."""
    layout = asked((*SHORT, LONG), legs(4), WishKind.SAME_BOARD)
    assert (layout.price, layout.bound_price, layout.gap_pct) == (45, 45, 0)


def test_a_must_no_board_holds_is_proven_to_have_no_wood() -> None:
    """Three legs in one row are too long for each board, though its face is larger than theirs."""
    slim = tuple(replace(b, width_mm=75, length_mm=3600) for b in SHORT)
    wide = replace(LEG, length_mm=1700)
    four = tuple(replace(wide, name=f"leg {n}", width_mm=40) for n in range(1, 4))
    layout = asked(slim, four, WishKind.SAME_BOARD)
    assert (layout.complete, layout.short_proven) == (False, True)


def together(worth: float | None) -> LayoutRequest:
    """Two legs from one board, a must or not, of two short boards and a long one that costs more."""
    wish = Wish(name="wish", kind=WishKind.SAME_BOARD, members=("leg 1", "leg 2"), worth=worth)
    one_leg = tuple(replace(b, width_mm=70) for b in (*SHORT, LONG))
    return LayoutRequest(boards=one_leg, blanks=legs(2), wishes=(wish,))


def test_a_must_broken_is_worse_than_wood_missing_and_money_spent() -> None:
    """Apart the legs cost 20 and break the must; from the long board they cost 45; missing, nothing."""
    request = together(None)
    kept = lay_out(request)
    apart = lay_out(together(0.0))
    broken = replace(apart, wishes=tuple(replace(a, wish=request.wishes[0]) for a in apart.wishes))
    missing = replace(kept, boards=(), unplaced=request.blanks)
    assert (used(kept), kept.musts_broken) == (["C"], 0)
    assert (used(broken), broken.musts_broken) == (["A", "B"], 1)
    keys = [layout_key(each, request) for each in (kept, missing, broken)]
    assert keys == sorted(keys)
    assert [key[0] for key in keys] == [0, 0, 1]


def test_a_layout_with_a_board_that_is_not_asked_for_is_worse_than_any() -> None:
    """It was found before that board was left out."""
    request = together(None)
    gone = replace(request, boards=request.boards[:2])
    assert layout_key(lay_out(request), gone) > layout_key(lay_out(gone), gone)
    assert layout_key(lay_out(request), gone) == (float("inf"),) * 3


def test_a_rounding_makes_no_layout_better() -> None:
    """Prices summed in another order differ in the last digit."""
    request = together(None)
    layout = lay_out(request)
    dearer = replace(
        request,
        boards=tuple(
            replace(b, price=Price(amount=b.price.amount + 1e-9)) for b in request.boards if b.price
        ),
    )
    assert layout_key(layout, dearer) == layout_key(layout, request)


@pytest.mark.parametrize("kind", [WishKind.BOOK, WishKind.RESAWN])
@pytest.mark.parametrize("count", [1, 3])
@pytest.mark.parametrize("worth", [None, 5.0])
def test_an_odd_leaf_is_not_laid_out_as_a_pair(kind: WishKind, count: int, worth: float | None) -> None:
    """Of an odd number the last leaf has no mate: it keeps to its 4/4, however cheap the 8/4 is.

    Folded alone it lost the stock it asks for, and was laid on the 8/4 for 10 where the 4/4 costs 30.
    """
    rack = (board("thick", 2000, 10, quarters=8), board("right", 2000, 30))
    layout = asked(rack, legs(count, quarters=(4.0,)), kind, worth=worth)
    assert [a.granted for a in layout.wishes] == [False]
    assert used(layout) == ([] if worth is None else ["right"])


@pytest.mark.parametrize("kind", [WishKind.RUN_THROUGH, WishKind.SIDE_BY_SIDE])
def test_a_wish_of_one_part_is_granted_where_it_lies(kind: WishKind) -> None:
    """There is nothing its grain could run on into; the checker says so too."""
    layout = asked((board("one", 2000, 10),), legs(1), kind, worth=None)
    assert [a.granted for a in layout.wishes] == [True]
    assert used(layout) == ["one"]
