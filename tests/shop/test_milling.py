"""Milling ledgers: the sizes add up pass by pass, from a board that is for sale to the finished part."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from scantling.piece.model import PartKind
from scantling.shop.milling.ledger import MillingLedger, Stage
from scantling.shop.milling.milling import mill, mill_all
from scantling.shop.operations.routing import Machine, Operation, machine_for
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.sizes.nominal_choice import Fit
from scantling.shop.sizes.size import EndCut, FinishedSize, Section, Size
from tests.shop.parts import apron, bare, odd_parts, panel, post

SHOP = default_shop()


def check_adds_up(ledger: MillingLedger) -> None:
    """Every pass takes what it says and starts where the last ended; the end is the finished size."""
    for one in ledger.passes:
        taken = (one.removes_length_mm, one.removes_width_mm, one.removes_thickness_mm)
        assert min(taken) >= -1e-9
        if one.operation not in (Operation.GLUE_LAYERS, Operation.GLUE_STRIPS, Operation.GLUE_SUB_PANELS):
            less = one.before.less(length_mm=taken[0], width_mm=taken[1], thickness_mm=taken[2])
            assert (less.length_mm, less.width_mm, less.thickness_mm) == pytest.approx(
                (one.after.length_mm, one.after.width_mm, one.after.thickness_mm)
            )
    for one, following in zip(ledger.passes, ledger.passes[1:], strict=False):
        assert following.before == one.after or following.operation is Operation.GLUE_STRIPS
    last, wanted = ledger.passes[-1].after, ledger.finished
    assert (last.length_mm, last.width_mm, last.thickness_mm) == pytest.approx(
        (wanted.length_mm, wanted.width_mm, wanted.thickness_mm)
    )
    assert ledger.passes[0].before == ledger.rough


@pytest.mark.parametrize("part", odd_parts(), ids=lambda part: f"{part.kind} {part.width_mm:.0f}")
def test_every_ledger_adds_up(part: FinishedSize) -> None:
    """No kind of part loses or gains wood between its passes."""
    check_adds_up(mill(part, SHOP))


@given(
    kind=st.sampled_from(list(PartKind)),
    length=st.floats(100, 3000),
    width=st.floats(15, 1200),
    thickness=st.floats(4, 120),
    section=st.sampled_from(list(Section)),
    end_cut=st.sampled_from(list(EndCut)),
)
def test_ledgers_add_up_whatever_the_part(
    kind: PartKind, length: float, width: float, thickness: float, section: Section, end_cut: EndCut
) -> None:
    """Also for parts no yard has stock for, and for rough blanks no smaller than the part."""
    if section is Section.ROUND and kind is not PartKind.STICK:
        section = Section.RECTANGULAR
    ledger = mill(bare(kind, length, width, thickness, section=section, end_cut=end_cut), SHOP)
    check_adds_up(ledger)
    assert ledger.rough.length_mm >= length
    assert ledger.pieces * ledger.rough.thickness_mm >= thickness


def test_an_apron_by_hand() -> None:
    """90 x 20 in 4/4, by hand: 0.3 + 1 + 2 + 2 off the thickness leave 0.1 to spare of 25.4."""
    ledger = mill(apron(), SHOP)
    assert (ledger.nominal, ledger.quarters, ledger.fit) == ("4/4", 4, Fit.CLEAN)
    assert ledger.needed_mm == pytest.approx(20 + 0.3 + 1 + 4)
    assert ledger.rough.length_mm == pytest.approx(1000 + 2 * 15)
    assert ledger.rough.width_mm == pytest.approx(90 + 0.3 + 1 + 1.5 + 3.5)
    assert ledger.milled.thickness_mm == pytest.approx(20.3)
    assert ledger.rough.thickness_mm == 25.4


def test_allowances_lie_in_the_usual_ranges() -> None:
    """25 to 50 in length, 6 to 12 in width, 5 to 8 in thickness over the finished stick (common practice)."""
    ledger = mill(apron(), SHOP)
    assert 25 <= ledger.rough.length_mm - 1000 <= 50
    assert 6 <= ledger.rough.width_mm - 90 <= 12
    assert 5 <= ledger.needed_mm - 20 <= 8


def test_snipe_is_left_on_at_both_ends() -> None:
    """A planer that snipes 50 adds 100 to the blank."""
    shop = parse_shop("machines: {planer: {snipe: 50}}")
    assert mill(apron(), shop).rough.length_mm == pytest.approx(1000 + 2 * (15 + 50))


def test_a_breadboard_end_is_cut_flush_last() -> None:
    """3 mm a side stay on until after assembly."""
    ledger = mill(apron(end_cut=EndCut.FLUSH_AFTER), SHOP)
    assert ledger.passes[-1].operation is Operation.FLUSH_CUT
    assert ledger.passes[-1].removes_length_mm == 6.0
    assert ledger.milled.length_mm == 1006.0


def test_a_panel_is_flattened_and_trimmed_after_glue_up() -> None:
    """Glued 1/2 in wider and 30 longer, sub-panels through the planer, the rest by hand."""
    ledger = mill(panel(), SHOP)
    assert ledger.glued is not None
    assert ledger.glued.width_mm == pytest.approx(660 + 12.7)
    assert ledger.glued.length_mm == pytest.approx(1220 + 30)
    assert ledger.nominal == "5/4"
    by_operation = {one.operation: one for one in ledger.passes}
    assert by_operation[Operation.FLATTEN_SUB_PANELS].machine is Machine.PLANER
    assert by_operation[Operation.FLATTEN_SUB_PANELS].stage is Stage.SUB_PANEL
    assert by_operation[Operation.REFLATTEN].machine is Machine.HAND_PLANE
    assert by_operation[Operation.TRIM_LENGTH].removes_length_mm == 30.0


def test_a_panel_of_one_strip_is_not_glued() -> None:
    """100 wide comes out of one board: nothing to glue, and the sizes still add up."""
    ledger = mill(panel(100.0), SHOP)
    assert ledger.pieces == 1
    assert Operation.GLUE_STRIPS not in [one.operation for one in ledger.passes]
    check_adds_up(ledger)


def test_a_narrow_panel_goes_through_the_planer_whole() -> None:
    """280 wide in a 330 planer needs no sub-panels."""
    ledger = mill(panel(280.0), SHOP)
    operations = [one.operation for one in ledger.passes]
    assert Operation.GLUE_SUB_PANELS not in operations
    assert next(p for p in ledger.passes if p.operation is Operation.REFLATTEN).machine is Machine.PLANER


def test_a_lamination_is_cleaned_up_after_glue_up() -> None:
    """Layers are wider by the slip and the block thicker by 1/8 in."""
    ledger = mill(post(), SHOP)
    assert ledger.glued is not None
    assert ledger.glued.thickness_mm == pytest.approx(3.5 * 25.4 + 0.3 + 25.4 / 8)
    assert 3 <= ledger.glued.width_mm - 3.5 * 25.4 <= 6
    assert ledger.pieces * ledger.milled.thickness_mm == pytest.approx(ledger.glued.thickness_mm)


def test_stock_asked_for_that_is_scant_is_called_tight_and_skimmed_evenly() -> None:
    """48 out of 8/4: 2.5 mm are there and 5 wanted, so half a pass off each face and no second planing."""
    ledger = mill(bare(PartKind.STICK, 730.0, 48.0, 48.0, quarters=8), SHOP)
    assert (ledger.nominal, ledger.fit) == ("8/4", Fit.TIGHT)
    off = {one.operation: one.removes_thickness_mm for one in ledger.passes}
    assert off[Operation.FACE] == pytest.approx(off[Operation.PLANE]) == pytest.approx(1.25)
    assert off[Operation.SETTLE] == 0.0
    assert ledger.notes


def test_a_panel_in_scant_stock_is_flattened_less() -> None:
    """22 from 4/4: 2 are skimmed off each strip and 1.1 is left for after glue-up, not 1.5."""
    ledger = mill(replace(panel(strip_count=4), thickness_mm=22.0, quarters=4), SHOP)
    assert (ledger.nominal, ledger.fit) == ("4/4", Fit.TIGHT)
    off = sum(one.removes_thickness_mm for one in ledger.passes if one.stage is not Stage.PIECE)
    assert off == pytest.approx(25.4 - 2.0 - 22.0)
    check_adds_up(ledger)


def test_stock_asked_for_that_is_too_thin_is_not_chosen() -> None:
    """60 does not come out of 8/4; the ledger still says what thickness is wanted."""
    ledger = mill(bare(PartKind.STICK, 730.0, 60.0, 60.0, quarters=8), SHOP)
    assert (ledger.nominal, ledger.fit, ledger.offered_mm) == ("", Fit.NONE, 50.8)
    assert ledger.rough.thickness_mm == pytest.approx(ledger.needed_mm) == pytest.approx(65.3)
    check_adds_up(ledger)


def test_only_what_is_in_the_rack_is_chosen() -> None:
    """With 5/4 and 8/4 to hand, an apron of 20 comes from 5/4."""
    offered = tuple(n for n in SHOP.offered() if n.name in ("5/4", "8/4"))
    assert mill(apron(), SHOP, offered=offered).nominal == "5/4"


def test_metric_stock_serves_likewise() -> None:
    """20 out of 27 mm, 24 in a panel out of 34 mm."""
    shop = parse_shop("yard: {system: metric}")
    assert mill(apron(), shop).nominal == "27 mm"
    assert mill(panel(), shop).nominal == "34 mm"


def test_surfaced_stock_is_only_skimmed() -> None:
    """13/16 in surfaced 4/4 gives 18 with 0.8 off, and no more than 18.5."""
    shop = parse_shop("yard: {bought_as: surfaced}")
    thin = replace(apron(), thickness_mm=18.5)
    assert mill(thin, shop).nominal == "4/4"
    assert mill(replace(thin, thickness_mm=18.6), shop).nominal == "5/4"


def test_without_machines_all_is_hand_work() -> None:
    """Every milling pass of a hand shop is planned for planes and saws."""
    ledger = mill(apron(), parse_shop("machines: {}"))
    idle = (Operation.REST, Operation.SURFACE)
    assert all(one.machine.by_hand for one in ledger.passes if one.operation not in idle)


def test_a_rough_board_is_not_cross_cut_on_a_table_saw() -> None:
    """Its edge is not straight yet: track saw or hand saw; squared stock goes to the table saw."""
    for owned, saw in (
        ("table_saw: {}, track_saw: {}", Machine.TRACK_SAW),
        ("table_saw: {}", Machine.HAND_SAW),
    ):
        ledger = mill(apron(), parse_shop(f"machines: {{{owned}}}"))
        by_operation = {one.operation: one.machine for one in ledger.passes}
        assert by_operation[Operation.CROSSCUT_ROUGH] is saw
        assert by_operation[Operation.CROSSCUT] is Machine.TABLE_SAW


@pytest.mark.parametrize(
    ("owned", "across", "along"),
    [
        (
            "table_saw: {rip_capacity: 30 in}, bandsaw: {throat: 350 mm}",
            "hand saw and plane",
            "hand saw and plane",
        ),
        ("table_saw: {rip_capacity: 50 in, crosscut_capacity: 50 in}", "table saw", "table saw"),
        ("table_saw: {rip_capacity: 30 in}, track_saw: {}", "track saw", "track saw"),
    ],
)
def test_a_wide_panel_is_trimmed_by_what_takes_it(owned: str, across: str, along: str) -> None:
    """912 mm is past a 762 mm fence and hangs over a bandsaw's table: track saw, else saw and plane."""
    shop = parse_shop(f"machines: {{{owned}}}")
    size = Size(length_mm=1776.0, width_mm=912.0, thickness_mm=25.0)
    assert machine_for(Operation.TRIM_WIDTH, size, shop.machines).value == across
    assert machine_for(Operation.TRIM_LENGTH, size, shop.machines).value == along


def test_a_bandsaw_rips_what_passes_its_throat() -> None:
    """Without a table saw a board of 350 mm is ripped on it and one of 351 by hand."""
    machines = parse_shop("machines: {bandsaw: {throat: 350 mm}}").machines
    board = Size(length_mm=900.0, width_mm=350.0, thickness_mm=25.0)
    assert machine_for(Operation.RIP, board, machines) is Machine.BANDSAW
    assert machine_for(Operation.RIP, replace(board, width_mm=351.0), machines) is Machine.HAND_SAW


def test_a_wide_board_is_faced_on_a_sled() -> None:
    """250 wide does not go over a 200 jointer but through a 330 planer on a sled."""
    ledger = mill(replace(apron(), width_mm=250.0), SHOP)
    face = next(one for one in ledger.passes if one.operation is Operation.FACE)
    assert face.machine is Machine.PLANER_SLED
    assert face.cuts == 2


def test_thick_stock_for_a_thin_part_is_said_to_resaw() -> None:
    """8 mm out of 8/4 leaves three more: the ledger says so where there is a saw for it."""
    part = replace(apron(quarters=8), thickness_mm=8.0)
    assert mill(part, SHOP).notes == ("thick enough to resaw into 3",)
    assert mill(part, parse_shop("machines: {}")).notes == ()


def test_ledgers_survive_json() -> None:
    """Every ledger is plain data: out to JSON and back it is the same."""
    ledgers = mill_all(odd_parts(), SHOP)
    adapter = TypeAdapter(tuple[MillingLedger, ...])
    assert adapter.validate_json(adapter.dump_json(ledgers)) == ledgers


def test_strips_as_the_boards_gave_them_are_trimmed_to_the_finished_width() -> None:
    """Strips that hold 48 mm more than the part lose all of it: the last pass leaves the size of the part."""
    ledger = mill(panel(strip_widths_mm=(182.0, 180.0, 176.0, 170.0)), SHOP)
    trim = next(one for one in ledger.passes if one.operation is Operation.TRIM_WIDTH)
    assert trim.removes_width_mm == pytest.approx(708.0 - 660.0 - SHOP.allowances.surface_mm)
    assert ledger.passes[-1].after.width_mm == pytest.approx(660.0)
