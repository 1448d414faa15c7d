"""Searches for a better layout: few at once, each in a process of its own, so that the page answers on."""

from __future__ import annotations

import atexit
import multiprocessing
import threading
from collections import OrderedDict
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing.process import BaseProcess

from scantling.errors import InputError
from scantling.plan.timber.laying_out import Question
from scantling.plan.timber.search_apart import Found, search_apart
from scantling.plan.timber.stockways import Chosen, Limits
from scantling.stock.solving.hands import usual_workers

__all__ = ["MOST_SECONDS", "Searches", "Searching"]

MOST_SECONDS = 900.0
"""Longest search. [s]"""
_AT_ONCE = 2
_KEPT = 12
"""Searches whose best layout is held to be kept."""
_ENDING_S = 5.0
"""A process that has told all it had is gone by then. [s]"""


class Searches:
    """The searches that are running, and the best layouts of the last ones.

    Parameters
    ----------
    at_once
        How many may run at once.
    """

    def __init__(self, at_once: int = _AT_ONCE) -> None:
        self._at_once, self._running, self._number = at_once, 0, 0
        self._best: OrderedDict[int, tuple[Question, Chosen]] = OrderedDict()
        self._lock = threading.Lock()

    @property
    def running(self) -> int:
        """How many are running."""
        return self._running

    @contextmanager
    def begun(self, question: Question, seconds: float) -> Iterator[Searching]:
        """A search that ends at the latest with the block.

        Parameters
        ----------
        question
            What is to be laid out.
        seconds
            How long at most. [s]

        Raises
        ------
        InputError
            ``searches_busy``, ``out_of_range``.
        """
        if not 0 < seconds <= MOST_SECONDS:
            raise InputError(
                code="out_of_range",
                field="seconds",
                value=f"{seconds:g}",
                rule=f"must lie above 0 and be at most {MOST_SECONDS:g}",
                remedy="Leave it out: a search can be stopped at any time.",
            )
        with self._lock:
            if self._running >= self._at_once:
                raise InputError(
                    code="searches_busy",
                    field="search",
                    value=str(self._running),
                    rule=f"must be one of {self._at_once} at once",
                    remedy="Stop one of those that are running, in another window perhaps.",
                )
            self._running += 1
            self._number += 1
            number = self._number
        searching = Searching(self, number, question, seconds)
        try:
            yield searching
        finally:
            searching.stop()
            with self._lock:
                self._running -= 1

    def take(self, number: int, question: Question, chosen: Chosen) -> None:
        """Hold the best layout of a search."""
        with self._lock:
            self._best[number] = (question, chosen)
            self._best.move_to_end(number)
            while len(self._best) > _KEPT:
                self._best.popitem(last=False)

    def best(self, number: int) -> tuple[Question, Chosen]:
        """The best layout of a search, and what it was asked; raises InputError ``unknown_search``."""
        with self._lock:
            found = self._best.get(number)
        if found is None:
            raise InputError(
                code="unknown_search",
                field="search",
                value=str(number),
                rule="must be one of the last searches of this run of the program",
                remedy="Search again.",
            )
        return found


class Searching:
    """One search in its process."""

    def __init__(self, searches: Searches, number: int, question: Question, seconds: float) -> None:
        self.number, self._searches, self._question = number, searches, question
        context = multiprocessing.get_context("spawn")
        self._ours, theirs = context.Pipe()
        limits = Limits(rounds=None, seconds=seconds, seed=1, workers=usual_workers())
        asked = (question.kept.request, question.other, limits)
        # no daemon, for those may have no helpers of their own: it ends with the pipe, and here at the latest
        self._process: BaseProcess = context.Process(target=search_apart, args=(theirs, *asked))
        atexit.register(self.stop)
        self._process.start()
        theirs.close()

    def next(self, wait_s: float) -> Found | None:
        """The newest better layout there is, waited for so long at most; None where there is none yet. [s]

        Raises
        ------
        EOFError
            The search has ended.
        """
        if not self._ours.poll(wait_s):
            return None
        found: Found = self._ours.recv()
        while self._ours.poll():  # what came after it is better still
            try:
                found = self._ours.recv()
            except EOFError:
                break
        self._searches.take(self.number, self._question, found.chosen)
        return found

    def broken_off(self) -> bool:
        """Whether a search that has ended did so before its time: killed, or by a fault of its own."""
        self._process.join(timeout=_ENDING_S)
        return self._process.exitcode not in {0, None}

    def stop(self) -> None:
        """End the process, if it has not ended."""
        atexit.unregister(self.stop)
        self._ours.close()
        self._process.terminate()
        self._process.join(timeout=2)
        if self._process.is_alive():
            self._process.kill()
            self._process.join(timeout=2)
