"""The thinnest stock that mills to a part, where the thicknesses on offer lie far apart."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.errors import Severity
from scantling.shop.milling.milling import mill
from scantling.shop.milling.stock_findings import stock_findings
from scantling.shop.profile.profile_file import default_shop
from scantling.shop.profile.yard import Nominal
from scantling.shop.sizes.nominal_choice import Fit
from tests.shop.parts import apron, panel

SHOP = default_shop()


def offer(*names: str) -> tuple[Nominal, ...]:
    """These thicknesses of the yard."""
    asked = tuple(int(name.split("/")[0]) for name in names)
    return tuple(n for n in SHOP.offered(asked=asked) if n.name in names)


@pytest.mark.parametrize(
    ("names", "taken", "fit"),
    [
        (("4/4", "8/4"), "4/4", Fit.TIGHT),
        (("4/4", "6/4"), "6/4", Fit.CLEAN),
        (("4/4", "5/4"), "5/4", Fit.CLEAN),
        (("3/4", "8/4"), "8/4", Fit.CLEAN),
    ],
)
def test_a_top_of_20_mm(names: tuple[str, ...], taken: str, fit: Fit) -> None:
    """20 + 0.3 + 1.5 + 2 + 2 + 1 = 26.8 rough: 1.4 over 4/4. 8/4 is 25.4 thicker than that, 6/4 only 12.7."""
    top = replace(panel(), thickness_mm=20.0, quarters=None)
    ledger = mill(top, SHOP, offered=offer(*names))
    assert ledger.needed_mm == pytest.approx(26.8)
    assert (ledger.nominal, ledger.fit) == (taken, fit)


@pytest.mark.parametrize(("thick", "told"), [(18.6, False), (18.7, True), (20.1, True), (20.2, False)])
def test_what_a_hair_less_would_save_is_told(thick: float, told: bool) -> None:
    """4/4 mills to 18.6 mm; up to 1.5 mm more is told, with the size that does; beyond it is not."""
    top = replace(panel(), thickness_mm=thick, quarters=None)
    items = stock_findings((top,), (mill(top, SHOP),), SHOP)
    assert bool(items) is told
    if told:
        assert items[0].severity is Severity.NOTE
        assert items[0].numbers["most_mm"] == pytest.approx(18.6)
        assert "at most 18.6 mm" in items[0].advice
        thinner = replace(top, thickness_mm=18.6)
        assert mill(thinner, SHOP).nominal == "4/4"


def test_a_stick_keeps_its_allowance() -> None:
    """21 wants 26.3 and is not flattened again after glue-up: with 4/4 and 8/4 there it asks for 8/4."""
    stick = replace(apron(), thickness_mm=21.0, quarters=None)
    assert mill(stick, SHOP, offered=offer("4/4", "8/4")).nominal == "8/4"
