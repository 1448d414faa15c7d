"""Without sheets in the rack the plan says which to buy: usual sizes, the least area that holds the parts."""

from __future__ import annotations

import json
from dataclasses import replace
from itertools import product
from pathlib import Path

import pytest

from scantling.errors import FileFaults
from scantling.papers.pages.closing_pages import buy_rows
from scantling.papers.pages.figures import Figures
from scantling.papers.sheets.sheet_buying import buying_words
from scantling.papers.sheets.show import Show
from scantling.papers.sheets.timber import timber_sheet
from scantling.plan.cache import Cache
from scantling.plan.document import plan_json
from scantling.plan.planner import make_plan
from scantling.plan.timber.needs import SheetNeed
from scantling.plan.timber.sheets import sheet_cutting
from scantling.plan.timber.sheets_to_buy import BoughtSheets, plan_sheets_to_buy
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.stock import verify_layout
from scantling.stock.layouts.layout import Layout
from scantling.wood.sheets import all_sheets, usual_sizes
from tests.plan.peg_rail import peg_job
from tests.plan.test_sheets import CUPBOARD, HEAD, TRACK

SHOP = default_shop()


def need(part: str, length: float, width: float, material: str = "MDF") -> SheetNeed:
    """A part of 18 mm."""
    return SheetNeed(part=part, material=material, length_mm=length, width_mm=width, thickness_mm=18)


def bought(*needs: SheetNeed, taken: tuple[str, ...] = ()) -> BoughtSheets:
    """What to buy for these, which the independent checker finds sound."""
    found = plan_sheets_to_buy(needs, SHOP, taken=taken, cache=Cache())
    assert found is not None
    placed = sorted(p.blank.part for b in found.boards for p in b.placed)
    assert placed == sorted({n.part for n in needs} - {n.part for n in found.too_large})
    assert found.least_m2 <= found.area_m2
    layout = Layout(
        boards=found.boards,
        unplaced=(),
        strips=(),
        unused=(),
        price=None,
        waste_pct=found.waste_pct,
        bound_price=None,
        gap_pct=None,
        short_proven=False,
        seed=1,
    )
    blanks = tuple(p.blank for b in found.boards for p in b.placed)
    boards = tuple(b.board for b in found.boards)
    assert verify_layout(layout, boards=boards, blanks=blanks, cutting=sheet_cutting(SHOP)) == ()
    return found


def sizes(found: BoughtSheets) -> list[tuple[int, float, float]]:
    """How many of which size."""
    return [(p.count, p.length_mm, p.width_mm) for p in found.purchases]


def test_the_least_sheet_that_holds_a_part_is_bought() -> None:
    """1210 x 600 is a quarter once 5 mm go off each edge; a millimeter more asks for a half."""
    assert sizes(bought(need("shelf", 1210, 600))) == [(1, 1220, 610)]
    assert sizes(bought(need("shelf", 1210, 601))) == [(1, 1220, 1220)]
    assert sizes(bought(need("shelf", 1211, 601))) == [(1, 2440, 1220)]


def test_grain_decides_how_a_part_lies() -> None:
    """600 along the grain and 1210 across: no quarter of plywood, but one of MDF."""
    assert sizes(bought(need("door", 600, 1210))) == [(1, 1220, 610)]
    assert sizes(bought(need("door", 600, 1210, "birch plywood"))) == [(1, 1220, 1220)]


def test_kerf_and_edges_count() -> None:
    """Four parts fill 2440 x 1220 until two, a kerf and two edges are wider than the sheet."""
    kerf = sheet_cutting(SHOP).rip_kerf_mm
    for more, one_is_enough in ((-0.1, True), (0.1, False)):
        wide = (1210 - kerf) / 2 + more
        found = bought(*(need(f"p{n}", 1208, wide, "birch plywood") for n in range(4)))
        assert (sizes(found) == [(1, 2440, 1220)]) is one_is_enough


def test_a_part_larger_than_any_sheet_is_told_with_what_to_ask_for() -> None:
    """3 m of MDF: the rest is bought all the same."""
    found = bought(need("counter", 3000, 600), need("shelf", 500, 300))
    assert [n.part for n in found.too_large] == ["counter"]
    assert sizes(found) == [(1, 1220, 610)]
    (finding,) = found.findings
    assert (finding.code, finding.where) == ("T14", "counter")
    assert "at least 3010 mm long and 610 mm wide" in finding.advice


def test_a_size_is_bought_as_often_as_it_is_needed() -> None:
    """Parts of 1500 x 800 mm lie alone on 1525 x 1525 and on 2440 x 1220 mm: all are on the less."""
    found = bought(*(need(f"side_{n}", 1500, 800, "birch plywood") for n in range(20)))
    assert sizes(found) == [(20, 1525, 1525)]
    assert found.area_m2 == pytest.approx(20 * 1.525 * 1.525)
    assert found.least_m2 == pytest.approx(found.area_m2, abs=0.01)


def test_no_choice_has_less_than_what_is_told_as_the_least() -> None:
    """Parts of one size: every count of each usual size whose sheets hold them all, tried one by one."""
    for length, width, number in ((1500, 800, 9), (1200, 600, 7), (700, 590, 11)):
        parts = [need(f"p{n}", length, width, "birch plywood") for n in range(number)]
        found = bought(*parts)
        held = [_held(length, width, s.length_mm, s.width_mm) for s in usual_sizes("birch plywood", "inch")]
        areas = [s.length_mm * s.width_mm * 1e-6 for s in usual_sizes("birch plywood", "inch")]
        choices = product(*(range(number + 1) for _ in areas))
        least = min(
            sum(a * n for a, n in zip(areas, some, strict=True))
            for some in choices
            if sum(h * n for h, n in zip(held, some, strict=True)) >= number
        )
        assert found.area_m2 == pytest.approx(least)
        assert found.least_m2 <= least + 1e-9


def _held(length: float, width: float, sheet_length: float, sheet_width: float) -> int:
    """How many parts of one size lie on a sheet, in rows, the grain along it."""
    kerf, lost = sheet_cutting(SHOP).rip_kerf_mm, 2.0 * SHOP.allowances.sheet_edge_mm
    along = int((sheet_length - lost + kerf) // (length + kerf))
    return along * int((sheet_width - lost + kerf) // (width + kerf))


def test_materials_and_thicknesses_are_bought_apart_and_no_name_twice() -> None:
    """Two sheets, neither called as the one that is there."""
    thin = replace(need("back", 500, 300), thickness_mm=6)
    found = bought(need("shelf", 500, 300), thin, taken=("new 1",))
    assert [(p.thickness_mm, p.sheets) for p in found.purchases] == [(6, ("new 2",)), (18, ("new 3",))]


def test_every_material_has_usual_sizes_in_both_trades() -> None:
    """And each list begins with its largest."""
    for sheet in all_sheets():
        for system in ("inch", "metric"):
            areas = [s.length_mm * s.width_mm for s in usual_sizes(sheet.name, system)]
            assert areas
            assert areas == sorted(areas, reverse=True)


@pytest.mark.parametrize("rack", ["", "O1,white oak,5/4,1500,160,30\nS,birch plywood,12 mm,2440,1220,30\n"])
def test_plan_order_list_sheet_and_json_say_the_same(tmp_path: Path, rack: str) -> None:
    """800 x 500 and two of 500 x 300 mm take a half, not two quarters, whatever other sheets the rack has."""
    piece = CUPBOARD % {"material": "birch plywood"}
    job = peg_job(tmp_path, piece=piece, shop=TRACK, rack=HEAD + rack if rack else None)
    plan = make_plan(job)
    figures = Figures(style=Show.of(plan).style, currency="USD")
    row = next(r for r in buy_rows(plan, figures=figures) if r.group == "Sheets to buy")
    assert row.amount == "1 of 1220 × 1220 mm"
    assert "shelf" in row.note
    said = repr(timber_sheet(plan))
    assert "Sheets to buy" in said
    assert "Chalk list of the sheets" in said
    assert "no choice of usual sizes has less" in said
    laid = plan.timber.sheets_to_buy.boards if plan.timber.sheets_to_buy else ()
    chalked = {cut.piece for board in laid for cut in board.cuts}
    assert all(name.startswith("new 1") or name.split("_")[0] in ("back", "shelf") for name in chalked)
    told = json.loads(plan_json(plan))["timber"]["sheets_to_buy"]
    assert [(p["count"], p["length_mm"], p["width_mm"]) for p in told["purchases"]] == [(1, 1220, 1220)]


YARD = """
yard:
  sheets:
    - {material: MDF, length: 2000 mm, width: 700 mm}
    - {material: MDF, length: 900 mm, width: 700 mm}
"""


def test_the_yards_own_sizes_stand_in_place_of_the_usual_ones() -> None:
    """Two shelves of 800 mm take two small sheets, not a large one; plywood keeps to the usual sizes."""
    shop = parse_shop(YARD)
    needs = (need("one", 800, 600), need("two", 800, 600), need("door", 1200, 600, "birch plywood"))
    found = plan_sheets_to_buy(needs, shop, cache=Cache())
    assert found is not None
    assert found.own_sizes
    assert sorted(sizes(found)) == [(1, 1220, 610), (2, 900, 700)]
    assert "sizes of your yard" in buying_words(found)
    assert not bought(needs[0]).own_sizes
    [told] = plan_sheets_to_buy((need("long", 2100, 300),), shop, cache=Cache()).findings  # type: ignore[union-attr]
    assert "sold as 2000 × 700, 900 × 700 mm" in told.message


def test_a_size_of_an_unknown_material_is_refused_in_its_line() -> None:
    """With the nearest names."""
    with pytest.raises(FileFaults, match=r"yard\.sheets\[1\]\.material: must be one of .* MDF"):
        parse_shop("yard: {sheets: [{material: MDX, length: 2000 mm, width: 700 mm}]}")
