"""How far a search for a layout has come, said while it runs."""

from __future__ import annotations

import sys
import time
from typing import TYPE_CHECKING

from scantling.papers.words.layout_words import layout_words, still_words

if TYPE_CHECKING:
    from scantling.stock.solving.solve import LayoutAnswer

__all__ = ["Progress"]


class Progress:
    """Says on standard error how good the best layout is, whenever there is news; else what is being done."""

    def __init__(self, currency: str) -> None:
        self.currency, self.begun = currency, time.monotonic()

    def __call__(self, answer: LayoutAnswer) -> None:
        """Tell of an answer."""
        if answer.news:
            said = layout_words(answer.layout, money=self.currency, proven=answer.proven)
        else:
            said = still_words(answer.doing)
        print(f"{time.monotonic() - self.begun:5.1f} s: {said}", file=sys.stderr, flush=True)
