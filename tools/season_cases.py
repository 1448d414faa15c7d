"""The cases worked by hand in ``docs/seasons.md``, as small pieces that the program lays out itself."""

from __future__ import annotations

from scantling.joinery import join, load_piece_text
from scantling.joinery.work import Freedom
from scantling.wood.moisture import MoistureRange

__all__ = ["YEAR", "breadboard_slot", "panel_edge"]

YEAR = MoistureRange(build_pct=7.5, dry_pct=6.0, wet_pct=10.5)
"""The room of both cases: 1.5 points drier and 3 wetter than the day of building. [%]"""

_BREADBOARD = """
scantling: 1
title: Breadboard end
parts:
  top:
    kind: panel
    species: black cherry
    from: [-600, 0, 0]
    to: [600, 0, 0]
    section: [960, 24]
    width_toward: back
    rings: flat
  end:
    kind: stick
    species: black cherry
    from: [637.5, -480, 0]
    to: [637.5, 480, 0]
    section: [75, 24]
    width_toward: right
    rings: quarter
joints:
  end:
    kind: breadboard_end
    between: [[end, top.end]]
    tongue_thickness: 8
    tongue_length: 12
    tenon_length: 48
    tenon_width: 70
    tenons: 3
    edge_inset: 80
    pin: 6
"""

_PANEL = """
scantling: 1
title: Panel in a frame
parts:
  panel:
    kind: panel
    species: black cherry
    from: [-300, 0, 0]
    to: [300, 0, 0]
    section: [380, 10]
    width_toward: back
    rings: flat
  stile:
    kind: stick
    species: black cherry
    from: [-350, 212, 0]
    to: [350, 212, 0]
    section: [60, 22]
    width_toward: back
    rings: quarter
joints:
  groove:
    kind: panel_groove
    between: [[panel, stile]]
"""


def _freedoms(text: str) -> tuple[Freedom, ...]:
    [work] = join(load_piece_text(text), moisture=YEAR)
    return work.freedoms


def breadboard_slot() -> Freedom:
    """The slot of a pin 400 mm from the fixed one in the middle of a flat-sawn cherry top."""
    return next(freedom for freedom in _freedoms(_BREADBOARD) if freedom.what.startswith("pin slot"))


def panel_edge() -> Freedom:
    """One edge of a flat-sawn cherry panel 380 mm wide, 8 mm in its groove, pinned at its middle."""
    [edge] = _freedoms(_PANEL)
    return edge
