"""How long sanding takes, by hand: broad and narrow faces, ends, edges broken, the last grit once more."""

from __future__ import annotations

import pytest

from scantling.finish.area import areas
from scantling.piece.model import Direction
from scantling.plan.making.finishing import Finishing
from tests.checks.bench import part, subject
from tests.plan.jobs import shipped_plan


@pytest.mark.parametrize(
    ("width_mm", "slow_mm2"),
    [
        (75.0, 2 * (75 * 20) + 2 * (1000 * 20)),
        (74.9, 2 * (74.9 * 20) + 2 * (1000 * 20) + 2 * (1000 * 74.9)),
    ],
)
def test_a_face_narrower_than_half_a_disc_is_slow(width_mm: float, slow_mm2: float) -> None:
    """Of 1 000 by 20 mm, all shown: ends and edges are slow; its faces are from 75 mm down."""
    board = part("board", length=1000.0, width=width_mm, thickness=20.0, show=frozenset(Direction))
    (one,) = areas(subject((board,)).piece).parts
    assert one.slow_mm2 == pytest.approx(slow_mm2)
    assert one.arrises_mm == pytest.approx(4 * (1000 + width_mm + 20))


def test_sanding_a_bench_takes_longer_than_an_hour() -> None:
    """1.2 m2 in grits 80, 120, 180 at 14, 10 and 10 min/m2, twice where narrow; then 8 min/m2 by hand."""
    finishing: Finishing = shipped_plan("hall_bench", rack=False).finishing
    shown, slow = finishing.areas.shown_m2, finishing.areas.slow_m2
    assert finishing.sanding.minutes == pytest.approx((14 + 10 + 10) * (shown + slow))
    assert finishing.by_hand_min == pytest.approx(8 * shown + 0.5 * finishing.areas.arrises_m)
    assert finishing.surface_min > 60.0
