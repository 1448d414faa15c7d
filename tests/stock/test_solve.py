"""Layouts: sound whatever is asked, the same every time, and as good as can be proven on small racks."""

from hypothesis import HealthCheck, given, settings

from scantling.stock import LayoutRequest, StopRule, lay_out, solve, verify_layout
from stock.strategies import requests

GENTLE = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@GENTLE
@given(requests())
def test_every_answer_of_a_random_request_stands_up_to_the_checker(request_: LayoutRequest) -> None:
    """Every answer, not only the last, breaks no rule the independent checker knows."""
    for answer in solve(request_, stop=StopRule(rounds=30), seed=3):
        broken = verify_layout(
            answer.layout,
            boards=request_.boards,
            blanks=request_.blanks,
            panels=request_.panels,
            cutting=request_.cutting,
        )
        assert broken == ()


@settings(max_examples=20, deadline=None)
@given(requests())
def test_same_request_and_seed_give_the_same_layout(request_: LayoutRequest) -> None:
    """A limit in rounds makes the whole layout repeatable, to the last digit."""
    first = lay_out(request_, rounds=40, seed=7)
    assert repr(first) == repr(lay_out(request_, rounds=40, seed=7))


@settings(max_examples=40, deadline=None)
@given(requests())
def test_answers_only_get_better(request_: LayoutRequest) -> None:
    """No later answer leaves more wood unplaced than an earlier one."""
    missing = [
        sum(b.area_mm2 for b in answer.layout.unplaced)
        for answer in solve(request_, stop=StopRule(rounds=40), seed=1)
    ]
    if not request_.panels:
        assert missing == sorted(missing, reverse=True)
