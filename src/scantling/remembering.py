"""Answers of pure functions, found again by the very values they were asked with."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from functools import wraps
from threading import Lock
from typing import Generic, ParamSpec, TypeVar

__all__ = ["Firsts", "remembered"]

Asked = ParamSpec("Asked")
Answer = TypeVar("Answer")
Value = TypeVar("Value")
_MUTABLE = (bytearray, dict, list, set)


def remembered(*, limit: int) -> Callable[[Callable[Asked, Answer]], Callable[Asked, Answer]]:
    """Let a pure function of values that never change give the answer it gave before; the oldest go first.

    A frozen value is known by which object it is, and so without looking into it, however much it holds:
    this is for parts, joints and what follows from them, of which a change of one size leaves most as they
    were, the same objects. Equal ones that are not the same are worked out once more, which is no error.
    Numbers and texts are known by what they say, tuples by their members.

    Parameters
    ----------
    limit
        Answers kept.

    Raises
    ------
    TypeError
        By the function, where it is asked with a list, dictionary or set: the same one may say something
        else later.

    Examples
    --------
    >>> @remembered(limit=8)
    ... def half(size: float) -> float:
    ...     print("worked out")
    ...     return size / 2.0
    >>> half(3.0), half(3.0)
    worked out
    (1.5, 1.5)
    """

    def decorate(work: Callable[Asked, Answer]) -> Callable[Asked, Answer]:
        kept: dict[object, tuple[object, Answer]] = {}
        lock = Lock()

        @wraps(work)
        def ask(*args: Asked.args, **named: Asked.kwargs) -> Answer:
            key = (*map(_which, args), *((name, _which(value)) for name, value in named.items()))
            found = kept.get(key)
            if found is not None:
                return found[1]
            answer = work(*args, **named)
            with lock:
                kept[key] = (
                    (args, named),
                    answer,
                )  # the values live as long as it, and so no other has their id
                while len(kept) > limit:
                    del kept[next(iter(kept))]
            return answer

        return ask

    return decorate


def _which(value: object) -> object:
    """A text as it says, a number with its kind, and a frozen value, as most are, as which object it is."""
    kind = type(value)
    if kind is str:
        return value
    if kind is float:
        return kind, value or str(value)  # nought has a sign, which comparing does not tell
    if kind is int:
        return kind, value
    if isinstance(value, tuple):
        return tuple([_which(one) for one in value])
    if kind in _MUTABLE:
        raise TypeError(f"a {kind.__name__} may change: a remembered function takes frozen values")
    return id(value)


@dataclass(slots=True)
class Firsts(Generic[Value]):
    """Values by what they say: of several that say the same, the first is given out each time.

    Parameters
    ----------
    limit
        Values kept; the oldest unused go first.
    """

    limit: int
    _kept: OrderedDict[Hashable, Value] = field(default_factory=OrderedDict)
    _lock: Lock = field(default_factory=Lock)

    def of(self, said: Hashable, value: Value) -> Value:
        """The first value that said this, which may be the one given.

        Parameters
        ----------
        said
            All that the value says, to the sign of a nought.
        value
            Frozen.
        """
        with self._lock:
            first = self._kept.setdefault(said, value)
            self._kept.move_to_end(said)
            while len(self._kept) > self.limit:
                self._kept.popitem(last=False)
        return first
