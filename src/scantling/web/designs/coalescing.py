"""Work done once for all who ask at the same time; the last answers are kept."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future
from dataclasses import dataclass, field
from threading import Lock
from typing import Any, Generic, TypeVar

__all__ = ["Coalescing"]

Answer = TypeVar("Answer")


@dataclass(slots=True)
class Coalescing(Generic[Answer]):
    """Answers by question.

    Parameters
    ----------
    limit
        Answers kept; the oldest unused go first. An exception is given to all who wait, and not kept.
    worked
        How many answers had to be worked out.
    """

    limit: int = 24
    worked: int = 0
    _answers: OrderedDict[Hashable, Future[Any]] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def answer(self, question: Hashable, work: Callable[[], Answer]) -> Answer:
        """The answer; the first to ask works it out, others wait for it."""
        with self._lock:
            asked = self._answers.get(question)
            if asked is not None:
                self._answers.move_to_end(question)
            else:
                mine: Future[Answer] = Future()
                self._answers[question] = mine
                self.worked += 1
                while len(self._answers) > self.limit:
                    self._answers.popitem(last=False)
        if asked is not None:
            kept: Answer = asked.result()
            return kept
        try:
            mine.set_result(work())
        except BaseException as error:
            with self._lock:
                if self._answers.get(question) is mine:
                    del self._answers[question]
            mine.set_exception(error)
            raise
        return mine.result()
