"""Strips: counts worked by hand, seams clear of edges and fasteners, sub-panels that fit the planer.

36 in of top with 1/2 in to trim, strips of at most 5 1/4 in and a 13 in planer: 7 strips of 5.214 in, two
to a sub-panel, so 4 sub-panels and 3 last joints; 6 strips would make 3 and 2 (by hand).
"""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scantling.piece.model import SettledStrips
from scantling.shop.profile.profile_file import default_shop, parse_shop
from scantling.shop.sizes.seams import seams_clear_of
from scantling.shop.sizes.strips import SEAM_CLEAR_MM, plan_strips, strips_needed, sub_panels_needed
from tests.shop.parts import panel

INCH = 25.4
SHOP = default_shop()
PLANER_13 = parse_shop("machines: {planer: {max_width: 13 in}}")


def test_a_top_of_36_inches() -> None:
    """7 strips at 5.214 in, 4 sub-panels, 3 last joints, as worked by hand."""
    plan = plan_strips(panel(36 * INCH, strip_most_mm=5.25 * INCH), PLANER_13)
    assert plan.count == strips_needed(36.5, 5.25) == 7
    assert sum(plan.widths_mm) == pytest.approx(36.5 * INCH)
    assert sum(plan.widths_mm) / 7 == pytest.approx(5.214 * INCH, rel=1e-4)
    assert (len(plan.sub_panels), plan.last_joints) == (4, 3)


def test_six_strips_save_a_sub_panel() -> None:
    """If 6 of 6.08 in can be found: 3 sub-panels, 2 last joints."""
    assert sub_panels_needed(6, 36.5 / 6, 12.75) == 3
    plan = plan_strips(panel(36 * INCH, strip_count=6), PLANER_13)
    assert (plan.count, len(plan.sub_panels), plan.last_joints) == (6, 3, 2)


def test_a_seam_moves_off_a_fastener_line() -> None:
    """A row of fasteners on the middle seam of four strips is cleared by at least 25 mm."""
    free = plan_strips(panel(500.0), SHOP)
    assert free.count == 4
    line = free.seams_mm[1]
    plan = plan_strips(panel(500.0, seam_avoid_mm=(line,)), SHOP)
    assert plan.seam_clearance_mm >= SEAM_CLEAR_MM
    assert min(abs(seam - line) for seam in plan.seams_mm) >= SEAM_CLEAR_MM


def test_uneven_strips_are_found_where_even_ones_do_not_clear_the_fasteners() -> None:
    """Screws every 140 mm over 700: even seams of 5 to 7 strips hit some of them, uneven ones none."""
    lines = tuple(70.0 + 140.0 * i for i in range(5))
    plan = plan_strips(panel(700.0, seam_avoid_mm=lines, strip_least_mm=60.0, strip_most_mm=160.0), SHOP)
    assert plan.seam_clearance_mm >= SEAM_CLEAR_MM
    assert all(60.0 <= width <= 160.0 for width in plan.widths_mm)
    assert sum(plan.widths_mm) == pytest.approx(700.0 + plan.trim_mm)


@given(
    width=st.integers(200, 420),
    lines=st.lists(st.integers(0, 420), max_size=3),
    count=st.integers(2, 3),
)
def test_the_most_even_seams_are_found(width: int, lines: list[int], count: int) -> None:
    """Every choice of seams on the grid, tried one by one, is no better than what is found."""
    limits = (40.0, 260.0)
    found = seams_clear_of(
        float(width),
        [float(line) for line in lines],
        count=count,
        clear_mm=25.0,
        ends_mm=6.0,
        limits_mm=limits,
    )
    grid = [
        at for at in range(2, width, 2) if 25 <= at <= width - 25 and all(abs(at - x) >= 25 for x in lines)
    ]

    def unevenness(seams: tuple[float, ...]) -> float | None:
        widths = [b - a for a, b in pairwise((-6.0, *seams, width + 6.0))]
        if not all(limits[0] <= w <= limits[1] for w in widths):
            return None
        return sum((w - sum(widths) / count) ** 2 for w in widths)

    tried = [u for seams in combinations(grid, count - 1) if (u := unevenness(seams)) is not None]
    assert (found is None) is (not tried)
    if found is not None:
        assert unevenness(found) == pytest.approx(min(tried))


def test_when_nothing_clears_it_the_clearest_is_taken_and_named() -> None:
    """With fasteners every 20 mm no seam is clear: the plan says how near it comes."""
    lines = tuple(float(at) for at in range(0, 501, 20))
    plan = plan_strips(panel(500.0, seam_avoid_mm=lines), SHOP)
    assert 2.0 <= plan.seam_clearance_mm < SEAM_CLEAR_MM


@given(width=st.floats(120, 1500), count=st.none() | st.integers(1, 12))
def test_strips_make_up_the_panel_and_sub_panels_hold_each_once(width: float, count: int | None) -> None:
    """Widths add up to the panel and its trim, seams rise within it, every strip is in one sub-panel."""
    plan = plan_strips(panel(width, strip_count=count), SHOP)
    assert sum(plan.widths_mm) == pytest.approx(width + 12.7)
    assert [i for group in plan.sub_panels for i in group] == list(range(1, plan.count + 1))
    assert all(a < b for a, b in pairwise((0.0, *plan.seams_mm, width)))
    assert count is None or plan.count == count


def test_without_a_planer_the_panel_is_glued_in_one() -> None:
    """No machine sets a limit, so there are no sub-panels."""
    plan = plan_strips(panel(), parse_shop("machines: {}"))
    assert len(plan.sub_panels) == 1


@pytest.mark.parametrize(("width", "says"), [(100.0, "1 strip;"), (400.0, "3 strips")])
def test_one_strip_is_one_strip(width: float, says: str) -> None:
    """The reason is read out at the bench."""
    plan = plan_strips(panel(width, strip_most_mm=150.0), SHOP)
    assert plan.reason.startswith(says)


def test_which_strip_has_which_rings_is_told() -> None:
    """Counted from the edge named; strips that are alike need no word."""
    mixed = panel(300.0, strip_count=3, strip_rings=("front", "flat", "quarter", "flat"))
    assert plan_strips(mixed, SHOP).reason.endswith("; rings from the front edge on: flat, quarter, flat")
    given = panel(300.0, strip_widths_mm=(102.0, 102.0, 102.0), strip_rings=mixed.strip_rings)
    assert "rings from the front edge on" in plan_strips(given, SHOP).reason
    assert "rings" not in plan_strips(panel(300.0, strip_count=3), SHOP).reason


def test_settled_strips_are_sawn_as_they_stand() -> None:
    """Strips the joints are laid out for are kept to the last: a seam 3 mm off a line is told, not moved."""
    strips = SettledStrips(glued_mm=(200.0, 150.0, 162.0), trim_first_mm=4.0, trim_last_mm=8.0)
    plan = plan_strips(panel(500.0, strip_count=3, settled_strips=strips, seam_avoid_mm=(203.0,)), SHOP)
    assert plan.widths_mm == strips.glued_mm
    assert (plan.trim_first_mm, plan.trim_mm, plan.total_mm) == (4.0, 12.0, 512.0)
    assert plan.seams_mm == (196.0, 346.0)
    assert plan.seam_clearance_mm == pytest.approx(3.0)  # 7 mm to the line, less half a hole
    assert strips.finished_mm == (196.0, 150.0, 154.0)
