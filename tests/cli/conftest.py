"""Commands plan what was planned before from what is at hand; those that tell of a search, search."""

from __future__ import annotations

from typing import Any

import pytest

import scantling.cli.offer  # noqa: F401 - it takes the planner when it is loaded: the real one
from scantling.plan import planner
from tests.plan.jobs import PLANNER

__all__: list[str] = []

_PLANNER = planner.Planner


def _remembering(**given: Any) -> planner.Planner:
    return _PLANNER(**given) if given else _PLANNER(cache=PLANNER.cache, meshes=PLANNER.meshes)


@pytest.fixture(autouse=True)
def _plans_at_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    """Answers are found by all that was asked, so that they are those of a command run alone."""
    monkeypatch.setattr(planner, "Planner", _remembering)
