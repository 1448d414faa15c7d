"""A whole packet of an invented reading table, every sheet in it, for the tests of the typesetting."""

from __future__ import annotations

from dataclasses import replace

from scantling.errors import Severity
from scantling.papers.marking.piece_views import draw_picture
from scantling.papers.packet import Fact, PacketData, Paper, Section, Step
from scantling.papers.packet.sections import (
    BuyRow,
    CoatRow,
    CostLine,
    FindingRow,
    FreedomRow,
    GlueStage,
    MovementRow,
    PartRow,
    SourceRow,
    apart_section,
    buying_section,
    cost_section,
    findings_section,
    finish_section,
    glue_section,
    order_section,
    parts_section,
    seasons_section,
    sources_section,
    views_section,
    year_figure,
)
from tests.papers.reading_table import PICTURE, TIMETABLE, VIEWS, YEAR
from tests.papers.reading_wood import joinery_sections, wood_sections

__all__ = ["packet"]

PARTS = (
    PartRow(
        number="1",
        name="top",
        count=1,
        wood="cherry",
        length="1220",
        width="660",
        thickness="24",
        weight="10.9",
        group="Top",
    ),
    PartRow(
        number="2",
        name="end_left, end_right",
        count=2,
        wood="cherry",
        length="660",
        width="75",
        thickness="24",
        weight="0.7",
        group="Top",
    ),
    PartRow(
        number="3",
        name="leg_fl, leg_fr, leg_bl, leg_br",
        count=4,
        wood="cherry",
        length="724.5",
        width="48",
        thickness="48",
        weight="0.7",
        group="Base",
    ),
    PartRow(
        number="4",
        name="apron_front, apron_back",
        count=2,
        wood="cherry",
        length="1003.5",
        width="90",
        thickness="20",
        weight="1.0",
        group="Base",
    ),
    PartRow(
        number="5",
        name="apron_left, apron_right",
        count=2,
        wood="cherry",
        length="428",
        width="90",
        thickness="20",
        weight="0.4",
        group="Base",
    ),
)


def _time(paper: Paper) -> tuple[Section, ...]:
    steps = tuple(
        Step(
            title=row.name,
            text="Keep the face marks up and together." if i % 3 == 0 else "",
            time=row.hours,
            wait="rest 2 days" if i % 4 == 1 else "",
            caution="Nothing shorter than 300 mm over the jointer." if i == 2 else "",
        )
        for i, row in enumerate(TIMETABLE.rows)
    )
    stage = GlueStage(
        numbers="1",
        title="Field panel, strips 1 to 3",
        parts="top strip 1, 2, 3",
        facts=(
            Fact(label="Glue line", value="0.07 m²"),
            Fact(label="Glue", value="22 g", note="both faces wetted"),
            Fact(label="Clamps", value="4", note="reach 900 mm, you own 4"),
            Fact(label="Minutes", value="4.2 of 10", note="open time at 20 °C"),
        ),
        before=("Dry fit; check the sum of widths.",),
        steps=(
            "Spread strip 1 and 2, bring together, one clamp in the middle.",
            "Spread strip 3, clamp from the middle outward, cauls across.",
        ),
        rest="1 h in clamps, 24 h before it is planed again.",
        caution="Gloves; wipe up before it skins.",
    )
    return (
        seasons_section(
            (
                MovementRow(
                    part="top",
                    wood="cherry",
                    cut="flat",
                    driest="653.5",
                    build="660",
                    wettest="660",
                    year="6.5",
                ),
            ),
            (
                FreedomRow(
                    joint="breadboard left",
                    place="pin slot 1",
                    shrink="2.7 of 3.2",
                    swell="0 of 0.5",
                    cut_to="9.9 × 6",
                    means="slot toward the middle; do not glue",
                ),
            ),
            unit="mm",
            year=year_figure(YEAR, paper=paper),
            room=(
                Fact(label="Driest", value="20 % RH", note="4.5 % in the wood"),
                Fact(label="As built", value="45 % RH", note="8.5 %"),
                Fact(label="Wettest", value="45 % RH", note="8.5 %"),
            ),
            notes=("The ends stand 3.2 mm proud of the field on each side in winter: that is right.",),
        ),
        glue_section((stage, stage)),
        finish_section(
            (("top", "1.82 m²"), ("base", "1.40 m²")),
            (
                CoatRow(what="grit 120", amount="", work="50 min", wait=""),
                CoatRow(what="coat 1, oil-varnish blend", amount="0.32 L", work="50 min", wait="24 h"),
            ),
            facts=(Fact(label="Finish", value="0.9 L"), Fact(label="Area", value="3.2 m²")),
            before=("Inside faces of the aprons.",),
            caution="Rags with oil heat by themselves: lay them flat outdoors or in a metal can of water.",
        ),
        order_section(
            steps,
            paper=paper,
            timetables=(TIMETABLE,),
            facts=(Fact(label="Hands-on", value="29 h"), Fact(label="Days", value="12")),
        ),
    )


def _closing() -> tuple[Section, ...]:
    return (
        buying_section(
            (
                BuyRow(
                    group="Wood",
                    what="cherry, 5/4",
                    amount="18.6 bd ft",
                    note="30 % over for waste",
                    price="195.30",
                ),
                BuyRow(group="Hardware", what="loose tenon 10 × 50", amount="8", price="6.40"),
            ),
            notes=("The allowance is this shop's own yield.",),
        ),
        cost_section(
            (
                CostLine(what="Wood", reckoned="24.1 bd ft", amount="265.10"),
                CostLine(what="Hours", reckoned="29 h at 48", amount="1392.00"),
                CostLine(what="Price", reckoned="margin 20 %", amount="2071.38", total=True),
            ),
            currency="USD",
            facts=(Fact(label="Price", value="2071"),),
            notes=("Margin is a share of the price, mark-up a share of the cost.",),
        ),
        findings_section(
            (
                FindingRow(
                    code="F31",
                    severity=Severity.HIGH,
                    where="glue-up 2",
                    message="11.0 min of work against 10 min of open time.",
                    advice="Split into 4 strips, then 3.",
                ),
                FindingRow(
                    code="F62",
                    severity=Severity.NOTE,
                    where="leg_fl",
                    message="0.51 mm out of square.",
                    advice="Plane it off, or set the apron in.",
                ),
            )
        ),
        sources_section(
            (
                SourceRow(
                    figure="Width change, black cherry",
                    value="0.00126 / 0.00248 per %",
                    source="Wood Handbook, FPL-GTR-190, 2010, table 13-5",
                    standing="read",
                ),
                SourceRow(
                    figure="Open time", value="10 min", source="shop profile", standing="common practice"
                ),
            ),
            cautions=(
                (
                    "Ripping",
                    "Riving knife and guard in place; push stick near the blade; stand out of line.",
                ),
                ("Jointer", "Length and thickness above the machine's least; never reach in."),
            ),
        ),
    )


def packet(paper: Paper) -> PacketData:
    """The packet on one paper."""
    width, height = paper.text_mm
    key = tuple((row.number, row.name) for row in PARTS)
    return PacketData(
        title="Reading table",
        about="Cherry, 1370 × 660 × 740 mm, splayed legs, breadboard ends",
        made_for="For a high-plains house, 20 to 45 % relative humidity",
        fingerprint="3f9c2a",
        facts=(
            Fact(label="Overall", value="1370 × 660 × 740", note="mm"),
            Fact(label="Weight", value="19.4 kg", note="one person lifts it"),
            Fact(label="Wood", value="24.1 bd ft"),
            Fact(label="Hands-on", value="29 h", note="over 12 days"),
            Fact(label="Top moves", value="6.5 mm", note="over the year"),
            Fact(label="Tightest joint", value="0.5 mm", note="pin slot 1, 20 Feb"),
            Fact(label="Findings", value="1 serious", note="sheet Findings"),
            Fact(label="Price", value="2071"),
        ),
        sections=(
            parts_section(PARTS, unit="mm", facts=(Fact(label="Parts", value="11"),)),
            views_section(VIEWS, unit="mm", paper=paper),
            apart_section(PICTURE, key, paper=paper),
            *wood_sections(paper),
            *joinery_sections(paper),
            *_time(paper),
            *_closing(),
        ),
        notice="Estimates from published data and common practice; see Sources and cautions.",
        picture=draw_picture(replace(PICTURE, balloons=()), room_mm=width, height_mm=height - 165.0),
    )
