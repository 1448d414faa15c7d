"""Blanks come from thicker stock, leaves or other layers where that holds more or costs less."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from scantling.papers.sheets.parts import blank_words
from scantling.plan.planner import make_plan
from scantling.plan.result import Plan
from scantling.plan.timber.needs import cutting_of
from scantling.plan.timber.stockways import Limits, choose_stock
from scantling.stock import Blank, Board, LayoutRequest, Price, verify_layout
from scantling.stock.layouts.layout import Layout
from scantling.stock.solving.solve import LayoutAnswer
from tests.plan.peg_rail import peg_job

PIECE = """
scantling: 1
title: Two rails
units: mm
parts:
  rail:
    kind: stick
    species: white oak
    from: [-300 mm, 0, 500 mm]
    to: [300 mm, 0, 500 mm]
    section: [90 mm, 18 mm]
    width_toward: top
    repeat: {count: 2, step: [0, 100 mm, 0]}
"""
POST = """
scantling: 1
title: A post
units: mm
parts:
  post:
    kind: lamination
    species: white oak
    from: [0, 0, 0]
    to: [0, 0, 600 mm]
    section: [60 mm, 60 mm]
    width_toward: right
"""
SHOP = "name: Shed\nunits: mm\nmachines: {planer: {}, jointer: {}, table_saw: {kerf: 3}%s}\n%s"
SAW = ", bandsaw: {resaw: 200, kerf: 1.2}"
HEAD = "name,species,thickness,length,width,price\n"


def planned(folder: Path, rack: str, *, piece: str = PIECE, shop: str = SHOP % ("", "")) -> Plan:
    """The plan, its layout sound by the checker."""
    job = peg_job(folder, piece=piece, shop=shop, rack=HEAD + rack)
    plan = make_plan(job)
    assert job.rack is not None
    found = verify_layout(
        laid(plan),
        boards=job.rack.boards,
        blanks=plan.timber.blanks,
        panels=plan.timber.panels,
        cutting=cutting_of(job.shop),
        wishes=plan.timber.wishes,
    )
    assert found == ()
    return plan


def laid(plan: Plan) -> Layout:
    """The layout there must be."""
    assert plan.timber.layout is not None
    return plan.timber.layout


def used(plan: Plan) -> list[str]:
    """Boards that are cut."""
    return [b.board.name for b in laid(plan).boards]


def test_thicker_stock_is_taken_where_it_costs_less(tmp_path: Path) -> None:
    """Rails of 18 mm want 4/4 (23.3 mm); 6/4 at 20 goes before 4/4 at 50, and 4/4 before 6/4 at 60."""
    cheap = planned(tmp_path, "A,white oak,4/4,700,220,50\nB,white oak,6/4,700,220,20\n")
    assert (used(cheap), laid(cheap).price, laid(cheap).bound_price) == (["B"], 20, 20)
    assert {x.nominal for x in cheap.milling} == {"6/4"}
    assert cheap.milling[0].passes[0].before.thickness_mm == pytest.approx(38.1)
    dear = planned(tmp_path, "A,white oak,4/4,700,220,50\nB,white oak,6/4,700,220,60\n")
    assert (used(dear), {x.nominal for x in dear.milling}) == (["A"], {"4/4"})


def test_no_more_is_planed_away_than_the_shop_allows(tmp_path: Path) -> None:
    """8/4 is 25.4 mm thicker than 4/4, 6/4 12.7: 13 mm allow the one, not the other; 0 allows neither."""
    thick = "A,white oak,4/4,700,120,50\nB,white oak,8/4,700,220,20\n"
    assert not laid(planned(tmp_path, thick)).complete
    less = thick.replace("8/4", "6/4")
    assert laid(planned(tmp_path, less)).complete
    none = planned(tmp_path, less, shop=SHOP % ("", "allowances: {thicker: 0}\n"))
    assert not laid(none).complete
    fixed = planned(tmp_path, less, piece=PIECE.replace("width_toward", "quarters: 4\n    width_toward"))
    assert not laid(fixed).complete


def test_one_thickness_gives_two_leaves_where_there_is_a_saw(tmp_path: Path) -> None:
    """Two rails of 18 mm out of 8/4: (50.8 - 1.2) / 2 = 24.8 mm a leaf, and 23.3 are wanted."""
    rack = "A,white oak,4/4,700,120,50\nB,white oak,8/4,700,120,20\n"
    plan = planned(tmp_path, rack, shop=SHOP % (SAW, ""))
    assert (used(plan), laid(plan).complete, laid(plan).price) == (["B"], True, 20)
    assert [a.wish.name for a in laid(plan).wishes] == ["resawn: rail_1 and rail_2"]
    rail = plan.milling[0]
    assert [p.operation.value for p in rail.passes[:2]] == ["cross-cut to rough length", "resaw into leaves"]
    assert [p.after.thickness_mm for p in rail.passes[:2]] == [pytest.approx(50.8), pytest.approx(24.8)]
    assert rail.rough.thickness_mm == pytest.approx(24.8)
    assert blank_words(rail) == "resawn in pairs"
    mill = next(s for s in plan.order.steps if s.title == "Mill the blanks over size")
    assert any(line.startswith("Resaw rail_1, rail_2") for line in mill.details)
    assert any("Guard down to the stock" in caution for caution in mill.cautions)
    assert not laid(planned(tmp_path, rack)).complete


def test_leaves_are_resawn_where_that_is_cheaper_though_the_usual_stock_would_do(tmp_path: Path) -> None:
    """Both rails lie on the 4/4 board of 50; as leaves of the narrow 8/4 they cost 20."""
    rack = "A,white oak,4/4,700,220,50\nB,white oak,8/4,700,120,20\n"
    plan = planned(tmp_path, rack, shop=SHOP % (SAW, ""))
    assert (used(plan), laid(plan).price, laid(plan).bound_price) == (["B"], 20, 20)
    dear = planned(tmp_path, rack.replace("120,20", "120,60"), shop=SHOP % (SAW, ""))
    assert (used(dear), laid(dear).wishes) == (["A"], ())


def test_leaves_no_wider_than_the_saw_takes(tmp_path: Path) -> None:
    """A rail is 95 mm wide rough: a saw of 90 mm resaws none."""
    rack = "A,white oak,4/4,700,120,50\nB,white oak,8/4,700,120,20\n"
    low = SHOP % (SAW.replace("200", "90"), "")
    assert not laid(planned(tmp_path, rack, shop=low)).complete


def test_layers_come_from_what_the_rack_has_cheapest(tmp_path: Path) -> None:
    """63.5 mm to glue up: two layers of 8/4 (46.8 mm each), or three of 5/4 (27.75), whichever costs less."""
    rack = "A,white oak,8/4,700,200,%s\nB,white oak,5/4,700,300,40\n"
    two = planned(tmp_path, rack % 30, piece=POST)
    three = planned(tmp_path, rack % 60, piece=POST)
    assert [(used(p), p.milling[0].pieces, p.milling[0].nominal) for p in (two, three)] == [
        (["A"], 2, "8/4"),
        (["B"], 3, "5/4"),
    ]


def test_an_interrupt_keeps_the_best_so_far() -> None:
    """Ctrl-C at the first answer returns it, not an error; nothing else is searched then."""
    board = Board(name="A", species="oak", quarters=4, width_mm=150, length_mm=900, price=Price(amount=9))
    blank = Blank(
        name="rail",
        part="rail",
        species="oak",
        length_mm=700,
        width_mm=90,
        thickness_mm=25.4,
        quarters=(4.0,),
    )
    usual = LayoutRequest(boards=(board, replace(board, name="B", quarters=5)), blanks=(blank,))
    other = replace(usual, blanks=(replace(blank, quarters=(4.0, 5.0)),))

    def stop(_: LayoutAnswer) -> None:
        raise KeyboardInterrupt

    limits = Limits(rounds=12, seconds=None, seed=1)
    chosen = choose_stock(usual, other, limits=limits, told=stop)
    assert chosen.layout.complete
    assert chosen.request == usual
    assert choose_stock(usual, other, limits=limits).request == usual


def test_layers_may_come_from_two_thicknesses(tmp_path: Path) -> None:
    """Each board holds one layer; 6/4 gives 34.1 mm net for 31.7, and the other is planed down from 8/4."""
    plan = planned(tmp_path, "A,white oak,6/4,700,150,50\nB,white oak,8/4,700,150,20\n", piece=POST)
    assert (used(plan), laid(plan).complete) == (["A", "B"], True)


def test_layers_may_be_leaves_of_one_thickness(tmp_path: Path) -> None:
    """36 mm finished: two layers of 19.7 mm, resawn out of one 8/4 too narrow for both side by side."""
    piece = POST.replace("[60 mm, 60 mm]", "[60 mm, 36 mm]")
    rack = "A,white oak,4/4,700,80,50\nB,white oak,8/4,700,150,20\n"
    plan = planned(tmp_path, rack, piece=piece, shop=SHOP % (SAW, ""))
    assert (used(plan), laid(plan).complete) == (["B"], True)
    assert "resaw into leaves" in [one.operation.value for one in plan.milling[0].passes]


def test_a_panel_is_planed_to_one_thickness_from_two(tmp_path: Path) -> None:
    """Strips of 4/4 and 5/4: the sheet starts from the thicker, and the panel is whole."""
    piece = PIECE.replace("kind: stick", "kind: panel").replace("[90 mm, 18 mm]", "[300 mm, 18 mm]")
    piece = piece.replace("repeat: {count: 2, step: [0, 100 mm, 0]}", "note: one")
    rack = "A,white oak,4/4,700,220,50\nB,white oak,5/4,700,220,20\n"
    plan = planned(tmp_path, rack, piece=piece)
    assert (used(plan), laid(plan).complete) == (["A", "B"], True)
    assert (plan.milling[0].nominal, plan.milling[0].passes[0].before.thickness_mm) == ("5/4", 31.75)
