"""What a kilogram weighs."""

from __future__ import annotations

__all__ = ["GRAVITY_M_S2"]

GRAVITY_M_S2 = 9.80665
"""Standard acceleration of free fall. [m/s2] ISO 80000-3; 3rd CGPM, 1901."""
