"""The four figures of a place that moves, as findings on panels, rabbets and laps carry them."""

from __future__ import annotations

import math

from scantling.joinery.work import Freedom

__all__ = ["left_mm", "short_mm", "travel_numbers"]


def left_mm(held_mm: float) -> str:
    """What is left of a hold, down to a tenth: never told as the least asked for when it is less."""
    return f"{math.floor(round(held_mm * 10.0, 6)) / 10.0:.1f} mm"


def short_mm(lacking_mm: float) -> str:
    """What a hold lacks, written up to a tenth."""
    return f"{math.ceil(round(lacking_mm * 10.0, 6)) / 10.0:.1f} mm"


def travel_numbers(freedom: Freedom) -> dict[str, float]:
    """Travel asked for and room there is, both ways. [mm]"""
    return {
        "shrink_travel_mm": freedom.shrink_travel_mm,
        "swell_travel_mm": freedom.swell_travel_mm,
        "shrink_room_mm": freedom.shrink_room_mm,
        "swell_room_mm": freedom.swell_room_mm,
    }
