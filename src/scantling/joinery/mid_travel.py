"""The moisture at which a joint would stand in the middle of the room it was cut with."""

from __future__ import annotations

from scantling.joinery.work import Freedom
from scantling.wood.moisture import MoistureRange

__all__ = ["mid_travel_mc_pct"]

SENSIBLE_MC_PCT = (3.0, 25.0)
"""Moisture of wood under a roof; outside it no board would put the joint in its middle. [%]"""


def mid_travel_mc_pct(freedom: Freedom, moisture: MoistureRange) -> float | None:
    r"""Moisture at which a place would stand in the middle of its room.

    .. math:: m = m_0 + \frac{R_w - R_d}{2 k}

    with the room for swelling :math:`R_w` and for shrinking :math:`R_d`, as cut at :math:`m_0`, and the
    travel :math:`k` for each point of moisture. Where a joint is cut as its year asks, this is half way
    between driest and wettest; a joint cut otherwise wants wood drier or wetter than that.

    Parameters
    ----------
    freedom
        Travel asked for and room given.
    moisture
        Build, driest and wettest. [%]

    Returns
    -------
    float or None
        [%]; None where nothing moves, or where no moisture of wood would do.

    Examples
    --------
    >>> slot = Freedom(part="top", what="pin slot 1", at=(0.0, 0.0, 0.0), from_fixed_mm=400.0,
    ...     shrink_travel_mm=1.488, swell_travel_mm=2.976, shrink_room_mm=1.988, swell_room_mm=3.476)
    >>> round(mid_travel_mc_pct(slot, MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)), 2)
    8.25
    """
    points = moisture.shrink_pct + moisture.swell_pct
    moved_mm = freedom.shrink_travel_mm + freedom.swell_travel_mm
    if points <= 0.0 or moved_mm <= 1e-9:
        return None
    off_mm = (freedom.swell_room_mm - freedom.shrink_room_mm) / 2.0
    wanted = moisture.build_pct + off_mm * points / moved_mm
    low, high = SENSIBLE_MC_PCT
    return wanted if low <= wanted <= high else None
