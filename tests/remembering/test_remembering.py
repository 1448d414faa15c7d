"""Answers are found again by the very values they were asked with, and are never another's."""

from __future__ import annotations

from dataclasses import dataclass

import pytest

from scantling.remembering import Firsts, remembered


@dataclass(frozen=True, slots=True)
class _Board:
    wide_mm: float


def _asked() -> tuple[list[object], object]:
    calls: list[object] = []

    @remembered(limit=3)
    def ask(*values: object) -> object:
        calls.append(values)
        return len(calls)

    return calls, ask


def test_the_same_values_are_answered_once_and_equal_ones_each() -> None:
    """A frozen object is known by which it is; numbers, texts and tuples of them by what they say."""
    calls, ask = _asked()
    assert callable(ask)
    board = _Board(20.0)
    assert ask(board, ("a", 1.5), None) == ask(board, ("a", 1.5), None) == 1
    assert ask(_Board(20.0), ("a", 1.5), None) == 2
    assert len(calls) == 2


@pytest.mark.parametrize(
    ("one", "other"),
    [((0.0,), (-0.0,)), ((1,), (True,)), (("1",), (1,)), (((1.0,), 2.0), (1.0, (2.0,))), ((), (None,))],
)
def test_values_that_say_something_else_are_asked_anew(
    one: tuple[object, ...], other: tuple[object, ...]
) -> None:
    """Also those that compare as equal: a nought keeps its sign."""
    _, ask = _asked()
    assert callable(ask)
    assert (ask(*one), ask(*other)) == (1, 2)


@pytest.mark.parametrize("value", [[1], {"a": 1}, {1}])
def test_what_may_change_is_refused(value: object) -> None:
    """A list says something else tomorrow."""
    _, ask = _asked()
    assert callable(ask)
    with pytest.raises(TypeError, match="may change"):
        ask((value,))


def test_an_answer_never_passes_to_a_value_made_later() -> None:
    """What is kept keeps its values, so that no new one comes to stand where they stood."""
    _, ask = _asked()
    assert callable(ask)
    found = [ask(_Board(float(k))) for k in range(50)]
    assert found == list(range(1, 51))


def test_the_oldest_answers_go_first_and_failures_are_not_kept() -> None:
    """At most as many are kept as the limit says."""
    calls, ask = _asked()
    assert callable(ask)
    for name in ("a", "b", "c", "d", "b", "a"):
        ask(name)
    assert calls == [("a",), ("b",), ("c",), ("d",), ("a",)]

    @remembered(limit=3)
    def fail(name: str) -> str:
        calls.append(name)
        raise ValueError(name)

    for _ in range(2):
        with pytest.raises(ValueError, match="x"):
            fail("x")
    assert calls[-2:] == ["x", "x"]


def test_of_values_that_say_the_same_the_first_is_given_out() -> None:
    """Until so many others have come that it is forgotten."""
    firsts = Firsts[_Board](limit=2)
    one = _Board(1.0)
    assert firsts.of("1", one) is one
    assert firsts.of("1", _Board(1.0)) is one
    for said in ("2", "3"):
        firsts.of(said, _Board(9.0))
    later = _Board(1.0)
    assert firsts.of("1", later) is later
