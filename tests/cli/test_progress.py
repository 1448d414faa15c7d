"""What a search says while it runs."""

from __future__ import annotations

from dataclasses import replace

import pytest

from scantling.cli.progress import Progress
from scantling.stock import LayoutRequest, StopRule, solve
from scantling.stock.solving.doing import Doing
from stock.test_boardsets import blanks, board


@pytest.mark.parametrize("doing", list(Doing))
def test_silence_is_explained(doing: Doing, capsys: pytest.CaptureFixture[str]) -> None:
    """News is told with its price; without any, what the search is at, and no figure twice."""
    request = LayoutRequest(boards=(board("A", 10.0), board("B", 10.0)), blanks=blanks(3))
    answer = list(solve(request, stop=StopRule(rounds=2), seed=1))[-1]
    told = Progress("USD")
    told(answer)
    told(replace(answer, news=False, doing=doing))
    first, second = capsys.readouterr().err.splitlines()
    assert "20.00 USD" in first
    assert "nothing better yet; " in second
    assert "USD" not in second
