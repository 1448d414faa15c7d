"""The way in as the brief tells it: a figure alone counts too."""

from __future__ import annotations

import re
from math import hypot
from pathlib import Path

import pytest

from scantling.cli.job import job_from_files
from scantling.plan.cache import Cache
from scantling.plan.standing.moving import plan_moving
from scantling.structure import weigh
from tests.plan.jobs import EXAMPLES

BOOKCASE = EXAMPLES / "bookcase.yaml"


@pytest.mark.parametrize(
    ("told", "short_mm"),
    [
        ("ceiling: 2000 mm", hypot(2050.0, 350.0) - 2000.0),  # lying it fits, but cannot be tipped
        ("ceiling: 2090 mm", None),
        ("door_height: 1980 mm", None),
        ("door_height: 250 mm", 100.0),  # wrapped it is 350 thick
        ("door_width: 250 mm", 100.0),
    ],
)
def test_one_figure_of_the_way_in_counts_alone(tmp_path: Path, told: str, short_mm: float | None) -> None:
    """A ceiling with no corridor, a door whose height alone was measured: each is held against the piece."""
    text = re.sub(r"\n  (door_width|door_height|corridor|ceiling):.*", "", BOOKCASE.read_text("utf-8"))
    file = tmp_path / "piece.yaml"
    file.write_text(text.replace("\nbrief:", f"\nbrief:\n  {told}"), encoding="utf-8")
    job = job_from_files(file)
    volumes = {name: p.length_mm * p.width_mm * p.thickness_mm for name, p in job.piece.parts.items()}
    mass = weigh(job.piece, volumes, mc_pct=8.0)
    way = plan_moving(job.piece, mass, shop=job.shop, cache=Cache()).whole.way
    assert way is not None
    assert way.passes is (short_mm is None)
    assert way.short_by_mm == pytest.approx(short_mm or 0.0, abs=0.01)
