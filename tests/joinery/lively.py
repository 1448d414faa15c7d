"""Travel of a board as lively as one in twenty of its wood, by the two equations of the Wood Handbook."""

from __future__ import annotations

__all__ = ["lively_mm"]


def lively_mm(
    width_mm: float, change_pct: float, *, per_pct: float, shrinkage_pct: float, build_pct: float
) -> float:
    """A quarter more than the larger of y C dM and y dM / (3000 / S - 30 + m0). [mm]

    *Wood Handbook*, FPL-GTR-190, ch. 13, eq. 13-2 and 13-3, with table 13-5 and the tangential shrinkage of
    table 4-3.
    """
    straight = width_mm * per_pct * change_pct
    full = width_mm * change_pct / (3000.0 / shrinkage_pct - 30.0 + build_pct)
    return 1.25 * max(straight, full)
