"""A second core that is not there: work is done at once in this process, its time counted as if beside it.

On a crowded machine two processes get unequal shares of two cores. Here both clocks run by processor time: a
piece of work begins when it is asked for, or when the one before has ended, and is there once this process
has spent as much time since. What is sent is pickled both ways, and the first piece waits for a process to
start.
"""

from __future__ import annotations

import pickle
import time
from collections import deque
from collections.abc import Callable
from concurrent.futures import Executor, Future
from typing import Any

__all__ = ["SecondCore"]

STARTS_S = 1.0
"""Processor time a new process takes until it has read what it needs: 0.9 measured. [s]"""


class SecondCore(Executor):
    """An executor of one worker, and the clock of the process that asks it."""

    def __init__(self) -> None:
        self._away_s = self._idle_s = 0.0
        self._free_s = self.clock() + STARTS_S
        self._queue: deque[_Piece] = deque()
        self.sent_bytes: list[int] = []
        """Of each task and its answer."""

    def clock(self) -> float:
        """Time of the process that asks. [s]"""
        return time.process_time() - self._away_s + self._idle_s

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        """Line it up; it is begun once the clock comes to where those before it have ended."""
        piece = _Piece(self, self.clock(), pickle.dumps((fn, args, kwargs)))
        self._queue.append(piece)
        return piece

    def come_to(self, moment_s: float) -> None:
        """Do all that would have been begun by a time. [s]"""
        while self._queue and max(self._free_s, self._queue[0].asked_s) <= moment_s:
            self._work(self._queue.popleft())

    def wait(self, piece: _Piece) -> None:
        """Let the process that asks stand idle until a piece is there."""
        while piece.ready_s is None:
            self._work(self._queue.popleft())
        self._idle_s += max(0.0, piece.ready_s - self.clock())

    def drop(self, piece: _Piece) -> bool:
        """Take a piece back that is not begun."""
        self.come_to(self.clock())
        if piece not in self._queue:
            return False
        self._queue.remove(piece)
        return True

    def _work(self, piece: _Piece) -> None:
        begun_s = time.process_time()
        fn, args, kwargs = pickle.loads(piece.sent)  # noqa: S301
        told = pickle.dumps(fn(*args, **kwargs))
        self.sent_bytes += [len(piece.sent), len(told)]
        piece.set_result(pickle.loads(told))  # noqa: S301
        took_s = time.process_time() - begun_s
        self._away_s += took_s
        self._free_s = piece.ready_s = max(piece.asked_s, self._free_s) + took_s


class _Piece(Future[Any]):
    """A piece of work, and when it is there."""

    def __init__(self, core: SecondCore, asked_s: float, sent: bytes) -> None:
        super().__init__()
        self._core, self.asked_s, self.sent = core, asked_s, sent
        self.ready_s: float | None = None

    def done(self) -> bool:
        now_s = self._core.clock()
        self._core.come_to(now_s)
        return self.ready_s is not None and now_s >= self.ready_s

    def cancel(self) -> bool:
        return self._core.drop(self) and super().cancel()

    def result(self, timeout: float | None = None) -> Any:
        self._core.wait(self)
        return super().result(timeout)
