"""A piece of two parts and one joint: what there is one of is told in the singular."""

from __future__ import annotations

from dataclasses import replace

from scantling.joinery.joining import load_piece_text
from scantling.papers.pages.figures import Figures
from scantling.papers.pages.work_pages import coat_rows
from scantling.papers.sheets.all import sheets_of
from scantling.plan.planner import Planner
from tests.plan.jobs import demo_job

TEXT = """\
scantling: 1
title: Corner
units: mm
parts:
  post:
    kind: stick
    species: white oak
    center: [0, 0, 200]
    along: top
    length: 400 mm
    section: [40, 40]
    width_toward: right
  rail:
    kind: stick
    species: white oak
    center: [220, 0, 200]
    along: right
    length: 400 mm
    section: [50, 22]
    width_toward: top
joints:
  j: {kind: mortise_tenon, between: [[rail.start, post]], length: 20 mm}
"""


def test_one_of_a_thing_is_not_told_as_several() -> None:
    """One joint and one glue-up; no disc is bought where no face is said to show and nothing is sanded."""
    plan = Planner().plan(replace(demo_job(), piece=load_piece_text(TEXT), rack=None))
    sheets = {sheet.id: sheet for sheet in sheets_of(plan)}
    assert sheets["joints"].lead.startswith("1 joint, 2 places to mark, ")
    assert sheets["gluing"].lead.startswith("1 glue-up, ")
    assert sheets["parts"].lead.startswith("2 parts of 2 kinds, ")
    rows = [row for block in sheets["hardware"].blocks for row in getattr(block, "rows", ())]
    assert any(row[-1] == "1 glue-up" for row in rows)
    assert not any("grit" in row[0] and row[1] == "0" for row in rows)
    packet = coat_rows(plan.finishing, figures=Figures(style=plan.style))
    assert packet
    assert not any("grit" in row.what for row in packet)
    [sanding] = [block for block in sheets["finish"].blocks if getattr(block, "title", "") == "Sanding"]
    assert sanding.lines[0].startswith(
        "No part says under `show` which of its faces are seen: nothing is sanded"
    )
