"""What is said of bands, of wedges under clamp pads and of the blocks on a ring's corners."""

from __future__ import annotations

from collections.abc import Callable

from scantling.plan.making.cauls import caul_blank_mm, wedge_blank_mm
from scantling.shop.gluing.glueup import Caul, Wedge

__all__ = ["caul_line", "from_words", "wedge_line"]

Angle = Callable[[float], str]
"""Writes an angle. [deg]"""
Length = Callable[[float], str]
"""Writes a length with its unit. [mm]"""


def from_words(thing: Caul | Wedge, length: Length) -> str:
    """Where the wood for it comes from: an offcut by its name, or scrap of a size."""
    if thing.offcut:
        return f"from {thing.offcut}"
    size = caul_blank_mm(thing) if isinstance(thing, Caul) else wedge_blank_mm(thing)
    return f"from scrap of {' × '.join(length(mm) for mm in size)}"


def caul_line(caul: Caul, *, angle: Angle, length: Length) -> str:
    """The sentence on corner blocks."""
    blocks = "one block" if caul.count == 1 else f"{caul.count} blocks"
    return (
        f"Cut {blocks} {from_words(caul, length)}, each with a notch of {angle(caul.corner_deg)} along it "
        f"(both flanks at {angle(caul.flank_deg)} to its face); lay them on the corners under the band, "
        "waxed or taped so that glue does not hold them."
    )


def wedge_line(count: int, wedge: Wedge, *, angle: Angle, length: Length) -> str:
    """The sentence on wedges of one angle."""
    why = ": clamps would slip without them." if wedge.needed else " to spare the faces."
    return f"Cut {count} wedges of {angle(wedge.angle_deg)} {from_words(wedge, length)}{why}"
