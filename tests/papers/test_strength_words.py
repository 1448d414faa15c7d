"""What the page and the packet say of the joints' strength."""

from __future__ import annotations

from functools import cache

import pytest

from scantling.joinery.strength import Known
from scantling.papers.packet.blocks import Caution, Table
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.strength_pages import strength_sheet_of
from scantling.papers.sheets.show import Show
from scantling.papers.sheets.strength import check_rows, strength_sheet
from scantling.papers.words.strength_words import bearing_rows, bearing_sources, moment_words, unpublished
from scantling.plan.result import Plan
from tests.joinery.samples import SAMPLES
from tests.joinery.test_families import stood
from tests.plan.jobs import demo_plan, shipped_plan


@cache
def sideboard() -> Plan:
    """The sideboard's plan."""
    return shipped_plan("sideboard", rack=False)


def newtons(newton: float) -> str:
    """A force."""
    return f"{newton:.0f} N"


def test_a_dowel_joint_in_words() -> None:
    """8.87 kN over four, 44 N m, and one degree at 3.4 kN m/rad x pi / 180 = 59 N m, 33 to 86."""
    work = stood(SAMPLES["dowel_pin"], {}).works[0]
    [row] = bearing_rows([work], force=newtons, inch=False)
    assert (row.pull, row.moment, row.turns) == ("2217 N", "44 N m", "59 N m (33 to 86)")
    assert row.known == "tests, the wood"


def test_joints_that_bear_alike_are_one_row() -> None:
    """The eight tenons of the reading table's aprons."""
    rows = bearing_rows(demo_plan().joints, force=newtons, inch=False)
    assert sorted(len(row.joints) for row in rows) == [2, 2, 2, 8]


def test_every_figure_has_its_source_said_once() -> None:
    """As many sentences as there are sources, each telling what it is for."""
    plan = sideboard()
    sources = {
        figure.source
        for work in plan.joints
        for figure in (work.strength.pull_n, work.strength.shear_n, work.strength.moment_nmm)
        if figure.known is not Known.NONE
    }
    said = bearing_sources(plan.joints)
    assert len(said) == len(set(said)) >= len(sources)
    assert all(any(source in sentence for sentence in said) for source in sources)


def test_what_nothing_is_published_of_is_named() -> None:
    """Panels in grooves and parts in openings; nothing of them is in the table."""
    plan = sideboard()
    missing = unpublished(plan.joints)
    assert "panel_groove" in missing
    shown = {name for row in bearing_rows(plan.joints, force=newtons, inch=False) for name in row.joints}
    assert shown.isdisjoint(work.joint for work in plan.joints if work.family in missing)


@pytest.mark.parametrize(("inch", "said"), [(False, "52 N m"), (True, "39 lbf ft")])
def test_a_moment_in_either_unit(inch: bool, said: str) -> None:
    """52.5 N m is 38.7 pound-feet."""
    assert moment_words(52_490.0, inch=inch) == said


def test_the_sway_is_told_as_a_range() -> None:
    """The reading table's, with what its most loaded joint may carry."""
    rows = check_rows(demo_plan().strength, Show.of(demo_plan()))
    along = next(row for row in rows if row[0].startswith("Pushed along"))
    racked = demo_plan().strength.frames[0].racked
    assert f"{100 * racked.moment_nmm / racked.may_nmm:.0f} % of what it may carry" in along[1]
    assert (
        along[2]
        == f"sways {racked.sway_mm:.1f} mm ({racked.sway_least_mm:.1f} to {racked.sway_most_mm:.1f} mm)"
    )


def test_the_sheet_keeps_its_caution() -> None:
    """A test house judges what holds people up; the words stand last, on the page as in the packet."""
    words = strength_sheet(sideboard()).blocks[-1]
    assert "test house" in " ".join(words.lines)  # type: ignore[union-attr]


def test_the_packet_says_what_the_page_says() -> None:
    """The same checks and the same joints, and the caution beneath."""
    plan = sideboard()
    section = strength_sheet_of(plan, figures=Figures(style=Show.of(plan).style))
    checks, bearing = [block for block in section.blocks if isinstance(block, Table)]
    show = Show.of(plan)
    assert [row.cells for row in checks.rows] == list(check_rows(plan.strength, show))
    assert len(bearing.rows) == len(bearing_rows(plan.joints, force=show.force, inch=False))
    assert any(isinstance(block, Caution) and "test house" in block.text for block in section.blocks)
