"""Rings of miters: glued in one go, pressed by bands over corner blocks, which are cut from offcuts."""

from __future__ import annotations

import math

import pytest

from scantling.joinery.work import ClampNeed, GlueFace, JointWork
from scantling.plan.making.cauls import caul_blank_mm, wedge_blank_mm, with_offcuts
from scantling.shop.gluing.assembly import Assembly, plan_assembly
from scantling.shop.gluing.banding import band_clamps, corner_cauls, rings_of
from scantling.shop.gluing.glue_findings import glueup_findings
from scantling.shop.gluing.glueup import Wedge
from scantling.shop.gluing.pressing import owned_of, pressure_for
from scantling.shop.profile.clamps import Clamp, ClampKind
from scantling.shop.profile.glues import GlueKind
from scantling.shop.profile.profile import Shop
from scantling.stock.boards.board import Board
from scantling.stock.layouts.layout import BoardLayout, Layout, Offcut
from tests.joinery.bench import Made, made_of
from tests.joinery.test_miter import frame, ring

BAND = Clamp(kind=ClampKind.BAND, reach_mm=3000.0, count=2, force_n=900.0)
BAR = Clamp(kind=ClampKind.BAR, reach_mm=3500.0, count=4, force_n=4000.0)


def shop(*clamps: Clamp) -> Shop:
    """A shop with these clamps and no others."""
    return Shop(name="trial", clamps=clamps)


def planned(made: Made, *clamps: Clamp) -> Assembly:
    """The stages of putting a ring together."""
    return plan_assembly(made.works, made.piece.parts, shop(*clamps))


@pytest.mark.parametrize("sides", [3, 4, 6, 8])
def test_a_ring_is_glued_in_one_go(sides: int) -> None:
    """All its corners in one stage, none barred, under bands; a block to every corner."""
    assembly = planned(ring(sides, 10.0, held_by="keys"), BAND, BAR)
    (stage,) = assembly.stages
    assert assembly.blocked == ()
    assert len(stage.joints) == sides
    assert stage.clamps is not None
    assert stage.clamps.band
    assert stage.clamps.owned == 2
    assert stage.wedges == ()
    assert sum(caul.count for caul in stage.cauls) == sides


def test_a_row_that_does_not_close_is_no_ring() -> None:
    """A lone corner has no ring; it is pressed across two blocks at half the turn."""
    made = frame()
    assert rings_of(made.works) == ()
    (stage,) = planned(made, BAND, BAR).stages
    assert stage.clamps is not None
    assert not stage.clamps.band
    assert [(wedge.angle_deg, wedge.count, wedge.needed) for wedge in stage.wedges] == [
        (pytest.approx(45.0), 2, True)
    ]


@pytest.mark.parametrize("sides", [4, 6])
def test_a_band_presses_by_its_pull_over_the_cosine(sides: int) -> None:
    """N = T / cos(180 / n): upright sides 70 x 10 ask for p A cos / T bands, rounded up; girth all round."""
    made = ring(sides)
    clamps = band_clamps(made.works, parts=made.piece.parts, shop=shop(BAND), glue=GlueKind.PVA)
    half = math.pi / sides
    area = 70.0 * 10.0 / math.cos(half)
    wanted = pressure_for("black walnut").least_mpa
    assert clamps.by_pressure == math.ceil(wanted * area * math.cos(half) / 900.0)
    assert clamps.pressure_mpa == pytest.approx(clamps.count * 900.0 / math.cos(half) / area)
    lengths = sum(part.length_mm for part in made.piece.parts.values())
    assert clamps.reach_mm == pytest.approx(lengths + 50.0 * sides)


@pytest.mark.parametrize(("sides", "lean", "corner"), [(4, 0.0, 90.0), (6, 0.0, 120.0), (4, 20.0, 96.72)])
def test_blocks_are_notched_to_the_corner(sides: int, lean: float, corner: float) -> None:
    """The notch is the angle between the outer faces, 180 less twice the bevel: 96.72 for four leaning 20."""
    made = ring(sides, lean)
    (caul,) = corner_cauls(made.works)
    assert caul.corner_deg == pytest.approx(corner, abs=0.01)
    assert caul.flank_deg == pytest.approx((180.0 - corner) / 2.0, abs=0.01)
    assert caul.count == sides


def test_bands_have_no_jaws_and_jaws_go_round_nothing() -> None:
    """What opens 2 m is the bar; what goes round 2 m is the band."""
    assert owned_of(2000.0, shop(BAND, BAR)) == 4
    assert owned_of(2000.0, shop(BAND, BAR), band=True) == 2


def test_a_shop_without_bands_is_told_another_way() -> None:
    """F29, but only medium: a cord over the same blocks does it. With a band there is nothing to say."""
    made = ring(4)
    (found,) = glueup_findings(planned(made, BAR).stages, shop(BAR))
    assert (found.code, found.severity.value) == ("F29", "medium")
    assert "cord" in found.advice
    assert glueup_findings(planned(made, BAND).stages, shop(BAND)) == ()


def test_a_flat_frames_blocks_are_as_long_as_it_is_thick() -> None:
    """Six rails of 60 x 20: one band's blocks are 20 long and some to hold, not as long as the miter."""
    rail = {
        "kind": "stick",
        "species": "white oak",
        "from": [-50, -200, 10],
        "to": [50, -200, 10],
        "section": [60, 20],
        "width_toward": "back",
        "trim": {"start": "miter with previous", "end": "miter with next"},
        "repeat": {"count": 6, "turn": "60 deg"},
    }
    made = made_of({"rail": rail}, {"j": {"kind": "miter", "between": [["rail_*.end", "next.start"]]}})
    (stage,) = planned(made, BAND).stages
    (caul,) = stage.cauls
    assert caul.length_mm == pytest.approx(20.0)
    assert caul_blank_mm(caul)[0] == 40.0
    assert {made.mesh(name).pieces for name in made.piece.parts} == {1}
    for work in made.works:
        assert made.in_the_way(work.first, work.second) == ()


@pytest.mark.parametrize("sides", [5, 6, 8])
def test_staves_close_under_bands_too(sides: int) -> None:
    """Edges mitered to their neighbors and glued: one stage, never split, bands, a block to each corner."""
    stave = {
        "kind": "stick",
        "species": "white oak",
        "from": [0, -160, 0],
        "to": [0, -200, 380],
        "section": [320, 20],
        "width_toward": "right",
        "edges": {"left": "miter with previous", "right": "miter with next"},
        "repeat": {"count": sides, "turn": f"360 deg / {sides}"},
    }
    made = made_of({"stave": stave}, {"j": {"kind": "edge_glue", "between": [["stave_*", "next"]]}})
    assembly = planned(made, BAND)
    (stage,) = assembly.stages
    assert assembly.blocked == ()
    assert len(stage.joints) == sides
    assert stage.clamps is not None
    assert stage.clamps.band
    assert stage.clamps.by_spacing == 2  # 382 mm: 50 from both ends, at most 300 apart
    assert sum(caul.count for caul in stage.cauls) == sides


def layout_of(*sizes: tuple[str, float, float]) -> Layout:
    """One 4/4 board with offcuts of these names, lengths and widths."""
    board = Board(name="W1", species="black walnut", quarters=4, length_mm=1220.0, width_mm=150.0)
    offcuts = tuple(
        Offcut(name=name, x_mm=0.0, y_mm=0.0, length_mm=long, width_mm=wide, usable=True)
        for name, long, wide in sizes
    )
    return Layout(
        boards=(BoardLayout(board=board, placed=(), cuts=(), offcuts=offcuts),),
        unplaced=(),
        strips=(),
        unused=(),
        price=None,
        waste_pct=100.0,
        bound_price=None,
        gap_pct=None,
        short_proven=False,
        seed=0,
    )


def test_blocks_come_from_the_smallest_offcut_that_holds_them() -> None:
    """Four blocks of 90 x 50: not from 300 x 60, from 400 x 60 and not from 600 x 140; none left is scrap."""
    stages = planned(ring(4), BAND).stages
    (caul,) = stages[0].cauls
    assert caul_blank_mm(caul) == (90.0, 50.0, 21.0)  # 70 + 20; a notch 12.5 deep and 8 behind it
    offcuts = (("small", 300.0, 60.0), ("right", 400.0, 60.0), ("large", 600.0, 140.0))
    assert with_offcuts(stages, layout_of(*offcuts))[0].cauls[0].offcut == "right"
    assert with_offcuts(stages, layout_of(offcuts[0]))[0].cauls[0].offcut == ""
    assert with_offcuts(stages, None)[0].cauls[0].offcut == ""


def test_a_wedge_is_as_thick_as_its_slope_asks() -> None:
    """60 long at 12 degrees: 4 at the thin end and 12.75 more, sawn from 17."""
    wedge = Wedge(joint="j", angle_deg=12.0, count=1, needed=True)
    assert wedge_blank_mm(wedge) == (60.0, 40.0, 17.0)


def test_parts_in_a_ring_and_beside_it() -> None:
    """A joint at a corner that goes no further does not break the ring it hangs on."""
    made = ring(4)
    spare = JointWork(
        joint="spare",
        family="miter",
        first="side_1",
        second="other",
        at=(0.0, 0.0, 0.0),
        leaves=(1.0, 0.0, 0.0),
        clamp=ClampNeed(direction=(1.0, 0.0, 0.0), area_mm2=100.0),
        glue=(GlueFace(parts=("side_1", "other"), area_mm2=100.0, grain_angle_deg=0.0, end_grain_share=0.0),),
    )
    assert [len(found) for found in rings_of((*made.works, spare))] == [4]
