"""Answers kept by the content of their questions, so that a change recomputes only what depends on it."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from threading import Lock
from typing import Any, TypeVar

__all__ = ["Cache", "content_of"]

Answer = TypeVar("Answer")


def content_of(*values: object) -> str:
    """A digest of values by their content. 32 hexadecimal digits.

    The values are plain data or frozen dataclasses of it, whose ``repr`` says all there is to know.
    """
    digest = hashlib.blake2b(digest_size=16)
    for value in values:
        digest.update(repr(_ordered(value)).encode())
        digest.update(b"\0")
    return digest.hexdigest()


def _ordered(value: object) -> object:
    """Sets have no order of their own; everything else is taken as it stands."""
    return sorted(value, key=repr) if isinstance(value, set | frozenset) else value


@dataclass(slots=True)
class Cache:
    """Answers by stage and content; the oldest unused go first.

    Parameters
    ----------
    limit
        Answers kept over all stages.
    worked, kept
        How often each stage was worked out, and how often its answer was at hand.
    """

    limit: int = 4096
    worked: dict[str, int] = field(default_factory=dict)
    kept: dict[str, int] = field(default_factory=dict)
    _answers: OrderedDict[tuple[str, str], Any] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def answer(self, stage: str, content: tuple[object, ...], work: Callable[[], Answer]) -> Answer:
        """The answer of a stage for this content, worked out only when it is not at hand.

        Parameters
        ----------
        stage
            Name of the stage.
        content
            Everything the work reads.
        work
            Works it out; what it raises is not kept.
        """
        key = (stage, content_of(*content))
        with self._lock:
            if key in self._answers:
                self._answers.move_to_end(key)
                self.kept[stage] = self.kept.get(stage, 0) + 1
                found: Answer = self._answers[key]
                return found
        made = work()
        with self._lock:
            self.worked[stage] = self.worked.get(stage, 0) + 1
            self._answers[key] = made
            while len(self._answers) > self.limit:
                self._answers.popitem(last=False)
        return made
