"""Layouts: sound whatever is asked, the same every time, and as good as can be proven on small racks."""

from hypothesis import HealthCheck, given, settings

from scantling.stock import LayoutRequest, Method, StopRule, Violation, lay_out, solve, verify_layout
from stock.strategies import requests

SLOW = [HealthCheck.too_slow]


def broken_rules(request: LayoutRequest, stop: StopRule) -> list[Violation]:
    """What the checker finds wrong with any answer."""
    return [
        broken
        for answer in solve(request, stop=stop, seed=3)
        for broken in verify_layout(
            answer.layout,
            boards=request.boards,
            blanks=request.blanks,
            panels=request.panels,
            cutting=request.cutting,
            wishes=request.wishes,
        )
    ]


@settings(max_examples=120, deadline=None, suppress_health_check=SLOW)
@given(requests())
def test_hand_rules_stand_up_to_the_checker(request_: LayoutRequest) -> None:
    """Every answer of the quick search, not only the last, breaks no rule the independent checker knows."""
    assert broken_rules(request_, StopRule(rounds=30, method=Method.QUICK)) == []


@settings(max_examples=12, deadline=None, suppress_health_check=SLOW)
@given(requests())
def test_every_answer_of_a_random_request_stands_up_to_the_checker(request_: LayoutRequest) -> None:
    """Every answer, not only the last, breaks no rule the independent checker knows."""
    assert broken_rules(request_, StopRule(rounds=16)) == []


@settings(max_examples=5, deadline=None, suppress_health_check=SLOW)
@given(requests())
def test_same_request_and_seed_give_the_same_layout(request_: LayoutRequest) -> None:
    """A limit in rounds makes the whole layout repeatable, to the last digit."""
    first = lay_out(request_, rounds=16, seed=7)
    assert repr(first) == repr(lay_out(request_, rounds=16, seed=7))


@settings(max_examples=30, deadline=None, suppress_health_check=SLOW)
@given(requests())
def test_answers_only_get_better(request_: LayoutRequest) -> None:
    """No later answer leaves more wood unplaced than an earlier one."""
    missing = [
        sum(b.area_mm2 for b in answer.layout.unplaced)
        for answer in solve(request_, stop=StopRule(rounds=40, method=Method.QUICK), seed=1)
    ]
    if not request_.panels:
        assert missing == sorted(missing, reverse=True)
