"""What a saw's scale is set to, and what that leaves open, in words for the sheets and the packet alike."""

from __future__ import annotations

from scantling.shop.sawing.sawsetup import SawSetup
from scantling.units import MM_PER_INCH, LengthStyle, bracketed, show_angle

__all__ = ["gap_words"]

_SEEN_MM = 0.005
_FITS_MM = 0.1
"""What clamps draw shut in a miter without a line to be seen (common practice). [mm]"""


def gap_words(setup: SawSetup, style: LengthStyle) -> str:
    """What the setting leaves open at the joint, and what to do about it; empty for what follows a line."""
    scale = setup.scale
    if not scale.reads_to_deg or not setup.angled:
        return ""
    turn, tilt = show_angle(scale.miter_deg), show_angle(scale.bevel_deg)
    if scale.gap_mm < _SEEN_MM:
        return f"The scale has these angles: {turn} of turn, {tilt} of tilt."
    size = bracketed(
        f"{scale.gap_mm / float(MM_PER_INCH):.3f} in" if one.inch else f"{scale.gap_mm:.2f} mm"
        for one in style.styles
    )
    rest = (
        "which clamps draw shut."
        if scale.gap_mm <= _FITS_MM
        else "too much: set it there, then nudge it by the trial until that closes."
    )
    return (
        f"The scale reads to {scale.reads_to_deg:g}°: {turn} of turn and {tilt} of tilt leave {size} open at "
        f"the joint, {rest}"
    )
