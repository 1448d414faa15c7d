"""Layers: the counts of the published-thickness reckoning, and the trade's own case.

Net thicknesses 4/4 13/16 in, 5/4 1 1/16, 6/4 1 1/4, 8/4 1 3/4 and the 1/8 in for flattening again are common
practice; the counts follow by hand from n = ceil((T + a) / t).
"""

from __future__ import annotations

import pytest

from scantling.shop.profile.profile_file import default_shop
from scantling.shop.sizes.lamination import LayerChoice, layers_needed, plan_layers
from tests.shop.parts import post

INCH = 25.4
NET = {"4/4": 13 / 16, "5/4": 17 / 16, "6/4": 1.25, "8/4": 1.75}
SHOP = default_shop()


@pytest.mark.parametrize(
    ("nominal", "layers", "feet"), [("4/4", 4, 4.0), ("5/4", 3, 3.75), ("6/4", 3, 4.5), ("8/4", 2, 4.0)]
)
def test_two_and_three_quarter_inches(nominal: str, layers: int, feet: float) -> None:
    """2 3/4 in takes 4, 3, 3, 2 layers, by hand from the net thicknesses; this shop comes to the same."""
    assert layers_needed((2.75 + 0.125) * INCH, NET[nominal] * INCH) == layers
    plan = plan_layers(post(2.75 * INCH), SHOP)
    option = next(option for option in plan.options if option.nominal == nominal)
    assert (option.layers, option.lines) == (layers, layers - 1)
    assert option.board_feet_per_ft2 == pytest.approx(feet)


def test_fewest_lines_or_least_wood() -> None:
    """For 2 3/4 in the cheapest wood of 4/4 to 8/4 is 5/4 and the fewest lines 8/4; the reason names both."""
    offered = tuple(n for n in SHOP.offered() if n.name in NET)
    fewest = plan_layers(post(2.75 * INCH), SHOP, offered=offered)
    least = plan_layers(post(2.75 * INCH), SHOP, offered=offered, choice=LayerChoice.LEAST_WOOD)
    assert fewest.chosen is not None
    assert least.chosen is not None
    assert (fewest.chosen.nominal, least.chosen.nominal) == ("8/4", "5/4")
    assert fewest.reason == (
        "2 layers of 8/4: fewest glue lines; "
        "3 layers of 5/4 would take 6% less wood for 2 lines in place of 1"
    )


def test_a_post_of_three_and_a_half_from_8_4_takes_two_layers() -> None:
    """Common practice: two layers of 8/4 make a 3 1/2 in square post, with 1/8 in to clean up."""
    plan = plan_layers(post(layer_quarters=(8,)), SHOP)
    assert plan.chosen is not None
    assert (plan.chosen.nominal, plan.chosen.layers) == ("8/4", 2)
    assert plan.chosen.spare_mm > 0
    assert plan.chosen.layer_mm * 2 == pytest.approx(3.5 * INCH + 0.3 + INCH / 8)


def test_layers_asked_for_that_do_not_make_it_up_are_not_chosen() -> None:
    """Two layers of 4/4 make no 3 1/2 in."""
    plan = plan_layers(post(layer_count=2, layer_quarters=(4,)), SHOP)
    assert plan.chosen is None
    assert plan.reason == "no stock on offer makes up 92.4 mm in the layers allowed"


def test_a_lamination_has_at_least_two_layers() -> None:
    """20 mm would come out of one board; asked to be laminated, it takes two."""
    plan = plan_layers(post(20.0), SHOP)
    assert all(option.layers >= 2 for option in plan.options)
