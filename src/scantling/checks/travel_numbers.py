"""The four figures of a place that moves, as findings on panels, rabbets and laps carry them."""

from __future__ import annotations

from scantling.joinery.work import Freedom

__all__ = ["travel_numbers"]


def travel_numbers(freedom: Freedom) -> dict[str, float]:
    """Travel asked for and room there is, both ways. [mm]"""
    return {
        "shrink_travel_mm": freedom.shrink_travel_mm,
        "swell_travel_mm": freedom.swell_travel_mm,
        "shrink_room_mm": freedom.shrink_room_mm,
        "swell_room_mm": freedom.swell_room_mm,
    }
