"""A search for a better layout in a process of its own, which ends with whoever asked."""

from __future__ import annotations

import os
import threading
from dataclasses import dataclass
from multiprocessing.connection import Connection

from scantling.plan.timber.stockways import Chosen, Limits, choose_stock
from scantling.stock.solving.solve import LayoutAnswer, LayoutRequest

__all__ = ["Found", "search_apart"]

_YIELDS = 5
"""How much a search stands back behind the program that asked for it, as the system counts it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A better layout, with what would be kept of it.

    Parameters
    ----------
    proven
        Whether nothing better exists.
    """

    chosen: Chosen
    proven: bool


def search_apart(told: Connection, usual: LayoutRequest, other: LayoutRequest, limits: Limits) -> None:
    """Search, and tell of every better layout; end at once when nobody listens any more.

    Parameters
    ----------
    told
        Takes a :class:`Found` for each better layout; its other end is held by who asked.
    usual, other, limits
        As of :func:`~scantling.plan.timber.stockways.choose_stock`.
    """
    os.nice(_YIELDS)
    threading.Thread(target=_end_with, args=(told,), daemon=True).start()

    def found(answer: LayoutAnswer, chosen: Chosen) -> None:
        try:
            told.send(Found(chosen=chosen, proven=answer.proven))
        except OSError:  # nobody listens
            os._exit(0)

    choose_stock(usual, other, limits=limits, found=found)
    told.close()


def _end_with(told: Connection) -> None:
    """End when the other end is gone, however it went."""
    try:
        told.recv()
    except (EOFError, OSError):
        os._exit(0)
