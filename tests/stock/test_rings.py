"""Rings asked for are a condition of the layout where a board was looked at, and told where not."""

from dataclasses import replace

import pytest

from scantling.errors import FileFaults, Finding
from scantling.piece.matching import WishKind
from scantling.stock import (
    Blank,
    Board,
    Cutting,
    FreeWidthPanel,
    Layout,
    LayoutRequest,
    Needs,
    Price,
    accepts_board,
    findings_after,
    findings_before,
    judge_board,
    lay_out,
    verify_layout,
)
from scantling.stock.asked.folding import folded, unfoldable
from scantling.stock.asked.wish import Wish
from scantling.stock.boards.yardline import board_of_line
from scantling.stock.buying.yard import Verdict, asked_of
from scantling.stock.chalked.parting import Place, part_off
from scantling.stock.checking.rings_told import asked_sawn
from scantling.wood.ring import Ring, Sawn

FLAT = Board(
    name="F",
    species="white oak",
    quarters=4,
    width_mm=200,
    length_mm=2440,
    price=Price(amount=30),
    rings=Ring.FLAT,
)
QUARTER = replace(FLAT, name="Q", price=Price(amount=70), rings=Ring.QUARTER)
UNTOLD = replace(FLAT, name="U", price=Price(amount=50), rings=None)
RAIL = Blank(name="rail", part="rail", species="white oak", length_mm=900, width_mm=80, thickness_mm=25)
ASKING = replace(RAIL, sawn=(Sawn.QUARTER,))
CUTTING = Cutting()


def laid(*boards: Board, blank: Blank = ASKING) -> Layout:
    """The blank on some boards, checked."""
    request = LayoutRequest(boards=boards, blanks=(blank,))
    layout = lay_out(request)
    assert not verify_layout(layout, boards=boards, blanks=(blank,), cutting=request.cutting)
    return layout


def used(layout: Layout) -> list[str]:
    """Names of the boards cut."""
    return [b.board.name for b in layout.boards]


@pytest.mark.parametrize(
    ("angle", "flat", "rift", "quarter"),
    [
        (0.0, True, False, False),
        (29.9, True, False, False),
        (30.0, False, True, False),
        (45.0, False, True, False),
        (59.9, False, True, False),
        (60.0, False, False, True),
        (90.0, False, False, True),
    ],
)
def test_which_angle_serves_which_wish(angle: float, flat: bool, rift: bool, quarter: bool) -> None:
    """Flat below 30 degrees, rift from there, quarter from 60; who asks for nothing takes any."""
    board = replace(FLAT, rings=Ring(angle))
    served = [
        accepts_board(replace(RAIL, sawn=(way,)), board) for way in (Sawn.FLAT, Sawn.RIFT, Sawn.QUARTER)
    ]
    assert served == [flat, rift, quarter]
    assert accepts_board(RAIL, board)


def test_a_quarter_sawn_rail_is_laid_on_the_dearer_board_that_is() -> None:
    """Flat costs 30 and quarter 70: without the wish the flat one is cut, with it the other."""
    assert used(laid(FLAT, QUARTER, blank=RAIL)) == ["F"]
    layout = laid(FLAT, QUARTER)
    assert (used(layout), layout.price, layout.bound_price) == (["Q"], 70.0, 70.0)


def test_strips_of_a_panel_keep_to_the_rings_too() -> None:
    """A panel of free width gets its strips from the board that serves."""
    panel = FreeWidthPanel(
        name="door",
        part="door",
        species="white oak",
        length_mm=900,
        total_width_mm=320,
        thickness_mm=25,
        least_strip_mm=60,
        greatest_strip_mm=180,
        sawn=(Sawn.QUARTER,),
    )
    request = LayoutRequest(boards=(FLAT, QUARTER), blanks=(), panels=(panel,))
    layout = lay_out(request)
    assert (used(layout), layout.complete) == (["Q"], True)
    assert all(p.blank.sawn == (Sawn.QUARTER,) for b in layout.boards for p in b.placed)


def test_a_board_nobody_looked_at_may_be_used_and_is_told() -> None:
    """T18 names the board, the part and what to look for; with the rings told there is nothing to say."""
    layout = laid(FLAT, UNTOLD)
    assert used(layout) == ["U"]
    (told,) = findings_after(layout, boards=(FLAT, UNTOLD), cutting=CUTTING).findings
    assert (told.code, told.severity.value, told.numbers) == ("T18", "note", {"boards": 1.0})
    assert told.message.endswith("rings of U, and parts laid out there ask for them: rail quarter-sawn.")
    assert not findings_after(laid(QUARTER), boards=(QUARTER,), cutting=CUTTING).findings
    assert not findings_after(laid(UNTOLD, blank=RAIL), boards=(UNTOLD,), cutting=CUTTING).findings


def no_board(blank: Blank, *boards: Board) -> Finding:
    """The one finding before the search."""
    (found,) = findings_before(boards, (blank,), cutting=CUTTING).findings
    return found


def test_no_board_that_serves_is_named_with_what_would() -> None:
    """T17: what is there, which angles serve, the board to bring, and how to ask for less."""
    told = no_board(ASKING, FLAT, replace(FLAT, name="R", rings=Ring(40.0)))
    assert (told.code, told.where, told.numbers) == ("T17", "rail", {"boards": 2.0})
    assert "quarter-sawn (rings 60 to 90° to the wide face)" in told.message
    assert "F (flat-sawn), R (rift-sawn, 40°)" in told.message
    assert "at least 900 mm long, 88 mm wide and 25 mm thick, quarter-sawn." in told.advice
    assert "rings: flat at rail" in told.advice
    assert "edges" not in told.advice


def test_rift_may_be_had_from_the_edge_of_a_flat_sawn_board() -> None:
    """The way out says where to look, and how to write it; written so, it is laid out."""
    asking = replace(RAIL, sawn=(Sawn.RIFT,))
    told = no_board(asking, FLAT)
    assert "look at the edges of F: where the rings run there from corner to corner" in told.advice
    edge = replace(FLAT, name="F edge", width_mm=95, rings=Ring.RIFT)
    assert used(laid(replace(FLAT, width_mm=105), edge, blank=asking)) == ["F edge"]


def test_wrong_wood_stays_wrong_wood() -> None:
    """Rings are not blamed where there is no board of the wood or thickness at all."""
    assert no_board(replace(ASKING, species="ash"), FLAT).code == "T03"
    assert no_board(replace(ASKING, thickness_mm=40), FLAT).code == "T04"


def test_a_pin_does_not_overrule_the_rings() -> None:
    """Held to a flat-sawn board, the part has no board, and the pin is named."""
    told = no_board(replace(ASKING, boards=("F",)), FLAT, QUARTER)
    assert (told.code, "It is held to F." in told.message) == ("T17", True)
    refused = part_off(FLAT, ASKING, Place(at_mm=0.0), cutting=CUTTING)
    assert refused == "it is to be quarter-sawn, and F is flat-sawn"


def test_the_checker_finds_rings_the_board_has_not() -> None:
    """The layout of a flat board, said to be for a part that asks for quarter-sawn wood, is refused."""
    layout = laid(FLAT, blank=RAIL)
    (board,) = layout.boards
    forged = replace(board, placed=tuple(replace(p, blank=ASKING) for p in board.placed))
    broken = verify_layout(
        replace(layout, boards=(forged,)), boards=(FLAT,), blanks=(ASKING,), cutting=CUTTING
    )
    assert "is to be quarter-sawn, the board is flat-sawn (0°)" in [
        v.message for v in broken if v.code == "wrong_rings"
    ]


def test_the_checker_asks_every_part_of_a_blank() -> None:
    """A length whose own wish is forgotten is still refused for the part in it."""
    second = replace(ASKING, name="rail 2")
    head = replace(RAIL, name="rail + rail 2", length_mm=1810, members=(RAIL, second))
    layout = laid(UNTOLD, blank=head)
    (board,) = layout.boards
    forged = replace(board, board=replace(UNTOLD, rings=Ring.RIFT))
    broken = verify_layout(
        replace(layout, boards=(forged,)), boards=(forged.board,), blanks=(head,), cutting=CUTTING
    )
    assert {v.code for v in broken} == {"wrong_rings", "wrong_board"}


@pytest.mark.parametrize("kind", [WishKind.RUN_THROUGH, WishKind.SIDE_BY_SIDE, WishKind.RESAWN])
def test_parts_that_ask_for_unlike_rings_cannot_be_cut_as_one(kind: WishKind) -> None:
    """It is said why; where one asks for nothing, the whole asks for what the other does."""
    cutting = Cutting(resaw_kerf_mm=1.0, resaw_most_mm=300.0)
    rift = replace(RAIL, name="leg", sawn=(Sawn.RIFT,))
    wish = Wish(name="w", kind=kind, members=("rail", "leg"))
    said = unfoldable(wish, {"rail": ASKING, "leg": rift}, cutting)
    assert said == "they are asked for as quarter-sawn and rift-sawn, and one board is sawn one way"
    assert not unfoldable(wish, {"rail": RAIL, "leg": rift}, cutting)
    assert [b.sawn for b in folded((RAIL, rift), (wish,), cutting)] == [(Sawn.RIFT,)]
    assert len(folded((ASKING, rift), (wish,), cutting)) == 2


def test_the_yard_judges_by_the_rings() -> None:
    """Flat goes back and says why; quarter is taken; one nobody looked at is taken with what to look for."""
    needs = Needs(blanks=(ASKING,), cutting=CUTTING)
    back = judge_board(FLAT, [], needs=needs)
    assert (back.verdict, back.reason) == (
        Verdict.PUT_BACK,
        "All that is cut from 4/4 white oak is to be quarter-sawn; this board is flat-sawn.",
    )
    assert judge_board(QUARTER, [], needs=needs).reason == "Covers 0.07 m² more; nothing is missing then."
    taken = judge_board(UNTOLD, [], needs=needs)
    assert taken.verdict is Verdict.TAKE
    assert taken.reason.endswith(" Look at its end first: some of that is to be quarter-sawn.")
    assert judge_board(replace(FLAT, species="ash"), [], needs=needs).reason.startswith("Nothing here is cut")


def test_what_to_look_for_says_how_much_is_to_be_sawn_one_way() -> None:
    """Of two rails, 900 x 80 x 25 mm each (0.76 board feet), one asks for quarter-sawn wood."""
    (asked,) = asked_of(Needs(blanks=(replace(RAIL, name="other"), ASKING), cutting=CUTTING))
    assert round(asked.board_feet, 2) == 1.53
    assert [(way, round(feet, 2)) for way, feet in asked.sawn] == [("quarter-sawn", 0.76)]
    assert asked_sawn(RAIL) == ""


def test_rings_are_called_out_on_the_line_of_a_board() -> None:
    """By name or by angle, in any order with flitch and marks; what is neither is refused with the rule."""
    line = "A1, white oak 4/4, 8 ft, 8 in, 40; rings 70; knot at 620 x 40, 90 x 50; flitch K 3"
    board = board_of_line(line, wood="cherry", per="board")
    assert (board.rings, board.flitch, board.sequence, len(board.defects)) == (Ring(70.0), "K", 3, 1)
    plain = board_of_line("A1, 4/4, 8 ft, 8 in; rings Rift", wood="cherry", per="board")
    assert plain.rings == Ring.RIFT
    for wrong in ("sideways", "120", "-3"):
        with pytest.raises(FileFaults) as caught:
            board_of_line(f"A1, 4/4, 8 ft, 8 in; rings {wrong}", wood="cherry", per="board")
        (fault,) = caught.value.faults
        assert (fault.field, fault.value) == ("boards.A1.rings", wrong)
        assert "flat, rift, quarter, or an angle from 0 to 90" in fault.rule
