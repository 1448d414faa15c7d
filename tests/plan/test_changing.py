"""A plan that is changed is the plan of the changed piece, whatever of it was kept."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import pytest

from tests.plan.changing import differences
from tests.plan.jobs import EXAMPLES, SHIPPED

COUNT = 3
"""Changes of each piece, after which it is shown in both units and goes back to the first."""


@pytest.mark.parametrize("piece", SHIPPED)
def test_a_changed_piece_has_the_plan_it_has_from_nothing(piece: str) -> None:
    """Through random sizes, shape, figures and plan are those of a process that has no past."""
    asked = [sys.executable, "-m", "tests.plan.changing", piece, "7", str(COUNT)]
    said = subprocess.run(
        asked, cwd=EXAMPLES.parent, env=os.environ, capture_output=True, text=True, check=False
    )
    assert said.returncode == 0, said.stderr
    assert json.loads(said.stdout) == []


def test_documents_that_differ_are_told_apart() -> None:
    """By a word, a figure, a missing key, a row more; not by the last digits of a figure."""
    one = {"rows": [["leg", 1.0], ["top", 2.0]]}
    assert differences(one, {"rows": [["leg", 1.0 + 1e-9], ["top", 2.0]]}) == []
    assert differences(one, {"rows": [["leg", 1.001], ["top", 2.0]]}) == ["/rows/0/1: 1.0 1.001"]
    assert differences(one, {"rows": [["leg", 1.0], ["tip", 2.0]]}) == ["/rows/1/0: top tip"]
    assert len(differences(one, {"rows": [["leg", 1.0]]})) == 1
    assert len(differences(one, {"row": one["rows"]})) == 1
    assert len(differences([1.0], [1])) == 1
