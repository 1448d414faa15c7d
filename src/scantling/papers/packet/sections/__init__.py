"""The sheets of the packet, one function each, from plain rows of text that is ready to print."""

from scantling.papers.packet.sections.closing import (
    FindingRow,
    SourceRow,
    findings_section,
    sources_section,
    templates_section,
)
from scantling.papers.packet.sections.joints import (
    ConnectorRow,
    JointSheet,
    MarkRow,
    connectors_section,
    joints_section,
    sections_section,
)
from scantling.papers.packet.sections.money import BuyRow, CostLine, buying_section, cost_section
from scantling.papers.packet.sections.moving import LoadRow, moving_section
from scantling.papers.packet.sections.parts import PartRow, apart_section, parts_section, views_section
from scantling.papers.packet.sections.saw import CutRow, RipRow, SetupCard, SquareRow, saw_section
from scantling.papers.packet.sections.seasons import FreedomRow, MovementRow, seasons_section, year_figure
from scantling.papers.packet.sections.stock import (
    LayerRow,
    RoughRow,
    StripRow,
    asking_section,
    boards_section,
    chalk_section,
    layers_section,
    rough_section,
    sheets_section,
)
from scantling.papers.packet.sections.work import (
    CoatRow,
    GlueStage,
    finish_section,
    glue_section,
    order_section,
)

__all__ = [
    "BuyRow",
    "CoatRow",
    "ConnectorRow",
    "CostLine",
    "CutRow",
    "FindingRow",
    "FreedomRow",
    "GlueStage",
    "JointSheet",
    "LayerRow",
    "LoadRow",
    "MarkRow",
    "MovementRow",
    "PartRow",
    "RipRow",
    "RoughRow",
    "SetupCard",
    "SourceRow",
    "SquareRow",
    "StripRow",
    "apart_section",
    "asking_section",
    "boards_section",
    "buying_section",
    "chalk_section",
    "connectors_section",
    "cost_section",
    "findings_section",
    "finish_section",
    "glue_section",
    "joints_section",
    "layers_section",
    "moving_section",
    "order_section",
    "parts_section",
    "rough_section",
    "saw_section",
    "seasons_section",
    "sections_section",
    "sheets_section",
    "sources_section",
    "templates_section",
    "views_section",
    "year_figure",
]
