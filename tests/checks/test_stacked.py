"""Layers stacked into a bench's top: told from a millimeter of travel on, with what would judge it."""

from __future__ import annotations

from typing import Any

import pytest

from scantling.checks import Subject
from scantling.checks.stacked import check
from scantling.errors import Severity
from scantling.piece.model import PartKind, Ring
from tests.checks.bench import part, subject


def top(stack_mm: float, *, wide_mm: float = 60.0, **more: Any) -> Subject:
    """A slab of white oak."""
    values = {"kind": PartKind.LAMINATION, "ring": Ring.FLAT, **more}
    return subject((part("slab", width=wide_mm, thickness=stack_mm, **values),))


def test_a_top_of_flat_sawn_boards_on_edge_moves_by_their_thickness() -> None:
    """White oak, radial 0.00180 (Wood Handbook table 13-5), 6 to 12 %: 560 x 0.0018 x 6 = 6.05 mm."""
    [found] = check(top(560.0))
    assert found.severity is Severity.HIGH
    assert found.numbers["swing_mm"] == pytest.approx(560.0 * 0.00180 * 6.0, rel=1e-3)
    assert "stacked 560 mm wide" in found.message
    assert "kind: panel" in found.advice


def test_quarter_sawn_layers_move_by_the_other_coefficient() -> None:
    """Their rings lie in the plane of the stack: tangential 0.00365, 560 x 0.00365 x 6 = 12.26 mm."""
    [found] = check(top(560.0, ring=Ring.QUARTER))
    assert found.numbers["swing_mm"] == pytest.approx(560.0 * 0.00365 * 6.0, rel=1e-3)


@pytest.mark.parametrize(("stack", "told"), [(92.0, False), (93.0, True)])
def test_a_millimeter_passes(stack: float, told: bool) -> None:
    """1 / (0.0018 x 6) = 92.6 mm of stack."""
    assert bool(check(top(stack))) is told


def test_posts_and_panels_are_judged_already() -> None:
    """Half as thick again as wide a post is a post; a panel's width is what the plan follows."""
    assert check(top(150.0, wide_mm=100.0)) == []
    assert check(top(151.0, wide_mm=100.0))
    assert check(top(560.0, kind=PartKind.PANEL)) == []


def test_a_wood_published_one_way_is_told_without_a_figure() -> None:
    """Jarrah has a coefficient along its rings alone, and flat-sawn layers would need the other."""
    [found] = check(top(560.0, species="jarrah"))
    assert "what jarrah moves across them is not published" in found.message
    assert "swing_mm" not in found.numbers
    assert "swing_mm" in check(top(560.0, species="jarrah", ring=Ring.QUARTER))[0].numbers
