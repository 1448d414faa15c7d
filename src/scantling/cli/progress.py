"""How far a search for a layout has come, said while it runs."""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from scantling.stock.solve import LayoutAnswer

__all__ = ["Progress"]


class Progress:
    """Says on standard error how good the best layout is, whenever there is a better one."""

    def __init__(self, currency: str) -> None:
        self.currency, self.begun = currency, time.monotonic()

    def __call__(self, answer: LayoutAnswer) -> None:
        """Tell of an answer."""
        layout = answer.layout
        missing = len(layout.unplaced) + sum(s.missing_mm > 1e-6 for s in layout.strips)
        said = [f"{missing} without wood" if missing else "every blank has its place"]
        if layout.price is not None:
            said.append(f"{layout.price:,.2f} {self.currency}")
        if layout.gap_pct is not None:
            said.append("proven best" if answer.proven else f"at most {layout.gap_pct:.1f} % above the best")
        print(f"{time.monotonic() - self.begun:5.1f} s: {', '.join(said)}", file=sys.stderr, flush=True)
