"""Marking-out sheets: a view along every part, and no sheet left empty behind a long list."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from scantling.papers.packet import Paper
from scantling.papers.packet.sections import joints
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.marking_pages import marked_parts
from scantling.plan.planner import Planner
from scantling.units import LengthStyle
from tests.plan.jobs import shipped_job


@dataclass
class Tall:
    """A sheet as tall as it is said to be; where only its drawing fits, its list comes next."""

    name: str
    tall_mm: float
    listed: bool = True
    drawing: bool = True
    before: int = 1


def laid(*sheets: Tall) -> list[list[str]]:
    """Names of sheets, page by page of 262 mm, which is A4."""
    pages = joints._pages(cast("list[joints._Placed]", sheets), paper=Paper.A4)
    return [[cast("Tall", one).name for one in page] for page in pages]


def test_a_list_alone_shares_its_sheet_and_follows_its_drawing() -> None:
    """110 of 262 leave room for 100 more but not for 160; nothing comes between a drawing and its list."""
    drawn, listed = Tall("drawn", 180.0, listed=False), Tall("list", 110.0, drawing=False)
    small, large = Tall("small", 100.0), Tall("large", 160.0)
    assert laid(drawn, listed, large, small) == [["drawn"], ["list", "small"], ["large"]]
    assert laid(small, drawn, listed) == [["small"], ["drawn"], ["list"]]


def test_a_part_worked_at_its_ends_alone_is_drawn_along_its_length_too() -> None:
    """The rear of the plinth and the drawer backs have sockets in both ends and nothing on a face."""
    job = shipped_job("five_drawer_chest", rack=False)
    groups = marked_parts(job.piece, Planner().works(job), figures=Figures(style=LengthStyle.of("mm")))
    assert len(groups) > 5
    for group in groups:
        length = f"{group.parts[0].length_mm:.0f}"
        assert any("face" in view.title.lower() for view in group.views), (group.parts[0].name, length)
