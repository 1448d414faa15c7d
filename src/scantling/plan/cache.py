"""Answers kept by the content of their questions, so that a change recomputes only what depends on it.

How many are kept is set by the memory they come to, :data:`MOST_MB`. Measured with ``tracemalloc``, by what
was given back when they were let go, after seven sizes of the five-drawer chest (72 parts, no rack): 2036
answers held 5.8 MB, 2.8 kB each, and 5027 contents another 2.5 MB, 0.5 kB each; at their limits 16 MB.
Counted object by object, with their racks and shops and at both limits, the chest's answers and contents
hold 24 MB and the sideboard's 21 MB; the largest are layouts, 130 to 170 kB each, and there are few. Both
limits are reached within 20 sizes of the chest or of the sideboard (57 parts). The process held 90 and 97
MB after the first, 232 and 244 MB after 100, 236 MB after 200 of the chest and 247 MB after 140 of the
sideboard: most of that is not what is kept here.
"""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from threading import Lock
from typing import Any, TypeVar

__all__ = ["MOST_MB", "Cache", "content_of"]

MOST_MB = 32.0
"""What all answers kept may come to with what they were asked for (our own bound). [MB]"""

Answer = TypeVar("Answer")
_LONGEST = 256
"""Characters of a content that is its own key; of longer ones a digest is. [1]"""


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
class _Contents:
    """What values say, by which of them it is: a shop asked after hundreds of times is spelled out once.

    Only frozen models are kept, of which one object says the same for as long as it lives; each is kept with
    its content, so that no other can come to stand under its identity. The oldest go first.
    """

    limit: int = 8192
    _kept: dict[int, tuple[object, str]] = field(default_factory=dict)
    _lock: Lock = field(default_factory=Lock)

    def key(self, content: tuple[object, ...]) -> str:
        """The content of all that is asked, no longer than :data:`_LONGEST`."""
        said = self.said(content)
        return said if len(said) <= _LONGEST else content_of(said)

    def said(self, value: object) -> str:
        """The content of a value, short."""
        if type(value) in _PLAIN:
            return repr(value)
        if isinstance(value, tuple | list):
            return f"({','.join([self.said(one) for one in value])})"
        kept = self._kept.get(id(value))
        if kept is not None and kept[0] is value:
            return kept[1]
        if not _is_model(value):
            return repr(_ordered(value))
        content = content_of(value)
        with self._lock:
            self._kept[id(value)] = (value, content)
            while len(self._kept) > self.limit:
                del self._kept[next(iter(self._kept))]
        return content


_PLAIN = (str, float, int, bool, type(None))


def _is_model(value: object) -> bool:
    """A frozen dataclass, or a frozen model checked on reading."""
    kind = type(value)
    made = getattr(kind, "__dataclass_params__", None)
    if made is not None:
        return bool(made.frozen)
    return bool(getattr(kind, "model_config", {}).get("frozen"))


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
    _contents: _Contents = field(default_factory=_Contents)
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
        [found] = self.answers(stage, (content,), lambda _: (work(),))
        return found

    def answers(
        self,
        stage: str,
        contents: Sequence[tuple[object, ...]],
        work: Callable[[tuple[int, ...]], Sequence[Answer]],
    ) -> tuple[Answer, ...]:
        """The answers for several contents; those not at hand are worked out together.

        Parameters
        ----------
        stage
            Name of the stage.
        contents
            Everything the work reads, for each answer.
        work
            Works out those at the places it is given, in their order; what it raises is not kept.
        """
        keys = [(stage, self._contents.key(content)) for content in contents]
        found: dict[tuple[str, str], Answer] = {}
        with self._lock:
            for key in keys:
                if key in self._answers:
                    self._answers.move_to_end(key)
                    found[key] = self._answers[key]
            self.kept[stage] = self.kept.get(stage, 0) + len(found)
        places = {key: at for at, key in reversed(list(enumerate(keys))) if key not in found}
        if places:
            missing = tuple(sorted(places.values()))
            made = {keys[at]: answer for at, answer in zip(missing, work(missing), strict=True)}
            self._keep(stage, made)
            found |= made
        return tuple(found[key] for key in keys)

    def _keep(self, stage: str, made: Mapping[tuple[str, str], object]) -> None:
        with self._lock:
            self.worked[stage] = self.worked.get(stage, 0) + len(made)
            self._answers.update(made)
            while len(self._answers) > self.limit:
                self._answers.popitem(last=False)
