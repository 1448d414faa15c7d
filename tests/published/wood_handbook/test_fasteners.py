"""Wood Handbook, FPL-GTR-190 (2010), chapter 8: nails and screws."""

from __future__ import annotations

import pytest

from scantling.wood.fasteners import Fastener, design_withdrawal_nds_n, withdrawal_n
from tests.published.value import Published

LBF_N = 4.4482216152605
INCH_MM = 25.4
JOURNAL = "a trade journal citing Wood Handbook ch. 8"


@pytest.mark.parametrize(
    ("wood", "gravity", "printed_lbf_per_in"),
    [
        ("hard maple, red oak", 0.63, 279),
        ("silver maple", 0.47, 134),
        ("yellow birch", 0.62, 268),
        ("paper birch", 0.55, 199),
        ("beech", 0.64, 291),
        ("white ash", 0.60, 247),
        ("white oak", 0.68, 338),
        ("hickory", 0.72, 390),
    ],
)
def test_a_sixpenny_nail_an_inch_deep(wood: str, gravity: float, printed_lbf_per_in: float) -> None:
    """Withdrawal of a nail of 0.113 in, printed in pounds an inch for eight woods."""
    computed = withdrawal_n(
        Fastener.NAIL, specific_gravity_12=gravity, diameter_mm=0.113 * INCH_MM, penetration_mm=INCH_MM
    )
    why = "printed to the pound"
    Published(value=printed_lbf_per_in, absolute=0.8, source=JOURNAL, where=wood, why=why).check(
        computed / LBF_N
    )


@pytest.mark.parametrize(
    ("fastener", "inch_pound", "diameter_power"),
    [(Fastener.NAIL, 7850, 1.0), (Fastener.WOOD_SCREW, 15_700, 1.0), (Fastener.LAG_SCREW, 8100, 0.75)],
)
def test_metric_constants_are_the_inch_pound_ones(
    fastener: Fastener, inch_pound: float, diameter_power: float
) -> None:
    """Each constant printed for N and mm is the one printed for pounds and inches, converted."""
    converted = inch_pound * LBF_N / INCH_MM ** (1.0 + diameter_power)
    assert fastener.value[0] == pytest.approx(converted, rel=3e-4)


def test_screws_worked_by_hand() -> None:
    """A No. 8 wood screw an inch into G 0.63 holds 1 021.9 lbf; a 3/8 in lag in G 0.56, 1 626.6 lbf."""
    screw = withdrawal_n(
        Fastener.WOOD_SCREW, specific_gravity_12=0.63, diameter_mm=0.164 * INCH_MM, penetration_mm=INCH_MM
    )
    lag = withdrawal_n(
        Fastener.LAG_SCREW, specific_gravity_12=0.56, diameter_mm=0.375 * INCH_MM, penetration_mm=INCH_MM
    )
    assert screw / LBF_N == pytest.approx(1021.9, abs=0.3)
    assert lag / LBF_N == pytest.approx(1626.6, abs=0.6)


def test_the_printed_design_value_of_a_wood_screw() -> None:
    """Gravity 0.45 and a No. 10 screw of 0.190 in: 109 lb an inch, as printed beside the formula."""
    computed = design_withdrawal_nds_n(
        Fastener.WOOD_SCREW,
        specific_gravity_ovendry=0.45,
        diameter_mm=0.190 * INCH_MM,
        penetration_mm=INCH_MM,
    )
    source, why = "National Design Specification, ch. 12, as reproduced", "printed with its decimals cut off"
    Published(value=109.0, absolute=1.0, source=source, where="example", why=why).check(computed / LBF_N)
