"""Marking-out sheets: a view along every part, and no sheet left empty behind a long list."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

import pytest

from scantling.papers.packet.sections import joints
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import marked_parts
from scantling.plan.planner import Planner
from scantling.units import LengthStyle
from tests.plan.jobs import shipped_job


@dataclass
class Tall:
    """A sheet as tall as it is said to be."""

    name: str
    tall_mm: float


def laid(*talls: float) -> list[list[str]]:
    """Names of sheets of these heights, page by page of 262 mm."""
    sheets = [Tall(name=f"{number}", tall_mm=tall) for number, tall in enumerate(talls)]
    pages = joints._pages(cast("list[joints._Placed]", sheets), height_mm=262.0)
    return [[cast("Tall", one).name for one in page] for page in pages]


@pytest.mark.parametrize(
    ("talls", "pages"),
    [
        ((100.0, 330.0, 180.0), [["0"], ["1", "2"]]),
        ((100.0, 330.0, 200.0), [["0"], ["1"], ["2"]]),
        ((100.0, 120.0, 50.0), [["0", "1"], ["2"]]),
    ],
)
def test_a_list_that_goes_on_overleaf_shares_that_sheet(talls: tuple[float, ...], pages: object) -> None:
    """330 of 262 leave 68 and 3 for the heads of the columns overleaf: 180 more fit under it, 200 do not."""
    assert laid(*talls) == pages


def test_a_part_worked_at_its_ends_alone_is_drawn_along_its_length_too() -> None:
    """The rear of the plinth and the drawer backs have sockets in both ends and nothing on a face."""
    job = shipped_job("five_drawer_chest", rack=False)
    groups = marked_parts(job.piece, Planner().works(job), figures=Figures(style=LengthStyle.of("mm")))
    assert len(groups) > 5
    for group in groups:
        length = f"{group.parts[0].length_mm:.0f}"
        assert any("face" in view.title.lower() for view in group.views), (group.parts[0].name, length)
