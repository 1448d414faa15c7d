"""The finish of a whole piece in a shop with products and grits of its own."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import FileFaults
from scantling.plan.making.finishing import Finishing
from scantling.plan.planner import make_plan
from scantling.shop.profile.profile import Shop
from scantling.shop.profile.profile_file import parse_shop
from scantling.shop.profile.surfacing import Abrasive, Chemistry, FinishProduct
from tests.plan.jobs import shipped_job

MIX = FinishProduct(
    name="own mix",
    kind=Chemistry.WAX,
    first_l_m2=0.1,
    next_l_m2=0.08,
    coats=3,
    recoat_h=24,
    light_use_h=72,
    full_cure_h=700,
    min_temperature_c=10,
    max_humidity_pct=40,
    minutes_per_m2=8,
    flammable=True,
    oily_rags=True,
)


def finishing(shop: Shop) -> Finishing:
    """Of the hall bench with the shop's usual finish."""
    job = shipped_job("hall_bench", rack=False)
    return make_plan(replace(job, piece=replace(job.piece, finish=None), shop=shop)).finishing


def own_shop(**changes: object) -> Shop:
    """The usual shop with a finish of its own."""
    return Shop().model_copy(update={"finishes": (MIX,), "finish": MIX.name, **changes})


def test_flags_of_a_product_bring_their_cautions() -> None:
    """Its own flags add the rags and the vapor that its kind alone would not."""
    said = " ".join(finishing(own_shop()).cautions)
    assert "catch fire" in said
    assert "vapor burns" in said


def test_the_products_own_damp_is_the_limit() -> None:
    """A shop of 50 % is too damp for a label that says 40 %, and the note gives both."""
    (note,) = (n for n in finishing(own_shop()).drying.notes if "humidity" in n)
    assert "40 %" in note


def test_a_kind_not_known_is_refused() -> None:
    """A word that is none of the kinds would lose its cautions."""
    with pytest.raises(FileFaults, match="oil and varnish"):
        parse_shop("finishes:\n  - {name: my mix, kind: oil and varnish}\n")


def test_a_shop_sands_with_the_grits_it_lists() -> None:
    """Each at its own pace: 6 min/m2 at grit 100 take twice the 3 min/m2 at 150."""
    grits = (
        Abrasive(grit=150, minutes_per_m2=3, m2_per_sheet=1),
        Abrasive(grit=100, minutes_per_m2=6, m2_per_sheet=1),
    )
    steps = finishing(own_shop(abrasives=grits)).sanding.steps
    assert [step.grit for step in steps] == [100, 150]
    assert steps[0].minutes == pytest.approx(2.0 * steps[1].minutes)


def test_a_grit_is_paid_at_its_own_price() -> None:
    """Only 80 has a price of its own: its discs cost that, the others what any disc costs."""
    job = shipped_job("hall_bench", rack=False)
    grits = tuple(
        one.model_copy(update={"price_per_sheet": 5.0 if one.grit == 80 else None})
        for one in job.shop.grits()
    )
    plan = make_plan(replace(job, shop=job.shop.model_copy(update={"abrasives": grits})))
    [line] = [one for one in plan.pricing.quote.lines if one.what == "abrasive discs"]
    discs = {step.grit: step.discs for step in plan.finishing.sanding.steps}
    usual = job.shop.rates.abrasive_per_sheet
    others = sum(discs.values()) - discs[80]
    assert line.amount == pytest.approx(5.0 * discs[80] + usual * others)
    assert line.reckoned == f"{discs[80]} at 5 and {others} at {usual:g}"
    assert line.source == "shop profile"
