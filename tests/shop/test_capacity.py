"""What the shop cannot take is told, with the figure found and wanted; what it just takes is not."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest

from scantling.errors import Finding, Severity
from scantling.joinery.work import Fit, JointWork, Mark, MarkKind
from scantling.piece.model import Direction, End, PartKind
from scantling.shop.milling.capacity import cutter_findings, milling_findings, saw_findings
from scantling.shop.milling.milling import mill
from scantling.shop.milling.stock_findings import STOCK_TOO_THIN, stock_findings
from scantling.shop.operations.routing import Operation
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.sawing.saw import saw_part
from scantling.shop.sizes.size import FinishedSize
from tests.shop.parts import apron, bare, panel
from tests.shop.sticks import level_stick

SHOP = default_shop()


def codes(found: Iterable[Finding]) -> list[str]:
    """Codes in order."""
    return [item.code for item in found]


def milled(part: FinishedSize) -> tuple[Finding, ...]:
    """What milling finds of one part."""
    return milling_findings([mill(part, SHOP)], SHOP)


@pytest.mark.parametrize(
    ("part", "just_not", "code", "figure"),
    [
        (replace(apron(), length_mm=269.0), replace(apron(), length_mm=270.0), "F23", "wanted_mm"),
        (replace(apron(), thickness_mm=5.6), replace(apron(), thickness_mm=5.7), "F24", "wanted_mm"),
        (replace(apron(), width_mm=331.0), replace(apron(), width_mm=323.0), "F25", "capacity_mm"),
        (replace(apron(), length_mm=2571.0), replace(apron(), length_mm=2570.0), "F26", "free_mm"),
        (replace(apron(), width_mm=38.1), replace(apron(), width_mm=38.2), "F28", "wanted_mm"),
    ],
)
def test_each_limit_of_the_machines(
    part: FinishedSize, just_not: FinishedSize, code: str, figure: str
) -> None:
    """The rule trips just past the machine's limit and not just within it."""
    found = milled(part)
    assert codes(found) == [code]
    assert found[0].numbers[figure] > 0
    assert found[0].advice
    assert codes(milled(just_not)) == []


def test_a_finding_tells_the_size_that_the_milling_sheet_tells() -> None:
    """A leg of 1 1/2 in is ripped wider by what is planed off after: told to a tenth, as on its sheet."""
    part = replace(apron(), width_mm=38.1)
    ripped = next(p.after.width_mm for p in mill(part, SHOP).passes if p.operation is Operation.RIP)
    [found] = milled(part)
    assert abs(ripped - round(ripped)) > 0.05
    assert f"ripped to {ripped:.1f} mm; below 40 mm" in found.message


@pytest.mark.parametrize(
    ("size", "code", "a_little", "clearly"),
    [("length_mm", "F23", 269.0, 100.0), ("thickness_mm", "F24", 5.6, 2.5), ("width_mm", "F28", 38.0, 18.0)],
)
def test_small_parts_are_bench_work_and_stop_nothing(
    size: str, code: str, a_little: float, clearly: float
) -> None:
    """Down to half a machine's least size a part is worth a change, below that it is serious."""
    found = {each: milled(replace(apron(), **{size: each})) for each in (a_little, clearly)}
    told = [next(f for f in found[each] if f.code == code) for each in (a_little, clearly)]
    assert [f.severity for f in told] == [Severity.MEDIUM, Severity.HIGH]


def test_a_hand_shop_has_no_machine_limits() -> None:
    """A short part for hand tools is no fault."""
    shop = parse_shop("machines: {}")
    part = replace(apron(), length_mm=150.0, thickness_mm=5.0)
    assert milling_findings([mill(part, shop)], shop) == ()


def test_a_wide_panel_in_sub_panels_is_only_a_note() -> None:
    """What is left for hand planes after sub-panels is planned, so it stops nothing."""
    [found] = milled(panel())
    assert (found.code, found.severity) == ("F25", Severity.NOTE)
    assert found.numbers["capacity_mm"] == 330.0


def test_a_square_end_too_high_is_sawn_from_two_faces_and_one_too_wide_by_hand() -> None:
    """64 high with 55 of depth, and 700 wide past a sled of 600, are no faults; 120 high is."""
    track = parse_shop("machines: {track_saw: {depth: 55}}")
    post = replace(level_stick("post", 590.0, lean_deg=(0.0, 0.0)), thickness_mm=64.0)
    wide = level_stick("wide", 900.0, lean_deg=(0.0, 0.0), width_mm=700.0)
    high = replace(post, thickness_mm=120.0, width_mm=120.0)
    table = parse_shop("machines: {table_saw: {}}")
    assert saw_findings([saw_part(post, {}, track), saw_part(wide, {}, table)]) == ()
    assert codes(saw_findings([saw_part(high, {}, track)])) == ["F27"]


def test_an_end_no_saw_reaches_is_told_with_what_each_lacks() -> None:
    """55 degrees with a miter saw of 50 alone; 50 just goes."""
    shop = parse_shop("machines: {miter_saw: {max_miter: 50}}")
    steep = saw_part(level_stick("brace", 400.0, lean_deg=(55.0, 55.0)), {}, shop)
    within = saw_part(level_stick("brace", 400.0, lean_deg=(50.0, 50.0)), {}, shop)
    [found] = saw_findings([steep, within])
    assert (found.code, found.where) == ("F27", "brace.start")
    assert "turn 55.0° is past its 50.0°" in found.message


def mortised(width_mm: float, depth_mm: float) -> JointWork:
    """A joint with one mortise."""
    mark = Mark(
        part="leg",
        kind=MarkKind.MORTISE,
        on_end=False,
        end=End.END,
        face=Direction.RIGHT,
        reference_face=Direction.FRONT,
        from_end_mm=50.0,
        from_face_mm=20.0,
        length_mm=50.0,
        width_mm=width_mm,
        depth_mm=depth_mm,
        fit=Fit.TIGHT,
        setup="mortise",
    )
    return JointWork(
        joint="corner",
        family="loose_tenon",
        first="apron",
        second="leg",
        at=(0, 0, 0),
        leaves=(1, 0, 0),
        marks=(mark,),
    )


def test_a_mortise_too_deep_for_every_cutter_is_told() -> None:
    """10 wide: 28 deep for the loose-tenon cutter, 50 for the router; 51 is past both; chisels cut any."""
    shop = parse_shop("machines: {loose_tenon_cutter: {}, router: {}}")
    assert codes(cutter_findings([mortised(10.0, 50.0)], shop)) == []
    [found] = cutter_findings([mortised(10.0, 51.0)], shop)
    assert (found.code, found.where) == ("F27", "corner")
    assert cutter_findings([mortised(9.0, 90.0)], parse_shop("machines: {}")) == ()


def test_a_wider_mortise_is_cut_in_two_passes_by_a_narrower_bit() -> None:
    """8.5 wide: bits of 6 and 8 mm make it, one of 10 does not; a loose-tenon cutter's width is its own."""
    router = "machines: {{router: {{bits: {bits}, max_depth: 50}}}}"
    assert cutter_findings([mortised(8.5, 20.0)], parse_shop(router.format(bits="[6, 8]"))) == ()
    wide = parse_shop(router.format(bits="[10, 12]"))
    [found] = cutter_findings([replace(mortised(8.5, 20.0), family="top_button")], wide)
    assert found.code == "F27"
    assert "Change its tongue" in found.advice
    cutter = parse_shop("machines: {loose_tenon_cutter: {}}")
    assert codes(cutter_findings([mortised(8.5, 20.0)], cutter)) == ["F27"]


def test_a_through_mortise_is_cut_from_both_faces() -> None:
    """A router that goes 50 deep meets itself in 100, and not in 101; a blind one of 51 is too deep."""
    shop = parse_shop("machines: {router: {bits: [10], max_depth: 50}}")
    for deep, both, told in ((100.0, True, []), (101.0, True, ["F27"]), (51.0, False, ["F27"])):
        work = mortised(10.0, deep)
        marks = tuple(replace(mark, both_faces=both) for mark in work.marks)
        assert codes(cutter_findings([replace(work, marks=marks)], shop)) == told


def test_a_leg_too_thick_for_the_stock_is_told_three_ways_out() -> None:
    """60 out of 5/4 and 8/4: laminate it, or make it 45.5, or buy thicker; 48 from 8/4 is only just."""
    offered = tuple(n for n in SHOP.offered() if n.name in ("5/4", "8/4"))
    thick = bare(PartKind.STICK, 730.0, 60.0, 60.0)
    scant = bare(PartKind.STICK, 730.0, 48.0, 48.0, quarters=8)
    clean = bare(PartKind.STICK, 730.0, 45.0, 45.0)
    parts = (thick, scant, clean)
    ledgers = [mill(part, SHOP, offered=offered) for part in parts]
    none, tight = stock_findings(parts, ledgers, SHOP, offered=offered)
    assert (none.code, none.severity) == (STOCK_TOO_THIN, Severity.HIGH)
    assert none.advice == (
        "Laminate it from 2 layers of 8/4, or make it at most 45.5 mm thick, or buy thicker stock."
    )
    assert none.numbers == pytest.approx({"needed_mm": 65.3, "offered_mm": 50.8, "most_mm": 45.5})
    assert (tight.code, tight.severity) == (STOCK_TOO_THIN, Severity.MEDIUM)
    assert tight.where == "part"
    assert "53.3 mm of rough stock are wanted for 48.0 mm finished; 8/4 is 50.8 mm" in tight.message
