"""Wood Handbook, FPL-GTR-190 (2010), chapter 9: deflection of beams, Table 9-1."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from scantling.wood.beams import Creep, Loading, Section, beam_deflection

# printed: loading, k_b, k_s
TABLE_9_1 = [
    (Loading.UNIFORM_SUPPORTED, 5 / 384, 1 / 8),
    (Loading.UNIFORM_CLAMPED, 1 / 384, 1 / 8),
    (Loading.MIDDLE_SUPPORTED, 1 / 48, 1 / 4),
    (Loading.MIDDLE_CLAMPED, 1 / 192, 1 / 4),
    (Loading.QUARTERS_SUPPORTED_AT_MIDDLE, 11 / 768, 1 / 8),
    (Loading.QUARTERS_SUPPORTED_AT_LOAD, 1 / 96, 1 / 8),
    (Loading.UNIFORM_CANTILEVER, 1 / 8, 1 / 2),
    (Loading.END_CANTILEVER, 1 / 3, 1.0),
]


@pytest.mark.parametrize(("loading", "bending", "shear"), TABLE_9_1)
def test_constants_are_those_printed(loading: Loading, bending: float, shear: float) -> None:
    """Both constants of every row of Table 9-1 act as printed, on a beam where all else is one."""
    unit = Section(second_moment_mm4=1.0, shear_area_mm2=1.0)
    sag = beam_deflection(1.0, unit, span_mm=1.0, loading=loading, modulus_mpa=1.0, shear_mpa=1.0)
    assert (sag.bending_mm, sag.shear_mm) == pytest.approx((bending, shear), rel=1e-12)


def _half_uniform(x: np.ndarray) -> np.ndarray:
    return 0.5 * x - 0.5 * x**2


def _half_middle(x: np.ndarray) -> np.ndarray:
    return np.minimum(x, 1.0 - x) / 2.0


def _half_quarters(x: np.ndarray) -> np.ndarray:
    return 0.5 * np.minimum(np.minimum(x, 0.25), 1.0 - x)


def _at_quarter(x: np.ndarray) -> np.ndarray:
    return np.where(x < 0.25, 0.75 * x, 0.25 * (1.0 - x))


@pytest.mark.parametrize(
    ("loading", "moment", "unit_moment"),
    [
        (Loading.UNIFORM_SUPPORTED, _half_uniform, _half_middle),
        (Loading.UNIFORM_CLAMPED, lambda x: _half_uniform(x) - 1 / 12, _half_middle),
        (Loading.MIDDLE_SUPPORTED, _half_middle, _half_middle),
        (Loading.MIDDLE_CLAMPED, lambda x: _half_middle(x) - 1 / 8, _half_middle),
        (Loading.QUARTERS_SUPPORTED_AT_MIDDLE, _half_quarters, _half_middle),
        (Loading.QUARTERS_SUPPORTED_AT_LOAD, _half_quarters, _at_quarter),
        (Loading.UNIFORM_CANTILEVER, lambda x: 0.5 * (1 - x) ** 2, lambda x: 1 - x),
        (Loading.END_CANTILEVER, lambda x: 1 - x, lambda x: 1 - x),
    ],
)
def test_bending_constants_follow_from_virtual_work(
    loading: Loading,
    moment: Callable[[np.ndarray], np.ndarray],
    unit_moment: Callable[[np.ndarray], np.ndarray],
) -> None:
    """The printed constants are the integral of the bending moment times that of a unit load (worked)."""
    x = (np.arange(40_000) + 0.5) / 40_000
    assert loading.bending == pytest.approx(float(np.mean(moment(x) * unit_moment(x))), rel=1e-6)


def test_a_shelf_worked_by_hand() -> None:
    """900 x 250 x 19 mm of northern red oak under 40 kg: 2.0763 mm by bending, 0.0129 mm by shear."""
    section = Section.rectangle(breadth_mm=250.0, depth_mm=19.0)
    assert section.second_moment_mm4 == pytest.approx(142_895.8, abs=0.1)
    sag = beam_deflection(
        392.27,
        section,
        span_mm=900.0,
        loading=Loading.UNIFORM_SUPPORTED,
        modulus_mpa=12_550.0,
        shear_mpa=1.1 * 12_550.0 / 16.0,
    )
    assert sag.bending_mm == pytest.approx(2.0763, abs=5e-5)
    assert sag.shear_mm == pytest.approx(0.0129, abs=5e-5)
    assert sag.final_mm(Creep.DRY) == pytest.approx(1.5 * sag.total_mm)
