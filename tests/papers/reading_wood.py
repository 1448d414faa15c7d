"""Sheets for the wood and the joints of an invented reading table."""

from __future__ import annotations

from scantling.papers.packet import Fact, Paper, Section
from scantling.papers.packet.sections import (
    ConnectorRow,
    CutRow,
    JointSheet,
    LayerRow,
    MarkRow,
    RoughRow,
    SetupCard,
    StripRow,
    boards_section,
    chalk_section,
    connectors_section,
    joints_section,
    layers_section,
    rough_section,
    saw_section,
    templates_section,
)
from scantling.papers.templates.template import face_template
from scantling.papers.words.chalk_list import ChalkRow, ChalkStand
from tests.papers.reading_table import BOARDS, LEG, LEG_FACE, TOP

__all__ = ["joinery_sections", "wood_sections"]


def wood_sections(paper: Paper) -> tuple[Section, ...]:
    """Rough list, boards, layers and strips."""
    rough = (
        RoughRow(
            name="top strip 1 to 5",
            count=5,
            stock="5/4",
            rough_length="1260",
            rough_width="150",
            rough_thickness="32",
            milled_width="138",
            milled_thickness="26",
        ),
        RoughRow(
            name="leg layer",
            count=8,
            stock="8/4",
            rough_length="765",
            rough_width="60",
            rough_thickness="51",
            milled_width="54",
            milled_thickness="26",
            note="two to a leg",
        ),
    )
    stands = (
        ChalkStand(
            title="Crosscut: miter saw",
            rows=(
                ChalkRow(board="C2", order="1", piece="C2", setting="27", leaves="waste off"),
                ChalkRow(board="C2", order="2", piece="C2", setting="1260", leaves="C2-A"),
                ChalkRow(board="C3", order="1", piece="C3", setting="720", leaves="C3-A"),
            ),
        ),
        ChalkStand(
            title="Rip: table saw",
            rows=(ChalkRow(board="C2", order="4", piece="C2-A", setting="150", leaves="top strip 1"),),
        ),
    )
    return (
        rough_section(
            rough,
            unit="mm",
            allowances=(
                "Length: 40 mm, for snipe and a square end.",
                "Jointing: 2 mm a face; planing: 1.5 mm a face.",
                "Re-flattening after glue-up: 2 mm.",
            ),
        ),
        boards_section(
            BOARDS,
            paper=paper,
            facts=(
                Fact(label="Boards cut", value="2 of 4"),
                Fact(label="Waste", value="31 %"),
                Fact(label="Price", value="162.00"),
                Fact(label="Cannot be below", value="158.40", note="proven"),
            ),
            missing=("leg layer 7", "leg layer 8"),
        ),
        chalk_section(stands, unit="mm"),
        layers_section(
            (
                LayerRow(
                    part="leg",
                    count=4,
                    layers="2",
                    stock="8/4",
                    layer_thickness="26",
                    glued_thickness="52",
                    finished="48",
                    note="joint line out of sight",
                ),
            ),
            (
                StripRow(
                    part="top",
                    strips="5",
                    widths="138, 138, 138, 138, 120",
                    stages="2 + 3, then together",
                    trim="12",
                ),
            ),
            unit="mm",
        ),
    )


def joinery_sections(paper: Paper) -> tuple[Section, ...]:
    """Saw set-ups, marking out, loose parts, templates."""
    marks = (
        MarkRow(
            tag="A",
            what="mortise",
            face="inside",
            from_end="45",
            from_face="24",
            size="50 × 10",
            depth="26",
            fit="tight",
            setup="M1",
        ),
        MarkRow(
            tag="C",
            what="mortise",
            face="back",
            from_end="45",
            from_face="20",
            size="56 × 10",
            depth="26",
            fit="long",
            setup="M2",
        ),
    )
    cards = (
        SetupCard(
            number="1",
            machine="table saw, crosscut sled",
            settings=(
                Fact(label="Miter", value="7.0°", note="83.0° from the fence"),
                Fact(label="Bevel", value="5.0°", note="blade leans right"),
                Fact(label="Stop", value="724.5 mm", note="to the long point"),
                Fact(label="Cuts", value="8"),
            ),
            cuts=(
                CutRow(
                    part="leg_fl, leg_br",
                    count=4,
                    end="both, parallel",
                    down="front",
                    blade="part on the left",
                    check="short edge 718 mm",
                ),
                CutRow(
                    part="leg_fr, leg_bl",
                    count=4,
                    end="both, parallel, the other hand",
                    down="front",
                    blade="part on the left",
                    check="short edge 718 mm",
                ),
            ),
            caution="Clamp the short end; never trap an offcut between stop and blade.",
        ),
        SetupCard(
            number="2",
            machine="table saw, crosscut sled",
            settings=(
                Fact(label="Miter", value="7.0°"),
                Fact(label="Bevel", value="0.0°"),
                Fact(label="Stop", value="1003.5 mm"),
                Fact(label="Cuts", value="4"),
            ),
            cuts=(
                CutRow(
                    part="apron_front, apron_back",
                    count=4,
                    end="both, mirrored",
                    down="outside",
                    blade="part on the left",
                    check="short edge 981 mm",
                ),
            ),
        ),
    )
    templates = (
        face_template(
            LEG_FACE,
            name="Leg, top end, inside face",
            note="reference end at the left, face mark toward you",
            from_mm=-2.0,
            to_mm=112.0,
        ),
        face_template(
            LEG_FACE, name="Leg, foot", note="short point at the lower edge", from_mm=610.0, to_mm=726.0
        ),
    )
    return (
        saw_section(cards),
        joints_section(
            (
                JointSheet(
                    title="Legs",
                    parts="leg_fl, leg_br; leg_fr and leg_bl are their mirror images",
                    drawing=LEG,
                    marks=marks,
                    steps=("Cut all mortises while the leg is square, then taper.",),
                ),
                JointSheet(
                    title="Top",
                    parts="top",
                    drawing=TOP,
                    marks=(
                        MarkRow(
                            tag="P1",
                            what="pin slot",
                            face="under",
                            from_end="15",
                            from_face="60",
                            size="18 × 6",
                            depth="20",
                            fit="sliding",
                        ),
                    ),
                ),
            ),
            unit="mm",
            paper=paper,
        ),
        connectors_section(
            (
                ConnectorRow(
                    kind="loose tenon", count=8, size="10 × 49.5 × 50 mm", drill="", where="aprons to legs"
                ),
                ConnectorRow(
                    kind="pin",
                    count=10,
                    size="6 × 30 mm",
                    drill="6 mm, 22 mm deep",
                    where="breadboard ends",
                    note="glue the middle one only",
                ),
            )
        ),
        templates_section(templates, paper=paper, title="Reading table, plan 3f9c2a"),
    )
