"""Pins, loose tenons, wedges and buttons made here: out of lengths long enough to be milled."""

from __future__ import annotations

import math
from collections.abc import Iterable

from scantling.joinery.work import ConnectorKind
from scantling.plan.making.hardware import HardwareLine, to_get
from scantling.shop.profile.profile import Shop
from scantling.shop.sizes.gang import HAND_LENGTH_MM

__all__ = ["loose_lines"]

LONGEST_MM = 1200.0
"""Longest piece small things are made out of: an offcut (common practice). [mm]"""


def loose_lines(hardware: Iterable[HardwareLine], shop: Shop) -> tuple[str, ...]:
    """How many of each are made, and out of which length of wood.

    A length holds them end to end with a kerf each and the trim of both its ends, and is no shorter than the
    jointer and the planer take.

    Parameters
    ----------
    hardware
        What is needed; bought things are passed over.
    shop
        Its machines and saws.
    """
    jointer, planer = shop.machines.jointer, shop.machines.planer
    owned = [machine.min_length_mm for machine in (jointer, planer) if machine is not None]
    least_mm = max(owned, default=HAND_LENGTH_MM)
    return tuple(_line(line, least_mm, shop) for line in hardware if line.made_here)


def _line(line: HardwareLine, least_mm: float, shop: Shop) -> str:
    if line.kind is ConnectorKind.WEDGE:  # sawn off a scrap, turned over between cuts: no section to mill
        return to_get(line)
    each_mm = line.size_mm[-1] + shop.kerf_mm
    total_mm = line.get * each_mm
    lengths = max(1, math.ceil(total_mm / LONGEST_MM))
    one_mm = math.ceil(line.get / lengths) * each_mm + 2.0 * shop.allowances.end_trim_mm
    said = "one length" if lengths == 1 else f"{lengths} lengths"
    return (
        f"{to_get(line)}: out of {said} of {max(one_mm, least_mm):.0f} mm"
        f"{' each' if lengths > 1 else ''}, milled to its section first and crosscut last."
    )
